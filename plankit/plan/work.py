"""What each step does, found from its parts and joints; and the tools and cautions that follow from it."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from plankit.build import Alike, Fastener, Joint, alike
from plankit.finding import Finding
from plankit.parts import Banding, Bore, Feature, Groove, Mitre, Notch, Part, PocketHoles, Taper
from plankit.plan.facts import Draft, Step
from plankit.shop import Shop, known_tools, tool_knowledge
from plankit.units import Length

JOINT_WORK: dict[str, tuple[str, ...]] = {
    "glue": ("glue", "clamp"),
    "face screws": ("bore", "drive screws"),
    "pocket screws": ("clamp", "drive screws"),
    "brads": ("drive pins",),
    "top fixing": ("bore", "drive screws"),
}
"""Operations that making a joint takes."""
SETS = frozenset({"bore", "countersink", "measure", "mark", "band edges"})
"""Operations that take several tools together; for the others the first tool will do."""
FINISHING = ("sand", "finish")
"""Operations that finishing takes."""
CUTTING = ("measure", "mark", "break down sheets", "rip", "crosscut")
"""Operations that cutting the parts out takes."""
SAWING = frozenset(CUTTING[2:])
"""Of these, the ones that a saw does."""


@dataclass(frozen=True, slots=True)
class Work:
    """What one step comes to.

    features   what is done to which part, in the order of the parts
    glues_up   parts that are glued up from boards
    trims      glued-up parts that are trimmed to size
    tools      each operation with the tools it takes here
    """

    step: Step
    features: tuple[tuple[Part, Feature], ...]
    glues_up: tuple[Part, ...]
    trims: tuple[Part, ...]
    joints: tuple[Joint, ...]
    tools: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def fasteners(self) -> tuple[Fastener, ...]:
        """Every screw and brad of the step."""
        return tuple(fastener for joint in self.joints for fastener in joint.fasteners)

    @property
    def fastener_counts(self) -> dict[str, int]:
        """How many of each screw and brad, by what its box says."""
        return dict(Counter(fastener.spec.name for fastener in self.fasteners))

    @property
    def tool_names(self) -> tuple[str, ...]:
        """The tools of the step, each once."""
        return tuple(dict.fromkeys(name for _, names in self.tools for name in names))


def operation_of(feature: Feature) -> tuple[str, ...]:  # noqa: PLR0911 - a case for each kind
    """Return the operations that a feature takes."""
    match feature:
        case Taper():
            return ("taper",)
        case Notch():
            return ("notch",)
        case Mitre():
            return ("miter",)
        case Groove():
            return ("groove",)
        case PocketHoles():
            return ("pocket holes",)
        case Banding():
            return ("band edges",)
        case Bore(travel=Length()):
            return ("bore", "file")
        case Bore(countersink=None):
            return ("bore",)
        case Bore():
            return ("bore", "countersink")


def work_of(draft: Draft) -> tuple[Work, ...]:
    """Return what every step does: each feature is done once, where the author says or when its part arrives."""
    done: set[tuple[str, int]] = set()
    shaped: dict[str, set[str]] = {}
    return tuple(_one(draft, step, done, shaped) for step in draft.steps)


def _one(draft: Draft, step: Step, done: set[tuple[str, int]], shaped: dict[str, set[str]]) -> Work:
    features: list[tuple[Part, Feature]] = []
    for part_id, only in [*((p, step.does) for p in step.works_on), *((p, ()) for p in step.brings)]:
        part = draft.build.part(part_id)
        for number, feature in enumerate(part.features):
            if (part_id, number) not in done and (not only or set(operation_of(feature)) & set(only)):
                done.add((part_id, number))
                features.append((part, feature))
    glues, trims = _slabs(draft, step, shaped)
    joints = tuple(draft.build.joints[number] for number in step.joints)
    operations = list(step.does)
    operations += ["measure", "mark"] * bool(features or joints)
    operations += [operation for _, feature in features for operation in operation_of(feature)]
    operations += ["plane", "glue", "clamp"] * bool(glues) + [
        "measure",
        "mark",
        "crosscut",
        "plane",
        "sand",
    ] * bool(trims)
    operations += [operation for joint in joints for operation in JOINT_WORK[joint.kind]]
    tools = tuple((op, tools_for(draft.shop, op, step)) for op in dict.fromkeys(operations))
    return Work(step, tuple(features), glues, trims, joints, tools)


def _slabs(
    draft: Draft, step: Step, shaped: dict[str, set[str]]
) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    glues, trims = [], []
    for part_id in dict.fromkeys((*step.works_on, *step.brings)):
        part = draft.build.part(part_id)
        if part.glue_up is None or set(step.does) >= {"break down sheets"}:
            continue
        made = shaped.setdefault(part_id, set())
        if "glue" not in made and (not step.does or "glue" in step.does):
            made.add("glue")
            glues.append(part)
        if "trim" not in made and (not step.does or "crosscut" in step.does):
            made.add("trim")
            trims.append(part)
    return tuple(glues), tuple(trims)


def tools_for(shop: Shop, operation: str, step: Step | None = None) -> tuple[str, ...]:
    """Return the tools for an operation: the author's choice, the shop's, or what the trade would use."""
    chosen = dict(step.using).get(operation) if step else None
    if chosen:
        return (chosen,)
    names = tuple(tool.name for tool in shop.tools_for(operation))
    if not names:
        return tuple(name for name in known_tools() if operation in _does(name))[:1]
    return names if operation in SETS else names[:1]


def _does(name: str) -> tuple[str, ...]:
    known = tool_knowledge(name)
    return known.does if known else ()


def order_findings(draft: Draft, works: tuple[Work, ...]) -> tuple[Finding, ...]:
    """Return findings about the steps: parts that never arrive, joints and cuts that no step makes, missing tools."""
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
    found += _no_cutting(draft)
    found += _missing_tools(draft, works)
    found += _optional_needed(draft)
    return tuple(found)


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


def labels(draft: Draft) -> tuple[tuple[Alike, ...], dict[str, str]]:
    """Return the groups of equal parts, and each part's label by its id."""
    groups = alike(draft.build)
    return groups, {part.id: group.label for group in groups for part in (*group.parts, *group.other)}
