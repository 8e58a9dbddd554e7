"""From which side a step is seen best: measured, not guessed.

Points on the faces of what arrives, and the places where its screws go in, are joined to the eye; what stands
between them hides them. Parts count as their boxes here, so that eight directions cost next to nothing; the
figure itself is drawn from the solids.
"""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Final

from plankit.build import Fastener
from plankit.drawing.direction import Direction, Vector, direction, names
from plankit.parts import AXES, AXIS_OF, HIGH, Part, box_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    type Floats = NDArray[np.float64]
    type Whole = NDArray[np.int64]

CANDIDATES: Final = (
    "isometric front right",
    "isometric front left",
    "isometric back right",
    "isometric back left",
    "from below front right",
    "from below front left",
    "from below back right",
    "from below back left",
)
_LESS: Final = (0.0, 0.04, 0.12, 0.12, 0.25, 0.29, 0.37, 0.37)
"""What a direction must see more of to be chosen: readers know the piece from the front and above."""
_SPOKEN: Final = {
    "from the front right": "isometric front right",
    "from the front left": "isometric front left",
    "from the back right": "isometric back right",
    "from the back left": "isometric back left",
    "from behind": "isometric back right",
    "from above": "isometric front right",
    "from below": "from below front right",
}
_GRID: Final = 4


def named(given: str) -> Direction:
    """The direction an author names: "from below", "from the front", "front right", "from behind".

    raises  PlanError for a name that is not known
    """
    name = " ".join(given.lower().split())
    name = _SPOKEN.get(name, name)
    for lead in ("from the ", "seen from the "):
        name = name.removeprefix(lead)
    known = names()
    if name not in known and f"isometric {name}" in known:
        name = f"isometric {name}"
    return direction(name)


def best_direction(
    arriving: Sequence[Part], present: Sequence[Part], screws: Sequence[Fastener]
) -> Direction:
    """The direction from which most of what arrives, and most of its screws' heads, can be seen."""
    import numpy as np

    parts = sorted((*arriving, *present), key=lambda part: part.id)
    boxes = np.array([box_of(part).mm() for part in parts])
    spots = [_face_points(part, parts.index(part)) for part in sorted(arriving, key=lambda part: part.id)]
    points, normals, areas, owner = (np.concatenate(column) for column in zip(*spots, strict=True))
    entries = np.array([entry(screw, parts)[0] for screw in screws]).reshape(-1, 3)
    directions = [direction(name) for name in CANDIDATES]
    seen, heads = [], []
    for way in directions:
        eye = np.array(way.eye)
        turned = np.maximum(normals @ eye, 0.0) * areas
        seen.append(float((turned * _free(points, eye, boxes, owner)).sum()))
        heads.append(
            float(_free(entries, eye, boxes, np.full(len(entries), -1)).mean()) if len(entries) else 0.0
        )
    most = max(*seen, 1e-9)
    scores = [area / most + head - less for area, head, less in zip(seen, heads, _LESS, strict=True)]
    return directions[max(range(len(scores)), key=lambda index: (round(scores[index], 6), -index))]


def most_seen(areas: Sequence[float]) -> Direction:
    """The direction, of `CANDIDATES` in their order, from which most is seen; readers know the piece from above."""
    most = max(*areas, 1e-9)
    scores = [round(area / most - less, 6) for area, less in zip(areas, _LESS, strict=True)]
    return direction(CANDIDATES[scores.index(max(scores))])


def entry(screw: Fastener, parts: Sequence[Part]) -> tuple[Vector, Vector]:
    """Where a screw enters its wood, a little outside of it, and the way it is driven (length 1)."""
    head, tip = screw.ends_mm()
    run = sum((t - h) ** 2 for h, t in zip(head, tip, strict=True)) ** 0.5
    way = tuple((t - h) / run for h, t in zip(head, tip, strict=True))
    through = next((part for part in parts if part.id == screw.through), None)
    far = _way_out(head, way, through) + 1.0 if through is not None else 1.0
    return _three(h - w * far for h, w in zip(head, way, strict=True)), _three(way)


def _way_out(head: Vector, way: Sequence[float], part: Part) -> float:
    """How far back along a screw's axis its part's box ends."""
    low, high = box_of(part).mm()
    found = [
        (h - (a if w > 0 else b)) / w
        for h, w, a, b in zip(head, way, low, high, strict=True)
        if abs(w) > 1e-9
    ]
    return max(0.0, min(found))


def _face_points(part: Part, index: int) -> "tuple[Floats, Floats, Floats, Whole]":
    """Points on each face of a part's box, with the way out, the area each stands for, the part."""
    import numpy as np

    low, high = (np.array(corner) for corner in box_of(part).mm())
    steps = (np.arange(_GRID) + 0.5) / _GRID
    points, normals, areas = [], [], []
    for face, axis in AXIS_OF.items():
        i = AXES.index(axis)
        one, two = (k for k in range(3) if k != i)
        grid = np.empty((_GRID * _GRID, 3))
        grid[:, one] = np.repeat(low[one] + steps * (high[one] - low[one]), _GRID)
        grid[:, two] = np.tile(low[two] + steps * (high[two] - low[two]), _GRID)
        grid[:, i] = high[i] if face == HIGH[axis] else low[i]
        normal = np.zeros((_GRID * _GRID, 3))
        normal[:, i] = 1.0 if face == HIGH[axis] else -1.0
        points.append(grid)
        normals.append(normal)
        areas.append(np.full(_GRID * _GRID, (high[one] - low[one]) * (high[two] - low[two]) / _GRID**2))
    count = 6 * _GRID * _GRID
    return np.concatenate(points), np.concatenate(normals), np.concatenate(areas), np.full(count, index)


def _free(points: "Floats", eye: "Floats", boxes: "Floats", owner: "Whole") -> "Floats":
    """1 where nothing stands between a point and the eye; a part does not hide itself."""
    import numpy as np

    if not len(points):
        return np.zeros(0)
    start = points + eye * 0.5
    with np.errstate(divide="ignore", invalid="ignore"):
        one = (boxes[None, :, 0, :] - start[:, None, :]) / eye
        two = (boxes[None, :, 1, :] - start[:, None, :]) / eye
    enter = np.minimum(one, two).max(axis=2)
    leave = np.maximum(one, two).min(axis=2)
    hit = (leave > np.maximum(enter, 0.0) + 1e-6) & (np.arange(len(boxes)) != owner[:, None])
    free: Floats = 1.0 - hit.any(axis=1)
    return free


def _three(values: Iterable[float]) -> Vector:
    x, y, z = values
    return float(x), float(y), float(z)
