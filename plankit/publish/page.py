"""Everything a page says, computed and put in order before any template sees it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from plankit.errors import PlanError
from plankit.plan.media import FRAGMENT_TYPE
from plankit.publish import figures, outputs
from plankit.publish.document import Document, find_document
from plankit.publish.findings import Told, told
from plankit.publish.links import SECTION_NAMES, addresses, as_cell
from plankit.publish.markdown import Heading, render
from plankit.publish.notebook import Notebook, cell_names
from plankit.publish.structured import how_to
from plankit.publish.tying import tied_data

type Medium = Literal["screen", "print"]

_SIGNALS = {"danger": "Danger", "warning": "Warning", "caution": "Caution", "notice": "Notice"}

@dataclass(frozen=True, slots=True)
class Block:
    """One thing in the building section: prose, a step or a cell's output.

    kind  which of them
    html  ready HTML, except for a step
    step  the step's fields, with its figure as `drawing`
    """

    kind: Literal["prose", "step", "output"]
    html: str = ""
    step: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Page:
    """What a template places.

    plan          the plan document
    introduction  HTML of the prose above the first code cell
    blocks        the building section, in the notebook's order
    drawings      each figure of the plan, by name, with its HTML as `drawing`
    views         names of the views of the whole that belong to no step, part or sheet
    part_figures  names of the part drawings, in the order of the parts list
    opening       names of the drawings of what opens, shut and open
    sections      (address, name) of each section there is
    headings      the author's headings inside the building section
    findings      what the checks said, those that are alike as one
    structured    schema.org data of the page
    paper         the paper the plan is printed on: "letter" or "a4"
    signals       how each signal word is written
    """

    plan: Document
    introduction: str
    blocks: tuple[Block, ...]
    drawings: Mapping[str, Mapping[str, Any]]
    views: tuple[str, ...]
    part_figures: tuple[str, ...]
    opening: tuple[str, ...]
    sections: tuple[tuple[str, str], ...]
    headings: tuple[Heading, ...]
    findings: tuple[Told, ...]
    structured: Mapping[str, Any]
    paper: str
    signals: Mapping[str, str]


@dataclass(slots=True)
class _Making:
    """What is known while a page is put together, from the top down."""

    plan: Document
    drawings: Mapping[str, Mapping[str, Any]]
    anchors: set[str]
    level: int = 2
    placed: set[str] = field(default_factory=set)
    shown: set[int] = field(default_factory=set)
    headings: list[Heading] = field(default_factory=list)
    paid: bool = False
    views: int = 0
    medium: Medium = "screen"


def page_of(notebook: Notebook, medium: Medium = "screen") -> Page:
    """Return everything the page of a notebook that has run says.

    raises  PlanError where the notebook holds no plan, or has paid links and no disclosure
    """
    found = find_document(notebook)
    plan: Document = tied_data(found)
    making = _Making(plan, _drawings(plan, medium), anchors=addresses(plan), medium=medium)
    first = _first_code(notebook)
    names = cell_names(notebook.cells)
    introduction = _introduction(notebook.cells[:first], names, making)
    part_figures, views = _part_figures(plan), _views(plan)
    opening = _opening(plan)
    making.placed |= {"whole", *views, *part_figures, *opening, *(c["figure"] for c in plan["cutting"])}
    finish = [*plan["finish"], *filter(None, [plan["finish_summary"]])]
    blocks = tuple(_blocks(notebook.cells[first:], names[first:], making))
    _refuse_undisclosed(making)
    return Page(
        plan=plan,
        introduction=introduction,
        blocks=blocks,
        drawings=making.drawings,
        views=views,
        part_figures=part_figures,
        opening=opening,
        sections=_sections(
            plan,
            {
                "views": views,
                "drawings": part_figures,
                "time": plan.get("timeline", {}).get("rows", ()),
                "build": blocks,
                "opening": opening,
                "finish": finish,
            },
        ),
        headings=tuple(making.headings),
        findings=told(plan["findings"]),
        structured=how_to(found),
        paper="letter" if plan["unit"] == "in" else "a4",
        signals=_SIGNALS,
    )


def _drawings(plan: Document, medium: Medium) -> dict[str, Mapping[str, Any]]:
    draw = figures.inline if medium == "screen" else figures.printed
    return {
        name: {**f, "name": name, "drawing": draw(name, f), "printed_mm": figures.printed_width(f)}
        for name, f in plan["figures"].items()
    }


def _first_code(notebook: Notebook) -> int:
    kinds = [cell.cell_type for cell in notebook.cells]
    return kinds.index("code") if "code" in kinds else len(kinds)


def _introduction(cells: Any, names: tuple[str, ...], making: _Making) -> str:
    parts: list[str] = []
    for cell, name in zip(cells, names, strict=False):
        if cell.cell_type == "markdown":
            prose = render(cell, name, top_level=2, before=1, anchors=making.anchors, without_title=not parts)
            making.paid |= prose.paid
            parts.append(prose.html)
    return "".join(parts)


def _part_figures(plan: Document) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part["figure"] for part in plan["parts"] if part["figure"]))


def _opening(plan: Document) -> tuple[str, ...]:
    return tuple(name for name in plan["figures"] if name.startswith("moving-"))


def _views(plan: Document) -> tuple[str, ...]:
    steps = {step["figure"] for step in plan["steps"]}
    others = {"whole", *steps, *_part_figures(plan), *_opening(plan), *(sheet["figure"] for sheet in plan["cutting"])}
    return tuple(name for name in plan["figures"] if name not in others)


def _blocks(cells: Any, names: tuple[str, ...], making: _Making) -> Iterator[Block]:
    for cell, name in zip(cells, names, strict=True):
        if cell.cell_type == "markdown":
            yield _prose(cell, name, making)
        elif cell.cell_type == "code":
            shown = cell.get("outputs", ())
            newest = max((number for output in shown for number in _step_number(output)), default=0)
            for output in shown:
                yield from _shown(output, name, making, newest)
    yield from _steps_to(len(making.plan["steps"]), making)


def _step_number(output: Mapping[str, Any]) -> tuple[int, ...]:
    fragment = output.get("data", {}).get(FRAGMENT_TYPE, {})
    return (fragment["number"],) if fragment.get("plankit") == "step" else ()


def _prose(cell: Any, name: str, making: _Making) -> Block:
    prose = render(cell, name, top_level=3, before=making.level, anchors=making.anchors)
    if prose.headings:
        making.level = prose.headings[-1].level
    making.headings.extend(prose.headings)
    making.paid |= prose.paid
    return Block("prose", prose.html)


def _shown(output: Mapping[str, Any], name: str, making: _Making, newest: int) -> Iterator[Block]:
    fragment = output.get("data", {}).get(FRAGMENT_TYPE)
    displayed = outputs.markdown_of(output)
    if displayed:
        yield _prose(as_cell(output, displayed), name, making)
    elif fragment is None:
        under = making.headings[-1].words if making.headings else making.plan["title"]
        markup = outputs.as_html(output, alternative=f"Figure for: {under}")
        if markup:
            yield Block("output", markup)
    elif fragment["plankit"] == "step":
        yield from _steps_to(newest, making)
    elif fragment["plankit"] == "view":
        making.views += 1
        svg = "".join(output["data"]["text/html"])
        yield Block("output", figures.framed(f"view-{making.views}", svg, f"View {making.views}", making.medium))


def _steps_to(newest: int, making: _Making) -> Iterator[Block]:
    """The steps up to a number that do not stand on the page yet: on a page they always come in order."""
    for step in making.plan["steps"]:
        if step["number"] <= newest and step["number"] not in making.shown:
            yield _step(step, making)


def _step(step: Mapping[str, Any], making: _Making) -> Block:
    making.shown.add(step["number"])
    making.level = 3
    name = step["figure"]
    drawing = making.drawings.get(name) if name and name not in making.placed else None
    if drawing is not None:
        making.placed.add(name)
    return Block("step", step={**step, "drawing": drawing})


def _refuse_undisclosed(making: _Making) -> None:
    if making.paid and not making.plan["disclosure"]:
        raise PlanError(
            "this plan has a paid link but says nowhere that somebody pays",
            where=making.plan["title"],
            remedy="Give the plan a disclosure in a plain sentence; it is shown before the first such link.",
        )


def _sections(plan: Document, there: Mapping[str, Sequence[Any]]) -> tuple[tuple[str, str], ...]:
    def is_there(address: str) -> bool:
        return address == "about" or bool(there.get(address, plan.get(address)))

    return tuple((address, name) for address, name in SECTION_NAMES if is_there(address))
