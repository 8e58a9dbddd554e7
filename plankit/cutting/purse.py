"""What may still be spent on a search: work, counted the same on every machine, and the clock where there is one."""

import time
from dataclasses import dataclass
from typing import Protocol

_LONGEST = 5.0
"""Seconds that a solver may work at a stretch where the clock decides."""


class News(Protocol):
    """Something that is at work elsewhere."""

    @property
    def has_better(self) -> bool:
        """Whether it found something better, which has to be taken up first."""


@dataclass(slots=True)
class Purse:
    """What may still be spent on a proof: work always, the clock where there is one, and whatever puts an end to it."""

    work: int
    stop: float | None = None
    news: News | None = None

    @property
    def empty(self) -> bool:
        """Whether nothing is left."""
        return self.work <= 0 or is_past(self.stop) or (self.news is not None and self.news.has_better)


def ends_after(seconds: float | None) -> float | None:
    """Return the moment of the clock so many seconds from now; None for no limit."""
    return None if seconds is None else time.monotonic() + seconds


def is_past(stop: float | None) -> bool:
    """Whether a moment of the clock is over."""
    return stop is not None and time.monotonic() > stop


def left(stop: float | None) -> float | None:
    """Return the seconds up to a moment, as `share` does all of them."""
    return share(stop, 1)


def share(stop: float | None, part: float) -> float | None:
    """Return a part of the seconds up to a moment, a blink at least, and no more than one likes to wait for a solver.

    None where there is no limit. A solver at work hears nothing: not that somebody wants to stop it, either.
    """
    return None if stop is None else min(_LONGEST, max(0.05, part * (stop - time.monotonic())))


def until(stop: float | None, part: float) -> float | None:
    """Return the moment at which a part of the time left will have passed; None where there is no limit."""
    return None if stop is None else time.monotonic() + part * (stop - time.monotonic())
