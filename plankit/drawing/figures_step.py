"""One step: what is there recedes, what arrives stands out, with the screws, the way in and the places."""

from collections.abc import Sequence
from dataclasses import dataclass

from plankit.build import Alike, Build, Fastener, Item, alike
from plankit.drawing.arriving import Screws, arrows_in, screws_shown
from plankit.drawing.choosing import CANDIDATES, best_direction, most_seen, named
from plankit.drawing.direction import Direction
from plankit.drawing.figures_whole import fitted, ids_to_labels, note_below, regions, wanted
from plankit.drawing.labels import labels as placed_labels
from plankit.drawing.metrics import text_width
from plankit.drawing.occupied import Occupied
from plankit.drawing.placing import framed, on_the_page
from plankit.drawing.primitives import Figure, Fill, LineKind, Primitive
from plankit.drawing.seen import HARDWARE, fills_of, lines_of, outside, shown_in_steps, view_of
from plankit.drawing.step_places import Place, place_dimensions, places
from plankit.drawing.view import View
from plankit.drawing.words import count_word, counted, listed, names_of, plural, sentence, unit_note, within
from plankit.errors import PlanError
from plankit.parts import Part
from plankit.units import Notation

WIDE, HIGH = 90.0, 66.0
"""Room for the view itself on the page, in mm."""
LINE = 150.0
"""The longest line of words under it, in mm."""


def step(  # noqa: PLR0917 - all that a step shows
    build: Build,
    number: int,
    title: str,
    arriving: tuple[str, ...],
    present: tuple[str, ...],
    fasteners: tuple[Fastener, ...],
    notation: Notation,
    direction: str | None = None,
    labels: Sequence[Alike] = (),
    hardware: tuple[tuple[Item, ...], tuple[Item, ...]] = ((), ()),
    open_ones: tuple[str, ...] = (),
) -> Figure:
    """One step: what is there in thin grey, what arrives with wide outlines and a tint.

    arriving, present  ids of parts; a part that is in both counts as arriving
    fasteners          the screws and brads driven in this step; those of hardware that is drawn are not shown
    direction          where it is seen from ("from below", "from the front" …); where it is None,
                       the side that shows most of what arrives and most screw heads
    labels             the groups that carry the labels; those of the whole build if left out
    hardware           what is fitted in this step, and what is there already; both drawn as plain blocks
    open_ones          names of doors that stand open, so that what arrives can go in; they are not among `present`
    raises             PlanError where a part is not in the build, or nothing arrives and nothing is there
    """
    coming = _parts(build, arriving, number)
    there = [part for part in _parts(build, present, number) if part.id not in set(arriving)]
    if not coming and not there:
        raise PlanError(
            "this step shows no part.", where=f"step {number}", remedy="Name the parts it brings."
        )
    if direction:
        way = named(direction)
    elif coming or not shown_in_steps(hardware[0]):
        way = best_direction(coming or there, there, fasteners)
    else:
        way = _shows_hardware(there, hardware[0])
    groups = tuple(labels) or alike(build)
    fitted_now, fitted_before = shown_in_steps(hardware[0]), outside(hardware[1])
    own = {fastener for item in fitted_now for fastener in item.fasteners}
    driven = tuple(fastener for fastener in fasteners if fastener not in own)
    shown = _Shown(
        number, title, tuple(coming), tuple(there), driven, way, groups, notation, fitted_now, fitted_before, open_ones
    )
    return on_the_page(lambda room: _drawn(shown, room))


def _shows_hardware(there: Sequence[Part], fitted: Sequence[Item]) -> Direction:
    """The direction that shows most of what is fitted where nothing else arrives; the usual one if none shows more."""

    def seen(name: str) -> float:
        view = view_of(there, name, items=shown_in_steps(fitted), every=True)
        return sum(view.visible_area(f"{HARDWARE}{number}") for number in range(len(shown_in_steps(fitted))))

    return most_seen([seen(name) for name in CANDIDATES])


@dataclass(frozen=True, slots=True)
class _Shown:
    """What one step's figure is made from."""

    number: int
    title: str
    coming: tuple[Part, ...]
    there: tuple[Part, ...]
    screws: tuple[Fastener, ...]
    way: Direction
    groups: tuple[Alike, ...]
    notation: Notation
    fitted: tuple[Item, ...]
    fitted_before: tuple[Item, ...]
    open_ones: tuple[str, ...] = ()

    @property
    def open_words(self) -> list[str]:
        """What stands open and is not drawn, in a sentence without its stop; none where nothing does."""
        names = listed(within(name) for name in dict.fromkeys(self.open_ones))
        many = "stands" if len(self.open_ones) == 1 else "stand"
        return [f"The {names} {many} open and {'is' if many == 'stands' else 'are'} not drawn"] if names else []

    @property
    def new(self) -> frozenset[str]:
        """What arrives, by its id in the view."""
        return frozenset(
            [*(part.id for part in self.coming), *(f"{HARDWARE}{number}" for number in range(len(self.fitted)))]
        )


