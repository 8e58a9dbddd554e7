"""What must set or dry before a step's parts are worked on again, and for how long."""

import re
from fractions import Fraction

from plankit.errors import PlanError
from plankit.units import read_number

WAITS = {
    "glue": (
        "Glue: leave it clamped for 1 hour; put no load on it for 24 hours. The bottle's label comes first."
    ),
    "finish": "Finish: let each coat dry as its label says before the next.",
}
"""What must set or dry after a step, by the author's word (common practice)."""
GLUE_AND_SCREWS = (
    "Glue: leave it clamped for 1 hour, or until the screws hold it; put no load on it for 24 hours. "
    "The bottle's label comes first."
)
"""The same where screws go into what is glued."""
PAUSES = {"glue": 60, "finish": 12 * 60}
"""Minutes before the next work on the same parts: clamps stay on for an hour, a coat dries over night."""
FITTINGS = {
    "dry": "Put it together dry first, without glue or screws: see that every joint closes and that it is square.",
    "by trial": "Fit it by trial: try it in its place, take a little off, and try again until it goes in by hand.",
}
"""What a reader does before anything is fixed, by the author's word (common practice)."""
_SAID = re.compile(r"(\d+)(?:\s*(?:to|-|–)\s*(\d+))?\s*(minute|hour|day)s?\b")
_MINUTES = {"minute": 1, "hour": 60, "day": 24 * 60}


def waiting_words(waits: str, where: str) -> str:
    """Return what must set or dry, as a sentence, from one of the author's words for it or from hers.

    raises  PlanError for a single word that is not known
    """
    said = waits.strip()
    if said in WAITS or not said or " " in said:
        return WAITS.get(said, said)
    raise PlanError(
        "nothing is known that sets or dries by this one word.",
        where=where,
        given=f'waits="{waits}"',
        remedy="Write " + ", ".join(f'waits="{word}"' for word in WAITS) + ", or a whole sentence.",
    )


def pause(waits: str, hours: int | str | None, where: str) -> int | None:
    """Return the minutes that pass before the same parts are worked on again; None where nobody says.

    waits   as the author wrote it; a sentence of hers is read for "4 hours", "over night"
    hours   what she says beside it
    raises  PlanError for hours that are no number
    """
    if hours is not None:
        return round(_hours(hours, where) * 60)
    said = waits.strip()
    if not said or said in PAUSES:
        return PAUSES.get(said, 0)
    found = _SAID.search(said)
    if found:
        return int(found[2] or found[1]) * _MINUTES[found[3]]
    return PAUSES["finish"] if re.search(r"over ?night", said) else None


def _hours(hours: int | str, where: str) -> Fraction:
    try:
        return read_number(str(hours))
    except PlanError:
        raise PlanError(
            "hours: a number was expected.",
            where=where,
            given=repr(hours),
            remedy='For instance  hours=4 or hours="1/2"',
        ) from None


def known_fitting(fitting: str, where: str) -> str:
    """Return how something is fitted, or refuse a word that says nothing here."""
    if fitting and fitting not in FITTINGS:
        raise PlanError(
            "this is no way of fitting.",
            where=where,
            given=f'fitting="{fitting}"',
            remedy="Write " + " or ".join(f'fitting="{word}"' for word in FITTINGS) + ".",
        )
    return fitting
