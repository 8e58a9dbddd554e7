"""What lies on the bench while an order of cuts is carried out: a rectangle, and which of its edges are straight."""

from dataclasses import dataclass, replace
from fractions import Fraction

from plankit.cutting.job import StockKind
from plankit.cutting.layout import Edge


@dataclass(frozen=True, slots=True)
class Span:
    """A piece's extent in one direction, from the raw stock's corner, mm, and whether its two ends are straight."""

    start: Fraction
    end: Fraction
    start_straight: bool
    end_straight: bool

    @property
    def size(self) -> Fraction:
        """How far it extends, mm."""
        return self.end - self.start

    def parted(self, from_end: bool, setting: Fraction, kerf: Fraction) -> tuple["Span", "Span | None"]:
        """Return what one cut leaves: the span of that setting, and what lies beyond the kerf, if anything."""
        if from_end:
            near, far = self.end - setting, self.end - setting - kerf
            rest = Span(self.start, far, self.start_straight, True)
            return Span(near, self.end, True, self.end_straight), rest if rest.size > 0 else None
        near, far = self.start + setting, self.start + setting + kerf
        rest = Span(far, self.end, True, self.end_straight)
        return Span(self.start, near, self.start_straight, True), rest if rest.size > 0 else None


@dataclass(frozen=True, slots=True)
class Held:
    """One piece: its extent along the stock's length and across it (0 to 1 on a board)."""

    along: Span
    across: Span

    @property
    def area(self) -> Fraction:
        """Area, or length for a board's, mm."""
        return self.along.size * self.across.size

    @property
    def all_straight(self) -> bool:
        """Whether all four edges are."""
        return all((s.start_straight and s.end_straight) for s in (self.along, self.across))

    def span(self, edge: Edge) -> Span:
        """Return the extent that a setting from that edge is measured in."""
        return self.along if is_end(edge) else self.across

    def other(self, edge: Edge) -> Span:
        """Return the extent the other way: how long a cut measured from that edge is."""
        return self.across if is_end(edge) else self.along

    def straight(self, edge: Edge) -> bool:
        """Whether that edge is."""
        span = self.span(edge)
        return span.end_straight if from_end(edge) else span.start_straight

    def parted(self, edge: Edge, setting: Fraction, kerf: Fraction) -> tuple["Held", "Held | None"]:
        """Return the piece of that setting at that edge, and what is left beyond the kerf, if anything."""
        first, rest = self.span(edge).parted(from_end(edge), setting, kerf)
        return self._with(edge, first), None if rest is None else self._with(edge, rest)

    def _with(self, edge: Edge, span: Span) -> "Held":
        return replace(self, along=span) if is_end(edge) else replace(self, across=span)


def is_end(edge: Edge) -> bool:
    """Whether a setting from there runs along the stock's length."""
    return edge.startswith("end")


def from_end(edge: Edge) -> bool:
    """Whether a setting from there runs back towards the stock's corner."""
    return edge.endswith("1")


def raw(kind: StockKind) -> Held:
    """Return one whole of a stock; an edge that nothing is to be trimmed off is straight as it is bought."""
    ends, edges = kind.trim_ends == 0, kind.is_board or kind.trim_edges == 0
    zero = Fraction(0)
    across = Fraction(1) if kind.width is None else kind.width
    return Held(Span(zero, kind.length, ends, ends), Span(zero, across, edges, edges))
