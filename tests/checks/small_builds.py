"""Small builds for the checks: each is right, and one change makes it wrong."""

from dataclasses import replace

from plankit.build import (
    Assembly,
    Build,
    Contact,
    Fastener,
    Joint,
    Thing,
    face_screws,
    glue,
    pocket_screws,
    screw,
)
from plankit.parts import Axis, Box, Part, Point, mirror_along
from plankit.stock import lumber, sheet
from plankit.units import L, Length, Notation
from tests.parts.one_of_each import TAPERED, box

INCHES = Notation()
PLY = sheet("plywood", "3/4")
THIN = sheet("plywood", "1/4")
SLAB = lumber("2x10", species="loblolly pine")
BATTEN = lumber("1x2", species="Douglas-fir")

FLOOR = Part("floor", "Bottom", "panel", PLY, box("0", "30", "0", "12", "4", "4 3/4"), "x", "z")
FOOT = replace(TAPERED, box=box("1/2", "4", "1/2", "4", "0", "4"))
SIDE = Part("side", "Side", "panel", PLY, box("0", "3/4", "0", "12", "4 3/4", "17"), "z", "x")


def footed(spec: str = "#8 x 2 1/2") -> Build:
    """A floor screwed down into one foot.

    ```
     ════════╤════════  floor, 3/4
         │   ┃  │
         │   ╿  │       foot, 4 high
    ```
    """
    joint, holes = face_screws(FLOOR, FOOT, screw(spec), 1)
    return Build("Footed", (FLOOR.with_features(holes), FOOT), (joint,))


def sided() -> Build:
    """A side standing on a floor, with pocket screws."""
    joint, holes = pocket_screws(SIDE, FLOOR, "right")
    return Build("Sided", (FLOOR, SIDE.with_features(holes)), (joint,))


def framed(wide: str = "3 1/2", count: int | None = None, thick: str = "3/4") -> Build:
    """A rail let into a post, pocket screws from behind."""
    stock = BATTEN if wide == "1 1/2" else lumber("1x4", species="Douglas-fir")
    ends = Box(L("0 in"), L("10 in"), L("0 in"), L("3/4 in"), L("0 in"), L(wide, "in"))
    rail = Part("rail", "Rail", "board", stock, ends, "x", "y")
    post_box = Box(L("10 in"), L("10 in") + L(thick, "in"), L("0 in"), L("3 in"), L("-8 in"), L("30 in"))
    post = Part("post", "Post", "panel", sheet("plywood", thick), post_box, "z", "x")
    joint, holes = pocket_screws(rail, post, "back", count)
    return Build("Framed", (rail.with_features(holes), post), (joint,))


def shelved(span: str = "31", thick: str = "3/4", grain: Axis = "x") -> Build:
    """A bare shelf that lies on two uprights so far apart.

    ```
      ═══════════════
      ║             ║
    ```
    """
    clear = L(span, "in")
    ply = sheet("plywood", thick)
    left = Part("left", "Upright", "panel", PLY, box("0", "3/4", "0", "10", "0", "30"), "z", "x")
    right = Part("right", "Upright", "panel", PLY, left.box.moved("x", clear + L("3/4 in")), "z", "x")
    ends = Box(
        L("0 in"), clear + L("1 1/2 in"), L("0 in"), L("10 in"), L("30 in"), L("30 in") + L(thick, "in")
    )
    shelf = Part("shelf", "Shelf", "panel", ply, ends, grain, "z")
    return Build("Shelved", (left, right, shelf), (glue(shelf, left), glue(shelf, right)))


def boots(left: str = "2", right: str = "12") -> Thing:
    return Thing("A pair of boots", box(left, right, "1", "11", "4 3/4", "16"))


def with_part(build: Build, part: Part) -> Build:
    return replace(build, parts=(*build.parts, part))


def instead(build: Build, part_id: str, **changes: object) -> Build:
    """The build with one part changed."""
    return replace(
        build,
        parts=tuple(replace(p, **changes) if p.id == part_id else p for p in build.parts),  # type: ignore[arg-type]
    )


def carried(build: Build, *parts: str) -> Build:
    return replace(build, assemblies=(Assembly("Case", parts),))


def mirrored(build: Build, axis: Axis = "x") -> Build:
    """The mirror image of a whole build, screws and all, about its own middle."""
    middle = build.box.middle(axis)
    return replace(
        build,
        parts=tuple(part.mirrored(axis, middle, part.id) for part in build.parts),
        joints=tuple(_joint(joint, axis, middle) for joint in build.joints),
        things=tuple(replace(t, box=t.box.mirrored(axis, middle)) for t in build.things),
    )


def _joint(joint: Joint, axis: Axis, middle: Length) -> Joint:
    turn = mirror_along(axis)
    contact = joint.contact
    return replace(
        joint,
        contact=Contact(turn.face(contact.face), contact.axis, contact.region.mirrored(axis, middle)),
        fasteners=tuple(mirrored_fastener(one, axis, middle) for one in joint.fasteners),
        flush=turn.face(joint.flush) if joint.flush is not None else None,
    )


def mirrored_fastener(one: Fastener, axis: Axis, middle: Length) -> Fastener:
    """The mirror image of a screw in the plane across an axis."""
    return replace(
        one,
        head=_point(one.head, axis, middle),
        tip=_point(one.tip, axis, middle),
        heading=mirror_along(axis).face(one.heading),
        leans=tuple(lean.mirrored(axis, middle) for lean in one.leans),
    )


def _point(point: Point, axis: Axis, middle: Length) -> Point:
    return point.moved(axis, (middle - point.along(axis)) * 2)
