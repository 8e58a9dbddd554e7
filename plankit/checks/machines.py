"""Whether the shop's own tools can cut each part, and which cuts need a jig or another tool."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from plankit.build import Build
from plankit.checks.wording import PRACTICE, gathered, told_apart
from plankit.finding import Finding, Level
from plankit.parts import (
    AXIS_OF,
    HINGE_LEAF,
    Bevel,
    CompoundMitre,
    Face,
    Groove,
    Mitre,
    Part,
    Taper,
    other_axes,
)
from plankit.shop import Shop, Tool
from plankit.stock import Lumber
from plankit.units import Angle, L, Length, Notation, largest, smallest

STEEPEST = Angle(Fraction(50))
"""Scales of mitre saws end here, or at 45 degrees (common practice)."""
STEEPEST_TILT = Angle(Fraction(45))
"""Blades of table saws and circular saws tilt so far (common practice)."""
STEEPEST_TAPER = Angle(Fraction(15))
"""Tapering jigs open so far (common practice)."""
NARROWEST_RIP = L("3/4 in")
"""Strips narrower than this are ripped as the last cut, off the far side of the blade, or by hand (common practice)."""
MANUAL = "; the tool's own manual comes first"


@dataclass(frozen=True, slots=True)
class _Need:
    """One cut that a part takes.

    operation  in the words of the shop
    long       how long the cut is
    thick      how thick the wood is that is cut through
    held       how wide the piece is between fence and blade; nothing where no fence is used
    what       the cut in a sentence: "crosscutting it to length"
    """

    operation: str
    long: Length
    thick: Length
    held: Length
    what: str


def machines(build: Build, shop: Shop, notation: Notation) -> tuple[Finding, ...]:
    """Return findings about cuts beyond the reach of the shop's tools, and about pieces too small for them.

    What a shop file does not limit, such as a hand saw, can do any cut. Operations the shop has no tool for
    are left to the plan's list of tools.
    """
    found: list[Finding] = []
    for part in build.parts:
        for need in _needs(part):
            found += _beyond(part, need, shop, notation)
        found += _small(part, shop, notation)
        found += _narrow(part, notation)
        found += _steep(part, shop, notation)
    return gathered(found)


def _needs(part: Part) -> Iterator[_Need]:
    zero = Length.zero()
    if part.glue_up is not None:
        made = part.glue_up
        yield _Need("rip", made.length, part.stock.thickness, made.rip, "ripping its boards")
        yield _Need("crosscut", part.width, part.thickness, zero, "trimming it to length")
        return
    length, width = part.cut_size()
    if isinstance(part.stock, Lumber):
        thick, wide = smallest(part.width, part.thickness), largest(part.width, part.thickness)
        yield _Need("crosscut", wide, thick, zero, "crosscutting it to length")
        if width.mm < part.stock.width.mm and part.thickness.mm < part.stock.width.mm:
            yield _Need("rip", length, part.stock.thickness, width, "ripping it to width")
        return
    yield _Need("rip", length, part.thickness, width, "cutting its long edges")
    yield _Need("crosscut", width, part.thickness, length, "cutting its ends")


def _beyond(part: Part, need: _Need, shop: Shop, notation: Notation) -> Iterator[Finding]:
    tools = _able(shop, need.operation)
    if not tools:
        return
    beyond = [(tool, _too_much(tool, need)) for tool in tools]
    if any(over is None for _, over in beyond):
        return
    said = "; ".join(_said(tool, over, notation) for tool, over in beyond if over is not None)
    yield Finding(
        "look at",
        "beyond the tools",
        part.name,
        f"No tool of this shop reaches far enough for {need.what} for {part.name}.",
        need.what,
        said,
        f"the limits of the tools in {shop.name}",
        "Have it cut where it is bought, cut it from both sides, or list a tool that can.",
    )


def _able(shop: Shop, operation: str) -> tuple[Tool, ...]:
    """Tools for an operation; sheets are broken down by what rips and crosscuts, and by what says so."""
    tools = shop.tools_for(operation)
    return tools + tuple(tool for tool in shop.tools_for("break down sheets") if tool not in tools)


def _too_much(tool: Tool, need: _Need) -> tuple[str, Length, Length] | None:
    """What of a cut is beyond a tool: how the tool's limit is said, the limit, and what is needed."""
    across = need.long if need.operation in {"crosscut", "miter"} else Length.zero()
    for name, what, size in (
        ("deepest_cut", "cuts {} deep", need.thick),
        ("longest_cut", "cuts {} long", need.long),
        ("widest_crosscut", "crosscuts {}", across),
        ("widest_rip", "takes {} beside its blade", need.held),
    ):
        limit = tool.limit(name)
        if limit is not None and size.mm > limit.mm:
            return what, limit, size
    return None


def _said(tool: Tool, over: tuple[str, Length, Length], notation: Notation) -> str:
    what, limit, size = over
    reaches, asked = told_apart(limit, size, notation)
    return f"{tool.name}: {what.format(reaches)}, and this is {asked}"


