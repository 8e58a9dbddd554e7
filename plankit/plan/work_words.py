"""Sentences about the work in its time: what is measured first, tried, fitted, left for later or done meanwhile."""

from collections import Counter
from collections.abc import Iterable

from plankit.build import Alike, Item
from plankit.drawing.part_faces import hinge_edge
from plankit.drawing.words import capital, count_word, listed, plural, within
from plankit.parts import (
    Banding,
    Bore,
    Chamfer,
    Cove,
    Feature,
    Groove,
    LeftOn,
    Notch,
    Part,
    PocketHoles,
    Roundover,
)
from plankit.plan.facts import Draft, Step
from plankit.plan.hardware_rows import CHECKED, plain_name
from plankit.plan.waiting import FITTINGS
from plankit.plan.work import Work
from plankit.plan.work_when import is_seat_of, purpose, when
from plankit.units import Notation

MARKS = {"dry": "dry fit", "by trial": "fitted by trial"}
"""How a step is marked in which something is tried before it is fixed."""
MOST_NAMED = 2
"""So many steps are called by their titles; of more, the numbers are enough."""
_DONE = {Bore: "bored", PocketHoles: "pocket holes drilled", Notch: "notched", Groove: "grooved", Banding: "banded",
         LeftOn: "trimmed", Chamfer: "chamfered", Roundover: "rounded over", Cove: "coved"}  # fmt: skip


def first_words(draft: Draft, work: Work) -> list[str]:
    """Say what is done before anything else in a step: measuring on the piece, and trying without glue."""
    said = [_fit(draft.notation, part) for part in work.fitted]
    said = list(dict.fromkeys(said))
    if work.step.fitting:
        said.append(FITTINGS[work.step.fitting])
    return said


def _fit(write: Notation, part: Part) -> str:
    hung = hinge_edge(part)
    side = "" if hung is None else ", what comes off its width all off the edge across from its hinges"
    return (
        f"{part.name}: measure first ({part.fit_to}), and cut it to that{side}; "
        f"{write.size_both(part.length, part.width)} is what the drawings come to."
    )


def item_words(draft: Draft, work: Work) -> list[str]:
    """Say which hardware is fitted to what, with its screws; what to compare with the things bought comes before."""
    groups: dict[tuple[str, str], dict[tuple[str, ...], list[Item]]] = {}
    for item in work.items:
        names = tuple(draft.build.part(part_id).name for part_id in item.on)
        groups.setdefault((item.name, item.compare), {}).setdefault(names, []).append(item)
    return [
        _item(draft, items, "" if _to_check(items[0][0]) else compare)
        for (_, compare), places in groups.items()
        for items in [list(places.values())]
    ]


def check_words(draft: Draft, work: Work) -> list[str]:
    """Say what to compare with things bought before anything is cut or bored for them, or they are fitted.

    What was compared when its holes were bored in an earlier step is compared again only where more is bored for it.
    """
    first = _bored_for(draft, range(1, work.step.number))
    here = [said for said in _bored_for(draft, [work.step.number]) if said not in first]
    here += [said for item in work.items if (said := _to_check(item)) and (said not in first or _is_bored(work, item))]
    when_ = "Before you bore, check" if dict(work.tools).get("bore") else "Check"
    return [f"{when_} against what you bought. {capital('; '.join(dict.fromkeys(here)))}."] * bool(here)


def _is_bored(work: Work, item: Item) -> bool:
    """Whether a step bores holes for a piece of hardware that it fits."""
    return any(part.id in item.on and is_seat_of(part, feature, item) for part, feature in work.features)


def _bored_for(draft: Draft, numbers: Iterable[int]) -> dict[str, None]:
    """What is to be compared of the hardware that steps bore holes for, and that is fitted after they are done."""
    known, steps = when(draft), set(numbers)
    return {
        said: None
        for number, item in enumerate(draft.build.items)
        if (said := _to_check(item))
        for part in (draft.build.part(part_id) for part_id in item.on)
        for n, feature in enumerate(part.features)
        if (at := known.features.get((part.id, n))) in steps and at < known.items.get(number, 0)
        and is_seat_of(part, feature, item)
    }  # fmt: skip


