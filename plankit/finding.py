"""What a check reports."""

from dataclasses import dataclass, fields, replace
from typing import Literal

type Level = Literal["must fix", "look at", "for information"]

LEVELS: tuple[Level, ...] = ("must fix", "look at", "for information")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing a check noticed about a build, a layout or a page.

    level     "must fix" stops a plan from being published; "look at" and "for information" do not
    check     the check that noticed it, in words ("screw length")
    part      the part it is about, by name; "" where it is about the whole
    what      what is the matter, as a sentence
    place     where on the part or in the plan
    number    the measured or computed value, formatted
    source    the standard, handbook or "common practice" behind it
    remedy    what to change
    accepted  the author's reason for living with it; "" where she has not said
    """

    level: Level
    check: str
    part: str
    what: str
    place: str = ""
    number: str = ""
    source: str = ""
    remedy: str = ""
    accepted: str = ""

    def accept(self, reason: str) -> "Finding":
        """Return the same finding with the author's written reason for accepting it."""
        return replace(self, accepted=reason)

    def as_data(self) -> dict[str, str]:
        """Return the finding as plain data, for pages and files."""
        return {one.name: getattr(self, one.name) for one in fields(self)}

    @property
    def stops(self) -> bool:
        """Whether a plan with this finding must not be published."""
        return self.level == "must fix" and not self.accepted


def in_order(findings: "tuple[Finding, ...] | list[Finding]") -> tuple[Finding, ...]:
    """Return findings with the gravest first, then by check, part and words."""
    return tuple(sorted(findings, key=lambda f: (LEVELS.index(f.level), f.check, f.part, f.what)))
