"""The pictures of a plan: each drawn once, by name, as SVG with its words."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from plankit.build import Alike, Item, Moving
from plankit.drawing.cutting_picture import CuttingPicture
from plankit.drawing.figures_around import AROUND, from_around, has_thin_back, stands_on_hardware
from plankit.drawing.figures_cutting import cutting_drawing
from plankit.drawing.figures_glue_up import glue_up_drawing
from plankit.drawing.figures_on_face import face_drawing, laid_on
from plankit.drawing.figures_part import part_drawing
from plankit.drawing.figures_section import section_drawing
from plankit.drawing.figures_step import step as step_figure
from plankit.drawing.figures_swing import moving_drawing
from plankit.drawing.figures_unfolded import sides_of, unfolded
from plankit.drawing.figures_views import orthographic
from plankit.drawing.figures_wall import wall_drawing
from plankit.drawing.figures_whole import whole
from plankit.drawing.figures_work import work_on_parts
from plankit.drawing.primitives import Figure
from plankit.drawing.svg import svg
from plankit.errors import PlanError
from plankit.parts import Face, Mitre
from plankit.plan.cut_list import CutPlan
from plankit.plan.cut_picture import cutting_picture
from plankit.plan.facts import Draft
from plankit.plan.loose_parts import loose_parts
from plankit.plan.places import inner_face
from plankit.plan.standing_open import standing_open
from plankit.plan.work import SAWING, Work, labels
from plankit.plan.work_when import as_of, when
from plankit.plan.work_words import later_words
from plankit.units import Notation

SIDES = ("front", "side", "top")


@dataclass(frozen=True, slots=True)
class Picture:
    """A figure as it goes on a page."""

    title: str
    description: str
    svg: str
    width_mm: float
    height_mm: float


def all_pictures(
    draft: Draft, groups: tuple[Alike, ...], works: tuple[Work, ...], cut: CutPlan
) -> tuple[dict[str, Picture], dict[str, str]]:
    """Return every picture of a plan by name, and the name of each label's part drawing."""
    found = {side: view_picture(draft, side) for side in ("whole", *SIDES, *_around(draft))}
    for work in works:
        picture = step_picture(draft, work)
        if picture is not None:
            found[work.step.anchor] = picture
    drawn: dict[str, str] = {}
    for group in groups:
        picture = part_picture(draft, group)
        if picture is not None:
            name = f"part-{group.label.lower()}"
            found[name] = picture
            drawn[group.label] = name
    found |= {f"on-{group.label.lower()}": laid for group in groups if (laid := laid_picture(draft, group)) is not None}
    if sides_of(draft.build):
        found["unfolded"] = unfolded_picture(draft)
    return found | moving_pictures(draft) | wall_pictures(draft) | cutting_pictures(draft, cut), drawn


def _around(draft: Draft) -> tuple[str, ...]:
    """The further sides that a reader needs: behind, where a back is pinned on; below, where it stands on hardware."""
    behind = ("back",) if has_thin_back(draft.build) else ()
    return (*behind, "below") if stands_on_hardware(draft.build.items) else behind


def moving_pictures(draft: Draft) -> dict[str, Picture]:
    """Return a drawing of everything that opens, shut and open, by name: "moving-upper-bin"."""
    figures = [moving_drawing(draft.build, moving, draft.notation) for moving in draft.build.moving]
    return {figure.id: _picture(figure) for figure in figures}


def moving_picture(draft: Draft, moving: Moving) -> Picture:
    """Return the drawing of one thing that opens, shut and open."""
    return _picture(moving_drawing(draft.build, moving, draft.notation))


def section_picture(draft: Draft, one: str, other: str) -> Picture:
    """Return the joint of two parts, by their ids, cut through along its fastener."""
    return _picture(section_drawing(draft.build, draft.build.part(one), draft.build.part(other), draft.notation))


def part_picture(draft: Draft, group: Alike) -> Picture | None:
    """Return the drawing of a part and its like; None where nothing is done to them."""
    figure = _part_figure(draft, group)
    return None if figure is None else _picture(figure)


def laid_picture(draft: Draft, group: Alike) -> Picture | None:
    """Return a face of one of some like parts with the mitred frame that is glued on it, a moulding; else None."""
    for part in (*group.parts, *group.other):
        for face, ones in laid_on(draft.build, part).items():
            if any(isinstance(cut, Mitre) for one in ones for cut in one.features):
                return _picture(face_drawing(draft.build, part, face, draft.notation))
    return None


def face_picture(draft: Draft, part: str, face: Face) -> Picture:
    """Return a face of a part, by its id, with what is glued on it."""
    return _picture(face_drawing(draft.build, draft.build.part(part), face, draft.notation))


