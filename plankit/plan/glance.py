"""What a reader wants to know first: size, weight, cost, time, stock; and what it comes to without the extras."""

from plankit.build.surroundings import Niche, Surrounding, carried
from plankit.plan.cut_list import CutPlan, cut_plan
from plankit.plan.facts import Draft
from plankit.plan.lists import shopping_list
from plankit.plan.optional import optional_steps, step_words, without_optional
from plankit.plan.timeline import timeline
from plankit.plan.work import labels


def glance(draft: Draft, cut: CutPlan, total: str) -> list[dict[str, str]]:
    """Return what stands at a glance, a label and a value a row."""
    write, box = draft.notation, draft.build.box
    rows = [
        (
            "Outside size",
            f"{write.size_both(box.extent('x'), box.extent('y'), box.extent('z'))} (width × depth × height)",
        ),
        ("Weight", f"about {write.mass(draft.build.weight)}, without hardware and finish"),
        ("Cost", _cost(draft, cut, total)),
        ("Working time", _time(draft)),
        ("Boards and sheets", cut.stock_words),
        ("Pieces to cut", str(sum(piece.count for piece in cut.pieces))),
    ]
    start_to_finish = _days(draft)
    if start_to_finish:
        rows.insert(4, ("From start to finish", start_to_finish))
    if draft.facts.outdoors:
        rows.append(("Where it stands", "outdoors, in the weather"))
    if draft.facts.skill:
        rows.append(("Skill", draft.facts.skill))
    rows += [
        (place.name[:1].upper() + place.name[1:], _where(draft, place)) for place in draft.build.surroundings
    ]
    extra = _without(draft, cut)
    if extra:
        rows.append(("Without the extras", extra))
    return [{"label": label, "value": value} for label, value in rows]


def _where(draft: Draft, place: Surrounding) -> str:
    """Say how the piece goes through an opening, or how much room its niche leaves."""
    write, box = draft.notation, draft.build.box
    size = (box.extent("x"), box.extent("y"), box.extent("z"))
    if isinstance(place, Niche):
        beside, _, above = (room - own for room, own in zip(place.size, size, strict=True))
        said = f"{write.both(beside.portion(2))} free at each side, {write.both(above)} above"
        return "too small for it" if beside.mm < 0 or above.mm < 0 else said
    way = carried(size, place)
    if way is None:
        return f"too small for it: {write.size_both(place.width, place.height)}"
    if way.tilted:
        return f"goes through on the slant, with its face of {write.size_both(*way.face)} first"
    wide, high = way.face if place.width <= place.height else reversed(way.face)
    return f"goes through an opening {write.both(wide)} wide and {write.both(high)} high"


def _cost(draft: Draft, cut: CutPlan, total: str) -> str:
    if total == "not known":
        return f"{total}: no prices are listed"
    bare = without_optional(draft)
    less = shopping_list(bare, _cut_of(draft, bare, cut))[1] if bare else total
    if less == total:
        return f"{total} for what is bought new"
    return f"{total} for what is bought new; {less} without the optional {step_words(optional_steps(draft))}"


def _cut_of(draft: Draft, bare: Draft, cut: CutPlan) -> CutPlan:
    """The cutting without the optional steps; the same where they bring no part and take none smaller."""
    sizes = {part.id: part.cut_size() for part in draft.build.parts}
    if sizes == {part.id: part.cut_size() for part in bare.build.parts}:
        return cut
    return cut_plan(bare, labels(draft)[1])


def _without(draft: Draft, cut: CutPlan) -> str:
    """Say what else is less without the optional steps: pieces, stock, weight; "" where nothing is."""
    bare = without_optional(draft)
    if bare is None or len(bare.build.parts) == len(draft.build.parts):
        return ""
    less = _cut_of(draft, bare, cut)
    pieces = draft.notation.count(sum(piece.count for piece in less.pieces), "piece")
    return (
        f"leaving out the optional {step_words(optional_steps(draft))}: {pieces} to cut from {less.stock_words}, "
        f"about {draft.notation.mass(bare.build.weight)}"
    )


def _time(draft: Draft) -> str:
    write, minutes = draft.notation, draft.minutes
    extra = sum(step.minutes for step in draft.steps if step.optional)
    time = write.minutes(minutes) if minutes or extra else "not given"
    time += f", and {write.minutes(extra)} for optional steps" if extra else ""
    dries = draft.coating is not None or any(step.waits for step in draft.steps)
    return f"{time}; drying comes on top" if dries else time


def _days(draft: Draft) -> str:
    """Say how many days it takes with drying; "" where the steps do not say how long they take, or nothing dries."""
    whole = timeline(draft)
    if whole is None:
        return ""
    dries = any(one.pause for one in whole.stretches) or draft.coating is not None
    return f"{draft.notation.count(whole.days, 'day')}{' with drying' if dries else ''}"
