"""What cells print: kept as one text a stream, and no more of it than a page can bear."""

from collections.abc import MutableSequence
from typing import Any

MOST = 100_000
"""Characters that one cell may print; a page of them is two thousand lines, and nobody reads on."""
LEFT_OUT = f"\n… This cell printed more than {MOST:,} characters; the rest is left out.\n"


def settle(outputs: MutableSequence[Any]) -> None:
    """Join the pieces of each stream a cell wrote to, and leave out what is printed beyond `MOST`.

    outputs  the cell's outputs, in notebook form; changed where they are
    """
    room, full = MOST, False
    kept: list[Any] = []
    for output in outputs:
        if output["output_type"] != "stream":
            kept.append(output)
            continue
        text = "".join(output["text"])
        if not full:
            output["text"] = text[:room]
            kept.append(output)
        if len(text) > room and not full:
            output["text"] += LEFT_OUT
            full = True
        room = max(0, room - len(text))
    outputs[:] = kept
