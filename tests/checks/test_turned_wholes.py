"""Whole builds, otherwise placed or told: mirrored, turned, in another order, pulled apart, on another tape.

Each check is run on the demo builds, on sound and mistaken small ones, and on builds that hypothesis makes up.
What a wall or a niche stands behind is not turned: only those two know a back by its name.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import pairwise
from random import Random

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from plankit.build import Build
from plankit.checks import CHECKS, Load, fastening, fit, people, strength, swing
from plankit.checks.fit import loose_parts
from plankit.finding import LEVELS, Finding
from plankit.parts import AXES, AXIS_OF, Axis, Face, Part
from plankit.plan import Plan
from plankit.plan.document import in_steps
from plankit.shop import Shop, usual
from plankit.stock import sheet
from plankit.units import L, Notation
from tests.checks.any_builds import cases, heaps, spread_apart
from tests.checks.changed_builds import longer, shuffled, without
from tests.checks.seeded import cupboard, framed, tilting
from tests.checks.small_builds import footed, sided
from tests.checks.test_seeded_mistakes import MISTAKES, Mistake, with_mistake
from tests.checks.turned_builds import quarter, reflected
from tests.parts.one_of_each import box
from tests.plan.demo import demo

type Key = tuple[str, ...]
type Told = tuple[Build, Shop, Notation, tuple[Load, ...]]
"""A build with all that its checks are told."""

INCHES = Notation()
WHOLES: dict[str, Callable[[], Plan]] = {
    "boot_bench": lambda: demo("boot_bench"),
    "sorting_stand": lambda: demo("sorting_stand"),
    "potting_cabinet": lambda: demo("potting_cabinet"),
    "cupboard": cupboard,
    "framed": framed,
    "tilting": tilting,
}
wholes = pytest.mark.parametrize("name", WHOLES)
PLACED = pytest.mark.parametrize("placed", [reflected, quarter], ids=["mirrored", "a quarter turned"])
FEW = settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
MARKS = (4, 8, 16, 32, 64)
MADE_UP = st.one_of(heaps(), cases())
IN_THE_WAY = frozenset(
    {
        "parts overlap", "does not fit", "cannot be put in", "no access for a driver", "little room beside a driver",
        "swing meets something", "knuckle gap", "goes in too far", "drawer meets something", "small gap",
        "fasteners meet", "contents do not go in", "shelf too long",
    }
)  # fmt: skip


def told(plan: Plan) -> Told:
    draft = plan.draft()
    return in_steps(draft), draft.shop, draft.notation, draft.loads


@cache
def whole(name: str) -> Told:
    return told(WHOLES[name]())


def without_wall_fixings(one: Told) -> Told:
    """The same build standing free, so that it may tip."""
    items = tuple(item for item in one[0].items if item.kind != "wall fixing")
    return (replace(one[0], items=items), *one[1:])


def found(one: Told, build: Build | None = None, mark: Fraction | None = None) -> list[Finding]:
    """What every check says about a build, or about another told the same way."""
    first, shop, notation, loads = one
    notation = replace(notation, mark=mark) if mark else notation
    return [finding for check in CHECKS for finding in check.run(build or first, shop, notation, loads)]


def free(build: Build) -> Told:
    return build, usual(), INCHES, ()


def amounts(number: str) -> str:
    """A finding's number without the words that say which way: "12 3/4 in to the left" is "12 3/4"."""
    return " ".join(sorted(word for word in number.split() if re.search(r"\d", word)))


def placed_alike(findings: Iterable[Finding]) -> Counter[Key]:
    """What must stay when a build is turned."""
    return Counter((one.level, one.check, one.part, amounts(one.number)) for one in findings)


def told_alike(findings: Iterable[Finding]) -> set[Key]:
    """What must stay when a build is told in another order: of two that meet, either may be named first."""
    return {(one.level, one.check, _words(one.what), amounts(one.number)) for one in findings}


