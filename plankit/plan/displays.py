"""What a cell of a notebook shows: HTML for people, and data for the publisher, side by side."""

from collections.abc import Callable
from html import escape
from typing import TYPE_CHECKING, Any

from plankit.build import Moving
from plankit.errors import PlanError
from plankit.parts import Face
from plankit.plan.facts import Draft
from plankit.plan.media import FRAGMENT_TYPE, PLAN_TYPE

if TYPE_CHECKING:
    from plankit.plan.figures import Picture

type Bundle = dict[str, Any]
type Drafting = Callable[[], Draft]


class _Display:
    """A display that is worked out when it is shown, so that a cell which only plans stays quick."""

    def __init__(self, drafting: Drafting) -> None:
        self._drafting = drafting

    def _repr_mimebundle_(self, include: object = None, exclude: object = None) -> Bundle:
        return self.bundle(self._drafting())

    def bundle(self, draft: Draft) -> Bundle:
        """Return the display by media type."""
        raise NotImplementedError


def picture_bundle(picture: "Picture") -> Bundle:
    """Return a single drawing by media type."""
    return {
        "text/plain": picture.description,
        "text/html": picture.svg,
        FRAGMENT_TYPE: {"plankit": "view", "side": "picture"},
    }


class StepDisplay(_Display):
    """One step: its drawing, pieces, fasteners, tools and cautions.

    shown  the numbers of the steps that a reader of the notebook has seen; it joins them when it is shown
    """

    def __init__(self, drafting: Drafting, number: int, shown: set[int]) -> None:
        super().__init__(drafting)
        self.number = number
        self._shown = shown

    def bundle(self, draft: Draft) -> Bundle:
        """Return the step as HTML, and its number for the publisher."""
        from plankit.plan.preview import step_html

        self._shown.add(self.number)
        fragment = {"plankit": "step", "number": self.number, "anchor": f"step-{self.number}"}
        title = draft.steps[self.number - 1].title
        return {
            "text/plain": f"Step {self.number}: {title}",
            "text/html": step_html(draft, self.number),
            FRAGMENT_TYPE: fragment,
        }


class ViewDisplay(_Display):
    """A view of the build as it is so far."""

    def __init__(self, drafting: Drafting, side: str) -> None:
        super().__init__(drafting)
        self.side = side

    def bundle(self, draft: Draft) -> Bundle:
        """Return the view as SVG in HTML, and its name for the publisher."""
        from plankit.plan.figures import view_picture

        picture = view_picture(draft, self.side)
        return {
            "text/plain": picture.description,
            "text/html": picture.svg,
            FRAGMENT_TYPE: {"plankit": "view", "side": self.side},
        }


class PictureDisplay(_Display):
    """The drawing of one part, or of one thing that opens.

    shown  the part, by its id; or what opens
    name   what the part is called
    """

    def __init__(self, drafting: Drafting, shown: str | Moving, name: str = "") -> None:
        super().__init__(drafting)
        self._shown = shown
        self._name = name

    def bundle(self, draft: Draft) -> Bundle:
        """Return the drawing as SVG in HTML.

        raises  PlanError where nothing is done to the part
        """
        from plankit.plan.figures import laid_picture, moving_picture, part_picture
        from plankit.plan.work import labels

        if not isinstance(self._shown, str):
            picture = moving_picture(draft, self._shown)
        else:
            groups, by_part = labels(draft)
            label = by_part[self._shown]
            group = next(group for group in groups if group.label == label)
            drawn = part_picture(draft, group) or laid_picture(draft, group)
            if drawn is None:
                raise PlanError(
                    "it is cut to size and no more, so it has no drawing of its own.",
                    where=self._name,
                    remedy="plan.view() shows it in its place.",
                )
            picture = drawn
        return picture_bundle(picture)