def _small(part: Part, shop: Shop, notation: Notation) -> Iterator[Finding]:
    """A piece that is worked on after it is cut off, too short for a machine to hold."""
    for operation in dict.fromkeys(_worked_by(part)):
        tools = shop.tools_for(operation)
        short = [tool for tool in tools if _too_short(tool, part)]
        if not short:
            continue
        fit = [tool.name for tool in tools if tool not in short]
        limit = max((tool.limit("shortest_piece") or Length.zero() for tool in short), key=lambda x: x.mm)
        level: Level = "for information" if fit else "look at"
        long, least = told_apart(part.length, limit, notation)
        use = f"use the {fit[0].lower()}, or " if fit else ""
        yield Finding(
            level,
            "too short for a machine",
            part.name,
            f"{part.name} is too short to {operation} on the {_and(tool.name.lower() for tool in short)}.",
            "from end to end",
            f"{long}; at least {least} is asked",
            f"the limits of the tools in {shop.name}{MANUAL}",
            f"{use}do it on the end of a longer piece, and cut that off last.".capitalize(),
        )


def _worked_by(part: Part) -> Iterator[str]:
    for feature in part.features:
        match feature:
            case Taper():
                yield "taper"
            case Mitre() | CompoundMitre() | Bevel():
                yield "miter"
            case Groove(reason=reason) if reason != HINGE_LEAF:  # a hinge recess is chopped
                yield "groove"
            case _:
                pass


def _too_short(tool: Tool, part: Part) -> bool:
    least = tool.limit("shortest_piece")
    return least is not None and part.length.mm < least.mm


def _and(names: Iterable[str]) -> str:
    return " and ".join(dict.fromkeys(names))


def _narrow(part: Part, notation: Notation) -> Iterator[Finding]:
    """A strip ripped so narrow that a hand cannot guide it past the blade."""
    if part.glue_up is not None or not isinstance(part.stock, Lumber):
        return
    narrow = smallest(part.width, part.thickness)
    ripped = narrow.mm not in {part.stock.thickness.mm, part.stock.width.mm}
    if not ripped or narrow.mm >= NARROWEST_RIP.mm:
        return
    wide, least = told_apart(narrow, NARROWEST_RIP, notation)
    yield Finding(
        "look at",
        "narrow strip",
        part.name,
        f"{part.name} is ripped to a strip so narrow that it wanders between blade and fence, or falls beside "
        "the blade.",
        "",
        wide,
        f"{PRACTICE}: {least} or more{MANUAL}",
        "Rip it off the far side of the blade from a wider board, with a push stick and a plate without a gap, "
        "or saw it by hand and plane it.",
    )


def _steep(part: Part, shop: Shop, notation: Notation) -> Iterator[Finding]:
    for feature in part.features:
        if isinstance(feature, Taper):
            yield from _steep_taper(part, feature, shop, notation)
        elif isinstance(feature, Mitre | Bevel):
            end = feature.end if isinstance(feature, Mitre) else feature.edge
            yield from _steep_mitre(part, end, feature.short, feature.setback, notation)


def _steep_taper(part: Part, taper: Taper, shop: Shop, notation: Notation) -> Iterator[Finding]:
    machines_only = [tool.name.lower() for tool in shop.tools_for("taper") if tool.key == "table-saw"]
    others = [tool for tool in shop.tools_for("taper") if tool.key != "table-saw"]
    if taper.angle.degrees <= STEEPEST_TAPER.degrees or others or not machines_only:
        return
    yield Finding(
        "look at",
        "needs a jig",
        part.name,
        f"The taper of {part.name} is steeper than a tapering jig opens.",
        f"on the {taper.face}",
        notation.angle(taper.angle),
        f"{PRACTICE}: up to {notation.angle(STEEPEST_TAPER)}",
        "Saw it by hand or on a band saw to the marked line, or screw the piece to a sled.",
    )


def _steep_mitre(
    part: Part, end: Face, short: Face, setback: Length, notation: Notation
) -> Iterator[Finding]:
    """A setting beyond the saw's scale: across the face of a board, or tilted through its thickness."""
    angle = Angle.of_slope(setback, part.box.extent(AXIS_OF[short]))
    tilted = AXIS_OF[short] == part.through
    most = STEEPEST_TILT if tilted else STEEPEST
    if angle.degrees <= most.degrees:
        return
    (wide,) = (axis for axis in other_axes(AXIS_OF[end]) if axis != AXIS_OF[short])
    what = "tilts" if tilted else "turns"
    yield Finding(
        "look at",
        "needs a jig",
        part.name,
        f"The {end} end of {part.name} is cut at a steeper angle than a saw {what}.",
        f"{notation.length(part.box.extent(wide))} {'wide' if tilted else 'thick'}",
        f"{notation.angle(angle)}, or {notation.angle(Angle(90 - angle.degrees))} to the edge",
        f"{PRACTICE}: up to {notation.angle(most)}",
        "Stand the piece on its end against a tall fence or in a jig, set to the angle to the edge, or saw it by "
        "hand to a line.",
    )