def _to_check(item: Item) -> str:
    """What to compare of a piece of hardware with the one bought: "Pull: its screws"; "" where that is told with it."""
    bought, _, rest = item.compare.partition(": ")
    return f"{plain_name(item)}: {rest}" if rest and bought.startswith(CHECKED) else ""


def _item(draft: Draft, places: list[list[Item]], compare: str) -> str:
    """Say what is fitted where: the pieces of one kind, those on the same parts together."""
    items = places[0]
    pushed = items[0].kind == "shelf pin"
    said = f"{'Push' if pushed else 'Fit'} {_counted(items)} {_onto(draft, items)}"
    for more in places[1:]:
        said += f", {'another' if len(more) == 1 else count_word(len(more))} {_onto(draft, more)}"
    screws = Counter(fastener.spec.name for fastener in items[0].fasteners)
    if screws:
        each = "each with" if len(items) > 1 or len(places) > 1 else "with"
        said += f", {each} {listed(f'{count} × {name}' for name, count in screws.items())}"
    return f"{said}. {capital(compare)}." if compare else f"{said}."


def _onto(draft: Draft, items: list[Item]) -> str:
    names = [within(draft.build.part(part_id).name) for part_id in items[0].on]
    pushed = items[0].kind == "shelf pin"
    where = (f"the {_of_several(items, n, name)}" for n, name in enumerate(names[: 1 if pushed else None]))
    return f"{'into' if pushed else 'to'} {listed(where)}"


def _counted(items: list[Item]) -> str:
    """How many there are, by the plain name: "the caster", "4 casters"; the list of the step has the whole name."""
    name = plain_name(items[0])
    many = len(items)
    if many > 1 and name[:1].isdigit():
        return f"{count_word(many)} {plural(name)}"
    return f"the {name}" if many == 1 else f"{many} {plural(name)}"


def _of_several(items: Iterable[Item], place: int, name: str) -> str:
    """The name of the parts that stand at one place of several items, in the plural where they are several."""
    return plural(name) if len({item.on[place] for item in items if place < len(item.on)}) > 1 else name


def later_words(draft: Draft, group: Alike) -> str:
    """Say what is done to a part only after it is in place, and in which step; "" where nothing is."""
    known = when(draft)
    found: dict[tuple[str, int], None] = {}
    for part in (*group.parts, *group.other):
        for feature, step in known.later(part):
            found[_called(feature), step] = None
        there, trimmed = known.arrivals.get(part.id), known.trimmed.get(part.id)
        if there and trimmed and trimmed > there:
            found["trimmed to size", trimmed] = None
    return listed(f"{done} in step {step}" for done, step in found)


def _called(feature: Feature) -> str:
    done = _DONE.get(type(feature), "cut")
    use = purpose(feature)
    return f"{done} ({use})" if use else done


def meanwhile_words(draft: Draft, numbers: Iterable[int]) -> str:
    """Say which later steps can be done while something dries."""
    steps: list[Step] = [draft.steps[number - 1] for number in numbers]
    if len(steps) <= MOST_NAMED:
        said = listed(f"step {step.number} ({step.title[:1].lower()}{step.title[1:]})" for step in steps)
    else:
        said = f"steps {listed(runs([step.number for step in steps]))}"
    return f"Meanwhile you can do {said}." if steps else ""


def runs(numbers: list[int]) -> list[str]:
    """Return ascending numbers with three and more in a row drawn together: "3 to 8", "10"."""
    found: list[list[int]] = []
    for number in numbers:
        if found and found[-1][-1] == number - 1:
            found[-1].append(number)
        else:
            found.append([number])
    short = 2
    return [
        words
        for run in found
        for words in ([f"{run[0]} to {run[-1]}"] if len(run) > short else [str(number) for number in run])
    ]
