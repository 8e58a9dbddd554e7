"""Whether anything keeps a case or a frame from racking: from leaning over sideways like a hinged box."""

from collections import defaultdict
from fractions import Fraction

from plankit.build import Build
from plankit.checks.blocks import around
from plankit.checks.fit import let_in
from plankit.checks.stability import is_told
from plankit.checks.wording import PRACTICE
from plankit.finding import Finding
from plankit.parts import AXES, Part, turning, way_after
from plankit.stock import Sheet
from plankit.units import L, Notation

LOW = L("12 in")
"""Lower pieces hardly rack (common practice)."""
UPRIGHT = Fraction(3, 5)
"""A part that reaches over this share of the height counts as an upright."""
SLENDER = 3
"""… where it is so many times as high as it is thick the way it would lean."""
ACROSS, DEEP = Fraction(1, 2), L("2 1/2 in")
"""What stands in the plane of racking, over half of the width and at least so high, keeps the corners square:
a back, an apron, a wide rail (common practice)."""
TALL_ACROSS = Fraction(1, 3)
"""A sheet as high as an upright does it from this share of the width: a back on part of a case; so does a rail
between legs that spread towards the floor (common practice)."""
STEEP, SLOPED = 0.85, 0.3
"""A leaning part that rises by this share of its length or more stands as a leg does (32° off upright); one that
goes both up and along by the lower share or more lies across the corner as a brace (common practice)."""
_SIDEWAYS = {0: "sideways", 1: "to the front and back"}
_REMEDY = {
    0: "Pin on a back, or let in a rail at least {high} high under the top, or add a brace.",
    1: "Join the uprights by panels or rails at least {high} high at each end, or add braces.",
}


def racking(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for each way a piece on slender uprights may lean over with nothing to stop it.

    A piece that is fixed to a wall, lower than 12 in, or not all told in steps yet has none.
    """
    if not build.parts or not is_told(build) or any(item.kind == "wall fixing" for item in build.items):
        return ()
    height = build.box.extent("z")
    if height.mm < LOW.mm:
        return ()
    fixed, held = _fixed(build), _held_to(build)
    return tuple(
        Finding(
            "look at",
            "may rack",
            build.name,
            f"Nothing keeps {build.name} from leaning over {_SIDEWAYS[way]}: its uprights are joined by parts "
            "that lie flat.",
            _SIDEWAYS[way],
            f"{notation.length(height)} high",
            f"{PRACTICE}: a back, a wide rail or a brace in that plane",
            _REMEDY[way].format(high=notation.length(DEEP)),
        )
        for way in (0, 1)
        if _leans_over(build, fixed, held, way)
    )


def _fixed(build: Build) -> tuple[Part, ...]:
    movers = {part_id for moving in build.moving for part_id in moving.parts}
    return tuple(part for part in build.parts if part.id not in movers)


def _held_to(build: Build) -> dict[str, set[str]]:
    """What each part is held to: by joints, hardware, or a groove that it stands in."""
    found: dict[str, set[str]] = defaultdict(set)
    links = [{joint.holds, joint.to} for joint in build.joints]
    links += [set(item.on) for item in build.items]
    links += [set(pair) for pair in let_in(build)]
    for link in links:
        for part_id in link:
            found[part_id] |= link - {part_id}
    return found


def _leans_over(build: Build, fixed: tuple[Part, ...], held: dict[str, set[str]], way: int) -> bool:
    """Whether a piece has two or more slender uprights side by side this way, and nothing in the plane.

    Only what is held to two others or more keeps them square: what lies loose, or is fixed at one place, does not.
    """
    whole = [float(length.mm) for length in build.box.size]
    uprights = [part for part in fixed if _is_upright(part, whole, way)]
    ends = [around(part) for part in uprights]
    apart = any(a[2 * way] >= b[2 * way + 1] for a in ends for b in ends)
    share = TALL_ACROSS if any(part.leans for part in uprights) else ACROSS
    if apart:  # a top that stands out makes no rail shorter
        whole[way] = max(one[2 * way + 1] for one in ends) - min(one[2 * way] for one in ends)
    return apart and not any(len(held[part.id]) > 1 and _stiffens(part, whole, way, share) for part in fixed)


def _is_upright(part: Part, whole: list[float], way: int) -> bool:
    ends = around(part)
    high, thick = ends[5] - ends[4], ends[2 * way + 1] - ends[2 * way]
    if part.leans and _rises(part)[2] >= STEEP:
        thick = float(min(size.mm for size in part.box.size))
    return high >= float(UPRIGHT) * whole[2] and high >= SLENDER * thick


def _rises(part: Part) -> tuple[float, float, float]:
    """How far a part goes along each axis for each length along its grain, whichever way."""
    along = [float(axis == part.grain) for axis in AXES]
    x, y, z = way_after(turning(part.leans), (along[0], along[1], along[2]))
    return abs(x), abs(y), abs(z)


def _stiffens(part: Part, whole: list[float], way: int, share: Fraction) -> bool:
    if part.leans:
        along = _rises(part)
        if along[2] < STEEP and along[2] >= SLOPED <= along[way]:
            return True
        if along[2] >= STEEP and not isinstance(part.stock, Sheet):
            return False
    ends = around(part)
    long, high = ends[2 * way + 1] - ends[2 * way], ends[5] - ends[4]
    other = ends[3 - 2 * way] - ends[2 - 2 * way]
    tall = high >= float(UPRIGHT) * whole[2] and isinstance(part.stock, Sheet)
    share = TALL_ACROSS if tall else share
    return long >= float(share) * whole[way] and high >= float(DEEP.mm) and min(long, high) > other
