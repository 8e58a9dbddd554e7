"""Sound builds raise no alarm; each of the usual mistakes, one line of a build changed, is caught by its own check."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from inspect import getsource

import pytest

from plankit import Plan
from plankit.checks import check
from plankit.errors import PlanError
from plankit.finding import Finding, Level
from plankit.plan.document import in_steps
from tests.checks import seeded
from tests.checks.seeded import cupboard, framed, tilting

type Build = Callable[[], Plan]
type Said = tuple[Level, str, str]
"""What a finding is about: its level, its check and the part."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """One line of a build, changed.

    line, instead  what stands in that line, and what a hasty author writes
    caught_by      the check that should tell, with the part it names
    and_so         what else is wrong because of it
    """

    name: str
    build: Build
    line: str
    instead: str
    caught_by: Said
    and_so: tuple[Said, ...] = ()


SOUND: dict[Build, tuple[Said, ...]] = {
    cupboard: (
        ("look at", "screw in end grain", "Foot"),
        ("look at", "screw in end grain", "Front cleat"),
        ("look at", "screw in end grain", "Back cleat"),
        ("look at", "tips over", "Cupboard"),  # a child hangs on the door,
        ("look at", "tips over", "Cupboard"),  # … or on the drawer,
        ("look at", "tips over", "Cupboard"),  # … or it is pulled at the top
        ("look at", "too heavy for one", "Cupboard"),
        ("for information", "near an edge", "Cupboard"),
        ("for information", "no access for a driver", "Front cleat"),  # a short bit will do
        ("for information", "no access for a driver", "Back cleat"),
        ("for information", "too short for a machine", "Foot"),
        ("for information", "within a child's reach", "Cupboard"),
    ),
    framed: (
        ("look at", "tips over", "Potting stand"),
        ("look at", "too heavy for one", "Potting stand"),
        ("for information", "little room beside a driver", "Frame back rail"),
        ("for information", "near an edge", "Potting stand"),
        ("for information", "too little bite", "Frame back rail"),
        ("for information", "holes meet", "Frame back rail"),  # a brad's tip ends in a pocket
    ),
    tilting: (
        ("look at", "tips over", "Sorting stand"),  # a child hangs on the bin
        ("look at", "too heavy for one", "Sorting stand"),
        ("for information", "near an edge", "Sorting stand"),
        ("for information", "too little bite", "Strip"),
        ("for information", "within a child's reach", "Sorting stand"),
    ),
}
MISTAKES = (
    Mistake(
        "a foot screw longer than bottom and foot together: 5 in for 3/4 + 4",
        cupboard, 'screws="#8 x 2 1/2", each=2', 'screws="#8 x 5", each=2',
        ("must fix", "fastener comes through", "Foot"),
    ),
    Mistake(
        "a foot screw that leaves by the tapered faces of the feet, left ones and right ones",
        cupboard, 'screws="#8 x 2 1/2", each=2', 'screws="#8 x 4", each=2',
        ("must fix", "fastener comes through", "Foot"), (("must fix", "fastener comes through", "Foot"),),
    ),
    Mistake(
        "a foot screw with too little bite: 1 1/4 less 3/4 is 1/2",
        cupboard, 'screws="#8 x 2 1/2", each=2', 'screws="#8 x 1 1/4", each=2',
        ("look at", "too little bite", "Foot"),
    ),
    Mistake(
        "two pocket holes in the end of a 1x2",
        framed, 'into=[divider, rear[1]], face="front")', 'into=[divider, rear[1]], face="front", each=2)',
        ("must fix", "may split", "Middle rail"),
    ),
    Mistake(
        "a bin so deep that it meets the rail on its way out",
        tilting, 'back="9",', 'back="12",',
        ("must fix", "swing meets something", "Bin"),
    ),
    Mistake(
        "a bin that turns about its inner edge and swings into the bottom",
        tilting, "turns_about=hung,", 'turns_about="bottom back",',
        ("must fix", "swing meets something", "Bin"),
    ),
    Mistake(
        "a hinge at the height of the shelf",
        cupboard, "plan.hinges(door, on=side)", 'plan.hinges(door, on=side, at=["3 1/2", "10 1/4"])',
        ("must fix", "hinge meets something", "Door"),
        (("must fix", "hinge meets something", "Door"),),
    ),
    Mistake(
        "a solid top screwed down along both edges without slots",
        cupboard, 'plan.fasten_top(top, to=cleats, fixed_along="back", screws="#8 x 1 3/4")',
        'plan.screw(top, through=cleats, screws="#8 x 1 3/4", each=3)',
        ("must fix", "held across the grain", "Top"),
    ),
    Mistake(
        "screws through the cleats that come out of the top: 2 1/2 for 3/4 + 1 3/8, front and back",
        cupboard, 'fixed_along="back", screws="#8 x 1 3/4"', 'fixed_along="back", screws="#8 x 2 1/2"',
        ("must fix", "fastener comes through", "Top"), (("must fix", "fastener comes through", "Top"),),
    ),
    Mistake(
        "an adjustable shelf without room at its ends",
        cupboard, 'front=side.front + "1", back=side.back)', 'front=side.front + "1", back=side.back, clearance=0)',
        ("must fix", "shelf too long", "Shelf"),
    ),
    Mistake(
        "an adjustable shelf that does not reach over its front pins",
        cupboard, 'front=side.front + "1", back=side.back)', 'front=side.front + "3", back=side.back)',
        ("must fix", "shelf falls off its pins", "Shelf"),
    ),
    Mistake(
        "a shelf of 1/4 in plywood",
        cupboard, 'plan.adjustable_shelf("Shelf", PLY,', 'plan.adjustable_shelf("Shelf", THIN,',
        ("look at", "bends too far", "Shelf"),
    ),
    Mistake(
        "a divider that is to go in when both frames are joined",
        framed, '("Divider", [divider, middle]), ("Rear", rear)]', '("Rear", rear), ("Divider", [divider, middle])]',
        ("must fix", "cannot be put in", "Divider"),
    ),
    Mistake(
        "brads along the edges of a back that reaches to the floor, below everything they could go into",
        cupboard, 'bottom=floor.bottom, top="30")', 'bottom=foot.bottom, top="30")',
        ("must fix", "nothing behind it", "Back"),
    ),
    Mistake(
        "drawer slides longer than the case: 18 in for 14 3/4",
        cupboard, "thin=THIN, front=PLY)", 'thin=THIN, front=PLY, slide="18")',
        ("must fix", "slide longer than the case", "Drawer"),
        (("must fix", "slide meets something", "Drawer side"),),
    ),
    Mistake(
        "a drawer as high as the case, into the cleat",
        cupboard, "bottom=rail, top=cleats[0],", 'bottom=rail, top="30",',
        ("must fix", "drawer meets something", "Drawer"),
        (("must fix", "parts overlap", "Front cleat"),) * 4,  # its front, and the box's front and sides
    ),
    Mistake(
        "an inset door without a gap",
        cupboard, "bottom=floor, top=rail)", "bottom=floor, top=rail, gap=0)",
        ("must fix", "knuckle gap", "Door"),
        (("look at", "small gap", "Door"),) * 3,  # below, above and at the free edge
    ),
    Mistake(
        "a door that reaches over the rail above it",
        cupboard, "bottom=floor, top=rail)", "bottom=floor, top=rail.top)",
        ("must fix", "parts overlap", "Rail"),
        (("must fix", "knuckle gap", "Door"), ("for information", "unequal gaps", "Door")),
    ),
    Mistake(
        "hinge cups bored 20 mm deep into 19 mm",
        cupboard, "plan.hinges(door, on=side)", 'plan.hinges(door, on=side, depth="20 mm")',
        ("must fix", "hinge cup breaks through", "Door"),
    ),
    Mistake(
        "one hinge for a door that takes two; it sits in the middle, where the shelf is",
        cupboard, "plan.hinges(door, on=side)", "plan.hinges(door, on=side, count=1)",
        ("must fix", "too few hinges", "Door"),
        (("must fix", "hinge meets something", "Door"), ("must fix", "hinge meets something", "Door")),
    ),
    Mistake(
        "a pull too near the end of the door for its screws",
        cupboard, 'right="2", top="6")', 'right="2", top="1")',
        ("must fix", "hole breaks out", "Door"),
    ),
    Mistake(
        "banding on the lower edges of the sides, which are then joined: glued and screwed",
        cupboard, 'plan.band(side, other, edges="front")', 'plan.band(side, other, edges="front bottom")',
        ("look at", "banding in a joint", "Side"), (("look at", "banding in a joint", "Side"),),
    ),
    Mistake(
        "a shelf that runs into the back",
        cupboard, 'front=side.front + "1", back=side.back)', 'front=side.front + "1", back=back.back)',
        ("must fix", "parts overlap", "Back"),
    ),
    Mistake(
        "a panel that stands proud of the rail above it, whose screws come out behind",
        framed, 'back=rear[1].back, bottom="13")', 'back=rear[1].back - "1/4", bottom="13")',
        ("must fix", "not flush", "Rear panel"),
        (("must fix", "fastener comes through", "Middle rail"),),
    ),
    Mistake(
        "a back with its lowest brads at the height of a rail's screws",
        framed, 'front=rear[0].back, bottom="1/2", top="30")', 'front=rear[0].back, bottom=0, top="30")',
        ("must fix", "fasteners meet", "Frame post"),
    ),
    Mistake(
        "a third screw up into the top, over the divider, front and back; behind, where a brad is",
        framed, 'screws="#8 x 2 1/2", each=2)', 'screws="#8 x 2 1/2", each=3)',
        ("must fix", "no access for a driver", "Frame front rail"),
        (("must fix", "no access for a driver", "Frame back rail"), ("must fix", "fasteners meet", "Frame back rail")),
    ),
    Mistake(
        "a top's screws so near the ends of the rails that its slots run into the pocket holes there",
        framed, 'screws="#8 x 2 1/2", each=2)', 'screws="#8 x 2 1/2", each=2, inset="1 1/2")',
        ("must fix", "holes meet", "Frame front rail"),
    ),
    Mistake(
        "screws 3/16 in from the ends of solid rails, close to the sides",
        tilting, 'screws="#8 x 1 1/2", each=2)', 'screws="#8 x 1 1/2", each=2, inset="3/16")',
        ("look at", "may split", "Rail"),
        (("look at", "may split", "Stop block"), ("must fix", "no access for a driver", "Shelf")),
    ),
    Mistake(
        "a stop block beside the bin; so short that its screws stand near its ends",
        tilting, 'left=cheek.left, length="3"', 'left=left.right, length="5/8"',
        ("must fix", "stop that misses", "Bin"),
        (
            ("look at", "may split", "Stop block"),
            ("look at", "holes meet", "Shelf"),  # its two screws stand 5/16 in apart
            ("for information", "little room beside a driver", "Shelf"),
        ),
    ),
    Mistake(
        "contents that do not go in: 6 in through an opening half as wide",
        tilting, 'size=("10", "3", "4")', 'size=("10", "6", "4")',
        ("must fix", "contents do not go in", "Bin"),
    ),
    Mistake(
        "a bin that reaches into the back of the case, with its bottom, its back and its sides",
        tilting, 'back="9",', 'back="16",',
        ("must fix", "knuckle gap", "Bin"), (("must fix", "parts overlap", "Back"),) * 4,
    ),
    Mistake(
        "a case so shallow that a pull at the top tips it",
        tilting, 'back="15 3/4"', 'back="11 1/2"',
        ("look at", "tips over", "Sorting stand"),
    ),
    Mistake(
        "a corner cut off a side where its cleat is screwed on and its back pinned",
        cupboard, 'plan.pin(back, edges="left right bottom")',
        'plan.pin(back, edges="left right bottom"); side.notch(back="2", top="3")',
        ("must fix", "nothing under its head", "Side"),
        (("must fix", "joint does not close", "Side"), ("must fix", "nothing behind it", "Back")),
    ),
    Mistake(
        "a rail notched from both edges until nothing is left between: 8 + 8 in of 15 1/2",
        cupboard, 'plan.pin(back, edges="left right bottom")',
        'plan.pin(back, edges="left right bottom"); '
        '[rail.notch_edge(at, depth="8", width="2", left="10") for at in ("front", "back")]',
        ("must fix", "cut through", "Rail"),
        (("for information", "no access for a driver", "Front cleat"),),
    ),
    Mistake(
        "a 1/2 in hole bored into a cleat on the very line of its screw",
        cupboard, 'screws="#8 x 2", each=1)',
        'screws="#8 x 2", each=1); cleats[0].bore("left", "1/2", depth="2", front="3/4", bottom="3/8")',
        ("must fix", "screw in a wide hole", "Front cleat"),
        (("must fix", "holes meet", "Front cleat"),),
    ),
    Mistake(
        "a dado 5/8 in deep across the middle of a 3/4 in shelf",
        cupboard, 'plan.pin(back, edges="left right bottom")',
        'plan.pin(back, edges="left right bottom"); shelf.groove("top", width="3/4", depth="5/8", left="11 1/2")',
        ("look at", "bends too far", "Shelf"),
    ),
    Mistake(
        "a back that is pinned along one side only",
        tilting, "into=[left, right, floor, shelf, top])", "into=[left])",
        ("look at", "may rack", "Sorting stand"),
    ),
)  # fmt: skip
REFUSED = (
    (
        "a bottom that stands 1/4 in above its feet",
        cupboard, "bottom=foot.top)", 'bottom=foot.top + "1/4")', r"Foot: it does not touch Bottom.*1/4\sin between",
    ),
    (
        "a divider that is notched round the front rails only",
        framed, "divider.notch_round(rail)", "divider.notch_round(rail) if rail in front else None",
        r"Divider: it does not touch Frame back rail.*3/4\sin into each other",
    ),
    (
        "a top one board wide: 9 1/4 in for 16 1/2",
        cupboard, "boards=2, flatten", "boards=1, flatten", r"Top: one board of 2x10 is 9 1/4\sin wide",
    ),
    (
        "a stop block where nothing comes by",
        tilting, '"16 deg"', '"8 deg"', "nothing of it comes to meet a stop there",
    ),
)  # fmt: skip
"""Mistakes that the line itself refuses, so that no check sees them."""


def said(plan: Plan) -> Counter[Said]:
    draft = plan.draft()
    found: tuple[Finding, ...] = check(in_steps(draft), draft.shop, draft.notation, draft.loads)
    return Counter((one.level, one.check, one.part) for one in found)


@cache
def before(build: Build) -> Counter[Said]:
    return said(build())


def with_mistake(build: Build, line: str, instead: str) -> Plan:
    """The plan that a build makes with one of its lines changed."""
    source = getsource(build)
    assert source.count(line) == 1, "a mistake is seeded in one place"
    assert "\n" not in line + instead
    space = dict(vars(seeded))
    exec(source.replace(line, instead), space)
    made = space[build.__name__]()
    assert isinstance(made, Plan)
    return made


@pytest.mark.parametrize("build", SOUND, ids=lambda build: build.__name__)
def test_a_sound_build_has_nothing_to_fix_and_just_this_to_look_at(build: Build) -> None:
    assert before(build) == Counter(SOUND[build])
    assert not [one for one in before(build) if one[0] == "must fix"]


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.name)
def test_a_mistake_is_caught_by_its_check_and_raises_only_what_follows_from_it(mistake: Mistake) -> None:
    found = said(with_mistake(mistake.build, mistake.line, mistake.instead)) - before(mistake.build)
    assert found == Counter([mistake.caught_by, *mistake.and_so])


@pytest.mark.parametrize(
    ("build", "line", "instead", "words"), [one[1:] for one in REFUSED], ids=[one[0] for one in REFUSED]
)
def test_a_mistake_that_leaves_nothing_to_check_is_refused_where_it_is_written(
    build: Build, line: str, instead: str, words: str
) -> None:
    with pytest.raises(PlanError, match=words):
        with_mistake(build, line, instead)


def test_at_least_sixteen_mistakes_are_caught_by_as_many_checks() -> None:
    assert len({(one.build, one.line, one.instead) for one in MISTAKES}) == len(MISTAKES) >= 16
    assert len({one.caught_by[1] for one in MISTAKES}) >= 16
