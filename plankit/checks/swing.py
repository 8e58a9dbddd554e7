"""Whether what opens can open: what a door, a flap, a bin or a drawer meets, its stops, its load, its gaps."""

from collections.abc import Iterable, Sequence

from plankit.build import Build, Moving
from plankit.build.swing import Meeting, Sweep, pivot_of, sweep
from plankit.build.swing_room import clear_opening, falls_out, goes_in, missing_room
from plankit.checks.balance import together, weighed
from plankit.checks.hung import never_opened
from plankit.checks.opened import move
from plankit.checks.people import supported
from plankit.checks.swing_both import open_together
from plankit.checks.swing_gaps import gaps, small_gaps
from plankit.checks.wording import PRACTICE, spot
from plankit.finding import Finding
from plankit.parts import Axis, Point
from plankit.units import Angle, Length, Notation

GEOMETRY = "geometry of the swing"
STATICS = "statics of a stiff block over an edge: an estimate"
_SLACK = 0.05
"""Degrees by which two angles may differ and still be the same."""
_LOOSE = 0.5
"""Degrees by which a stop may come before or after the angle that is meant."""
_WAY: dict[Axis, str] = {"x": "left to right", "y": "front to back", "z": "up and down"}


def swing(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return every finding about what turns or slides."""
    found: list[Finding] = []
    for moving in build.moving:
        swept = sweep(build, moving)
        if moving.pivot is None:
            found += _pulled(build, swept, notation)
            found += small_gaps(build, moving, notation)
            continue
        found += _opening(build, swept, notation)
        found += _stops(build, swept, notation)
        found += _going_in(build, swept, notation)
        found += _load(build, swept, notation)
        found += gaps(build, moving, notation)
    return (*found, *open_together(build, notation), *never_opened(build))


def _pulled(build: Build, swept: Sweep, notation: Notation) -> Iterable[Finding]:
    """A drawer that meets something before it is out as far as it should be."""
    moving = swept.moving
    met = swept.in_the_way()
    if met is None or moving.slides is None:
        return
    yield Finding(
        "must fix",
        "drawer meets something",
        moving.name,
        f"{moving.name} runs into {met.name} when it is {_out(met, notation)} out, "
        f"and is to come out {notation.length(moving.slides[1])}.",
        _spot(met, build, notation),
        notation.length(met.travel),
        GEOMETRY,
        f"Move {met.name} out of its way, or make {moving.name} smaller{_through_a_frame(met)}.",
    )


def _through_a_frame(met: Meeting) -> str:
    """What helps a drawer that comes out through a face frame; "" for any other."""
    framed = met.name.casefold().endswith((" stile", " rail"))
    return "; through a face frame it comes with plan.drawer(…, frame=…, blocks=…)" if framed else ""


def _out(met: Meeting, notation: Notation) -> str:
    return notation.length(met.travel)


def meant_angle(swept: Sweep) -> Angle | None:
    """Return how far something should open: as its author says, or else to its stop; None where neither is."""
    return swept.meant


def _opening(build: Build, swept: Sweep, notation: Notation) -> Iterable[Finding]:
    """What is met before the angle that is meant."""
    moving, met, meant = swept.moving, swept.in_the_way(), meant_angle(swept)
    if met is None or meant is None or met.angle.degrees >= meant.degrees - _SLACK:
        return
    first = met.angle.degrees < _SLACK
    when = "as soon as it begins to open" if first else f"at {notation.angle(met.angle)}"
    until = "is to open to" if moving.opens is not None else "its stop is at"
    own = "" if met.moved in {moving.parts[0], moving.contents} else f" ({_name(build, met.moved)})"
    yield Finding(
        "must fix",
        "knuckle gap" if first else "swing meets something",
        moving.name,
        f"{moving.name}{own} meets {met.name} {when}, and {until} {notation.angle(meant)}.",
        _spot(met, build, notation),
        notation.angle(met.angle),
        GEOMETRY,
        _make_room(build, swept, met, meant, notation),
    )


def _make_room(build: Build, swept: Sweep, met: Meeting, meant: Angle, notation: Notation) -> str:
    """What to change: how much, which way, and what else would help."""
    moving = swept.moving
    if met.kind == "floor":
        return f"Raise what {moving.name} turns about, or stop it before {notation.angle(met.angle)}."
    missing = missing_room(build, moving, met, meant)
    joined = f" If {met.name} moves with it, name it among what moves."
    stopped = "" if met.angle.degrees < _SLACK else f" Or stop it before {notation.angle(met.angle)}."
    if missing is None:
        return f"Move {met.name}.{stopped}{joined}"
    axis, amount = missing
    more = notation.length(amount.rounded_up(notation.step))
    return f"Make about {more} more room {_WAY[axis]} between {moving.name} and {met.name}.{stopped}{joined}"


def _stops(build: Build, swept: Sweep, notation: Notation) -> Iterable[Finding]:
    """Stops that are missing, that miss, or that come at another angle than is meant."""
    moving, stop = swept.moving, swept.stop()
    if moving.kind == "bin" and stop is None and not _held(build, moving):
        yield _no_stop(swept, notation)
    elif moving.kind == "flap" and stop is None and _drops(build, swept) and not _held(build, moving):
        yield _drops_open(moving.name)
    met_first = _first_stops(swept.opening, moving) | _first_stops(swept.inwards, moving)
    for missed in (one for one in moving.stops if one not in met_first):
        yield Finding(
            "must fix",
            "stop that misses",
            moving.name,
            f"{moving.name} never meets its stop, {_name(build, missed)}.",
            source=GEOMETRY,
            remedy=f"Put {_name(build, missed)} in the way of what moves; stop_place(…) says where for an angle.",
        )
    if stop is None or moving.opens is None:
        return
    apart = stop.angle.degrees - moving.opens.degrees
    if abs(apart) > _LOOSE:
        yield Finding(
            "look at",
            "stop at another angle",
            moving.name,
            f"{moving.name} is to open to {notation.angle(moving.opens)}, and its stop lets it open to "
            f"{notation.angle(stop.angle)}.",
            _spot(stop, build, notation),
            notation.angle(stop.angle),
            GEOMETRY,
            "Move the stop: stop_place(…) says where it goes. Or say the angle that the stop gives.",
        )


def _first_stops(way: Sequence[Meeting], moving: Moving) -> set[str]:
    """The stops that are met one way, those left out that others keep it from reaching."""
    found = [(met, one) for met in way for one in (met.moved, met.met) if one in moving.stops]
    first = min((met.angle.degrees for met, _ in found), default=0)
    return {one for met, one in found if met.angle.degrees <= first + _LOOSE}


def _no_stop(swept: Sweep, notation: Notation) -> Finding:
    moving, met = swept.moving, swept.in_the_way()
    until = f" until it meets {met.name} at {notation.angle(met.angle)}" if met else ""
    return Finding(
        "must fix",
        "no stop",
        moving.name,
        f"Nothing stops {moving.name} when it is opened{until}: it falls open with all that is in it.",
        source=PRACTICE,
        remedy="Add a stop that it meets on the way out: a block, a chain or a stay, and name it with stop=….",
    )


def _drops(build: Build, swept: Sweep) -> bool:
    """Whether a flap falls as it opens, with no stay and nothing that it comes to lie on."""
    moving, met, meant = swept.moving, swept.in_the_way(), meant_angle(swept)
    rests = met is not None and (meant is None or met.angle.degrees <= meant.degrees + _LOOSE)
    if pivot_of(moving).axis == "z" or rests or supported(build, moving):
        return False
    shut = together(weighed(build.part(one)) for one in moving.parts).at
    return move(moving, shut)[2] < shut[2] - 1


def _drops_open(name: str) -> Finding:
    return Finding(
        "look at",
        "no stop",
        name,
        f"{name} drops as it opens, and nothing holds it there but its hinges, which tear out.",
        source=PRACTICE,
        remedy="Add a part that it comes to lie on, and name it with stop=…; or a stay: "
        f'plan.buy("flap stay", 2, where="from the sides to the {name.lower()}").',
    )


def _held(build: Build, moving: Moving) -> bool:
    """Whether hardware between it and what stays (a chain, a stay) stops it."""
    own = set(moving.parts)
    return any(item.kind == "stop" and set(item.on) & own and set(item.on) - own for item in build.items)


def _going_in(build: Build, swept: Sweep, notation: Notation) -> Iterable[Finding]:
    """How far it can go in past shut: no stop, or something met before the adjustable one."""
    moving = swept.moving
    met = swept.inwards[0] if swept.inwards else None
    allowed = moving.inwards.degrees
    if met is not None and met.angle.degrees < allowed - _SLACK and not swept.is_stop(met):
        yield Finding(
            "must fix",
            "goes in too far",
            moving.name,
            f"{moving.name} meets {met.name} when it has gone {notation.angle(met.angle)} in past shut, "
            f"and its stop lets it go {notation.angle(moving.inwards)}.",
            _spot(met, build, notation),
            notation.angle(met.angle),
            GEOMETRY,
            f"Set the stop to less than {notation.angle(met.angle)}, or move {met.name}.",
        )
        return
    if allowed or _caught(build, moving) or (met is not None and met.angle.degrees <= _LOOSE):
        return
    until = f" {notation.angle(met.angle)} before it meets {met.name}" if met else ""
    yield Finding(
        "look at",
        "no inward stop",
        moving.name,
        f"Nothing holds {moving.name} where it is shut: it goes in past that{until}.",
        number=notation.angle(met.angle) if met else "",
        source=PRACTICE,
        remedy="Add a strip, a block or a catch that it closes on, or say how far an adjustable stop lets it "
        'go: inwards="2 deg".',
    )


def _caught(build: Build, moving: Moving) -> bool:
    """Whether hardware holds it shut: a catch or a stop on it, or a cup hinge, which springs shut."""
    own = set(moving.parts)
    on_it = [item for item in build.items if set(item.on) & own]
    return any(
        item.kind in {"catch", "stop"} or (item.kind == "hinge" and "cup" in item.name) for item in on_it
    )


def _load(build: Build, swept: Sweep, notation: Notation) -> Iterable[Finding]:
    """Contents that do not come out with the bin, do not go in, or fall out of it."""
    moving, open_to = swept.moving, meant_angle(swept) or swept.angle
    thing = next((one for one in build.things if one.name == moving.contents), None)
    if thing is None or open_to is None:
        return
    met = swept.carried[0] if swept.carried else None
    if met is not None and met.angle.degrees < open_to.degrees - _SLACK:
        yield Finding(
            "must fix",
            "contents do not fit",
            moving.name,
            f"{thing.name} meets {met.name} when {moving.name} is open {notation.angle(met.angle)}.",
            _spot(met, build, notation),
            notation.angle(met.angle),
            GEOMETRY,
            f"Keep it lower or shallower, or make more room under {met.name}.",
        )
    clear = clear_opening(build, moving, open_to)
    if clear is not None:
        yield from _through(build, moving, clear.width, notation)
    if falls_out(build, moving, thing, open_to):
        yield Finding(
            "look at",
            "contents fall out",
            moving.name,
            f"{thing.name} tips over the front of {moving.name} when that is open {notation.angle(open_to)}.",
            number=notation.angle(open_to),
            source=STATICS,
            remedy="Let it open less far, or make its front higher.",
        )


def _through(build: Build, moving: Moving, width: Length, notation: Notation) -> Iterable[Finding]:
    thing = next(one for one in build.things if one.name == moving.contents)
    how = goes_in(thing, width, pivot_of(moving).axis)
    if how == "upright":
        return
    said = "only goes in lying" if how else "does not go in"
    yield Finding(
        "look at" if how else "must fix",
        "contents do not go in",
        moving.name,
        f"{thing.name} {said} through the top of {moving.name}, which is {notation.length(width)} wide when open.",
        number=notation.length(width),
        source=GEOMETRY,
        remedy="Let it open further, or lower its front.",
    )


def _name(build: Build, key: str) -> str:
    return next((part.name for part in build.parts if part.id == key), key)


def _spot(met: Meeting, build: Build, notation: Notation) -> str:
    x, y, z = (Length.of_mm(round(value * 1000)).portion(1000) for value in met.at)
    return spot(Point(x, y, z), build.box, notation)


__all__ = ["meant_angle", "swing"]
