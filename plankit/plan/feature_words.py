"""Notches, grooves and holes of a step in sentences, with every size and where each lies."""

from collections.abc import Iterator

from plankit.drawing.words import because, listed
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, Axis, Bore, Box, Groove, Notch, Part
from plankit.plan.work import Work
from plankit.units import Length, Notation


def cut_words(write: Notation, work: Work) -> list[str]:
    """Say each notch and groove once for all parts that have the same."""
    said: dict[str, None] = {}
    for part, feature in work.features:
        if isinstance(feature, Notch):
            said[_notch(write, part, feature)] = None
        elif isinstance(feature, Groove):
            said[_groove(write, part, feature)] = None
    return list(said)


def _notch(write: Notation, part: Part, notch: Notch) -> str:
    cut = notch.cut
    along, across, deep = (cut.extent(axis) for axis in (part.grain, part.across, part.through))
    through = "through" if deep == part.thickness else f"{write.both(deep)} deep"
    why = f" {because(notch.reason)}".rstrip()
    return (
        f"{part.name}: cut out a notch{why}, {write.both(along)} along the grain and {write.both(across)} "
        f"across it, {through}."
    )


def _groove(write: Notation, part: Part, groove: Groove) -> str:
    axis = AXIS_OF[groove.face]
    runs, across = _ways(part, groove.cut, axis)
    edge, away = _from_edge(part, groove.cut, across)
    why = f" {because(groove.reason)}".rstrip()
    place = f"{write.both(away)} from its {edge} edge" if away else f"along its {edge} edge"
    return (
        f"{part.name}: cut a groove{why} in the {groove.face} face, {write.both(groove.cut.extent(across))} wide and "
        f"{write.both(groove.cut.extent(axis))} deep, {place}, {_along(part, runs)}."
    )


def _ways(part: Part, cut: Box, axis: Axis) -> tuple[Axis, Axis]:
    """The axis a groove runs along, and the one across it."""
    one, other = (a for a in AXES if a != axis)
    return (one, other) if cut.extent(one) == part.box.extent(one) else (other, one)


def _from_edge(part: Part, cut: Box, across: Axis) -> tuple[str, Length]:
    low, high = cut.low(across), part.box.extent(across) - cut.high(across)
    return (LOW[across], low) if low.mm <= high.mm else (HIGH[across], high)


def _along(part: Part, runs: Axis) -> str:
    return "with the grain" if runs == part.grain else "across the grain"


def hole_words(write: Notation, work: Work) -> list[str]:
    """Say how many holes of each size are bored in each part; screws' holes are told with their screws."""
    return [*_holes(write, work), *_slots(write, work)]


def _slots(write: Notation, work: Work) -> Iterator[str]:
    """Say once for each kind of part how its slots are made."""
    slotted: dict[str, dict[str, None]] = {}
    for part, feature in work.features:
        if isinstance(feature, Bore) and feature.travel is not None:
            slotted.setdefault(part.name, {})[write.both(feature.travel)] = None
    for name, lengths in slotted.items():
        yield (
            f"{name}: make each slot by boring its two end holes, {listed(lengths)} from middle to middle as the part "
            "drawing has them, then what lies between; clear it with a round file until a screw slides from end to end."
        )


def _holes(write: Notation, work: Work) -> Iterator[str]:
    found: dict[tuple[str, str], dict[str, int]] = {}
    for part, feature in work.features:
        if isinstance(feature, Bore) and not feature.use.startswith("clearance hole"):
            counts = found.setdefault((part.name, _hole(write, feature)), {})
            counts[part.id] = counts.get(part.id, 0) + 1
    for (name, hole), counts in found.items():
        for count in dict.fromkeys(counts.values()):
            many = list(counts.values()).count(count)
            each = f" in each of {many}" if many > 1 else ""
            yield f"{name}: bore {write.count(count, 'hole')}{each}, {hole}."


def _hole(write: Notation, bore: Bore) -> str:
    deep = "right through" if bore.depth is None else f"{write.both(bore.depth)} deep"
    use = f" ({bore.use})" if bore.use else ""
    return f"{write.both(bore.diameter)} across and {deep}{use}"
