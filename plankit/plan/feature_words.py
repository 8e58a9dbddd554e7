"""Notches, grooves and holes of a step in sentences, with every size and where each lies."""

from collections.abc import Iterator

from plankit.drawing.drills import depth_named, drill_named
from plankit.drawing.part_words import edges_named
from plankit.drawing.words import because, listed, within
from plankit.parts import (
    EASED,
    HINGE_RECESS,
    OPPOSITE,
    Bore,
    Chamfer,
    Cove,
    Edge,
    Groove,
    Mitre,
    Notch,
    Part,
    Roundover,
    channel,
)
from plankit.plan.work import Work
from plankit.units import Notation


def cut_words(write: Notation, work: Work) -> list[str]:
    """Say each notch, channel and eased edge once for all parts that have the same."""
    said: dict[str, None] = {}
    for part, feature in work.features:
        if isinstance(feature, Notch):
            said[_notch(write, part, feature)] = None
        elif isinstance(feature, Groove):
            said[_channel(write, part, feature)] = None
    return [*said, *_eased(write, work)]


def _notch(write: Notation, part: Part, notch: Notch) -> str:
    cut = notch.cut
    along, across, deep = (cut.extent(axis) for axis in (part.grain, part.across, part.through))
    through = "through" if deep == part.thickness else f"{write.both(deep)} deep"
    why = f" {because(notch.reason)}".rstrip()
    size = f"{write.both(along)} along the grain and {write.both(across)} across it, {through}"
    if notch.trace:
        return (
            f"{part.name}: cut out a notch{why}. Hold it in its place and trace the notch from the piece itself; "
            f"it comes to about {size}."
        )
    return f"{part.name}: cut out a notch{why}, {size}."


def _channel(write: Notation, part: Part, groove: Groove) -> str:
    made = channel(part, groove)
    if made.name == HINGE_RECESS:
        return _recess(write, part, groove)
    why = f" {because(groove.reason)}".rstrip()
    place = (
        f"{write.both(made.away)} from its {made.edge} edge" if made.away else f"along its {made.edge} edge"
    )
    runs = "with the grain" if made.runs == part.grain else "across the grain"
    stops = [f"{write.both(short)} short of the {face} edge" for face, short in made.stops]
    ends = f"; stop it {listed(stops)} and square the end with a chisel" if stops else ""
    return (
        f"{part.name}: cut a {made.name}{why} in the {groove.face} face, {write.both(made.wide)} wide and "
        f"{write.both(made.deep)} deep, {place}, {runs}{ends}."
    )


def _recess(write: Notation, part: Part, groove: Groove) -> str:
    """Say where a hinge's leaf is let in: marked from the leaf itself."""
    made = channel(part, groove)
    nearest = min(made.stops, key=lambda stop: stop[1].mm, default=None)
    long = write.both(groove.cut.extent(made.runs))
    place = f"starting {write.both(nearest[1])} from its {nearest[0]} edge" if nearest else "from end to end"
    return (
        f"{part.name}: cut a hinge recess in the {groove.face} face, {long} long, {write.both(made.wide)} wide and "
        f"{write.both(made.deep)} deep, along its {made.edge} edge, {place}; mark it with a knife round the leaf."
    )


def _eased(write: Notation, work: Work) -> Iterator[str]:
    """Say once for each kind of part and size which edges are chamfered, made round or hollowed."""
    found: dict[tuple[str, str], dict[Edge, None]] = {}
    moulded: dict[tuple[str, str], dict[str, None]] = {}
    for part, feature in work.features:
        if isinstance(feature, EASED):
            size = write.both(feature.size)
            off = f"{size} off either face, at 45°" if isinstance(feature, Chamfer) else f"to a radius of {size}"
            key = f"{part.name}: {_EASES[type(feature)]}", off
            beside = _of_a_moulding(part, feature)
            if beside:
                moulded.setdefault(key, {})[beside] = None
            else:
                found.setdefault(key, {})[feature.edge] = None
    for (doing, off), edges in found.items():
        yield f"{doing} {edges_named(tuple(edges))}, {off}."
    for (doing, off), sides in moulded.items():
        yield f"{doing} the {' and the '.join(sides)} edge, {off}; run it on the whole stick, and miter that afterward."


_EASES = {Chamfer: "chamfer", Roundover: "round over", Cove: "cove"}


def _of_a_moulding(part: Part, feature: Chamfer | Roundover | Cove) -> str:
    """Which long edge of a strip mitred at both ends this is: "inner", on the short side; "" for another part."""
    short = {one.short for one in part.features if isinstance(one, Mitre)}
    if len(short) != 1 or sum(isinstance(one, Mitre) for one in part.features) != 2:
        return ""
    (inner,) = short
    return "inner" if inner in feature.edge else "outer" if OPPOSITE[inner] in feature.edge else ""


def hole_words(write: Notation, work: Work) -> list[str]:
    """Say how many holes of each size are bored in each part; those bored as their screws are driven are told there."""
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
    with_screws = {
        joint.holds
        for joint in work.joints
        if joint.kind == "face screws" and any(one.spec.kind != "wood screw" for one in joint.fasteners)
    }
    for part, feature in work.features:
        if not isinstance(feature, Bore) or feature.travel is not None:
            continue
        if not feature.use.startswith("clearance hole") or not (feature.countersink or part.id in with_screws):
            counts = found.setdefault((part.name, _hole(write, feature)), {})
            counts[part.id] = counts.get(part.id, 0) + 1
    alike: dict[tuple[str, str], list[str]] = {}
    for (name, hole), counts in found.items():
        for count in dict.fromkeys(counts.values()):
            many = list(counts.values()).count(count)
            each = f" in each of {many}" if many > 1 else ""
            alike.setdefault((f"{write.count(count, 'hole')}{each}", hole), []).append(name)
    for (holes, hole), names in alike.items():
        said = listed([names[0], *(within(name) for name in names[1:])])
        each = " in each" if len(names) > 1 and "in each" not in holes else ""
        yield f"{said}: bore {holes}{each}, {hole}."


def _hole(write: Notation, bore: Bore) -> str:
    deep = "right through" if bore.depth is None else f"{depth_named(bore.depth, write)} deep"
    use = f" ({bore.use})" if bore.use else ""
    metric = write.unit == "mm" or write.rounds(bore.diameter)
    size = drill_named(bore.diameter, write) if metric else write.both(bore.diameter)
    square = ", square to the sawn face" if bore.sawn else ""
    return f"{size} across and {deep}{square}{use}"
