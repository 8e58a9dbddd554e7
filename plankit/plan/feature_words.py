"""Notches, grooves and holes of a step in sentences, with every size and where each lies."""

from collections.abc import Iterator

from plankit.drawing.drills import depth_named, drill_named
from plankit.drawing.part_words import edges_named
from plankit.drawing.words import because, listed, within
from plankit.parts import Bore, Chamfer, Edge, Groove, Notch, Part, Roundover, channel
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


def _eased(write: Notation, work: Work) -> Iterator[str]:
    """Say once for each kind of part and size which edges are chamfered or made round."""
    found: dict[tuple[str, str], dict[Edge, None]] = {}
    for part, feature in work.features:
        if isinstance(feature, Chamfer | Roundover):
            doing = "chamfer" if isinstance(feature, Chamfer) else "round over"
            size = write.both(feature.size)
            off = (
                f"{size} off either face, at 45°"
                if isinstance(feature, Chamfer)
                else f"to a radius of {size}"
            )
            found.setdefault((f"{part.name}: {doing}", off), {})[feature.edge] = None
    for (doing, off), edges in found.items():
        yield f"{doing} {edges_named(tuple(edges))}, {off}."


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
    return f"{size} across and {deep}{use}"
