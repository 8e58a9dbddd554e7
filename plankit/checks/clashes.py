"""Fasteners that meet one another inside the wood."""

from dataclasses import dataclass

from plankit.build import Build, Fastener
from plankit.build.near import near_ends
from plankit.checks.wording import a_or_an, gathered, spot
from plankit.finding import Finding
from plankit.units import Length, Notation
from plankit.units.notation import ROUNDED

type Vector = tuple[float, float, float]
type Piece = tuple[Vector, Vector]
_MOVED_BY: dict[str, str] = {
    "pocket screws": "shift=… or each=…",
    "dowels": "shift=… or each=…",
    "face screws": "inset=… or each=…",
    "top fixing": "inset=… or each=…",
    "buttons": "each=…",
    "nails": "each=…",
    "brads": "spacing=…",
    "staples": "spacing=…",
}
"""What the verbs of each kind of joint take that moves its fasteners."""


def clashes(build: Build, notation: Notation) -> tuple[Finding, ...]:
    """Return a finding for every two fasteners whose middles pass closer than the thicker one's diameter."""
    whole = build.box
    names = {part.id: part.name for part in build.parts}
    placed = [(one, one.ends_mm(), float(one.spec.diameter.mm)) for one in build.fasteners]
    belongs = hardware_of(build)
    owners = _owners(build)
    found = []
    widest = max((thick for *_, thick in placed), default=0.0)
    for i, j in near_ends([room_of(line) for _, line, _ in placed], widest):
        (one, line, thick), (other, other_line, other_thick) = placed[i], placed[j]
        clear = max(thick, other_thick)
        if belongs[i] is not None and belongs[i] == belongs[j]:
            continue  # the holes of one piece of hardware are its maker's
        if far_apart(line, other_line, clear):
            continue
        apart = closest(line, other_line)
        if apart < clear:
            two = (one, owners[i]), (other, owners[j])
            found.append(_clash(two, apart, names, spot(one.head, whole, notation), notation))
    return gathered(found)


def hardware_of(build: Build) -> list[int | None]:
    """For every fastener of a build, in order, which piece of hardware it belongs to; None where to none."""
    joints: list[int | None] = [None for joint in build.joints for _ in joint.fasteners]
    return joints + [number for number, item in enumerate(build.items) for _ in item.fasteners]


def room_of(line: Piece) -> Piece:
    """Return the lower and the higher corner of the box round a straight piece of line."""
    (a, b, c), (x, y, z) = line
    return (min(a, x), min(b, y), min(c, z)), (max(a, x), max(b, y), max(c, z))


@dataclass(frozen=True, slots=True)
class _Owner:
    """What a fastener belongs to: a kind of joint, or a piece of hardware by its plain name."""

    joint: str = ""
    item: str = ""


def _owners(build: Build) -> list[_Owner]:
    """What every fastener of a build belongs to, in order."""
    joints = [_Owner(joint=joint.kind) for joint in build.joints for _ in joint.fasteners]
    return joints + [_Owner(item=item.name.partition(",")[0]) for item in build.items for _ in item.fasteners]


def _clash(
    two: tuple[tuple[Fastener, _Owner], tuple[Fastener, _Owner]],
    apart: float,
    names: dict[str, str],
    place: str,
    notation: Notation,
) -> Finding:
    return Finding(
        "must fix",
        "fasteners meet",
        names[two[0][0].into],
        f"{_called(*two[0], names, begins=True)} meets {_called(*two[1], names)}.",
        place,
        _between(apart, notation),
        "geometry of the build",
        _apart(two[0], two[1], names),
    )


def _between(apart: float, notation: Notation) -> str:
    """How far apart two middles pass, in words."""
    length = Length.of_mm(round(apart * 10)).portion(10)
    if notation.bare(length).removeprefix(ROUNDED) == "0":
        return "their middles meet"
    return f"{notation.length(length)} between their middles"


def _called(one: Fastener, owner: _Owner, names: dict[str, str], *, begins: bool = False) -> str:
    """A fastener with what it goes through, or what it belongs to: "a #6 × 3/8 in wood screw of the slide on Block"."""
    said = a_or_an(one.spec.name, begins=begins)
    where = f"of the {owner.item} on" if owner.item else "through"
    return f"{said} {where} {names[one.through]}"


def _apart(one: tuple[Fastener, _Owner], other: tuple[Fastener, _Owner], names: dict[str, str]) -> str:
    """What to change, by the words that the verbs of these fasteners take."""
    ways = list(dict.fromkeys(_way(fastener, owner, names) for fastener, owner in (one, other)))
    if len(ways) == 1 and not one[1].item:
        return f"Move those of one joint along it ({_MOVED_BY[one[1].joint]}), so that they pass."
    return f"Move one: {', or '.join(ways)}."


def _way(one: Fastener, owner: _Owner, names: dict[str, str]) -> str:
    if owner.item:
        return f"the {owner.item} on {names[one.through]}"
    return f"the {one.spec.kind}s through {names[one.through]} ({_MOVED_BY[owner.joint]})"


def far_apart(one: Piece, other: Piece, clear: float) -> bool:
    """Tell quickly whether two straight pieces lie further apart than `clear` along one of the axes."""
    return any(
        max(other[0][i], other[1][i]) + clear < min(one[0][i], one[1][i])
        or max(one[0][i], one[1][i]) + clear < min(other[0][i], other[1][i])
        for i in range(3)
    )


def closest(one: Piece, other: Piece) -> float:
    """Return the least distance between two straight pieces of line, in the unit they are given in.

    source  the nearest points lie inside both, or at an end of one: each end against the other piece,
            and the two lines' common perpendicular where it falls within both
    """
    ends = [_to_piece(end, other) for end in one] + [_to_piece(end, one) for end in other]
    return min([*ends, *_across(one, other)])


def _across(one: Piece, other: Piece) -> list[float]:
    """The length of the common perpendicular, where it meets both pieces between their ends."""
    u, v, w = _less(one[1], one[0]), _less(other[1], other[0]), _less(one[0], other[0])
    uu, uv, vv, uw, vw = _dot(u, u), _dot(u, v), _dot(v, v), _dot(u, w), _dot(v, w)
    turn = uu * vv - uv * uv
    if turn <= 1e-12 * uu * vv:
        return []
    s, t = (uv * vw - vv * uw) / turn, (uu * vw - uv * uw) / turn
    if not (0 <= s <= 1 and 0 <= t <= 1):
        return []
    gap = tuple(w[i] + s * u[i] - t * v[i] for i in range(3))
    return [_dot(gap, gap) ** 0.5]  # type: ignore[arg-type]


def _to_piece(point: Vector, piece: Piece) -> float:
    way, from_start = _less(piece[1], piece[0]), _less(point, piece[0])
    length = _dot(way, way)
    share = max(0.0, min(1.0, _dot(from_start, way) / length)) if length else 0.0
    gap = _less(from_start, (way[0] * share, way[1] * share, way[2] * share))
    return float(_dot(gap, gap) ** 0.5)


def _less(one: Vector, other: Vector) -> Vector:
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def _dot(one: Vector, other: Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
