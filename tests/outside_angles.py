"""Published taper settings, their sizes taken out of the rows' words."""

import re

from tests.published import published


def taper_rows() -> list[dict[str, object]]:
    """The rows about tapers: "1.75 to 1.0 in over 24 in" as wide, narrow and run."""
    found: list[dict[str, object]] = []
    for row in published("tapers"):
        if row["id"].startswith("AN-T"):
            match = re.fullmatch(r"([\d.]+) to ([\d.]+) in over ([\d.]+) in", row["inputs"])
            assert match
            found.append({**row, "sizes": match.groups()})
    return found
