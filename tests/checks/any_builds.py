"""Builds that hypothesis makes up: heaps of boxes, joined where they touch, brought in steps, one of them moving."""

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from typing import Literal

from hypothesis import strategies as st

from plankit.build import (
    Build,
    Joint,
    Moving,
    MovingKind,
    Pivot,
    Thing,
    face_screws,
    glue,
    pocket_screws,
    screw,
    touching,
)
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, FACES, HIGH, LOW, Axis, Bore, Box, Feature, Notch, Part
from plankit.stock import Lumber, Sheet, lumber, sheet
from plankit.units import Angle, L, Length, Mass

type Stock = Sheet | Lumber

STOCKS: tuple[Stock, ...] = (
    sheet("plywood", "3/4"),
    sheet("plywood", "1/4"),
    sheet("MDF", "3/4"),
    lumber("1x4", species="Douglas-fir"),
    lumber("2x10", species="loblolly pine"),
)
OFF = (Fraction(0), Fraction(0), Fraction(1, 32), Fraction(1, 3))
"""What is added to whole inches: places on the tape's marks and off them."""


def marks() -> st.SearchStrategy[list[Fraction]]:
    """A few places along an axis, some of them 3/4 in apart, so that parts stand against one another."""
    whole = st.integers(0, 10).map(lambda number: Fraction(3 * number))
    places = st.lists(
        st.builds(lambda one, more: one + more, whole, st.sampled_from(OFF)), min_size=2, max_size=3
    )
    return places.map(lambda found: sorted({*found, *(one + Fraction(3, 4) for one in found)}))


def boxes(along: list[list[Fraction]]) -> st.SearchStrategy[Box]:
    """Boxes between the marks of each axis: slabs, posts, blocks."""
    pairs = [st.sampled_from(list(combinations(found, 2))) for found in along]
    return st.tuples(*pairs).map(lambda axes: Box(*(L(end, "in") for pair in axes for end in pair)))


def parts(along: list[list[Fraction]]) -> st.SearchStrategy[Part]:
    """Parts as thin as their box is, with a corner notched out or a hole bored now and then."""
    made = st.builds(
        _part,
        boxes(along),
        st.sampled_from(STOCKS),
        st.booleans(),
        st.sampled_from(("", "", "", "notch", "bore")),
    )
    return made.filter(lambda part: part.thickness.mm < part.width.mm)


def _part(box: Box, stock: Stock, turned: bool, what: str) -> Part:
    through, *others = sorted(AXES, key=lambda axis: box.extent(axis).mm)
    grain = others[0] if turned else others[1]
    part = Part("", "", "panel", stock, box, grain, through)
    return part.with_features(_cut(part, what))


def _cut(part: Part, what: str) -> tuple[Feature, ...]:
    x, y, z = part.box.size
    if what == "notch":
        none = Length.zero()
        return (Notch(Box(none, x.portion(3), none, y.portion(3), none, z)),)
    if what == "bore":
        face = HIGH[part.through]
        at = {axis: part.box.extent(axis).portion(2) for axis in AXES}
        at[part.through] = part.thickness
        return (Bore(face, (at["x"], at["y"], at["z"]), L("1/4 in"), part.thickness.portion(2)),)
    return ()


@st.composite
def heaps(draw: st.DrawFn) -> Build:
    """Two to six parts, joined in one way or another where they touch, with a thing between, brought in two steps."""
    along = [draw(marks()) for _ in AXES]
    made = draw(st.lists(parts(along), min_size=2, max_size=6))
    named = [replace(part, id=f"part-{number}", name=f"Part {number}") for number, part in enumerate(made)]
    joints: list[Joint] = []
    for one, other in combinations(range(len(named)), 2):
        how = draw(st.sampled_from(("glue", "screws", "pocket screws", "")))
        named[one] = _joined(named[one], named[other], how, joints)
    half = draw(st.integers(0, len(named)))
    ids = tuple(part.id for part in named)
    things = draw(st.lists(boxes(along), max_size=1))
    return Build(
        "Heap",
        tuple(named),
        tuple(joints),
        tuple(Thing("A basket", box, Mass.of_pounds(5)) for box in things),
        moving=draw(st.one_of(st.just(()), st.just(()), movers(named[-1]))),
        order=(ids[:half], ids[half:]),
    )


def _joined(one: Part, other: Part, how: str, joints: list[Joint]) -> Part:
    """The first of two parts with the holes for its joint to the other; joints that cannot be are left out."""
    contact = touching(one, other)
    if contact is None or not how:
        return one
    try:
        if how == "glue":
            joints.append(glue(one, other))
            return one
        if how == "screws":
            joint, holes = face_screws(one, other, screw("#8 x 1 1/4"))
        else:
            face = next(face for face in FACES if AXIS_OF[face] not in {contact.axis, one.grain})
            joint, holes = pocket_screws(one, other, face)
    except PlanError:
        return one
    joints.append(joint)
    return one.with_features(holes)