def _words(sentence: str) -> str:
    words = re.findall(r"[\w/#≈×-]+", sentence.lower())
    return " ".join(sorted(word for word in words if word not in {"a", "an", "and"}))


def worst(findings: Iterable[Finding]) -> dict[tuple[str, str], int]:
    """The gravest level of each check's findings about each part; 0 is the gravest."""
    levels: dict[tuple[str, str], int] = {}
    for one in findings:
        key, level = (one.check, one.part), LEVELS.index(one.level)
        levels[key] = min(level, levels.get(key, level))
    return levels


def graver(after: Iterable[Finding], before: Iterable[Finding]) -> set[tuple[str, str]]:
    """What is found afterwards and was not before, or is graver than it was."""
    was = worst(before)
    return {key for key, level in worst(after).items() if key not in was or level < was[key]}


# Mirrored, and turned about the vertical


@PLACED
@wholes
def test_a_whole_otherwise_placed_has_the_same_findings(name: str, placed: Callable[[Build], Build]) -> None:
    for one in {whole(name), without_wall_fixings(whole(name))}:
        assert placed_alike(found(one)) == placed_alike(found(one, placed(one[0])))


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_a_mistake_is_told_alike_however_it_is_placed_and_told(mistake: Mistake) -> None:
    one = told(with_mistake(mistake.build, mistake.line, mistake.instead))
    known = found(one)
    assert placed_alike(known) == placed_alike(found(one, quarter(one[0])))
    assert told_alike(known) == told_alike(found(one, shuffled(one[0], Random(4))))
    assert placed_alike(known) == placed_alike(found(one, reflected(one[0])))


@PLACED
@FEW
@given(build=MADE_UP)
def test_any_build_otherwise_placed_has_the_same_findings(
    build: Build, placed: Callable[[Build], Build]
) -> None:
    one = free(build)
    assert placed_alike(found(one)) == placed_alike(found(one, placed(build)))


def test_four_quarters_and_two_mirror_images_give_the_build_again() -> None:
    for build in (whole("sorting_stand")[0], whole("potting_cabinet")[0]):
        four = quarter(quarter(quarter(quarter(build))))
        for again in (four, reflected(reflected(build))):
            assert again.parts == build.parts
            assert [one.ends_mm() for one in again.fasteners] == [one.ends_mm() for one in build.fasteners]
            assert [one.box for one in again.items] == [one.box for one in build.items]
            assert again.moving == build.moving


def test_a_square_shelf_held_all_round_bends_alike_whichever_way_it_is_turned() -> None:
    ply = sheet("plywood", "1/4")
    shelf = Part("shelf", "Shelf", "panel", ply, box("0", "36", "0", "36", "9", "9 1/4"), "x", "z")
    ledges = [box("0", "36", "0", "1", "0", "9"), box("0", "36", "35", "36", "0", "9"),
              box("0", "1", "1", "35", "0", "9"), box("35", "36", "1", "35", "0", "9")]  # fmt: skip
    under = [Part(f"ledge-{n}", "Ledge", "panel", ply, ends, "z", "x") for n, ends in enumerate(ledges)]
    build = Build("Table", (shelf, *under))
    load = (Load("shelf", "pots", Fraction(40)),)
    (bends,), (turned,) = strength(build, INCHES, load), strength(quarter(build), INCHES, load)
    assert (bends.check, bends.number) == (turned.check, turned.number) == ("bends too far", bends.number)


@pytest.mark.parametrize("run", [swing, people])
def test_gaps_to_either_side_of_a_door_count_alike_at_any_wall(
    run: Callable[..., tuple[Finding, ...]],
) -> None:
    build = whole("cupboard")[0]
    door = build.part("door")
    narrow = replace(door, box=replace(door.box, right=door.box.right - L("3/8 in")))
    odd = replace(build, parts=tuple(narrow if part is door else part for part in build.parts))
    assert graver(run(odd, INCHES), run(build, INCHES))
    for turned in (quarter(odd), quarter(quarter(odd)), reflected(odd)):
        assert placed_alike(run(odd, INCHES)) == placed_alike(run(turned, INCHES))


