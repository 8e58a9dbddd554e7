"""The plan document: everything a page says, as plain data with every number already written."""

from collections.abc import Mapping
from dataclasses import asdict, replace
from functools import lru_cache
from typing import Any

from plankit.build import Build
from plankit.checks import check, told_once
from plankit.drawing.words import capital
from plankit.finding import Finding, in_order
from plankit.plan.answered import unanswered
from plankit.plan.cautions import StepCautions, caution_data, finish_cautions, front_cautions, step_cautions
from plankit.plan.computed import computed, computed_lengths, is_size
from plankit.plan.cut_list import CutLayout, CutPlan, cut_plan
from plankit.plan.cut_steps import drawing_findings, drawings_of, saw_words, with_saws
from plankit.plan.cut_words import READING, cut_table
from plankit.plan.facts import Draft, Step
from plankit.plan.figures import Picture, all_pictures
from plankit.plan.glance import glance
from plankit.plan.left_out import left_out_findings
from plankit.plan.lists import hardware_list, hardware_note, parts_list, shopping_list
from plankit.plan.media import FORMAT
from plankit.plan.other_sizes import other_sizes
from plankit.plan.prose import typed_numbers
from plankit.plan.step_words import coating_words, step_words
from plankit.plan.time_table import time_table
from plankit.plan.timeline import meanwhile, waits_words
from plankit.plan.tool_extras import extras
from plankit.plan.tool_list import tool_list
from plankit.plan.work import Work, labels, work_of
from plankit.plan.work_findings import order_findings, unused_acceptances
from plankit.plan.work_words import MARKS, meanwhile_words
from plankit.units import Angle


def document(draft: Draft) -> dict[str, Any]:
    """Return the whole plan as plain data; `schema.json` beside this module says what it holds.

    raises  PlanError where no cautions are known for a tool, or a part fits no stock
    """
    groups, by_part = labels(draft)
    cut = cut_plan(draft, by_part)
    from_drawings = drawings_of(draft, by_part, cut)
    works = with_saws(work_of(draft), from_drawings)
    heavy = any(finding.check == "too heavy for one" for finding in cut.findings)
    cautions = step_cautions(draft, works, heavy_stock=heavy)
    pictures, drawn = all_pictures(draft, groups, works, cut)
    apart = meanwhile(draft)
    beside = extras(draft, works)
    finishing = finish_cautions(draft, works)
    shopping, total, prices_note = shopping_list(draft, cut)
    return {
        **_title(draft),
        "glance": glance(draft, cut, total),
        "notes": [*draft.notation.explained(), _size_note()],
        "given": _given(draft),
        "cautions": [caution_data(caution) for caution in front_cautions(draft)],
        "tools": tool_list(draft, works, saw_words(draft, works, cut)),
        "shopping": shopping,
        "shopping_total": total,
        "shopping_otherwise": other_sizes(draft, cut),
        "prices_note": prices_note,
        "parts": parts_list(draft, groups, drawn),
        "hardware": hardware_list(draft),
        "hardware_note": hardware_note(draft),
        "cutting": _cutting(draft, cut),
        "cutting_summary": cut.summary,
        "cutting_reading": READING if cut.layouts else "",
        "rack": _rack(draft, cut),
        "steps": [
            _step(draft, work, own, by_part, pictures)
            | {
                "see": [*_cut_from(from_drawings.get(number, ())), *_see(work, by_part, pictures)],
                "tools": [*work.tool_names, *(one.name for one in beside if number in one.steps)],
                "meanwhile": meanwhile_words(draft, apart.get(number, ())),
            }
            for number, (work, own) in enumerate(zip(works, cautions, strict=True), 1)
        ],
        "timeline": time_table(draft),
        "finish": list(draft.coating.how) if draft.coating and draft.finishing is None else [],
        "finish_summary": _finish_summary(draft),
        "finish_cautions": [caution_data(caution) for caution in finishing.here],
        "finish_cautions_again": finishing.again,
        "findings": [finding.as_data() for finding in findings(draft, works, cut)],
        "accepted": [{"check": a.check, "part": a.part, "reason": a.reason} for a in draft.acceptances],
        "corrections": [
            {"date": c.date, "version": c.version, "what": c.what, "already_begun": c.already_begun}
            for c in draft.corrections
        ],
        "computed": computed_lengths(draft),
        "figures": {name: _picture(picture) for name, picture in pictures.items()},
    }


