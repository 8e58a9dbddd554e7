"""Every length that a plan computes: what it is called, what it comes to, and how it was worked out.

From these a reader's page can work lengths out again with her own sheet thickness, and prose can be told
from numbers that go stale.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from plankit.parts import AXES, FACES, Part
from plankit.plan.facts import Draft
from plankit.units import Condition, Length


@dataclass(frozen=True, slots=True)
class Computed:
    """A length with the name of what it measures."""

    what: str
    length: Length


@dataclass(frozen=True, slots=True)
class Reworked:
    """Lengths worked out again for other parameter values.

    lengths  by the same names, in the same order
    holds    whether the same parts would be made with these values
    broken   what would be decided differently; empty where `holds`
    """

    lengths: tuple[Computed, ...]
    holds: bool
    broken: tuple[str, ...]


def computed(draft: Draft) -> tuple[Computed, ...]:
    """Return every length of the build: faces, sizes, features and fasteners, by part."""
    found: list[Computed] = []
    for part in draft.build.parts:
        found += _of_part(part)
    found += [Computed(name, clear) for name, clear in draft.spaces]
    for joint in draft.build.joints:
        for number, fastener in enumerate(joint.fasteners):
            name = f"{joint.holds} into {joint.to}, {fastener.spec.kind} {number + 1}"
            found += [Computed(f"{name} {axis}", fastener.head.along(axis)) for axis in AXES]
    return tuple(found)


def _of_part(part: Part) -> Iterator[Computed]:
    yield Computed(f"{part.id} length", part.length)
    yield Computed(f"{part.id} width", part.width)
    yield Computed(f"{part.id} thickness", part.thickness)
    for face in FACES:
        yield Computed(f"{part.id} {face}", part.box.face(face))
    if part.glue_up is not None:
        yield Computed(f"{part.id} boards rip", part.glue_up.rip)
        yield Computed(f"{part.id} boards length", part.glue_up.length)
    for number, feature in enumerate(part.features):
        for path, length in _lengths_in(feature):
            yield Computed(f"{part.id} {type(feature).__name__.lower()} {number + 1} {path}", length)


def _lengths_in(value: Any, path: str = "") -> Iterator[tuple[str, Length]]:
    if isinstance(value, Length):
        yield path, value
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from _lengths_in(item, f"{path} {number + 1}".strip())
    elif hasattr(value, "__dataclass_fields__"):
        for name in value.__dataclass_fields__:
            yield from _lengths_in(getattr(value, name), f"{path} {name}".strip())


def work_out_again(draft: Draft, values: Mapping[str, Length]) -> Reworked:
    """Return every length for other parameter values, and say where other parts would be made instead."""
    exact = {name: length.mm for name, length in values.items()}
    lengths = tuple(Computed(one.what, one.length.evaluate(values)) for one in computed(draft))
    broken = [_said(draft, condition) for condition in draft.conditions if not condition.still_holds(exact)]
    broken += [
        f"{one.what} would be nothing or less" for one in lengths if is_size(one.what) and one.length.mm <= 0
    ]
    return Reworked(lengths, not broken, tuple(broken))


def is_size(what: str) -> bool:
    """Tell whether a computed length is the size of a part, as against a place."""
    return what.endswith((" length", " width", " thickness"))


def _said(draft: Draft, condition: Condition) -> str:
    return (
        condition.words(lambda mm: draft.notation.length(Length.of_mm(mm)))
        + " only with the plan's own values"
    )


def computed_lengths(draft: Draft) -> list[dict[str, Any]]:
    """Return the sizes of every part as data: the value, the words, and the expression."""
    write = draft.notation
    wanted = [c for c in computed(draft) if is_size(c.what) or c.what.endswith((" rip", " spaces"))]
    return [
        {
            "what": one.what,
            "value": write.both(one.length),
            "mm": str(one.length.mm),
            "why": write.why(one.length),
            "from": one.length.expr.to_data(),
        }
        for one in wanted
    ]
