"""What one cut asks of its saw and of whoever makes it, judged from the piece as it lies there."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from plankit.cutting.held import Held, is_end
from plankit.cutting.job import Job, StockKind
from plankit.cutting.layout import Cut
from plankit.cutting.saws import LEDGE, NARROW, Saw
from plankit.units import Length, Mass, Notation

_TRADE = "common practice"


@dataclass(frozen=True, slots=True)
class Fault:
    """What is the matter with a cut: a sentence, the value measured, where the rule comes from."""

    what: str
    number: str = ""
    source: str = "the job itself"


@dataclass(frozen=True, slots=True)
class Stroke:
    """One cut as it is made.

    piece  what is divided; first and rest what it gives
    mass   of the piece, kg; None where that of the stock is not known
    """

    job: Job
    kind: StockKind
    cut: Cut
    saw: Saw
    piece: Held
    first: Held
    rest: Held | None
    mass: Fraction | None

    @property
    def long(self) -> Fraction:
        """How long the cut is, mm: across a board as broad as it is known to be."""
        if self.kind.is_board:
            return self.kind.breadth or LEDGE
        return self.piece.other(self.cut.edge).size

    @property
    def across(self) -> Fraction:
        """The piece's extent the other way, mm."""
        return self.piece.span(self.cut.edge).size

    @property
    def left(self) -> Fraction:
        """What remains of that beyond the kerf, mm; 0 where nothing does."""
        return Fraction(0) if self.rest is None else self.rest.span(self.cut.edge).size

    @property
    def too_heavy(self) -> bool:
        """Whether the piece is above what one person may lift."""
        limit = self.job.lifting_limit
        return limit is not None and self.mass is not None and self.mass > limit


def at_hand(job: Job, kind: StockKind) -> tuple[Saw, ...]:
    """Return the saws there are for a stock: the job's, or where it names none, one that does all."""
    if job.saws:
        return job.saws
    return (Saw("miter saw", "stop", job.kerf) if kind.is_board else Saw("guided saw", "guide", job.kerf),)


def faults(stroke: Stroke) -> Iterator[Fault]:
    """Say everything that keeps one person from making the cut as it is written."""
    yield from _direction(stroke)
    if stroke.job.saws:
        yield from _reach(stroke)
        yield from {"guide": _guided, "fence": _fenced, "stop": _stopped, "hand": _free_hand}[stroke.saw.way](
            stroke
        )
    yield from _weight(stroke)
    yield from _carried(stroke)
    yield from _rail(stroke)


def length(job: Job, mm: Fraction) -> str:
    """Write a length exactly, in the job's unit."""
    return Notation(job.unit).exact(Length.of_mm(mm))


def _mass(job: Job, kg: Fraction) -> str:
    return Notation(job.unit).mass(Mass(kg))


def _direction(stroke: Stroke) -> Iterator[Fault]:
    cut = stroke.cut
    if cut.kind != "trim" and not stroke.piece.straight(cut.edge):
        yield Fault(f"{cut.edge} of {cut.of}, which the setting is measured from, is raw and not yet trimmed")
    if cut.kind != "trim" and (cut.kind == "crosscut") != is_end(cut.edge):
        yield Fault(f"it is called a {cut.kind} and is measured from {cut.edge}, which makes it the other")


def _reach(stroke: Stroke) -> Iterator[Fault]:
    saw, thickness = stroke.saw, stroke.kind.thickness
    if saw.deepest is not None and thickness is not None and thickness > saw.deepest:
        yield Fault(f"the {saw.name} does not cut stock so thick", length(stroke.job, thickness))
    if saw.longest is not None and stroke.long > saw.longest:
        yield Fault(f"the {saw.name} does not reach so far", length(stroke.job, stroke.long))


def _guided(stroke: Stroke) -> Iterator[Fault]:
    least = min(stroke.across, stroke.long)
    if least < LEDGE:
        yield Fault("a guide rail rocks on so narrow a piece", length(stroke.job, least), _TRADE)


def _fenced(stroke: Stroke) -> Iterator[Fault]:
    saw, job, setting = stroke.saw, stroke.job, stroke.cut.setting
    if saw.widest is not None and setting > saw.widest:
        yield Fault(f"the fence of the {saw.name} does not go so far from the blade", length(job, setting))
    if stroke.long < saw.held:
        yield Fault("the edge that runs along the fence is too short to guide it", length(job, stroke.long), _TRADE)
    if stroke.across > stroke.long:
        yield Fault("the piece is wider than it is long beside the fence, and would turn", source=_TRADE)
    if setting < NARROW:
        yield Fault("so narrow a strip does not go between fence and blade", length(job, setting), _TRADE)


def _stopped(stroke: Stroke) -> Iterator[Fault]:
    saw, job = stroke.saw, stroke.job
    if saw.widest is not None and stroke.long > saw.widest:
        yield Fault(f"the {saw.name} does not crosscut so wide a piece", length(job, stroke.long))
    if not is_end(stroke.cut.edge) and stroke.kind.breadth is not None:
        yield Fault(f"the {saw.name} does not rip solid wood", source=_TRADE)
    if stroke.long > stroke.across:
        yield Fault("its long side does not lie against the fence", length(job, stroke.across), _TRADE)
    longer = max(stroke.cut.setting, stroke.left)
    if longer < saw.held:
        yield Fault("neither side of the cut is long enough to hold", length(job, longer), _TRADE)


def _free_hand(_stroke: Stroke) -> Iterator[Fault]:
    yield from ()


def _weight(stroke: Stroke) -> Iterator[Fault]:
    cut, job = stroke.cut, stroke.job
    if cut.mass != stroke.mass:
        known = "not known" if stroke.mass is None else _mass(job, stroke.mass)
        yield Fault(f"the weight of {cut.of} is not what is written", known)
    if cut.people not in (1, 2):
        yield Fault("a cut is made by one person or by two", str(cut.people))
    elif stroke.too_heavy and cut.people == 1 and not stroke.saw.goes_to_the_work:
        weighs = _mass(job, stroke.mass or Fraction(0))
        yield Fault(f"{cut.of} is too heavy for one person to lift to the {stroke.saw.name}", weighs)
    elif stroke.too_heavy and not stroke.saw.goes_to_the_work and (stroke.mass or 0) > 2 * (job.lifting_limit or 0):
        weighs = _mass(job, stroke.mass or Fraction(0))
        yield Fault(f"{cut.of} is too heavy for two people to lift to the {stroke.saw.name}", weighs)


def _carried(stroke: Stroke) -> Iterator[Fault]:
    cut = stroke.cut
    if not cut.support:
        yield Fault(f"nothing is said of what carries {cut.of}")
    elif stroke.too_heavy and stroke.saw.goes_to_the_work and cut.support != "bearers":
        yield Fault(f"{cut.of} is too heavy to lift, and is cut where it lies, on bearers")


def _rail(stroke: Stroke) -> Iterator[Fault]:
    rail, way = stroke.cut.rail_on, stroke.saw.way
    if way != "guide":
        if rail:
            yield Fault(f"the {stroke.saw.name} has no guide rail")
        return
    sides = {"first": stroke.cut.setting, "second": stroke.left}
    if not rail:
        yield Fault("it is not said which side the guide rail lies on")
    elif not sides[rail]:
        yield Fault("nothing is left on the side the guide rail is to lie on")
    elif stroke.job.saws and sides[rail] < min(LEDGE, max(sides.values())):
        yield Fault("the guide rail is to lie on the narrow side", length(stroke.job, sides[rail]), _TRADE)