# Told in another order


@wholes
def test_the_order_in_which_a_whole_is_told_changes_no_finding(name: str) -> None:
    one = whole(name)
    for number in range(2):
        assert told_alike(found(one)) == told_alike(found(one, shuffled(one[0], Random(number))))


@FEW
@given(build=MADE_UP, random=st.randoms(use_true_random=False))
def test_the_order_in_which_any_build_is_told_changes_no_finding(build: Build, random: Random) -> None:
    one = free(build)
    assert told_alike(found(one)) == told_alike(found(one, shuffled(build, random)))


def test_of_two_groups_alike_in_count_and_weight_neither_is_the_rest() -> None:
    first, second = sided(), with_ids(sided(), "far-", "Far ")
    both = Build("Two", (*first.parts, *second.parts), (*first.joints, *second.joints))
    other = replace(both, parts=both.parts[::-1], joints=both.joints[::-1])
    names = {"Bottom", "Side", "Far Bottom", "Far Side"}
    assert {one.part for one in loose_parts(both, INCHES)} == names
    assert {one.part for one in loose_parts(other, INCHES)} == names


def with_ids(build: Build, before: str, named: str) -> Build:
    """The build with its parts called otherwise, glued where they were screwed."""
    parts = tuple(replace(one, id=before + one.id, name=named + one.name) for one in build.parts)
    joints = tuple(
        replace(one, kind="glue", holds=before + one.holds, to=before + one.to, fasteners=())
        for one in build.joints
    )
    return replace(build, parts=parts, joints=joints)


# More clearance


def in_the_way(findings: Iterable[Finding]) -> list[Finding]:
    return [one for one in findings if one.check in IN_THE_WAY or one.check.endswith("meets something")]


@pytest.mark.parametrize("name", ["boot_bench", "sorting_stand", "potting_cabinet", "cupboard"])
def test_a_part_taken_away_is_in_nothings_way(name: str) -> None:
    build, shop, notation, loads = whole(name)
    before = in_the_way(found(whole(name)))
    carries = {load.part for load in loads}
    for part in [part for part in build.parts if part.id not in carries][::3]:
        after = found((without(build, part.id), shop, notation, loads))
        assert not graver(in_the_way(after), before), part.id


@FEW
@given(build=heaps(), axis=st.sampled_from(AXES), number=st.integers(0, 20), by=st.integers(1, 40))
def test_a_build_pulled_apart_at_a_plane_has_no_new_overlap(
    build: Build, axis: Axis, number: int, by: int
) -> None:
    r"""What lies beyond a plane goes further, what crosses it grows: nothing comes nearer to anything."""
    plain = tuple(replace(part, features=()) for part in build.parts)
    ends = sorted({part.box.low(axis).mm: part.box.low(axis) for part in plain}.items())
    beyond, more = ends[number % len(ends)][1], L(Fraction(by, 16), "in")
    parts = tuple(replace(part, box=spread_apart(part.box, axis, beyond, more)) for part in plain)
    things = tuple(replace(one, box=spread_apart(one.box, axis, beyond, more)) for one in build.things)
    before = fit(Build("Heap", plain, things=build.things), INCHES)
    after = fit(Build("Heap", parts, things=things), INCHES)
    meet = {"parts overlap", "does not fit"}
    assert {one.what for one in after if one.check in meet} == {
        one.what for one in before if one.check in meet
    }


