"""What cannot be put in any more: dividers round rails, panels in closed frames, shelves behind a lip."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plankit.build import Build, glue
from plankit.checks.assembling import assembling
from plankit.checks.blocks import blocks, outline, taken
from plankit.checks.moves import LEAST_SHARED, WAYS, stopped_ways
from plankit.checks.taking_apart import locked
from plankit.parts import Bevel, Groove, Notch, Part, solid
from plankit.stock import lumber
from plankit.units import L
from tests.checks.small_builds import FOOT, INCHES, PLY, footed, shelved, sided
from tests.checks.turned_builds import plain, quarter, reflected
from tests.parts.one_of_each import ONE_OF_EACH, box
from tests.plan.demo import bench

RAIL = lumber("2x2", species="Douglas-fir")


def divided(slack: str = "0", high: str = "17", order: str = "floor sides rails divider") -> Build:
    """A divider notched round two rails that run along its upper corners.

    ```
      front view             from the left: the notches, `slack` wider than the rails
      ══════rail══════       ▐█▌          ▐█▌
      ║      │       ║         └──────────┘
      ║    divider   ║         │ divider  │
      ════════════════       ══════ floor ══════
    ```
    """
    more = L(slack, "in")
    floor = Part("floor", "Bottom", "panel", PLY, box("0", "30", "0", "12", "0", "3/4"), "x", "z")
    left = Part("left", "Side", "panel", PLY, box("0", "3/4", "0", "12", "3/4", "17"), "z", "x")
    right = replace(left, id="right", box=left.box.moved("x", L("29 1/4 in")))
    front = Part(
        "front", "Front rail", "board", RAIL, box("3/4", "29 1/4", "0", "1 1/2", "15 1/2", "17"), "x", "y"
    )
    back = replace(front, id="back", name="Back rail", box=front.box.moved("y", L("10 1/2 in")))
    whole = box("14", "14 3/4", "0", "12", "3/4", high)
    wide, up = L("1 1/2 in") + more, whole.extent("z") - (whole.top - front.box.bottom) - more
    notch = box("0", "3/4", "0", "2", "0", "30")
    cuts = (
        Notch(replace(notch, back=wide, bottom=up), "Front rail"),
        Notch(replace(notch, front=L("12 in") - wide, back=L("12 in"), bottom=up), "Back rail"),
    )
    divider = Part("divider", "Divider", "panel", PLY, whole, "z", "x", cuts)
    joints = [glue(left, floor), glue(right, floor)]
    joints += [glue(rail, side) for rail in (front, back) for side in (left, right)]
    ids = {
        "floor": ("floor",),
        "sides": ("left", "right"),
        "rails": ("front", "back"),
        "divider": ("divider",),
    }
    steps = tuple(ids[word] for word in order.split())
    return Build("Divided", (floor, left, right, front, back, divider), tuple(joints), order=steps)


def hooked(order: str = "floor sides rails divider", slack: str = "0") -> Build:
    """The same divider, its notches in from its corners, so that they close round the rails from above too."""
    build = divided(slack, order=order)
    divider = build.part("divider")
    cuts = tuple(
        Notch(replace(feature.cut, top=feature.cut.bottom + L("1 1/2 in") + L(slack, "in")), feature.reason)
        for feature in divider.features
        if isinstance(feature, Notch)
    )
    higher = replace(divider, box=replace(divider.box, top=L("18 in")), features=cuts)
    return replace(build, parts=tuple(higher if part.id == "divider" else part for part in build.parts))


def framed_divider() -> Build:
    """Two ladders of rails and sides, 10 1/2 in between their rails, and a divider notched round all four of these."""
    left = Part("left", "Side", "panel", PLY, box("0", "3/4", "0", "12", "0", "26 1/2"), "z", "x")
    right = replace(left, id="right", box=left.box.moved("x", L("29 1/4 in")))
    low = Part("low", "Front rail", "board", RAIL, box("3/4", "29 1/4", "0", "3/4", "0", "1 1/4"), "x", "y")
    rails = [low, replace(low, id="high", box=low.box.moved("z", L("25 1/4 in")))]
    rails += [replace(rail, id=f"{rail.id}-2", box=rail.box.moved("y", L("11 1/4 in"))) for rail in rails]
    cuts = tuple(
        Notch(box("0", "3/4", *ends, *heights), "rail")
        for ends in (("0", "3/4"), ("11 1/4", "12"))
        for heights in (("0", "1 1/4"), ("25 1/4", "26 1/2"))
    )
    divider = Part("divider", "Divider", "panel", PLY, box("14", "14 3/4", "0", "12", "0", "26 1/2"), "z", "x", cuts)
    joints = tuple(glue(rail, side) for rail in rails for side in (left, right))
    order = (("left", "right"), tuple(rail.id for rail in rails), ("divider",))
    return Build("Ladders", (left, right, *rails, divider), joints, order=order)


def test_a_divider_that_hooks_round_rails_cannot_go_in_after_them() -> None:
    (found,) = assembling(hooked(), INCHES)
    assert (found.level, found.check, found.part) == ("must fix", "cannot be put in", "Divider")
    assert "step 4" in found.place
    assert "rail" in found.place


def test_with_room_in_its_notches_it_may_be_turned_in() -> None:
    # 228.6 mm between the rails; the divider is 2/32 in less between its notches and 18.3 mm thick: its diagonal,
    # √(227.0² + 18.3²) = 227.7 mm, passes, so that it can stand between the rails turned about the vertical
    (found,) = assembling(hooked(slack="1/32"), INCHES)
    assert (found.level, found.part) == ("look at", "Divider")
    assert "tilted" in found.what


def test_tight_notches_stop_it_at_a_small_tilt_that_a_larger_one_would_pass() -> None:
    # 24 in of it stand between the rails below and above, 3/4 thick: tilted by a they take 24 cos a + 0.75 sin a,
    # more than 24 until a is 2 atan(0.75/24) = 3.6 degrees; 4 degrees alone would let it pass
    (found,) = assembling(framed_divider(), INCHES)
    assert (found.level, found.part) == ("must fix", "Divider")


@pytest.mark.parametrize("nominal", ["cut to fit", "traced"])
def test_of_what_is_measured_on_the_piece_no_size_is_proof(nominal: str) -> None:
    build = hooked()
    divider = build.part("divider")
    traced = tuple(replace(one, trace=True) if isinstance(one, Notch) else one for one in divider.features)
    other = replace(divider, fit_to="the rails") if nominal == "cut to fit" else replace(divider, features=traced)
    same = replace(build, parts=tuple(other if part.id == "divider" else part for part in build.parts))
    (found,) = assembling(same, INCHES)
    assert (found.level, found.part) == ("look at", "Divider")
    assert "measured on the piece" in found.what


def test_it_goes_in_before_the_rails() -> None:
    # the rails are threaded into its notches from the front and the back
    assert assembling(hooked("floor sides divider rails"), INCHES) == ()


def test_a_divider_with_corner_notches_has_the_floor_below_it() -> None:
    # it would have to come from below, where the bottom lies; with the bottom last it does
    (found,) = assembling(divided(), INCHES)
    assert (found.level, found.part) == ("must fix", "Divider")
    assert assembling(divided(order="sides rails divider floor"), INCHES) == ()


def test_steps_not_told_yet_have_no_findings() -> None:
    assert assembling(replace(hooked(), order=()), INCHES) == ()


def framed_panel(order: tuple[tuple[str, ...], ...]) -> Build:
    """A panel in the grooves of four rails, 1/4 in deep; the stiles at its sides run through.

    ```
       ║═══════║
       ║ panel ║
       ║═══════║
    ```
    """
    low = Part(
        "low", "Lower rail", "board", RAIL, box("1 1/2", "18 1/2", "0", "1 1/2", "0", "1 1/2"), "x", "y"
    )
    high = replace(low, id="high", name="Upper rail", box=low.box.moved("z", L("18 1/2 in")))
    left = Part("left", "Stile", "board", RAIL, box("0", "1 1/2", "0", "1 1/2", "0", "20"), "z", "y")
    right = replace(left, id="right", box=left.box.moved("x", L("18 1/2 in")))
    groove = {
        "low": Groove("top", box("0", "17", "1/2", "1", "1 1/4", "1 1/2")),
        "high": Groove("bottom", box("0", "17", "1/2", "1", "0", "1/4")),
        "left": Groove("right", box("1 1/4", "1 1/2", "1/2", "1", "1", "20")),
        "right": Groove("left", box("0", "1/4", "1/2", "1", "1", "20")),
    }
    frame = [replace(part, features=(groove[part.id],)) for part in (low, high, left, right)]
    ends = box("1 5/16", "18 11/16", "1/2", "1", "1 5/16", "18 11/16")
    panel = Part("panel", "Panel", "panel", PLY, ends, "z", "y")
    joints = tuple(glue(rail, stile) for rail in frame[:2] for stile in frame[2:])
    return Build("Framed panel", (*frame, panel), joints, order=order)


def test_a_panel_goes_into_its_grooves_in_the_same_step_but_not_after() -> None:
    together = framed_panel((("low", "high", "left", "right", "panel"),))
    before = framed_panel((("low", "left", "right"), ("panel",), ("high",)))
    after = framed_panel((("low", "high", "left", "right"), ("panel",)))
    assert assembling(together, INCHES) == ()
    assert assembling(before, INCHES) == ()
    (found,) = assembling(after, INCHES)
    assert (found.level, found.part) == ("must fix", "Panel")


def test_two_halves_that_nothing_joins_yet_may_be_moved_apart_again() -> None:
    # two stiles stand there, not joined; the rails with tongues go in between and the stiles close on them
    rails = framed_panel((("left", "right"), ("low", "high", "panel")))
    assert assembling(rails, INCHES) == ()


def test_a_shelf_behind_a_lip_is_lifted_over_it() -> None:
    # a lip 1 in high in front, nothing above: up, then out; with a top an inch above the shelf there is no way
    floor = Part("floor", "Bottom", "panel", PLY, box("0", "30", "0", "12", "0", "3/4"), "x", "z")
    lip = Part("lip", "Lip", "board", RAIL, box("0", "30", "-1 1/2", "0", "0", "3"), "x", "y")
    left = Part("left", "Side", "panel", PLY, box("-3/4", "0", "-1 1/2", "12", "0", "20"), "z", "x")
    right = replace(left, id="right", box=left.box.moved("x", L("30 3/4 in")))
    back = Part("back", "Back", "panel", PLY, box("-3/4", "30 3/4", "12", "12 3/4", "0", "20"), "x", "y")
    top = Part("top", "Top", "panel", PLY, box("-3/4", "30 3/4", "-1 1/2", "12", "20", "20 3/4"), "x", "z")
    shelf = Part("shelf", "Shelf", "panel", PLY, box("0", "30", "0", "12", "1", "1 3/4"), "x", "z")
    case = (floor, lip, left, right, back, top)
    joints = (
        *(glue(part, side) for part in (floor, lip, back) for side in (left, right)),
        glue(top, left),
        glue(top, right),
    )
    build = Build("Case", (*case, shelf), joints, order=(tuple(part.id for part in case), ("shelf",)))
    (found,) = assembling(build, INCHES)
    assert found.level == "for information"
    assert "in two" in found.what
    low = replace(top, box=top.box.moved("z", L("-18 in")))
    closed = replace(build, parts=(*case[:-1], low, shelf))
    assert assembling(closed, INCHES)[0].level in {"look at", "must fix"}


def test_right_builds_have_no_findings() -> None:
    for build in (sided(), footed(), shelved()):
        ids = [part.id for part in build.parts]
        for order in (tuple((one,) for one in ids), tuple((one,) for one in reversed(ids)), (tuple(ids),)):
            assert assembling(replace(build, order=order), INCHES) == ()


def test_the_bench_goes_together_in_its_steps() -> None:
    draft = bench().draft()
    build = replace(draft.build, order=tuple(step.brings for step in draft.steps))
    assert assembling(build, INCHES) == ()


@pytest.mark.parametrize("part", ONE_OF_EACH, ids=lambda part: part.id)
def test_blocks_fill_a_part_as_its_solid_does(part: Part) -> None:
    # exact where nothing is sawn at a slant and nothing is bored; never less than the solid
    filled = sum((b[1] - b[0]) * (b[3] - b[2]) * (b[5] - b[4]) for b in blocks(part))
    assert filled >= outline(part).volume() - 1
    if all(isinstance(feature, Notch | Groove) for feature in part.features):
        assert filled == pytest.approx(solid(part).volume(), abs=1)


@st.composite
def near_one_another(draw: st.DrawFn) -> tuple[Part, Part]:
    """Two parts, notched, tapered or mitred too: one ahead of the other along an axis, overlapping it across."""
    shapes = st.sampled_from(ONE_OF_EACH[:5])
    one, other = replace(draw(shapes), id="one"), draw(shapes)
    ahead = draw(st.sampled_from(("x", "y", "z")))
    for axis in ("x", "y", "z"):
        room = one.box.extent(axis) + other.box.extent(axis)  # type: ignore[arg-type]
        share = (
            Fraction(draw(st.integers(1, 15)), 16)
            if axis != ahead
            else Fraction(draw(st.integers(14, 18)), 16)
        )
        to = one.box.low(axis) - other.box.high(axis) + room * share  # type: ignore[arg-type]
        other = other.moved(axis, to, "other")  # type: ignore[arg-type]
    return one, other


@given(near_one_another())
@settings(max_examples=150, deadline=None)
def test_what_stops_a_part_is_found_by_moving_it_in_small_steps_too(pair: tuple[Part, Part]) -> None:
    # brute force with manifold3d: the part's solid in steps of 4 mm, out to 1.6 m, against the other's
    one, other = pair
    moved, there = outline(one), outline(other)
    found = stopped_ways(taken(one), taken(other))
    if (moved ^ there).volume() > LEAST_SHARED:
        assert found == frozenset()
        return
    for way in WAYS:
        far = [0.0, 0.0, 0.0]
        met = False
        for step in range(1, 400):
            far[way[0]] = way[1] * step * 4.0
            met = met or (moved.translate(far) ^ there).volume() > LEAST_SHARED
        assert met == (way in found)


def test_a_wedge_in_a_sliding_dovetail_goes_in_from_its_end_only() -> None:
    # both long edges bevelled so that it is wider below; the block over it has the same slot, drawn as two cheeks
    key = Part("key", "Key", "board", RAIL, box("0", "4", "0", "20", "0", "3/4"), "y", "z")
    key = key.with_features([Bevel("left", "top", L("3/8 in")), Bevel("right", "top", L("3/8 in"))])
    cheek = Part("cheek", "Cheek", "board", RAIL, box("-2", "3/8", "0", "20", "0", "3/4"), "y", "z")
    cheek = cheek.with_features([Bevel("right", "bottom", L("3/8 in"))])
    assert (2, 1) in stopped_ways(taken(key), taken(cheek))
    assert (2, -1) not in stopped_ways(taken(key), taken(cheek))
    assert not {(1, 1), (1, -1)} & stopped_ways(taken(key), taken(cheek))


def test_three_rings_through_one_another_are_locked_and_a_chain_is_not() -> None:
    every = frozenset(WAYS)

    def linked(one: int, other: int) -> frozenset[tuple[int, int]]:
        return every if {one, other} != {0, 2} else frozenset()

    assert locked(3, linked) == [(0, 1, 2)]
    assert locked(3, lambda one, other: frozenset(WAYS[1:])) == []


@given(st.integers(-8, 16), st.integers(0, 16))
@settings(max_examples=20, deadline=None)
def test_adding_clearance_never_locks_a_part(slack: int, more: int) -> None:
    # narrower by sixteenths at both ends, a divider between grooves goes in wherever a wider one did
    def found(sixteenths: int) -> int:
        build = hooked()
        divider = build.part("divider")
        lower = replace(divider.box, top=divider.box.top - L(Fraction(sixteenths, 16), "in"))
        parts = tuple(replace(divider, box=lower) if p.id == "divider" else p for p in build.parts)
        return len(assembling(replace(build, parts=parts), INCHES))

    assert found(max(0, slack) + more) <= found(max(0, slack))


@pytest.mark.parametrize("change", [quarter, reflected])
def test_turning_or_mirroring_changes_no_finding_but_its_words(change) -> None:
    for build in (hooked(), divided(), hooked("floor sides divider rails")):
        assert plain(assembling(change(build), INCHES)) == plain(assembling(build, INCHES))


def test_a_tapered_foot_slides_past_what_its_narrow_end_clears() -> None:
    # 1 in narrower at the floor: a rail that reaches 3/4 in under it stops it going down, not going up
    rail = Part("rail", "Rail", "board", RAIL, box("0", "1 1/4", "0", "4", "0", "1"), "y", "z")
    foot = FOOT
    ways = stopped_ways(taken(foot), taken(rail))
    assert (2, -1) in ways
    assert (2, 1) not in ways
