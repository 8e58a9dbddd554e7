"""The pictures of a plan: each drawn once, by name, as SVG with its words."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from plankit.build import Alike
from plankit.drawing.cutting_picture import CuttingPicture
from plankit.drawing.figures_cutting import cutting_drawing
from plankit.drawing.figures_glue_up import glue_up_drawing
from plankit.drawing.figures_part import part_drawing
from plankit.drawing.figures_step import step as step_figure
from plankit.drawing.figures_views import orthographic
from plankit.drawing.figures_whole import whole
from plankit.drawing.primitives import Figure
from plankit.drawing.svg import svg
from plankit.errors import PlanError
from plankit.plan.cut_list import CutPlan
from plankit.plan.cut_picture import cutting_picture
from plankit.plan.facts import Draft
from plankit.plan.work import SAWING, Work, labels
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
    found = {side: view_picture(draft, side) for side in ("whole", *SIDES)}
    for work in works:
        picture = step_picture(draft, work)
        if picture is not None:
            found[work.step.anchor] = picture
    drawn: dict[str, str] = {}
    for group in groups:
        figure = _part_figure(draft, group)
        if figure is not None:
            name = f"part-{group.label.lower()}"
            found[name] = _picture(figure)
            drawn[group.label] = name
    return found | cutting_pictures(draft, cut), drawn


def view_picture(draft: Draft, side: str) -> Picture:
    """Return the build from one side: "whole", "front", "side" or "top"."""
    if side == "whole":
        return _picture(whole(draft.build, draft.notation))
    if side not in SIDES:
        raise PlanError(
            "there is no such view.", given=side, remedy=f"Use one of: whole, {', '.join(SIDES)}."
        )
    return _picture(orthographic(draft.build, draft.notation, side))


def step_picture(draft: Draft, work: Work) -> Picture | None:
    """Return a step's drawing; None where nothing is assembled in it."""
    step = work.step
    if not step.brings or set(step.does) & SAWING - {"crosscut"}:
        return None
    present = tuple(part for earlier in draft.steps[: step.number - 1] for part in earlier.brings)
    groups, _ = labels(draft)
    return _drawn_step(
        draft.build, step.number, step.title, step.brings, present, work.fasteners, draft.notation, step.view, groups
    )


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
    return part_drawing(
        part,
        group.label,
        f"Make {group.count}{hands}",
        draft.notation,
        group.other[0] if group.other else None,
        name=group.name,
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
