"""What is said of a wall in the step that goes to it: where its screws go, and how the piece is hung on its cleats."""

from plankit.build.wall import Wall, WallScrew, cleat_under
from plankit.drawing.drills import drill_named
from plankit.drawing.words import listed, within
from plankit.parts import Part
from plankit.plan.facts import Draft, Step
from plankit.plan.work import Work
from plankit.reference import wood_screw
from plankit.units import Length


def wall_words(draft: Draft, work: Work) -> list[str]:
    """Say how each part of a step is screwed to the wall: height, level, studs, lead holes, and then the screws."""
    stands = draft.build.wall
    here = {item.on[0] for item in work.items if item.kind == "wall fixing"}
    if stands is None:
        return []
    held = [one for one in dict.fromkeys(screw.part for screw in stands.screws) if one in here]
    return [line for one in held for line in _screwed(draft, stands, draft.build.part(one))]


def _screwed(draft: Draft, stands: Wall, part: Part) -> list[str]:
    write, screws = draft.notation, stands.screws_in(part.id)
    box, name = draft.build.box, within(part.name)
    up, places = part.box.top - box.bottom, dict.fromkeys(screw.at.x.mm for screw in screws)
    across = [write.both(Length.of_mm(mm) - box.left) for mm in sorted(places)]
    one = screws[0]
    hold = f"With a second person, hold the piece level with its {name}" if _in_the_piece(draft, part) else (
        f"Hold the {name} level"
    )  # fmt: skip
    return [
        "Find the studs, and mark their middles; look for wires and pipes beside them before you drill.",
        f"Decide how high the piece is to hang, and draw a level line on the wall {write.both(up)} above where "
        f"its lower edge will be: the upper edge of the {name} goes there.",
        f"{hold} at the line, so that its {write.count(len(screws), 'hole')}, {listed(across)} from the "
        f"piece's left end, {'lie' if len(screws) > 1 else 'lies'} on the middles of the studs.",
        f"Bore {_lead(draft, stands, one)} through the wallboard and {write.both(one.into)} into the stud, and drive "
        f"{write.count(len(screws), one.spec.kind)}, {one.spec.name.removesuffix(f' {one.spec.kind}')}: "
        "into wood all of them. In a wall without studs of wood use the anchors that its makers name.",
    ]


def _in_the_piece(draft: Draft, part: Part) -> bool:
    """Whether a part is joined to others: then the whole piece is held up with it."""
    return any(part.id in {joint.holds, joint.to} for joint in draft.build.joints)


def _lead(draft: Draft, stands: Wall, screw: WallScrew) -> str:
    if screw.spec.gauge is None:
        return "lead holes"
    return f"{drill_named(wood_screw(screw.spec.gauge).drill(stands.gravity), draft.notation)} lead holes"


def hung_in(draft: Draft) -> Step | None:
    """Return the step in which the piece is hung on its cleats: the one that says so, or the last that brings parts.

    None where there are no cleats, or not all of them have arrived.
    """
    if not _hooked(draft):
        return None
    said = [step for step in draft.steps if step.hangs]
    brought = [step for step in draft.steps if step.brings]
    last = (said or brought)[-1:]
    return last[0] if last else None


def hanging_words(draft: Draft, work: Work) -> list[str]:
    """Say how the piece is hung, in the step in which it is; nothing in any other."""
    if work.step != hung_in(draft):
        return []
    return [
        f"Lift the piece to the wall, a little above its place, and let it down until the {within(upper.name)} hooks "
        f"over the {within(lower.name)} along its whole length; pull at its lower edge to see that it holds."
        for upper, lower in _hooked(draft)
    ]


def _hooked(draft: Draft) -> list[tuple[Part, Part]]:
    """Each cleat of the piece, and the one on the wall that it hooks over."""
    pairs = ((part, cleat_under(part, draft.build.parts)) for part in draft.build.parts)
    return [(upper, lower) for upper, lower in pairs if lower is not None]
