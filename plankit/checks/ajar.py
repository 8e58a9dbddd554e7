"""Whether a part that no straight move frees can at least be tilted where it stands."""

from itertools import product
from typing import TYPE_CHECKING

from plankit.checks.blocks import Taken, outline
from plankit.checks.moves import WAYS, free_way

if TYPE_CHECKING:
    from manifold3d import Manifold

TILTS = (4.0, 1.5, 0.75)
"""A part that cannot be tilted by any one of these angles, in degrees, about any axis is locked for good: to get
beyond it, it would have to pass it."""
_MOST = 300.0
_SHARES = (-1.0, -0.5, 0.0, 0.5, 1.0)
_SLACK = 2.0
"""Cubic millimetres that a tilted part may dig into others: rounding alone makes less."""


def has_play(own: Taken, others: tuple[Taken, ...]) -> bool:
    """Tell whether a part can stand tilted by 4 degrees, and by less, somewhere within the room it can move in.

    That it can is no proof that it goes in; that it cannot, tried at a hundred places, is as good as one that it
    does not. A tight notch round a rail stops a tilt of a degree or two that it would let pass at four.
    """
    from manifold3d import Manifold, OpType

    if not others:
        return True
    near = Manifold.batch_boolean([outline(one.part) for one in others], OpType.Add)
    body = outline(own.part)
    many = [block for one in others for block in one.blocks]
    room = [
        (-min(_MOST, free_way(own.blocks, many, (i, -1))), min(_MOST, free_way(own.blocks, many, (i, 1))))
        for i in range(3)
    ]
    return all(any(_fits(turned, near, room) for turned in _tilted(body, own, by)) for by in TILTS)


def _tilted(body: "Manifold", own: Taken, by: float) -> "list[Manifold]":
    ends = own.around
    middle = [(ends[2 * i] + ends[2 * i + 1]) / 2 for i in range(3)]
    centred = body.translate([-value for value in middle])
    turned = []
    for index, sense in WAYS:
        turn = [0.0, 0.0, 0.0]
        turn[index] = sense * by
        turned.append(centred.rotate(turn).translate(middle))
    return turned


def _fits(turned: "Manifold", near: "Manifold", room: list[tuple[float, float]]) -> bool:
    places = {
        tuple(
            round(share * (high if share > 0 else -low), 3)
            for share, (low, high) in zip(shares, room, strict=True)
        )
        for shares in product(_SHARES, repeat=3)
    }
    return any((turned.translate(list(place)) ^ near).volume() < _SLACK for place in sorted(places))