def _drawn(shown: _Shown, room: float) -> Figure:
    new = shown.new
    view = view_of((*shown.coming, *shown.there), shown.way, items=(*shown.fitted, *shown.fitted_before), every=True)
    placing = fitted(view, WIDE * room, HIGH * room)

    def kind(part: str, seen: str) -> LineKind:
        if part not in new:
            return "receding"
        return "outline" if seen == "outline" else "visible"

    def fill(part: str) -> Fill:
        return "arriving" if part in new else "receding"

    drawing: tuple[Primitive, ...] = (*fills_of(view, placing, fill), *lines_of(view, placing, kind))
    parts = (*shown.coming, *shown.there)
    driven = screws_shown(shown.screws, parts, view, placing)
    screws = driven.items
    busy = Occupied()
    busy.add(screws)
    arrows = arrows_in(shown.coming, shown.there, view, placing, busy)
    found = places(shown.coming, shown.there)
    sizes = place_dimensions(found, view, placing, shown.notation, (*drawing, *arrows, *screws))
    taken = Occupied()
    taken.add((*drawing, *arrows, *screws, *sizes))
    named_parts = placed_labels(wanted(shown.groups, view, placing, new), taken, regions(view, placing))
    items: tuple[Primitive, ...] = (*drawing, *arrows, *screws, *sizes, *named_parts)
    for line in _in_lines(_note(shown, driven, bool(sizes))):
        items = (*items, note_below(items, line))
    title = f"Step {shown.number}: {shown.title}"
    return framed(f"step-{shown.number}", items, title, _words(shown, view, found, driven))


def _in_lines(said: Sequence[str]) -> list[str]:
    """Sentences in as few lines as the page is wide enough for, the last without a full stop."""
    lines: list[str] = []
    for one in said:
        longer = f"{lines[-1]}. {one}" if lines else one
        if lines and text_width(longer, 8.0) > LINE:
            lines[-1] += "."
            lines.append(one)
        else:
            lines[max(len(lines) - 1, 0) :] = [longer]
    return lines


def _note(shown: _Shown, driven: Screws, sized: bool) -> list[str]:
    said = []
    if _from_below(shown.way):
        said.append("You look up at it from below; it is not turned over")
    elif "back" in shown.way.name:
        said.append("Seen from behind")
    if sized:
        said.append(unit_note(shown.notation))
    said += shown.open_words
    called = _called(shown.screws)
    if driven.dashed:
        said.append(f"Dashed: {plural(called)} whose heads are on the far side")
    if driven.hidden:
        more = "more " if driven.seen + driven.dashed else ""
        counted_so = f"{called} is" if driven.hidden == 1 else f"{plural(called)} are"
        said.append(f"{driven.hidden} {more}{counted_so} hidden")
    return said


def _called(fasteners: Sequence[Fastener]) -> str:
    """What all fasteners of a step are in one word: "screw" or "brad"; "fastener" where they are of several kinds."""
    kinds = {fastener.spec.kind.rpartition(" ")[2] for fastener in fasteners}
    return kinds.pop() if len(kinds) == 1 else "fastener"


def _from_below(way: Direction) -> bool:
    return way.name.startswith("from below") or way.name == "bottom"


def _words(shown: _Shown, view: View, found: Sequence[Place], driven: Screws) -> str:
    named_labels = ids_to_labels(shown.groups)
    said = [f"{view.direction.words}."]
    if _from_below(view.direction):
        said.append("You look up at it from below; the picture is not turned over.")
    if shown.coming:
        verb = "arrives" if len(shown.coming) == 1 else "arrive"
        onto = counted([part.name for part in shown.there])
        there = (
            f", where {onto} {'is' if len(shown.there) == 1 else 'are'} already in place"
            if shown.there
            else ""
        )
        said.append(sentence(f"{names_of(shown.coming, named_labels)} {verb}{there}"))
    said += [sentence(one) for one in shown.open_words]
    said.extend(_place_words(found, shown.notation))
    if shown.fitted:
        said.append(sentence(f"fitted here: {counted([item.name.partition(",")[0] for item in shown.fitted])}"))
    if shown.screws:
        said.append(sentence(_screw_words(shown, driven)))
    hidden = [part for part in shown.coming if view.visible_area(part.id) <= 0]
    if hidden:
        said.append(sentence(f"not seen from here: {names_of(hidden, named_labels)}"))
    return " ".join(said)


def _place_words(found: Sequence[Place], notation: Notation) -> list[str]:
    """Where the arriving parts stand, one sentence for each edge measured from."""
    edges: dict[tuple[str, str, str], list[Place]] = {}
    for place in found:
        edges.setdefault((place.host.name, place.from_face, place.face), []).append(place)
    said = []
    for (host, from_face, face), group in edges.items():
        names = {within(place.part.name): None for place in group}
        lengths = listed(notation.both(place.distance) for place in group)
        said.append(
            sentence(
                f"from the {from_face} edge of the {within(host)} to the {face} face of the {listed(names)}: "
                f"{lengths}"
            )
        )
    return said


def _screw_words(shown: _Shown, driven: Screws) -> str:
    totals: dict[str, int] = {}
    for screw in shown.screws:
        totals[screw.spec.name] = totals.get(screw.spec.name, 0) + 1
    named_screws = listed(f"{number} × {name}" for name, number in totals.items())
    if driven.seen == len(shown.screws):
        return f"{named_screws}, every head seen from here"
    said = [named_screws]
    if driven.dashed:
        said.append(f"{count_word(driven.dashed)} with the head on the far side, dashed")
    if driven.hidden:
        said.append(f"{count_word(driven.hidden)} behind other parts, not drawn")
    return "; ".join(said)


def _parts(build: Build, ids: Sequence[str], number: int) -> list[Part]:
    known = {part.id: part for part in build.parts}
    missing = [name for name in ids if name not in known]
    if missing:
        raise PlanError(
            "no part of the build has this id.",
            where=f"step {number}",
            given=", ".join(missing),
            remedy="Known: " + ", ".join(sorted(known)) + ".",
        )
    return [known[name] for name in sorted(dict.fromkeys(ids))]
