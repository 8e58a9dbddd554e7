"""A step as it looks in the notebook, before the page is made."""

from html import escape

from plankit.plan.beyond_saw import beyond_saw
from plankit.plan.cautions import step_cautions
from plankit.plan.facts import Draft
from plankit.plan.figures import step_picture
from plankit.plan.timeline import waits_words
from plankit.plan.work import labels, work_of


def step_html(draft: Draft, number: int) -> str:
    """Return one step as HTML: title, drawing, pieces, fasteners, tools, cautions, note.

    raises  PlanError for a tool that no caution is known for
    """
    _, by_part = labels(draft)
    works = work_of(draft)
    work, cautions = works[number - 1], step_cautions(draft, works)[number - 1]
    step = work.step
    picture = step_picture(draft, work)
    pieces = [
        f"{by_part[part_id]} {draft.build.part(part_id).name}" for part_id in (*step.brings, *step.works_on)
    ]
    rows = [
        ("Pieces", list(dict.fromkeys(pieces))),
        ("Hardware", [f"{count} × {item}" for item, count in work.item_counts.items()]),
        ("Fasteners", [f"{count} × {item}" for item, count in work.fastener_counts.items()]),
        ("Tools", list(work.tool_names)),
        ("Another saw", beyond_saw(draft, work)),
        ("Cautions", [f"{caution.signal.upper()}: {caution.text}" for caution in cautions.here]),
        ("Cautions again", [cautions.again] if cautions.again else []),
        ("Note", [step.note] if step.note else []),
        ("Wait", [waits_words(work)] if step.waits else []),
    ]
    lists = "".join(
        f"<dt>{name}</dt>" + "".join(f"<dd>{escape(line)}</dd>" for line in lines)
        for name, lines in rows
        if lines
    )
    drawing = f"<figure>{picture.svg}</figure>" if picture else ""
    return f"<h3>Step {number}: {escape(step.title)}</h3>{drawing}<dl>{lists}</dl>"