def _title(draft: Draft) -> dict[str, Any]:
    facts = draft.facts
    return {
        "format": FORMAT,
        "slug": facts.slug,
        "title": facts.title,
        "summary": facts.summary,
        "author": facts.author,
        "organisation": facts.organisation,
        "version": facts.version,
        "published": facts.published,
        "updated": facts.updated,
        "language": facts.language,
        "unit": draft.notation.unit,
        "mark": str(draft.notation.mark),
        "metric_mark": str(draft.notation.metric_mark),
        "licence": {"name": facts.licence.title, "address": facts.licence.address},
        "disclosure": facts.disclosure,
        "film": {"address": facts.film.address, "title": facts.film.title} if facts.film else None,
        "minutes": draft.minutes,
    }


def _size_note() -> str:
    return (
        "Lengths in the lists are finished sizes, along the grain first; "
        "cutting drawings give what comes off the saw."
    )


def _given(draft: Draft) -> list[dict[str, str]]:
    write = draft.notation
    return [
        {
            "name": name,
            "label": name.replace("_", " ").capitalize(),
            "value": write.angle(given) if isinstance(given, Angle) else write.both(given),
            "exact": f"{given.degrees}°" if isinstance(given, Angle) else write.exact(given),
        }
        | ({} if isinstance(given, Angle) else {"mm": str(given.mm)})
        for name, given in draft.givens
    ]


def findings(draft: Draft, works: tuple[Work, ...], cut: CutPlan) -> tuple[Finding, ...]:
    """Return all that the checks found, the author's acceptances written in."""
    checked = unanswered(draft, _checked(in_steps(draft), draft.shop, draft.notation, draft.loads), works)
    found = (
        *checked,
        *left_out_findings(draft, checked),
        *order_findings(draft, works),
        *drawing_findings(draft, cut, drawings_of(draft, labels(draft)[1], cut)),
        *cut.findings,
        *_typed_in_notes(draft),
    )
    named = (part.name for part in draft.build.parts)
    accepted = [_accepted(draft, finding) for finding in (*found, *unused_acceptances(draft, found))]
    return told_once(in_order(accepted), named)


_checked = lru_cache(maxsize=32)(check)


def in_steps(draft: Draft) -> Build:
    """Return the build with the order in which its parts arrive, which drawings do not need to know."""
    return replace(draft.build, order=tuple(step.brings for step in draft.steps))


def _typed_in_notes(draft: Draft) -> tuple[Finding, ...]:
    known = [(one.what, one.length) for one in computed(draft) if is_size(one.what)]
    return tuple(
        finding
        for step in draft.steps
        for finding in typed_numbers(_typed(step), known, f"step {step.number}, “{step.title}”", draft.notation)
    )


def _typed(step: Step) -> str:
    """A step's note without the sizes that the plan wrote into it."""
    note = step.note
    for text in sorted(step.written, key=lambda text: (-len(text), text)):
        note = note.replace(text, "…")
    return note


def _accepted(draft: Draft, finding: Finding) -> Finding:
    for acceptance in draft.acceptances:
        if acceptance.check == finding.check and acceptance.part in {"", finding.part}:
            return finding.accept(acceptance.reason)
    return finding


def _cutting(draft: Draft, cut: CutPlan) -> list[dict[str, Any]]:
    write = draft.notation
    return [
        {
            "id": layout.id,
            "title": layout.title,
            "figure_title": layout.title.partition(":")[0].lower(),
            "stock": layout.stock,
            "copies": layout.copies,
            "note": layout.note,
            "figure": layout.id,
            "pieces": [
                {
                    "label": piece.label,
                    "name": piece.name,
                    "count": piece.count,
                    "size": write.size_both(piece.length, piece.width),
                }
                for piece in layout.pieces
            ],
            "cuts": [{"order": row.order, "text": row.text} for row in layout.cuts],
            "cut_table": [asdict(line) for line in cut_table(layout.cuts)],
            "shared_title": layout.shared_title,
            "shared": [asdict(line) for line in layout.shared],
            "offcuts": [
                f"{name}: {write.size_both(*sizes)}"
                for name, sizes in zip(layout.offcut_names, layout.offcut_sizes, strict=True)
            ],
        }
        for layout in cut.layouts
    ]


