"""How well the heartwood of a wood stands up to decay."""

from dataclasses import dataclass
from functools import cache

from plankit.reference.tables import rows


@dataclass(frozen=True, slots=True)
class Decay:
    """How a wood's heartwood compares where it stays wet; sapwood of any wood decays soon.

    resistance  "resistant", "moderate" or "slight"
    """

    resistance: str
    source: str
    status: str


def decay_of(species: str) -> Decay | None:
    """Return how a wood, by its handbook name ("Pine, loblolly"), stands up to decay; None where nobody says."""
    return _decay().get(species)


@cache
def _decay() -> dict[str, Decay]:
    return {
        row["species"]: Decay(row["resistance"], row["source"], row["status"]) for row in rows("heartwood_decay")
    }
