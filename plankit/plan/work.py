"""What each step does, found from its parts and joints; and the tools and cautions that follow from it."""

from collections import Counter
from dataclasses import dataclass
from functools import lru_cache

from plankit.build import Alike, Build, Fastener, Item, Joint, alike
from plankit.cutting.shop_saws import saws_of
from plankit.parts import Feature, Part
from plankit.plan.facts import Draft, Step
from plankit.plan.note_work import asked_in
from plankit.plan.operations import operation_of
from plankit.plan.waiting import WAITS
from plankit.plan.work_when import FIRST_CUTS, When, when_of
from plankit.shop import Shop, known_tools, tool_knowledge
from plankit.stock import Lumber

JOINT_WORK: dict[str, tuple[str, ...]] = {
    "glue": ("glue", "clamp"),
    "face screws": ("bore", "drive screws"),
    "pocket screws": ("clamp", "drive screws"),
    "brads": ("drive pins",),
    "staples": ("drive pins",),
    "nails": ("drive pins",),
    "dowels": ("glue", "clamp"),
    "buttons": ("drive screws",),
    "top fixing": ("bore", "drive screws"),
}
"""Operations that making a joint takes."""
SETS = frozenset({"bore", "countersink", "measure", "mark", "band edges"})
"""Operations that take several tools together; for the others the first tool will do."""
GLUING_UP = ["plane", "glue", "clamp"]
"""Operations that gluing boards up takes."""
TRIMMING = ["measure", "mark", "crosscut", "plane", "sand"]
"""Operations that trimming a glued-up part takes."""
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
    items      hardware that is fitted
    fitted     parts that are measured on the piece and cut to that
    """

    step: Step
    features: tuple[tuple[Part, Feature], ...]
    glues_up: tuple[Part, ...]
    trims: tuple[Part, ...]
    joints: tuple[Joint, ...]
    tools: tuple[tuple[str, tuple[str, ...]], ...]
    items: tuple[Item, ...] = ()
    fitted: tuple[Part, ...] = ()

    @property
    def fasteners(self) -> tuple[Fastener, ...]:
        """Every screw, pin, nail and dowel of the step, those of its hardware included."""
        joined = tuple(fastener for joint in self.joints for fastener in joint.fasteners)
        return (*joined, *(fastener for item in self.items for fastener in item.fasteners))

    @property
    def fastener_counts(self) -> dict[str, int]:
        """How many of each screw and brad, by what its box says."""
        return dict(Counter(fastener.spec.name for fastener in self.fasteners))

    @property
    def item_counts(self) -> dict[str, int]:
        """How many of each piece of hardware, by its name."""
        return dict(Counter(item.name for item in self.items))

    @property
    def tool_names(self) -> tuple[str, ...]:
        """The tools of the step, each once."""
        return tuple(dict.fromkeys(name for _, names in self.tools for name in names))


def work_of(draft: Draft) -> tuple[Work, ...]:
    """Return what every step does: each cut and hole is made once, where the author says or when its part arrives."""
    return _work_of(draft.build, draft.steps, draft.shop)


@lru_cache(maxsize=64)
def _work_of(build: Build, steps: tuple[Step, ...], shop: Shop) -> tuple[Work, ...]:
    known = when_of(build, steps)
    return tuple(_one(build, step, shop, known) for step in steps)


def _one(build: Build, step: Step, shop: Shop, known: When) -> Work:
    held = (build.joints[number].holds for number in step.joints)
    in_hand = [build.part(part_id) for part_id in dict.fromkeys((*step.works_on, *step.brings, *held))]
    features = tuple(
        (part, feature)
        for part in in_hand
        for number, feature in enumerate(part.features)
        if known.features.get((part.id, number)) == step.number
    )
    glues = tuple(part for part in in_hand if known.glued.get(part.id) == step.number)
    trims = tuple(part for part in in_hand if known.trimmed.get(part.id) == step.number)
    joints = tuple(build.joints[number] for number in step.joints)
    items = tuple(item for number, item in enumerate(build.items) if known.items.get(number) == step.number)
    fitted = tuple(part for part in in_hand if part.fit_to and known.fitted.get(part.id) == step.number)
    operations = list(step.does)
    operations += ["measure", "mark"] * bool(features or joints or fitted)
    operations += ["crosscut"] * bool(fitted)
    operations += [operation for part, feature in features for operation in operation_of(part, feature)]
    operations += GLUING_UP * bool(glues) + TRIMMING * bool(trims)
    operations += [operation for joint in joints for operation in JOINT_WORK[joint.kind]]
    operations += ["bore", "drive screws"] * any(item.fasteners or item.kind == "wall fixing" for item in items)
    operations += [*asked_in(step.note), *["finish"] * (step.waits == WAITS["finish"])]
    tools = tuple((op, _tools(shop, op, step, build)) for op in dict.fromkeys(operations))
    return Work(step, features, glues, trims, joints, tools, items, fitted)


def _tools(shop: Shop, operation: str, step: Step, build: Build) -> tuple[str, ...]:
    """The tools for an operation in a step: boards are crosscut by another saw than sheets where the shop has both."""
    usual = tools_for(shop, operation, step)
    if operation != "crosscut" or not set(step.does) & FIRST_CUTS or dict(step.using).get(operation):
        return usual
    stocks = [build.part(part_id).stock for part_id in step.works_on]
    boards = [stock for stock in stocks if isinstance(stock, Lumber)]
    saws = [saw.name for saw in saws_of(shop, boards=True)[:1]] if boards else []
    return tuple(dict.fromkeys((*usual, *saws))) if len(boards) < len(stocks) else tuple(saws) or usual


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


def labels(draft: Draft) -> tuple[tuple[Alike, ...], dict[str, str]]:
    """Return the groups of equal parts, and each part's label by its id."""
    groups = _alike(draft.build)
    return groups, {part.id: group.label for group in groups for part in (*group.parts, *group.other)}


_alike = lru_cache(maxsize=32)(alike)
