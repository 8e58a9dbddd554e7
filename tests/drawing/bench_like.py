"""A bench much like the one in the demo, built straight from parts: one of each kind of feature.

Invented sizes. Width 44 in, depth 15 in, height 18 1/2 in, three cubbies.
"""

from functools import lru_cache

from plankit import stock
from plankit.build import Build, Fastener, Joint, brads, face_screws, fix_top, glue, pocket_screws, screw
from plankit.parts import Banding, Box, GlueUp, Part, Taper
from plankit.units import L, Length


def inch(text: str) -> Length:
    return L(text, "in")


def box(  # noqa: PLR0917 - a box has six faces
    left: str, right: str, front: str, back: str, bottom: str, top: str
) -> Box:
    return Box(*(inch(side) for side in (left, right, front, back, bottom, top)))


PLY = stock.sheet("plywood", "3/4")
THIN = stock.sheet("plywood", "1/4")
POST = stock.lumber("4x4", species="loblolly pine")
SLAB = stock.lumber("2x10", species="loblolly pine")
CLEAT = stock.lumber("1x2", species="loblolly pine")


STEPS = (
    (("floor",), "Lay out the bottom", None),
    (("foot", "foot-2", "foot-3", "foot-4"), "Stand the feet", "from below"),
    (("side", "side-2"), "Stand the sides", None),
    (("divider", "divider-2"), "Set the dividers", None),
    (("back",), "Pin the back", None),
    (("cleat", "cleat-2"), "Screw on the cleats", None),
    (("top",), "Fasten the top", None),
)
"""Ids that arrive, title, and where the author wants it seen from."""


def driven(arriving: tuple[str, ...], present: tuple[str, ...]) -> tuple[Fastener, ...]:
    """The fasteners of a step: they join what arrives to what is there, or to what arrives with it."""
    there = {*arriving, *present}
    return tuple(
        f for f in bench().fasteners if {f.through, f.into} <= there and {f.through, f.into} & set(arriving)
    )


@lru_cache(maxsize=1)
def bench() -> Build:
    parts: dict[str, Part] = {}
    joints: list[Joint] = []
    for part in _feet() + _case() + _cleats():
        parts[part.id] = part
    for foot in ("foot", "foot-2", "foot-3", "foot-4"):
        joints.append(glue(parts[foot], parts["floor"]))
        joint, holes = face_screws(parts["floor"], parts[foot], screw("#8 x 2 1/2"), 1)
        joints.append(joint)
        parts["floor"] = parts["floor"].with_features(holes)
    for upright, face in (("side", "left"), ("side-2", "right"), ("divider", "left"), ("divider-2", "right")):
        joint, holes = pocket_screws(parts[upright], parts["floor"], face)
        joints.append(joint)
        parts[upright] = parts[upright].with_features(holes)
    uprights = ("side", "side-2", "divider", "divider-2")
    joints.extend(brads(parts["back"], parts[upright], inch("3/4")) for upright in uprights)
    for cleat, upright in (("cleat", "side"), ("cleat-2", "side-2")):
        joint, holes = face_screws(parts[cleat], parts[upright], screw("#8 x 1 1/4"))
        joints.append(joint)
        parts[cleat] = parts[cleat].with_features(holes)
        joint, holes = fix_top(parts["top"], parts[cleat], screw("#8 x 1 1/2"), "front")
        joints.append(joint)
        parts[cleat] = parts[cleat].with_features(holes)
    return Build("Bench", tuple(parts.values()), tuple(joints))


def _feet() -> tuple[Part, ...]:
    tapers = (
        Taper("left", "bottom", inch("1"), inch("4")),
        Taper("front", "bottom", inch("1/2"), inch("4")),
    )
    foot = Part("foot", "Foot", "board", POST, box("1/2", "4", "1/2", "4", "0", "4"), "z", "y", tapers)
    right = foot.mirrored("x", inch("22"), "foot-2")
    middle = inch("7 1/2")
    return foot, right, foot.mirrored("y", middle, "foot-3"), right.mirrored("y", middle, "foot-4")


def _case() -> tuple[Part, ...]:
    floor = Part("floor", "Bottom", "panel", PLY, box("0", "44", "0", "15", "4", "4 3/4"), "x", "z")
    floor = floor.with_features(
        [Banding(edge, inch("1/48"), optional=True) for edge in ("front", "left", "right")]
    )
    side = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "14 3/4", "4 3/4", "17"), "z", "x")
    side = side.with_features([Banding("front", inch("1/48"), optional=True)])
    space = (inch("44") - inch("3/4") * 4).portion(3)
    first = side.moved("x", inch("3/4") + space, "divider")
    second = side.mirrored("x", inch("22"), "side-2")
    walls = (first, first.mirrored("x", inch("22"), "divider-2"))
    named = tuple(
        Part(w.id, "Divider", w.kind, w.stock, w.box, w.grain, w.through, w.features) for w in walls
    )
    back = Part("back", "Back", "panel", THIN, box("0", "44", "14 3/4", "15", "4 3/4", "17"), "x", "y")
    blank = (inch("46"), inch("17"), inch("1 1/2"))
    glued = GlueUp(2, inch("8 1/2"), inch("46"), blank)
    top = Part("top", "Top", "glue-up", SLAB, box("-1/2", "44 1/2", "-1/2", "15", "17", "18 1/2"), "x", "z",
               glue_up=glued)  # fmt: skip
    return floor, side, second, *named, back, top


def _cleats() -> tuple[Part, ...]:
    cleat = Part("cleat", "Cleat", "board", CLEAT, box("3/4", "1 1/2", "1", "14", "15 1/2", "17"), "y", "x")
    return cleat, cleat.mirrored("x", inch("22"), "cleat-2")
