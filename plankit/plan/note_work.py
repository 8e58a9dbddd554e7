"""What an author asks for in a step's note and in no other way, so that its tools and cautions stand there too."""

import re

_ASKED: dict[str, tuple[str, ...]] = {
    "clamp": ("clamp",),
    "plane": ("plane",),
    "sand": ("sand",),
    "rip": ("rip",),
    "miter": ("miter",),
    "mitre": ("miter",),
    "oil": ("finish",),
    "varnish": ("finish",),
    "paint": ("finish",),
    "lacquer": ("finish",),
    "wax": ("finish",),
}
"""Operations by the verbs that ask for them."""
_BEFORE = r"(?:^|[.;:!]\s+|,\s+(?:and\s+|then\s+)?|\b(?:and|then|or)\s+)"
"""Where a verb asks the reader to do something: at the start of a sentence or after a comma, and after "and"."""
_AFTER = r"(?=\s+(?:the|a|an|its?|their|them|both|each|all|every|one|two|three|four|only)\b)"
"""What follows a verb that asks for something, and no noun: "plane its free edge", but not "plane and square"."""
_FOUND = re.compile(rf"{_BEFORE}({'|'.join(_ASKED)}){_AFTER}", re.IGNORECASE)


def asked_in(note: str) -> tuple[str, ...]:
    """Return the operations that a note asks for: "Clamp the offcut, then plane it" clamps and planes.

    Read narrowly: a verb counts where it begins what the reader is told to do, and says to what.
    """
    found = (operation for match in _FOUND.finditer(note) for operation in _ASKED[match[1].casefold()])
    return tuple(dict.fromkeys(found))