class SectionDisplay(_Display):
    """The joint of two parts, cut through; the parts by their ids."""

    def __init__(self, drafting: Drafting, one: str, other: str) -> None:
        super().__init__(drafting)
        self._joined = one, other

    def bundle(self, draft: Draft) -> Bundle:
        """Return the section as SVG in HTML.

        raises  PlanError where nothing joins the parts
        """
        from plankit.plan.figures import section_picture

        return picture_bundle(section_picture(draft, *self._joined))


class FaceDisplay(_Display):
    """One face of a part, by its id, with what is glued on it."""

    def __init__(self, drafting: Drafting, part: str, face: Face) -> None:
        super().__init__(drafting)
        self._part, self._face = part, face

    def bundle(self, draft: Draft) -> Bundle:
        """Return the face as SVG in HTML.

        raises  PlanError where nothing is glued on it
        """
        from plankit.plan.figures import face_picture

        return picture_bundle(face_picture(draft, self._part, self._face))


class UnfoldedDisplay(_Display):
    """Sides of a box, by their ids, laid flat in a row."""

    def __init__(self, drafting: Drafting, parts: tuple[str, ...]) -> None:
        super().__init__(drafting)
        self._parts = parts

    def bundle(self, draft: Draft) -> Bundle:
        """Return the sides as SVG in HTML.

        raises  PlanError for parts that are no sides of a box
        """
        from plankit.plan.figures import unfolded_picture

        return picture_bundle(unfolded_picture(draft, self._parts))


class FindingsDisplay(_Display):
    """What the checks found."""

    def bundle(self, draft: Draft) -> Bundle:
        """Return the findings as a list, gravest first."""
        from plankit.plan.cut_list import cut_plan
        from plankit.plan.document import findings
        from plankit.plan.work import labels, work_of

        found = findings(draft, work_of(draft), cut_plan(draft, labels(draft)[1]))
        lines = [
            f"{f.level} · {f.check}: {f.part + ': ' if f.part else ''}{f.what} {f.remedy}".strip()
            + (f" Accepted: {f.accepted}" if f.accepted else "")
            for f in found
        ]
        lines = lines or ["Nothing found."]
        items = "".join(f"<li>{escape(line)}</li>" for line in lines)
        return {
            "text/plain": "\n".join(lines),
            "text/html": f"<ul>{items}</ul>",
            FRAGMENT_TYPE: {"plankit": "findings"},
        }


class CuttingDisplay(_Display):
    """How boards and sheets are cut."""

    def bundle(self, draft: Draft) -> Bundle:
        """Return the cutting drawings, and what is bought for them."""
        from plankit.plan.cut_list import cut_plan
        from plankit.plan.figures import cutting_pictures
        from plankit.plan.work import labels

        cut = cut_plan(draft, labels(draft)[1])
        pictures = cutting_pictures(draft, cut)
        html = "".join(f"<figure>{picture.svg}</figure>" for picture in pictures.values())
        return {
            "text/plain": cut.summary,
            "text/html": f"<p>{escape(cut.summary)}</p>{html}",
            FRAGMENT_TYPE: {"plankit": "cutting"},
        }


class CompleteDisplay(_Display):
    """The whole plan, for the page."""

    def bundle(self, draft: Draft) -> Bundle:
        """Return a short account of the plan as HTML, and the plan document for the publisher."""
        from plankit.plan.document import document

        whole = document(draft)
        rows = "".join(
            f"<tr><th scope='row'>{escape(row['label'])}</th><td>{escape(row['value'])}</td></tr>"
            for row in whole["glance"]
        )
        stops = [f for f in whole["findings"] if f["level"] == "must fix" and not f["accepted"]]
        lived_with = sum(bool(f["accepted"]) for f in whole["findings"])
        state = "Ready to publish." if not stops else f"{len(stops)} findings must be fixed first."
        state += f" {lived_with} accepted." if lived_with else ""
        return {
            "text/plain": f"{whole['title']} {whole['version']}: {state}",
            "text/html": f"<table>{rows}</table><p>{escape(state)}</p>",
            PLAN_TYPE: whole,
        }
