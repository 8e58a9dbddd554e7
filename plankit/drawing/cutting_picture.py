"""What a cutting drawing is made from: plain values, millimetres, and words that are formatted already."""

from dataclasses import dataclass

from plankit.drawing.occupied import quad_of
from plankit.drawing.primitives import Bounds, Point


@dataclass(frozen=True, slots=True)
class CutPiece:
    """One piece on a sheet or board; mm from the stock's lower left corner, x along the stock's length.

    label, name    as in every list;  size: the size as the reader sees it ("30 × 15 1/4")
    length, width  its extent along x and y, in mm
    """

    label: str
    name: str
    x: float
    y: float
    length: float
    width: float
    size: str


@dataclass(frozen=True, slots=True)
class CutOffcut:
    """A piece worth keeping: its name, place and size as for a piece."""

    name: str
    x: float
    y: float
    length: float
    width: float
    size: str


@dataclass(frozen=True, slots=True)
class CutStroke:
    """One cut: its number in the order of cuts and its two ends, in mm from the stock's lower left corner."""

    order: int
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class CuttingPicture:
    """Everything a cutting drawing shows.

    name           the figure's id;  title: as on the page ("Sheet 1")
    stock          the stock's name;  size: its size as the reader sees it
    length, width  the stock, in mm
    length_text, width_text   the same as numbers on a drawing
    copies         how many are cut alike
    pieces, offcuts, cuts     what comes out of it
    trim           what is cut off first, in mm: left, right, lower, upper edge
    grain          whether the stock has a grain to show, along its length
    """

    name: str
    title: str
    stock: str
    size: str
    length: float
    width: float
    length_text: str
    width_text: str
    copies: int = 1
    pieces: tuple[CutPiece, ...] = ()
    offcuts: tuple[CutOffcut, ...] = ()
    cuts: tuple[CutStroke, ...] = ()
    trim: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)
    grain: bool = True


@dataclass(frozen=True, slots=True)
class Placed:
    """A cutting picture and the scale it is drawn at: page mm for one mm of stock."""

    picture: CuttingPicture
    scale: float

    def at(self, x: float, y: float) -> Point:
        """A place on the stock as a point of the page; y counts from the lower edge up."""
        return x * self.scale, (self.picture.width - y) * self.scale

    def box(self, item: "CutPiece | CutOffcut") -> Bounds:
        """Left, top, right, bottom of a piece on the page."""
        left, bottom = self.at(item.x, item.y)
        right, top = self.at(item.x + item.length, item.y + item.width)
        return left, top, right, bottom

    @property
    def ring(self) -> tuple[Point, ...]:
        """The stock's outline on the page."""
        right, bottom = self.at(self.picture.length, 0.0)
        return quad_of((0.0, 0.0, right, bottom))
