"""Whether measured sheets are still what their labels say."""

from dataclasses import replace

from plankit.build import Build
from plankit.finding import Finding
from plankit.stock import Sheet, check_measured
from plankit.units import Notation


def measured_stock(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every sheet whose measured thickness lies outside its class, with its parts."""
    users: dict[Sheet, list[str]] = {}
    for part in build.parts:
        if isinstance(part.stock, Sheet):
            users.setdefault(part.stock, []).append(part.name)
    found = []
    for stock, names in users.items():
        finding = check_measured(stock, notation)
        if finding is not None:
            found.append(replace(finding, part=", ".join(dict.fromkeys(names))))
    return tuple(found)
