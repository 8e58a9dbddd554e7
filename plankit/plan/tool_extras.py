"""What goes with the tools of a plan: bits by their sizes, sawhorses, a level for the wall, masks and rags."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from plankit.build import Build, Fastener
from plankit.drawing.drills import drill_named
from plankit.parts import Bore, Part
from plankit.plan.facts import Draft
from plankit.plan.operations import operation_of
from plankit.plan.work import Work
from plankit.reference import wood_screw
from plankit.units import Length, Notation


@dataclass(frozen=True, slots=True)
class Extra:
    """Something that a step takes beside its tools.

    name, use, otherwise  what it is, what for, and another way
    steps                 the numbers of the steps
    finish                whether the finish takes it, where that is put on after all steps
    """

    name: str
    use: str
    otherwise: str
    steps: tuple[int, ...]
    finish: bool = False


DUSTY = frozenset({
    "break down sheets", "rip", "crosscut", "miter", "bevel", "taper", "notch", "groove", "rabbet", "route",
    "stop grooves", "chamfer", "round over", "sand",
})  # fmt: skip
"""Operations that fill the air with dust fine enough to be breathed in (IARC Monographs 62 and 100C; OSHA)."""


def extras(draft: Draft, works: Sequence[Work]) -> list[Extra]:
    """Return what the steps, and the finish after them, take that no operation names."""
    return [*_beside_tools(works), *_worn_and_wiped(draft, works)]


def _worn_and_wiped(draft: Draft, works: Sequence[Work]) -> Iterator[Extra]:
    """Masks against dust and vapors, rags, and where these are kept when they are oily."""
    after = draft.coating is not None and draft.finishing is None
    topics = draft.coating.topics if draft.coating is not None else ()
    dusty = tuple(work.step.number for work in works if any(one in DUSTY for one, _ in work.tools))
    glued = tuple(work.step.number for work in works if any(one == "glue" for one, _ in work.tools))
    coats = tuple(work.step.number for work in works if draft.coating and any(one == "finish" for one, _ in work.tools))
    wiped = tuple(sorted({*glued, *coats}))
    if dusty or after:
        yield Extra("Dust mask that fits", "dust of sawing, routing and sanding",
                    "respirator with filters for fine dust", dusty, after)  # fmt: skip
    if "finish" in topics:
        yield Extra("Respirator for vapors", "finish with solvents, where its label asks for one",
                    "finish outdoors, as far as its label allows", coats, after)  # fmt: skip
    if wiped or after:
        use = ", ".join(said for said, is_so in (("wet glue", glued), ("dust, finish", coats or after)) if is_so)
        yield Extra("Clean rags", f"wipe off {use}", "paper towels", wiped, after)
    if "oily rags" in topics:
        yield Extra("Metal can with a lid", "rags wet with oil, under water",
                    "spread them flat and single outdoors until they are hard", coats, after)  # fmt: skip


def _beside_tools(works: Iterable[Work]) -> list[Extra]:
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
    return any(item.fasteners or item.kind == "pull" for item in work.items)  # a pull has machine screws of its own


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