def _rack(draft: Draft, cut: CutPlan) -> dict[str, Any]:
    """What is taken from the author's rack of offcuts and what goes there; sizes in millimetres exact."""
    return {
        "file": draft.shop.file,
        "used": list(cut.used),
        "kept": [
            {
                "label": kept.label,
                "stock": kept.stock,
                "size": draft.notation.size_both(*kept.sizes),
                "left_of": kept.left_of,
                "mm": [str(size.mm) for size in kept.sizes],
            }
            | ({"note": kept.note} if kept.note else {})
            for kept in cut.kept
        ],
    }


def _step(
    draft: Draft,
    work: Work,
    cautions: StepCautions,
    by_part: Mapping[str, str],
    pictures: Mapping[str, Picture],
) -> dict[str, Any]:
    step = work.step
    return {
        "number": step.number,
        "anchor": step.anchor,
        "title": step.title,
        "minutes": draft.notation.minutes(step.minutes) if step.minutes else "",
        "optional": step.optional,
        "marks": [mark for mark in (MARKS.get(step.fitting, ""), "measure first" if work.fitted else "") if mark],
        "brings": _pieces(draft, _pieces_of(work), by_part),
        "does": step_words(draft, work),
        "fasteners": [{"item": item, "count": count} for item, count in work.fastener_counts.items()],
        "fittings": [{"item": item, "count": count} for item, count in work.item_counts.items()],
        "cautions": [caution_data(caution) for caution in cautions.here],
        "cautions_again": cautions.again,
        "note": step.note,
        "waits": waits_words(work),
        "figure": step.anchor if step.anchor in pictures else None,
    }


def _pieces_of(work: Work) -> tuple[str, ...]:
    """The pieces to fetch: those that arrive, and those that are cut to fit here; else those that are worked on."""
    step = work.step
    if not step.brings:
        return () if "break down sheets" in step.does else step.works_on
    return tuple(dict.fromkeys((*step.brings, *(part.id for part in work.fitted))))


def _pieces(draft: Draft, ids: tuple[str, ...], by_part: Mapping[str, str]) -> list[dict[str, Any]]:
    counts: dict[str, int] = {}
    called: dict[str, dict[str, None]] = {}
    for part_id in ids:
        label = by_part[part_id]
        counts[label] = counts.get(label, 0) + 1
        called.setdefault(label, {})[draft.build.part(part_id).name] = None
    return [
        {"label": label, "name": " / ".join(called[label]), "count": count} for label, count in counts.items()
    ]


def _cut_from(layouts: tuple[CutLayout, ...]) -> list[dict[str, str]]:
    """Return the cutting drawings of a step that cuts parts out of sheets and boards."""
    return [{"figure": layout.id, "text": capital(layout.title.partition(":")[0])} for layout in layouts]


def _see(work: Work, by_part: Mapping[str, str], pictures: Mapping[str, Picture]) -> list[dict[str, str]]:
    """Return the part drawings that a step needs: of the parts that something is done to."""
    shown = [by_part[part.id] for part, _ in work.features] + [by_part[part.id] for part in work.glues_up]
    names_ = [f"part-{label.lower()}" for label in dict.fromkeys(shown)]
    return [
        {"figure": name, "text": f"Part drawing {name.removeprefix('part-').upper()}"}
        for name in names_
        if name in pictures
    ]


def _finish_summary(draft: Draft) -> str:
    coating = draft.coating
    if coating is None or draft.finishing is not None:
        return ""
    when = f" Do this before step {coating.after + 1}." if coating.after < len(draft.steps) else ""
    time = f" It takes about {draft.notation.minutes(coating.minutes)} of work." if coating.minutes else ""
    return f"{coating_words(draft)}, on all faces that are not glued.{when}{time}"


def _picture(picture: Picture) -> dict[str, Any]:
    return {
        "title": picture.title,
        "description": picture.description,
        "svg": picture.svg,
        "width_mm": picture.width_mm,
        "height_mm": picture.height_mm,
    }