@st.composite
def movers(draw: st.DrawFn, part: Part) -> tuple[Moving, ...]:
    """A part that is hung at one of its edges, or slides out."""
    if draw(st.booleans()):
        return (Moving("Drawer", "drawer", (part.id,), slides=(draw(st.sampled_from(FACES[:4])), L("6 in"))),)
    axis: Axis = draw(st.sampled_from([axis for axis in AXES if axis != part.through]))
    corner = part.box.corner
    for other in AXES:
        if draw(st.booleans()):
            corner = corner.moved(other, part.box.extent(other))
    kinds: tuple[MovingKind, ...] = ("door", "flap", "bin")
    senses: tuple[Literal[1, -1], ...] = (1, -1)
    kind, sense = draw(st.sampled_from(kinds)), draw(st.sampled_from(senses))
    opens = draw(st.sampled_from((None, Angle(Fraction(40)), Angle(Fraction(90)))))
    return (Moving(kind.capitalize(), kind, (part.id,), Pivot(axis, corner, sense), opens),)


def spread_apart(box: Box, axis: Axis, beyond: Length, by: Length) -> Box:
    """A box in a build that is pulled apart at a plane: what lies beyond goes further, what crosses it grows."""
    ends = {face: box.face(face) for face in (LOW[axis], HIGH[axis])}
    return replace(box, **{face: at + by if at.mm >= beyond.mm else at for face, at in ends.items()})


@st.composite
def cases(draw: st.DrawFn, gap: Fraction | None = None) -> Build:
    """A case of any size with shelves at any height, screwed with any length, and something in it that opens.

    ```
    ════════════   top, perhaps standing out
    ║──────────║   shelf
    ║│        │║   front, with a gap all round
    ║══════════║   bottom
    ```
    """
    wide, deep, high = (
        Fraction(draw(st.integers(low, 30))) + draw(st.sampled_from(OFF)) for low in (8, 6, 8)
    )
    thick, out = Fraction(3, 4), Fraction(draw(st.integers(0, 4)), 2)
    stock = draw(st.sampled_from(STOCKS[:1] + STOCKS[2:]))
    bottom = Fraction(draw(st.sampled_from((0, 3))))
    shelf = bottom + (high - bottom) * draw(st.sampled_from((Fraction(1, 2), Fraction(2, 3))))
    inner = (thick, wide - thick, Fraction(0), deep)
    named = [
        _panel("side", "z", "x", (Fraction(0), thick, Fraction(0), deep, Fraction(0), high)),
        _panel("side-2", "z", "x", (wide - thick, wide, Fraction(0), deep, Fraction(0), high)),
        _panel("bottom", "x", "z", (*inner, bottom, bottom + thick)),
        _panel("shelf", "x", "z", (*inner, shelf, shelf + thick), stock),
        _panel(
            "top",
            draw(st.sampled_from(("x", "y"))),
            "z",
            (-out, wide + out, -out, deep, high, high + thick),
            stock,
        ),
    ]
    free = draw(st.sampled_from((0, 1, 2, 5, 8))) * Fraction(1, 16) if gap is None else gap
    ends = (thick + free, wide - thick - free, Fraction(0), thick, bottom + thick + free, shelf - free)
    named.append(_panel("front", "z", "y", ends))
    joints: list[Joint] = []
    long = draw(st.sampled_from(("1", "1 1/4", "1 1/2", "2", "3")))
    for one, other in ((0, 2), (1, 2), (0, 3), (1, 3)):
        joint, holes = face_screws(named[one], named[other], screw(f"#8 x {long}"))
        joints.append(joint)
        named[one] = named[one].with_features(holes)
    joints += [glue(named[4], named[0]), glue(named[4], named[1])]
    ids = tuple(part.id for part in named)
    cut = draw(st.integers(1, 6))
    moving = draw(st.one_of(st.just(()), openers(named[5])))
    return Build("Case", tuple(named), tuple(joints), moving=moving, order=(ids[:cut], ids[cut:]))


def _panel(
    name: str, grain: Axis, through: Axis, ends: tuple[Fraction, ...], stock: Stock = STOCKS[0]
) -> Part:
    box = Box(*(L(end, "in") for end in ends))
    return Part(name, name.partition("-")[0].capitalize(), "panel", stock, box, grain, through)


def openers(front: Part) -> st.SearchStrategy[tuple[Moving, ...]]:
    """A front that opens outwards: a door hung left or right, a bin that tilts out, a drawer."""
    box, ids = front.box, (front.id,)
    left, right = Pivot("z", box.corner, -1), Pivot("z", replace(box.corner, x=box.right), 1)
    ways = (
        Moving("Door", "door", ids, left, Angle(Fraction(90))),
        Moving("Door", "door", ids, right, Angle(Fraction(90))),
        Moving("Bin", "bin", ids, Pivot("x", box.corner, 1), Angle(Fraction(30))),
        Moving("Drawer", "drawer", ids, slides=("front", L("6 in"))),
    )
    return st.sampled_from([(way,) for way in ways])
