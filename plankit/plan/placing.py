"""From the faces an author names to the box a part fills."""

from collections.abc import Mapping

from plankit.errors import PlanError
from plankit.parts import AXES, FACES, HIGH, LOW, Axis, Box, Face, other_axes
from plankit.stock import Lumber, Sheet
from plankit.units import L, Length, told

type Given = Length | str | int
type Faces = Mapping[str, Given]

RUNS: dict[str, Axis] = {"left-right": "x", "front-back": "y", "up": "z"}
"""The ways a board can run, in an author's words."""


def read_faces(name: str, given: Faces, unit: str) -> dict[Face, Length]:
    """Return the faces that were given, as lengths.

    raises  PlanError where one cannot be read; it names the part and the face
    """
    found: dict[Face, Length] = {}
    for face in FACES:
        value = given.get(face)
        if value is None:
            continue
        found[face] = read_length(name, f"the {face} face", value, unit)
    return found


def read_length(name: str, what: str, value: Given, unit: str) -> Length:
    """Return a length that an author gave for a part.

    raises  PlanError where it cannot be read; it names the part, and what the length was to be
    """
    try:
        return L(value, unit)
    except PlanError as error:
        raise PlanError(
            f"{what}: {error.what}", where=name, given=error.given, remedy=error.remedy
        ) from None


def panel_box(name: str, stock: Sheet, given: Mapping[Face, Length]) -> tuple[Box, Axis]:
    """Return the box of a panel and the axis of its thickness: five faces are given, the sheet gives the sixth."""
    missing = [face for face in FACES if face not in given]
    if len(missing) != 1:
        _refuse_panel(name, given, missing)
    return _closed(name, given, missing[0], stock.thickness)


def slab_box(name: str, thickness: Length, given: Mapping[Face, Length]) -> tuple[Box, Axis]:
    """Return the box of a glued-up slab and the axis of its thickness; five faces are given."""
    missing = [face for face in FACES if face not in given]
    if len(missing) != 1:
        _refuse_panel(name, given, missing)
    return _closed(name, given, missing[0], thickness)


def _closed(name: str, given: Mapping[Face, Length], missing: Face, thickness: Length) -> tuple[Box, Axis]:
    axis = next(axis for axis in AXES if missing in {LOW[axis], HIGH[axis]})
    ends = dict(given)
    if missing == HIGH[axis]:
        ends[missing] = given[LOW[axis]] + thickness
    else:
        ends[missing] = given[HIGH[axis]] - thickness
    box = Box(**ends)
    refuse_empty(name, box)
    return box, axis


def _refuse_panel(name: str, given: Mapping[Face, Length], missing: list[Face]) -> None:
    listed = ", ".join(given) or "none"
    if not missing:
        raise PlanError(
            "all six faces are given, but the thickness of its stock gives one of them.",
            where=name,
            given=listed,
            remedy="Leave out the face that its thickness decides.",
        )
    what = " and ".join(missing) if len(missing) == 2 else f"{', '.join(missing[:-1])} and {missing[-1]}"
    count = ("one", "two", "three", "four", "five")[len(missing) - 2]
    raise PlanError(
        f"the {what} faces are missing: it takes five faces, and its stock gives the sixth.",
        where=name,
        given=listed,
        remedy=f"Add {count} of: {', '.join(f'{face}=…' for face in missing)}",
    )


def board_box(  # noqa: PLR0917 - a board has this many facts
    name: str, stock: Lumber, runs: str, wide: str | None, given: Mapping[Face, Length], length: Length | None
) -> tuple[Box, Axis, Axis]:
    """Return the box of a board, the axis it runs along and the axis of its thickness.

    Its two ends are given, or one end and its length; and one face in each direction across.
    """
    if runs not in RUNS:
        raise PlanError(
            "a board runs one of three ways.", where=name, given=f'runs="{runs}"', remedy=_ways(RUNS)
        )
    grain = RUNS[runs]
    wide_axis = _wide_axis(name, stock, grain, wide)
    ends = _lengthwise(name, grain, given, length)
    for axis in AXES:
        if axis != grain:
            size = stock.width if axis == wide_axis else stock.thickness
            ends |= _across(name, axis, given, size)
    box = Box(**ends)
    refuse_empty(name, box)
    (through,) = (axis for axis in AXES if axis not in {grain, wide_axis})
    return box, grain, through


