"""Findings about the steps themselves: what never arrives, what nothing makes, which tools are missing."""

from collections.abc import Iterable

from plankit.finding import Finding
from plankit.plan.clamping import clamp_findings
from plankit.plan.facts import Draft
from plankit.plan.outdoors import outdoor_findings
from plankit.plan.work import SAWING, Work
from plankit.plan.work_when import FIRST_CUTS, when
from plankit.shop import tool_knowledge


def order_findings(draft: Draft, works: tuple[Work, ...]) -> tuple[Finding, ...]:
    """Return findings about the steps: parts that never arrive, joints and cuts that no step makes, missing tools."""
    if not draft.steps:
        return (_must("", "no step brings its parts: it has no steps yet.", "Write them: plan.step(…, brings=…)"),)
    arrived = {part_id for step in draft.steps for part_id in step.brings}
    found = [
        _must(part.name, "no step brings this part.", f'Add it to a step: brings=…  ("{part.id}").')
        for part in draft.build.parts
        if part.id not in arrived
    ]
    made = {number for step in draft.steps for number in step.joints}
    for number, joint in enumerate(draft.build.joints):
        if number not in made and joint.holds in arrived and joint.to in arrived:
            found.append(
                _must(
                    draft.build.part(joint.holds).name,
                    f"no step makes its joint ({joint.kind}).",
                    "Write the joint before the step that makes it.",
                )
            )
    found += _nothing_done(works)
    found += _no_cutting(draft)
    found += _cut_too_soon(draft)
    found += _missing_tools(draft, works)
    found += clamp_findings(draft, works)
    found += _tools_not_listed(draft)
    found += _optional_needed(draft)
    found += outdoor_findings(draft)
    return tuple(found)


def _nothing_done(works: Iterable[Work]) -> list[Finding]:
    """Find steps narrowed down to one purpose that nothing of their parts is for."""
    return [
        Finding("look at", "order of steps", "", f"nothing of its parts is for “{work.step.only}”, so the step does "
                "nothing.", f"step {work.step.number}", source="the plan itself",
                remedy='Write only=… as the cut or the hole is called: its use= or reason=, such as "shelf pin".')
        for work in works
        if work.step.only and not work.features
    ]  # fmt: skip


def _no_cutting(draft: Draft) -> list[Finding]:
    if not draft.steps or any(set(step.does) & SAWING for step in draft.steps):
        return []
    return [
        Finding("look at", "order of steps", "", "no step cuts the parts to size, so the tools and cautions for it are "
                "missing.", source="the plan itself",
                remedy='Add a step first: works_on=plan.parts, does=["measure", "mark", "rip", "crosscut"]')
    ]  # fmt: skip


def _must(part: str, what: str, remedy: str) -> Finding:
    return Finding("must fix", "order of steps", part, what, source="the plan itself", remedy=remedy)


def _missing_tools(draft: Draft, works: Iterable[Work]) -> list[Finding]:
    missing: dict[str, int] = {}
    for work in works:
        for operation, _ in work.tools:
            if not draft.shop.tools_for(operation) and not dict(work.step.using).get(operation):
                missing.setdefault(operation, work.step.number)
    return [
        Finding("look at", "tools", "", f"the shop file names no tool for this: {operation}.", f"step {number}",
                source="the shop file", remedy="Add the tool to the shop file, or say what is used: using={…}.")
        for operation, number in missing.items()
    ]  # fmt: skip


def _tools_not_listed(draft: Draft) -> list[Finding]:
    """Find steps whose author chose a tool that her shop file does not list."""
    found: dict[tuple[str, str], int] = {}
    for step in draft.steps:
        for operation, name in step.using:
            if draft.shop.tool(name) is None:
                found.setdefault((operation, name), step.number)
    return [
        Finding("look at", "tools", "", f"the shop file does not list the tool chosen here: {name} ({operation}).",
                f"step {number}", source="the shop file", remedy=_instead(draft, operation, name))
        for (operation, name), number in found.items()
    ]  # fmt: skip


def _instead(draft: Draft, operation: str, name: str) -> str:
    """Say which listed tool would do, if the tool that is chosen is not there."""
    listed = [tool.name for tool in draft.shop.tools_for(operation)]
    if listed:
        return f'Add it to the shop file, or use what is there: using={{"{operation}": "{listed[0]}"}}.'
    known = tool_knowledge(name)
    other = f" Readers without one: {known.otherwise}." if known and known.otherwise else ""
    return f"Add it to the shop file: nothing listed there does this.{other}"


def _cut_too_soon(draft: Draft) -> list[Finding]:
    """Find parts that are measured on the piece, and yet are cut to size with all the others."""
    known = when(draft)
    found = []
    for step in draft.steps:
        for part_id in step.works_on if set(step.does) & FIRST_CUTS else ():
            part, later = draft.build.part(part_id), known.fitted.get(part_id)
            if part.fit_to:
                at = (
                    f"Cut it to that in step {later}"
                    if later
                    else "Cut it to that in the step that brings it"
                )
                found.append(
                    Finding("look at", "cut to fit", part.name, "it is cut to its final size among the first cuts, but "
                            f"it is to be measured first: {part.fit_to}.", f"step {step.number}",
                            source="common practice",
                            remedy=f"{at}, and take it out of works_on= here, or leave it too large.")
                )  # fmt: skip
    return found


def _optional_needed(draft: Draft) -> list[Finding]:
    optional = {part for step in draft.steps if step.optional for part in step.brings}
    return [
        _must(
            draft.build.part(part_id).name,
            f"step {step.number} needs it, but it comes in an optional step.",
            "Make that step required, or this one optional.",
        )
        for step in draft.steps
        if not step.optional
        for part_id in step.onto
        if part_id in optional
    ]


def unused_acceptances(draft: Draft, found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return a finding for everything the author accepts that no check found: a name mistyped, or mended since."""
    names = {(finding.check, part) for finding in found for part in ("", finding.part)}
    return tuple(
        Finding(
            "for information",
            "accepted in vain",
            acceptance.part,
            f"the plan accepts “{acceptance.check}”, which no check finds here.",
            source="the plan itself",
            remedy="Take plan.accept(…) out, or write the check and the part as plan.findings() does.",
        )
        for acceptance in draft.acceptances
        if (acceptance.check, acceptance.part) not in names
    )
