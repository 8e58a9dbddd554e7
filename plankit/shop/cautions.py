"""What plankit knows about tools: what they are for, other ways, and the cautions they need."""

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

from plankit.errors import PlanError
from plankit.reference.tables import did_you_mean
from plankit.shop.tool import SIGNALS, Caution, Tool
from plankit.stock import slug


@dataclass(frozen=True, slots=True)
class Knowledge:
    """A tool as any shop has it.

    does       what it can do
    purpose    the same as a phrase for a plan's tool list: "ripping boards to width"
    otherwise  another way for a reader who has none; "" where there is no sensible one
    led        how a saw for straight cuts is led; "" for every other tool
    """

    name: str
    does: tuple[str, ...]
    purpose: str
    otherwise: str
    led: str
    cautions: tuple[Caution, ...]


def tool_knowledge(name: str) -> Knowledge | None:
    """Return what is known about a tool by any of its names; None for a tool that is not known."""
    return _tools().get(slug(name))


def known_tools() -> tuple[str, ...]:
    """Return the names of all tools that plankit knows."""
    return tuple(dict.fromkeys(known.name for known in _tools().values()))


def cautions_for(tools: Iterable[str], own: Iterable[Tool] = ()) -> tuple[Caution, ...]:
    """Return the cautions that a plan with these tools must carry, gravest first, each once.

    tools   names of the tools used
    own     the shop's tools; what it says itself about a tool comes with what is known in general
    raises  PlanError for a tool about which neither says anything
    """
    shop = {tool.key: tool for tool in own}
    found: dict[Caution, None] = {}
    for name in tools:
        known, here = tool_knowledge(name), shop.get(slug(name))
        if known is None and (here is None or not here.cautions):
            raise PlanError(
                "no cautions are known for this tool, and a plan is not made without them.",
                where="tools",
                given=repr(name),
                remedy=f"{did_you_mean(name, known_tools())} Or give it a [[tool.caution]] in the shop file.",
            )
        found |= dict.fromkeys(known.cautions if known else ())
        found |= dict.fromkeys(here.cautions if here else ())
    return tuple(sorted(found, key=lambda caution: SIGNALS.index(caution.signal)))


def general_cautions(*topics: str) -> tuple[Caution, ...]:
    """Return the cautions that every plan carries, and those for the topics named.

    topics  any of "glue", "finish", "oily rags", "lifting", "wires and pipes", "tall furniture"
    raises  KeyError for a topic there is none for
    """
    always, asked = _general()
    return (*always, *(asked[topic] for topic in topics))


@cache
def _contents() -> dict[str, Any]:
    text = (files("plankit.shop") / "tools.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def _tools() -> dict[str, Knowledge]:
    found: dict[str, Knowledge] = {}
    for entry in _contents()["tool"]:
        cautions = tuple(_caution(entry["name"], one) for one in entry.get("caution", ()))
        known = Knowledge(
            entry["name"], tuple(entry["does"]), entry["purpose"], entry.get("otherwise", ""), entry.get("led", ""),
            cautions,
        )  # fmt: skip
        found |= {slug(name): known for name in (known.name, *entry.get("also", ()))}
    return found


@cache
def _general() -> tuple[tuple[Caution, ...], Mapping[str, Caution]]:
    entries = _contents()["general"]
    always = tuple(_caution(one["about"], one) for one in entries if one.get("always"))
    asked = {one["about"]: _caution(one["about"], one) for one in entries if not one.get("always")}
    return always, asked


def _caution(about: str, entry: Mapping[str, Any]) -> Caution:
    return Caution(entry["signal"], about, " ".join(entry["text"].split()), entry["source"])
