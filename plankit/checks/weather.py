"""What rain does to a piece that stands outdoors: water that stays in it, and wood that decays."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from plankit.build import Build
from plankit.checks.wording import named
from plankit.finding import Finding
from plankit.parts import Part, box_of, solid
from plankit.reference import species
from plankit.reference.decay import Decay, decay_of
from plankit.stock import Lumber
from plankit.units import Notation

if TYPE_CHECKING:
    from manifold3d import CrossSection

_ABOVE = 1.0
"""Water is looked for so far above a bottom, in mm."""
_SMALLEST = 2500.0
"""A hollow smaller than this, in mm², is a joint or a hole, and no box."""
_LETS_OUT = 20.0
"""Openings smaller than this together, in mm², clog (common practice)."""
_CRACK = 2.0
"""A crack narrower than this, in mm, swells shut (common practice)."""
_TIGHT = 0.1
"""So much, in mm, closes a joint that is only as tight as its numbers."""
_LEVELS = 6
"""In so many layers is a bottom looked through for a way down."""
_COVERED = 0.9
"""A hollow of which so much lies under something gets no rain."""


def weather(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about a piece that stands in the rain: bottoms that hold water, woods that soon decay."""
    return tuple(_trapped(build)) + tuple(_unsuited(build))


def _trapped(build: Build) -> Iterator[Finding]:
    for part in build.parts:
        if part.through == "z" and not part.leans:
            held = water_on(build, part)
            if held > _SMALLEST:
                yield _holds_water(part)


def _holds_water(part: Part) -> Finding:
    return Finding(
        "must fix",
        "water trapped",
        part.name,
        f"Rain stays on {part.name}: walls stand round it, and nothing lets it out.",
        "its upper face",
        "no opening",
        "common practice",
        "Bore holes in it, plan.drain(…), or make it of boards with gaps between them, plan.slats(…).",
    )


def water_on(build: Build, part: Part) -> float:
    """How much of a part's upper face, in mm², lies in hollows that rain falls into and does not leave."""
    top = float(box_of(part).top.mm)
    held = 0.0
    for hollow in _hollows(build, top + _ABOVE, part):
        if _lets_out(build, hollow, part) < _LETS_OUT and _rained_on(build, hollow, top + _ABOVE):
            held += float(hollow.area())
    return held


def _hollows(build: Build, height: float, part: Part) -> "Iterator[CrossSection]":
    """What is walled in all round at a height, and lies over a part."""
    walls = _level(build, height)
    floor = solid(part).slice(float(box_of(part).top.mm) - _ABOVE)
    for hollow in (_filled(walls) - walls).decompose():
        over = hollow ^ floor
        if over.area() > _SMALLEST:
            yield hollow


def _filled(walls: "CrossSection") -> "CrossSection":
    """The same outlines without what is open inside them."""
    from manifold3d import CrossSection, FillRule

    outer = [ring for ring in walls.to_polygons() if _turns(ring) > 0]
    return CrossSection(outer, FillRule.NonZero) if outer else CrossSection()


def _turns(ring: object) -> float:
    import numpy as np

    points = np.asarray(ring)
    ahead = np.roll(points, -1, axis=0)
    return float((points[:, 0] * ahead[:, 1] - ahead[:, 0] * points[:, 1]).sum())


def _level(build: Build, height: float) -> "CrossSection":
    """What all parts fill at a height; joints between them are tight."""
    from manifold3d import CrossSection, JoinType, OpType

    filled = CrossSection.batch_boolean([solid(part).slice(height) for part in build.parts], OpType.Add)
    return filled.offset(_TIGHT, JoinType.Miter)


def _lets_out(build: Build, hollow: "CrossSection", part: Part) -> float:
    """How much is open all the way down through a bottom and right below it, but for cracks that swell shut."""
    low, high = float(box_of(part).bottom.mm), float(box_of(part).top.mm)
    heights = [high - (high - low) * (2 * layer + 1) / (2 * _LEVELS) for layer in range(_LEVELS)]
    open_, least = hollow, float(hollow.area())
    for height in (*heights, low + _TIGHT, low - _ABOVE):
        open_ = _reached(hollow - _level(build, height), open_)
        least = min(least, float(open_.area()))
        if least < _LETS_OUT:
            break
    return least


def _reached(empty: "CrossSection", above: "CrossSection") -> "CrossSection":
    """What of the empty places of one layer water comes to from those above them."""
    from manifold3d import CrossSection, JoinType, OpType

    places = empty.offset(-_CRACK / 2, JoinType.Miter).decompose()
    return CrossSection.batch_boolean([one for one in places if not (one ^ above).is_empty()], OpType.Add)


def _rained_on(build: Build, hollow: "CrossSection", height: float) -> bool:
    """Whether much of a hollow lies under the open sky."""
    from manifold3d import CrossSection, OpType

    above = [solid(part).trim_by_plane((0.0, 0.0, 1.0), height).project() for part in build.parts]
    cover = CrossSection.batch_boolean(above, OpType.Add)
    return float((hollow ^ cover).area()) < _COVERED * float(hollow.area())


def _unsuited(build: Build) -> Iterator[Finding]:
    woods: dict[str, list[Part]] = {}
    for part in build.parts:
        if isinstance(part.stock, Lumber):
            woods.setdefault(species(part.stock.species).name, []).append(part)
    for name, parts in woods.items():
        known = decay_of(name)
        if known is not None and known.resistance != "resistant":
            yield _decays(species(name).trade_name, known, parts)


def _decays(wood: str, known: Decay, parts: list[Part]) -> Finding:
    slight = known.resistance == "slight"
    resists = "hardly resists decay" if slight else "resists decay only moderately"
    return Finding(
        "look at" if slight else "for information",
        "wood unsuited outdoors",
        named(dict.fromkeys(part.name for part in parts)),
        f"Even the heartwood of {wood} {resists}, and its sapwood does not: it rots where it stays wet.",
        "",
        f"{known.resistance} resistance",
        f"{known.source} ({known.status})",
        "Use the heartwood of a cedar, white oak or redwood, buy it treated for outdoors, or keep it dry under a "
        "finish that is renewed.",
    )
