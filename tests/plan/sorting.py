"""A small stand with a tilt-out bin over another, as its author writes it; a door, a flap and a drawer beside."""

from plankit.build import Moving
from plankit.plan import Plan
from plankit.plan.handles import PartHandle
from plankit.plan.opened import Opened
from plankit.stock import lumber, sheet
from plankit.units import L

PLY, THIN = sheet("plywood", "3/4"), sheet("plywood", "1/2")
CLEAT = lumber("1x2", species="Douglas-fir")


def case(name: str = "Sorting stand", width: str = "24") -> tuple[Plan, dict[str, PartHandle]]:
    """A case 24 wide, 14 deep and 36 high, with a shelf half way up."""
    plan = Plan(name, unit="in", mark="1/16")
    wide = plan.given(width=width)
    left = plan.panel("Side", PLY, left=0, front=0, back="14", bottom=0, top="36")
    right = plan.panel("Side", PLY, right=wide, front=0, back="14", bottom=0, top="36")
    between = {"left": left.right, "right": right.left, "front": 0, "back": "14"}
    parts = {
        "left": left,
        "right": right,
        "floor": plan.panel("Bottom", PLY, **between, bottom="3"),
        "shelf": plan.panel("Shelf", PLY, **between, bottom="18"),
        "top": plan.panel("Top", PLY, **between, top="36"),
    }
    return plan, parts


def front_of(plan: Plan, parts: dict[str, PartHandle], name: str = "Front", gap: str = "1/8") -> PartHandle:
    """A front between the sides, over the bottom and under the shelf, with a gap all round."""
    return plan.panel(
        name, PLY, left=parts["left"].right + gap, right=parts["right"].left - gap, front=0,
        bottom=parts["floor"].top + gap, top=parts["shelf"].bottom - gap,
    )  # fmt: skip


def holder(plan: Plan, front: PartHandle) -> list[PartHandle]:
    """Two cheeks and a tray behind a front."""
    cheek = plan.panel(
        "Cheek",
        THIN,
        left=front.left + "1/2",
        front=front.back,
        back="8",
        bottom=front.bottom,
        top=front.top - "3",
    )
    other = plan.mirror(cheek, of=front)
    tray = plan.panel(
        "Tray", THIN, left=cheek.right, right=other.left, front=front.back, back="8", bottom=front.bottom
    )
    return [cheek, other, tray]


def stand(angle: str = "22 deg") -> tuple[Plan, Opened, dict[str, PartHandle]]:
    """The stand with its lower bin, stopped by a block under the shelf, closing on a strip."""
    plan, parts = case()
    front = front_of(plan, parts)
    held = holder(plan, front)
    under = parts["shelf"].bottom
    strip = plan.board(
        "Strip", CLEAT, runs="left-right", left=parts["left"].right, right=parts["right"].left, front=front.back,
        wide="front-back", top=under,
    )  # fmt: skip
    tilting = plan.tilt_out("Lower bin", front, with_=held, stop=strip)
    back = tilting.stop_place(angle, face="back", low=under - "1 1/2", high=under)
    block = plan.board(
        "Stop block", CLEAT, runs="left-right", left=held[0].left, length="3", back=back, wide="up", top=under
    )
    tilting.stopped_by(block)
    return plan, tilting, {**parts, "front": front, "block": block, "strip": strip}


def with_drawer(plan: Plan, part: PartHandle) -> Plan:
    """The plan with one of its parts as a drawer that comes 9 in out of the front."""
    plan._moving.append(Moving("Till", "drawer", (part.id,), slides=("front", L("9 in"))))
    return plan
