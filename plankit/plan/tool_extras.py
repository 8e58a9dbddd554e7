"""What the tools of a plan are fitted with, or stand on: bits by their sizes, sawhorses, a level for the wall."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from plankit.build import Build, Fastener
from plankit.drawing.drills import drill_named
from plankit.parts import Bore, Part
from plankit.plan.operations import operation_of
from plankit.plan.step_words import clamps
from plankit.plan.work import Work
from plankit.reference import wood_screw
from plankit.units import Length, Notation


@dataclass(frozen=True, slots=True)
class Extra:
    """Something that a step takes beside its tools.

    name, use, otherwise  what it is, what for, and another way
    steps                 the numbers of the steps
    """

    name: str
    use: str
    otherwise: str
    steps: tuple[int, ...]


def extras(works: Iterable[Work]) -> list[Extra]:
    """Return what the steps take that no operation names."""
    found = []
    for name, use, otherwise, needed in (
        ("Two sawhorses", "hold sheets for sawing", "sheet of foam board on the floor", _saws_sheets),
        ("Stop for the bits", "holes that do not go through", "tape round the bit", _bores_blind),
        ("Screwdriver", "hardware", "drill/driver at its lowest setting", _fits_hardware),
        ("Level", "stand or hang it upright", "plumb line", _fixes_to_a_wall),
        ("Stud finder", "find the studs", "strong magnet for the wallboard's screws", _fixes_to_a_wall),
    ):
        steps = tuple(work.step.number for work in works if needed(work))
        if steps:
            found.append(Extra(name, use, otherwise, steps))
    return found


def _saws_sheets(work: Work) -> bool:
    return "break down sheets" in work.step.does


def _bores_blind(work: Work) -> bool:
    return any(isinstance(one, Bore) and one.depth is not None for _, one in work.features)


def _fits_hardware(work: Work) -> bool:
    return any(item.fasteners for item in work.items)


def _fixes_to_a_wall(work: Work) -> bool:
    return any(item.kind == "wall fixing" for item in work.items)


def bit_sizes(build: Build, works: Iterable[Work], write: Notation) -> dict[str, str]:
    """Return the sizes of the bits that each way of boring takes, smallest first: "3/32 in, 11/64 in".

    The keys are "bore", for twist bits, and "bore flat". Pocket holes are left out: their jig brings its own bit.
    """
    found: dict[str, set[Length]] = {"bore": set(), "bore flat": set()}
    for work in works:
        for part, feature in work.features:
            if isinstance(feature, Bore):
                flat = "bore flat" in operation_of(part, feature)
                found["bore flat" if flat else "bore"].add(feature.diameter)
        found["bore"] |= set(_for_screws(build, work))
    return {
        how: ", ".join(dict.fromkeys(drill_named(size, write) for size in sorted(sizes)))
        for how, sizes in found.items()
        if sizes
    }


def _for_screws(build: Build, work: Work) -> Iterator[Length]:
    """The drills for the lead holes of a step's screws."""
    for joint in work.joints:
        if joint.kind != "pocket screws":
            yield from (lead for one in joint.fasteners if (lead := _lead(one, build.part(one.into))))
    for item in work.items:
        yield from (lead for one in item.fasteners if (lead := _lead(one, build.part(one.into))))


def _lead(fastener: Fastener, into: Part) -> Length | None:
    gauge = fastener.spec.gauge
    return None if gauge is None else wood_screw(gauge).drill(into.stock.specific_gravity)


def clamp_words(works: Iterable[Work], write: Notation) -> str:
    """Say how many clamps a glue-up takes and how far they open; "" where nothing is glued up from boards."""
    slabs = [part for work in works for part in work.glues_up]
    if not slabs:
        return ""
    widest = max((part.glue_up.blank[1] for part in slabs if part.glue_up), key=lambda length: length.mm)
    return f"{max(clamps(part) for part in slabs)} that open {write.both(widest)}"
