"""The solver at work beside the proofs, on the machine's other core, where the clock decides how long.

The solver lets go of the interpreter while it searches, so a thread is enough. What it finds is taken up by whoever
proves; only there is anything settled and verified.
"""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from queue import Empty, SimpleQueue
from threading import Event, Thread

from plankit.cutting.pack import Pack
from plankit.cutting.purse import is_past, left
from plankit.cutting.solver import Offer, Work, fill_sheets
from plankit.cutting.whole_job import Group

_AT_A_TIME = 2.0
"""Seconds one try may take: a solver cannot be called back, and nobody wants to wait long once a proof is there."""


class Beside:
    """Tries one after another, each harder than the last, until told to end.

    known  the weight of the best packing known: one that weighs less is news
    """

    def __init__(self, group: Group, offers: tuple[Offer, ...], works: Iterable[Work], stop: float) -> None:
        self._found: SimpleQueue[Pack] = SimpleQueue()
        self._ending, self._better = Event(), Event()
        self.known: Fraction | None = None
        self._thread = Thread(target=self._fill, args=(group, offers, tuple(works), stop))
        self._thread.start()

    def _fill(self, group: Group, offers: tuple[Offer, ...], works: tuple[Work, ...], stop: float) -> None:
        for work in works:
            if self._ending.is_set() or is_past(stop):
                return
            pack = fill_sheets(group, offers, replace(work, seconds=min(_AT_A_TIME, left(stop) or 0)))
            if pack is not None:
                self._found.put(pack)
                if self.known is not None and not any(pack.missing(group)) and pack.weight(group) < self.known:
                    self._better.set()

    @property
    def has_better(self) -> bool:
        """Whether a packing waits to be taken up that weighs less than what is known."""
        return self._better.is_set()

    @property
    def is_over(self) -> bool:
        """Whether all tries are made."""
        return not self._thread.is_alive()

    def taken(self, seconds: float) -> Pack | None:
        """Return the next packing, for which one waits so long; None where there is none."""
        self._better.clear()
        try:
            return self._found.get(timeout=seconds) if seconds > 0 else self._found.get_nowait()
        except Empty:
            return None

    def end(self) -> None:
        """Make no further try."""
        self._ending.set()