def _ways(ways: Mapping[str, Axis]) -> str:
    return "Write one of: " + ", ".join(f'"{way}"' for way in ways)


def _wide_axis(name: str, stock: Lumber, grain: Axis, wide: str | None) -> Axis:
    across = {way: axis for way, axis in RUNS.items() if axis != grain}
    if wide is None:
        if stock.width.mm == stock.thickness.mm:
            return next(iter(across.values()))
        raise PlanError(
            f"a {stock.nominal} is wider than it is thick; say which way its width lies.",
            where=name,
            remedy="Add one of: " + ", ".join(f'wide="{way}"' for way in across),
        )
    if wide not in across:
        raise PlanError(
            "a board's width lies across the way it runs.",
            where=name,
            given=f'wide="{wide}"',
            remedy=_ways(across),
        )
    return across[wide]


def _lengthwise(
    name: str, axis: Axis, given: Mapping[Face, Length], length: Length | None
) -> dict[str, Length]:
    low, high = given.get(LOW[axis]), given.get(HIGH[axis])
    if low is not None and high is not None and length is None:
        return {LOW[axis]: low, HIGH[axis]: high}
    if length is not None and low is not None and high is None:
        return {LOW[axis]: low, HIGH[axis]: low + length}
    if length is not None and high is not None and low is None:
        return {LOW[axis]: high - length, HIGH[axis]: high}
    if length is not None and low is not None:
        raise PlanError(
            f"its {HIGH[axis]} end is given twice: once as a face, once by its length.",
            where=name,
            given=f"{LOW[axis]}, {HIGH[axis]} and length",
            remedy="Leave out the length, or one of the two ends.",
        )
    raise PlanError(
        "a board takes both its ends, or one end and its length.",
        where=name,
        given=", ".join(given) or "none",
        remedy=f"Add {LOW[axis]}=… and {HIGH[axis]}=…, or one of them and length=…",
    )


def _across(name: str, axis: Axis, given: Mapping[Face, Length], size: Length) -> dict[str, Length]:
    low, high = given.get(LOW[axis]), given.get(HIGH[axis])
    if (low is None) == (high is None):
        which = "neither is" if low is None else "both are"
        raise PlanError(
            f"one of its {LOW[axis]} and {HIGH[axis]} faces is needed, and {which} given; its stock gives the other.",
            where=name,
            given=", ".join(given) or "none",
            remedy=f"Give {LOW[axis]}=… or {HIGH[axis]}=…",
        )
    if low is not None:
        return {LOW[axis]: low, HIGH[axis]: low + size}
    assert high is not None
    return {LOW[axis]: high - size, HIGH[axis]: high}


def refuse_empty(name: str, box: Box) -> None:
    """Refuse a part whose opposite faces meet or have changed sides."""
    for axis in AXES:
        if box.low(axis) >= box.high(axis):
            low, high = box.low(axis), box.high(axis)
            raise PlanError(
                f"it has no size: its {HIGH[axis]} face does not lie beyond its {LOW[axis]} face.",
                where=name,
                given=f"{LOW[axis]} {told(low)}, {HIGH[axis]} {told(high)}",
                remedy=f"Its {HIGH[axis]} is {high.why(told)}; its {LOW[axis]} is {low.why(told)}. Mend one of them.",
            )


def grain_axis(name: str, grain: str | None, box: Box, through: Axis) -> Axis:
    """Return the axis that a panel's face grain runs along: the way that is named, else its longer side.

    raises  PlanError where it cannot run the way that is named
    """
    across = other_axes(through)
    if grain in {None, "any"}:
        return across[0] if box.extent(across[0]) >= box.extent(across[1]) else across[1]
    if grain not in RUNS or RUNS[grain] not in across:
        ways = ", ".join(f'"{way}"' for way, axis in RUNS.items() if axis in across)
        raise PlanError(
            "face grain runs one of two ways in this panel.",
            where=name,
            given=f'grain="{grain}"',
            remedy=f"Write one of: {ways}",
        )
    return RUNS[grain]