def unfolded_picture(draft: Draft, parts: tuple[str, ...] = ()) -> Picture:
    """Return the sides of a box laid flat in a row: the parts by their ids, or all that lean and are mitred."""
    sides = tuple(draft.build.part(one) for one in parts) or sides_of(draft.build)
    return _picture(unfolded(draft.build, sides, draft.notation))


def wall_pictures(draft: Draft) -> dict[str, Picture]:
    """Return the drawing of the wall that the piece hangs on, by name; none where nothing is screwed to a wall."""
    if draft.build.wall is None or not draft.build.wall.screws:
        return {}
    return {"wall": _picture(wall_drawing(draft.build, draft.notation))}


def view_picture(draft: Draft, side: str) -> Picture:
    """Return the build from one side: "whole", "front", "side", "top", "back", "below"; or the "wall" it hangs on."""
    if side == "whole":
        return _picture(whole(draft.build, draft.notation))
    hung = wall_pictures(draft)
    if side in hung:
        return hung[side]
    if side in AROUND:
        return _picture(from_around(draft.build, draft.notation, side))
    if side not in SIDES:
        known = ", ".join(("whole", *SIDES, *AROUND, *hung))
        raise PlanError("there is no such view.", given=side, remedy=f"Use one of: {known}.")
    return _picture(orthographic(draft.build, draft.notation, side))


def step_picture(draft: Draft, work: Work) -> Picture | None:
    """Return a step's drawing: what is put together, or the parts that it works on; None where there is neither."""
    step = work.step
    if set(step.does) & SAWING - {"crosscut"}:
        return None
    if not (step.brings or work.items):
        return loose_parts_picture(draft, work)
    groups, _ = labels(draft)
    present = _present(draft, work)
    opened = standing_open(draft.build, step.brings, present)
    shown = tuple(part for part in present if not any(part in moving.parts for moving in opened))
    return _drawn_step(
        as_of(draft, step.number), step.number, step.title, step.brings, shown, work.fasteners,
        draft.notation, step.view, groups, (work.items, _fitted_before(draft, work, shown)),
        tuple(draft.build.part(moving.parts[0]).name for moving in opened),
    )  # fmt: skip


def _fitted_before(draft: Draft, work: Work, present: tuple[str, ...]) -> tuple[Item, ...]:
    """The hardware that is there when a step begins, on parts that its picture shows."""
    known, number = when(draft).items, work.step.number
    shown = {*present, *work.step.brings}
    return tuple(
        item
        for n, item in enumerate(draft.build.items)
        if known.get(n, number) < number and set(item.on) <= shown
    )


def _present(draft: Draft, work: Work) -> tuple[str, ...]:
    """What is there already; nothing where what arrives is put together on the bench, apart from all that."""
    step = work.step
    there = tuple(part for earlier in draft.steps[: step.number - 1] for part in earlier.brings)
    met: list[tuple[str, ...]] = [(joint.holds, joint.to) for joint in work.joints]
    met += [item.on for item in work.items]
    apart = bool(met) and not step.onto and not any(set(on) & set(there) for on in met)
    return () if apart else there


def loose_parts_picture(draft: Draft, work: Work) -> Picture | None:
    """Return a drawing of the loose parts that a step works on; None where it does nothing to their shape."""
    shown = loose_parts(draft, work)
    return _drawn_work(work.step.number, work.step.title, shown, draft.notation) if shown else None


@lru_cache(maxsize=256)
def _drawn_work(*shown: Any) -> Picture:
    return _picture(work_on_parts(*shown))


@lru_cache(maxsize=256)
def _drawn_step(*shown: Any) -> Picture:
    """Draw a step once: the cell that shows it and the page ask for the same picture."""
    return _picture(step_figure(*shown))


def _part_figure(draft: Draft, group: Alike) -> Figure | None:
    part = group.first
    if part.glue_up is not None:
        return glue_up_drawing(part, draft.notation, group.label)
    if not part.features:
        return None
    hands = f", {len(group.parts)} as drawn and {len(group.other)} mirrored" if group.other else ""
    later = later_words(draft, group)
    return part_drawing(
        part,
        group.label,
        f"Make {group.count}{hands}{'; ' if later else ''}{later}",
        draft.notation,
        group.other[0] if group.other else None,
        name=group.name,
        inner=inner_face(group),
    )


def cutting_pictures(draft: Draft, cut: CutPlan) -> dict[str, Picture]:
    """Return a drawing for every board and sheet that is cut, by name."""
    return {
        layout.id: _drawn_cutting(cutting_picture(layout, draft.notation), draft.notation) for layout in cut.layouts
    }


@lru_cache(maxsize=256)
def _drawn_cutting(picture: CuttingPicture, notation: Notation) -> Picture:
    return _picture(cutting_drawing(picture, notation))


def _picture(figure: Figure) -> Picture:
    return Picture(
        figure.title, figure.description, svg(figure), round(figure.width, 2), round(figure.height, 2)
    )
