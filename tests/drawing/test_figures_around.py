"""Behind, below, and a face with what lies on it: places counted from an edge, heads where they are driven."""

from typing import Any

import pytest
from reading import marks, of_kind, texts

from plankit import Plan, stock
from plankit.drawing.figures_around import from_around, widest_apart
from plankit.drawing.figures_on_face import face_drawing, laid_on
from plankit.drawing.figures_reveals import reveals
from plankit.drawing.figures_views import orthographic
from plankit.drawing.seen import view_of
from plankit.errors import PlanError
from plankit.units import L

PLY = stock.sheet("plywood", "3/4")
THIN = stock.sheet("plywood", "1/4")
STRIP = stock.lumber("1x2", species="Douglas-fir")


def case(width: str = "30", depth: str = "14", height: str = "36") -> tuple[Plan, list[Any], Any, Any]:
    plan = Plan("Case")
    side = plan.panel("Side", PLY, left=0, front=0, back=depth, bottom=0, top=height)
    sides = [side, plan.mirror(side, across=width)]
    between: dict[str, Any] = {"left": side.right, "right": sides[1].left, "front": 0, "back": depth}
    floor = plan.panel("Bottom", PLY, **between, bottom=side.bottom)
    lid = plan.panel("Top", PLY, **between, top=side.top)
    plan.screw([floor, lid], through=sides, screws="#8 x 2")
    return plan, sides, floor, lid


def with_back() -> tuple[Plan, Any]:
    plan, sides, floor, lid = case()
    middle = plan.panel("Shelf", PLY, left=sides[0].right, right=sides[1].left, front=0, back="14", bottom="18")
    back = plan.panel("Back", THIN, left=0, right="28", front=sides[0].back, bottom=0, top=middle.top)
    plan.pin(back, into=[sides[0], floor, middle])
    assert lid.id
    return plan, back


def test_from_behind_the_left_side_is_on_the_right_and_places_count_from_there() -> None:
    plan, _ = with_back()
    figure = from_around(plan.build(), plan.notation, "back")
    said = texts(figure)
    assert "30" in said
    assert "36" in said
    # the back is 28 wide from the left: from the right outside it begins at 2; its upper edge is at 18 3/4
    assert {"2", "18 3/4"} <= set(said)
    assert "which is on the left here" in " ".join(said)


def test_every_brad_is_marked_and_the_widest_space_is_said() -> None:
    plan, _ = with_back()
    build = plan.build()
    brads = [one for joint in build.joints if joint.kind == "brads" for one in joint.fasteners]
    figure = from_around(build, plan.notation, "back")
    assert len(marks(figure, "screw")) == len(brads)
    assert f"{len(brads)} 18-gauge" in figure.description
    assert "at most" in figure.description
    apart = widest_apart(brads)
    assert apart is not None
    # hand: brads of one row, sorted; the shelf's row is the widest
    rows: dict[tuple[str, Any], list[float]] = {}
    for one in brads:
        rows.setdefault((one.into, one.head.z.mm), []).append(float(one.head.x.mm))
        rows.setdefault((one.into, "up", one.head.x.mm), []).append(float(one.head.z.mm))  # type: ignore[arg-type]
    widest = max(b - a for row in rows.values() for a, b in zip(sorted(row), sorted(row)[1:], strict=False))
    assert float(apart.mm) == pytest.approx(widest)


def test_a_plan_with_a_pinned_back_shows_it_on_its_page_and_one_without_does_not() -> None:
    from plankit.plan.cut_list import cut_plan
    from plankit.plan.figures import all_pictures
    from plankit.plan.work import labels, work_of

    def pictures(plan: Plan) -> set[str]:
        plan.step("All", brings=plan.parts)
        draft = plan.draft()
        groups, by_part = labels(draft)
        return set(all_pictures(draft, groups, work_of(draft), cut_plan(draft, by_part))[0])

    assert "back" in pictures(with_back()[0])
    assert not {"back", "below"} & pictures(case()[0])