@FEW
@given(data=st.data(), gap=st.integers(0, 8), more=st.integers(1, 8))
def test_a_wider_gap_round_a_front_lets_it_open_no_less(data: st.DataObject, gap: int, more: int) -> None:
    build = data.draw(cases(Fraction(gap, 16)))
    assume(build.moving)
    front, extra = build.part("front"), L(Fraction(more, 32), "in")
    sides: tuple[Face, ...] = ("left", "right", "bottom", "top")
    free_sides = [face for face in sides if not _hung_at(build, face)]
    ends = {
        face: front.box.face(face) + (extra if face in {"left", "bottom"} else -extra) for face in free_sides
    }
    smaller = replace(front, box=replace(front.box, **ends))
    wider = replace(build, parts=tuple(smaller if part is front else part for part in build.parts))
    before, after = (in_the_way(swing(one, INCHES)) for one in (build, wider))
    assert not graver(map(_met, after), map(_met, before))


def _met(one: Finding) -> Finding:
    """A front that meets something, whether at once or at an angle."""
    return replace(one, check="swing meets something") if one.check == "knuckle gap" else one


def _hung_at(build: Build, face: Face) -> bool:
    """Whether what opens turns about this edge of its front, so that the edge stays."""
    pivot, front = build.moving[0].pivot, build.part("front").box
    across = AXIS_OF[face]
    if pivot is None or pivot.axis == across:
        return False
    return bool(pivot.at.along(across).mm == front.face(face).mm)


# Longer screws


def bites(build: Build) -> list[Finding]:
    """What is said about too little of a screw in the second part; all of it, where it falls short."""
    return [one for one in fastening(build, INCHES) if one.check in {"too little bite", "fastener too short"}]


def joint_by_joint(build: Build) -> list[Build]:
    """Each joint of a build alone, with its two parts."""
    return [
        Build(build.name, (build.part(joint.holds), build.part(joint.to)), (joint,))
        for joint in build.joints
        if joint.fasteners
    ]


def assert_longer_is_no_worse(build: Build, percent: int) -> None:
    for joint in joint_by_joint(build):
        assert _gravest(bites(longer(joint, Fraction(percent, 100)))) >= _gravest(bites(joint))


def _gravest(findings: list[Finding]) -> int:
    """The gravest level, 0 the worst of all; beyond the last where nothing is found."""
    return min((LEVELS.index(one.level) for one in findings), default=len(LEVELS))


@wholes
def test_longer_screws_in_a_whole_never_raise_the_finding_of_too_little_bite(name: str) -> None:
    for percent in (103, 125, 200):
        assert_longer_is_no_worse(whole(name)[0], percent)


@FEW
@given(build=MADE_UP, percent=st.integers(101, 300))
def test_a_longer_screw_in_any_build_never_raises_the_finding_of_too_little_bite(
    build: Build, percent: int
) -> None:
    assert_longer_is_no_worse(build, percent)


def test_of_all_lengths_that_are_sold_the_longer_one_never_bites_less() -> None:
    lengths = [Fraction(quarters, 4) for quarters in range(2, 25)]  # 1/2 to 6 in; the foot is 4 under 3/4
    found = [bites(footed(f"#8 x {length}")) for length in lengths]
    for shorter, one in pairwise(found):
        assert one == [] or _gravest(one) >= _gravest(shorter)
    assert [len(one) for one in found] == sorted((len(one) for one in found), reverse=True)
    assert found[0] != found[-1] == []


# Finer marks


def levels(findings: Iterable[Finding]) -> Counter[Key]:
    """Levels of all but what a mark itself brings about."""
    return Counter((one.level, one.check, one.part) for one in findings if one.check != "rounded places")


@wholes
def test_a_finer_mark_changes_no_level_in_a_whole(name: str) -> None:
    one = whole(name)
    for mark in MARKS:
        assert levels(found(one, mark=Fraction(1, mark))) == levels(found(one))


@FEW
@given(build=MADE_UP, mark=st.sampled_from(MARKS))
def test_a_finer_mark_changes_no_level_in_any_build(build: Build, mark: int) -> None:
    one = free(build)
    assert levels(found(one, mark=Fraction(1, mark))) == levels(found(one))
