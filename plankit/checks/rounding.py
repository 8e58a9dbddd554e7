"""Where places rounded to the marks of a tape do not add up to the outside size."""

from dataclasses import dataclass
from itertools import pairwise

from plankit.build import Build
from plankit.checks.wording import gathered
from plankit.finding import Finding
from plankit.parts import AXES, LOW, Axis, Part, other_axes
from plankit.units import Length, Notation

_WAY: dict[Axis, str] = {"x": "left to right", "y": "front to back", "z": "bottom to top"}


@dataclass(frozen=True, slots=True)
class Row:
    """Parts that stand in a row along one axis, and the spaces between them."""

    axis: Axis
    parts: tuple[Part, ...]

    @property
    def spaces(self) -> tuple[Length, ...]:
        """The clear spaces, exactly."""
        pairs = pairwise(self.parts)
        return tuple(right.box.low(self.axis) - left.box.high(self.axis) for left, right in pairs)

    def marked(self, step: Length) -> tuple[Length, ...]:
        """The clear spaces once each part between the outer two stands at the mark nearest to its place."""
        start, last = self.parts[0].box, self.parts[-1].box
        datum = start.low(self.axis)
        ends = [(datum, start.high(self.axis))]
        for part in self.parts[1:-1]:
            near = datum + (part.box.low(self.axis) - datum).rounded(step)
            ends.append((near, near + part.box.extent(self.axis)))
        ends.append((last.low(self.axis), last.high(self.axis)))
        return tuple(right[0] - left[1] for left, right in pairwise(ends))


def rounding(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every row of equal spaces that the marks of the tape make unequal."""
    found = []
    for axis in AXES:
        for row in rows(build, axis):
            spaces, marked = row.spaces, row.marked(notation.step)
            if len({space.mm for space in spaces}) == 1 and len({space.mm for space in marked}) > 1:
                found.append(_uneven(row, marked, notation))
    return gathered(found)


def rows(build: Build, axis: Axis) -> tuple[Row, ...]:
    """Return the rows of three parts or more that stand across an axis beside one another."""
    standing = [part for part in build.parts if part.through == axis and part.box.extent(axis).mm > 0]
    standing.sort(key=lambda part: part.box.low(axis).mm)
    gathered_rows: list[list[Part]] = []
    for part in standing:
        row = next((row for row in gathered_rows if _beside(row[-1], part, axis)), None)
        if row is None:
            gathered_rows.append([part])
        else:
            row.append(part)
    return tuple(Row(axis, tuple(row)) for row in gathered_rows if len(row) >= 3)


def _beside(one: Part, other: Part, axis: Axis) -> bool:
    common = one.box.common(other.box)
    return common.extent(axis).mm < 0 and all(
        2 * common.extent(across).mm > max(one.box.extent(across).mm, other.box.extent(across).mm)
        for across in other_axes(axis)
    )


def _uneven(row: Row, marked: tuple[Length, ...], notation: Notation) -> Finding:
    widest = max(space.mm for space in marked)
    wide = [str(place + 1) for place, space in enumerate(marked) if space.mm == widest]
    noun, verb = ("space", "comes") if len(wide) == 1 else ("spaces", "come")
    listed = ", ".join(notation.length(space) for space in marked)
    spread = notation.length(Length.of_mm(widest - min(space.mm for space in marked)))
    middle = row.parts[1].name
    return Finding(
        "for information",
        "rounded places",
        middle,
        f"Equal spaces do not fall on marks of the tape: set {middle} to the nearest "
        f"{notation.length(notation.step)} and {noun} {_listed(wide)} {verb} out {spread} wider.",
        f"counted {_WAY[row.axis]}",
        listed,
        "arithmetic",
        f"Measure every place from {_end(row.axis)} edge, not space by space, so that nothing adds up.",
    )


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _end(axis: Axis) -> str:
    return f"the {LOW[axis]}"