def test_from_below_casters_are_measured_at_both_their_edges_from_left_and_front() -> None:
    plan = Plan("Cart")
    floor = plan.panel("Bottom", PLY, left=0, right="24", front=0, back="16", bottom="3")
    plan.casters(floor, set_in=("1", "1/2"), height="3")
    figure = from_around(plan.build(), plan.notation, "below")
    plate = plan.build().items[0].box
    wide, deep = plate.extent("x"), plate.extent("y")
    said = set(texts(figure))
    right, back = L("23 in") - wide, L("15 1/2 in") - deep
    for place in (L("1 in"), right, L("23 in"), L("1/2 in"), back, L("15 1/2 in")):
        assert plan.notation.bare(place) in said, place
    assert "four casters" in figure.description


def test_there_is_no_other_side() -> None:
    plan, *_ = case()
    with pytest.raises(PlanError, match="no such view"):
        from_around(plan.build(), plan.notation, "inside")
    with pytest.raises(PlanError, match="back, below"):
        plan.view("inside")._repr_mimebundle_()


def test_reveals_of_overlay_doors_are_measured_in_the_front_view() -> None:
    plan, sides, floor, lid = case()
    plan.overlay_doors(
        "Door", PLY, left=sides[0], right=sides[1], bottom=floor, top=lid, count=2, reveal="3/16", between="5/32"
    )
    build = plan.build()
    found = reveals(build, view_of(build.parts, "front"))
    assert {(one.wide, one.between) for one in found} == {(L("3/16 in"), False), (L("5/32 in"), True)}
    figure = orthographic(build, plan.notation, "front")
    assert texts(figure).count("3/16") == 2  # at the side and at the bottom
    assert "Reveals: 3/16" in figure.description


def test_inset_doors_have_their_gap_and_an_open_case_has_none() -> None:
    plan, sides, floor, lid = case()
    assert reveals(plan.build(), view_of(plan.build().parts, "front")) == ()
    plan.doors_in("Door", PLY, left=sides[0], right=sides[1], bottom=floor, top=lid, gap="1/8")
    found = reveals(plan.build(), view_of(plan.build().parts, "front"))
    assert {one.wide for one in found} == {L("1/8 in")}
    assert not any(one.between for one in found)


def test_a_frame_round_a_door_is_no_front() -> None:
    plan = Plan("Frame")
    small = stock.lumber("2x2", species="Douglas-fir")
    frame = plan.frame("Frame", small, STRIP, left=0, right="30", front=0, back="14", bottom=0, top="30")
    posts, rails = frame.uprights, frame.rails
    plan.door_in("Door", PLY, left=posts[0], right=posts[1], bottom=rails[0], top=rails[4], gap="3/32")
    build = plan.build()
    found = reveals(build, view_of(build.parts, "front"))
    assert [one.front.name for one in found] == ["Door", "Door"]
    assert not any(one.between for one in found)


def test_a_molding_is_laid_out_on_its_door() -> None:
    plan, sides, floor, lid = case(width="20", height="24")
    door = plan.door_in("Door", PLY, left=sides[0], right=sides[1], bottom=floor, top=lid)
    strips = plan.moulding("Molding", STRIP, on=door, face="front", set_in="2")
    build = plan.build()
    assert {face: len(ones) for face, ones in laid_on(build, door.part).items()} == {"front": 4}
    figure = face_drawing(build, door.part, "front", plan.notation)
    said = set(texts(figure))
    # 18 1/2 − 2 × 1/16 = 18 3/8 wide, 22 1/2 − 1/8 = 22 3/8 high; strips 1 1/2 wide set in 2
    assert {"18 3/8", "22 3/8", "2", "3 1/2", "14 7/8", "16 3/8", "18 7/8", "20 3/8"} <= said
    assert strips[0].length == L("14 3/8 in")  # 18 3/8 − 4
    assert "14 3/8" in figure.description.replace("\u00a0", " ")
    assert "long points" in figure.description
    assert of_kind(figure, "outline")
    assert "Seen: one door and four moldings" in plan.picture(door)._repr_mimebundle_()["text/plain"]
    with pytest.raises(PlanError, match="nothing is glued"):
        plan.picture(door, face="back")._repr_mimebundle_()
