"""What a plan says beside the build: who wrote it, its steps, its cautions, its corrections."""

from dataclasses import dataclass

from plankit.build import Build
from plankit.checks import Load
from plankit.shop import Caution, Shop
from plankit.units import Angle, Condition, Length, Notation


@dataclass(frozen=True, slots=True)
class Correction:
    """A published change to a plan, and what a reader who has begun must do."""

    date: str
    version: str
    what: str
    already_begun: str


@dataclass(frozen=True, slots=True)
class Link:
    """Something to look at elsewhere."""

    title: str
    address: str


@dataclass(frozen=True, slots=True)
class Bought:
    """Something bought beside boards, sheets and screws."""

    item: str
    count: int
    where: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Coating:
    """A finish: what it is, how many coats, and how to put it on, a sentence a line.

    minutes  work for all coats together, sanding included; 0 where the author does not say
    after    how many steps come before it; later ones follow when it is dry
    """

    product: str
    coats: int
    how: tuple[str, ...]
    topics: tuple[str, ...] = ("finish",)
    minutes: int = 0
    after: int = 0


@dataclass(frozen=True, slots=True)
class Facts:
    """What the title page and the last page say."""

    title: str
    slug: str
    summary: str
    author: str
    organisation: str
    version: str
    published: str
    updated: str
    licence: Link
    disclosure: str = ""
    film: Link | None = None
    language: str = "en-US"
    skill: str = ""
    outdoors: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work.

    brings    ids of the parts that arrive and are joined
    works_on  ids of the parts that something is done to, without joining them
    onto      ids of the parts that they arrive on
    does      what is done, in the words of the shop's operations; found from parts and joints where empty
    joints    numbers of the joints that are made
    view      where to look from, in the author's words; chosen by what can be seen where it is None
    minutes   work, waiting left out
    waits     what must dry or set afterwards
    using     tools the author chose for an operation
    only      of the cuts and holes that `does` names, only those for this purpose; all where it is empty
    pause     minutes that pass before the parts in hand can be worked on again; None where nobody says
    fitting   "dry" where it is put together without glue first, "by trial" where it is fitted bit by bit
    written   the sizes in its note that the plan wrote, so that they follow every change
    hangs     whether the piece is hung on its cleats in it
    """

    number: int
    title: str
    brings: tuple[str, ...] = ()
    works_on: tuple[str, ...] = ()
    onto: tuple[str, ...] = ()
    does: tuple[str, ...] = ()
    joints: tuple[int, ...] = ()
    view: str | None = None
    note: str = ""
    waits: str = ""
    minutes: int = 0
    optional: bool = False
    using: tuple[tuple[str, str], ...] = ()
    cautions: tuple[Caution, ...] = ()
    only: str = ""
    pause: int | None = 0
    fitting: str = ""
    written: tuple[str, ...] = ()
    hangs: bool = False

    @property
    def anchor(self) -> str:
        """The step's place on the page."""
        return f"step-{self.number}"


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A finding that the author lives with, and why."""

    check: str
    part: str
    reason: str


@dataclass(frozen=True, slots=True)
class Draft:
    """A plan at one moment, frozen: all that lists, drawings and pages are made from."""

    facts: Facts
    build: Build
    steps: tuple[Step, ...]
    givens: tuple[tuple[str, Length | Angle], ...]
    conditions: tuple[Condition, ...]
    shop: Shop
    notation: Notation
    coating: Coating | None = None
    bought: tuple[Bought, ...] = ()
    corrections: tuple[Correction, ...] = ()
    cautions: tuple[Caution, ...] = ()
    acceptances: tuple[Acceptance, ...] = ()
    loads: tuple[Load, ...] = ()
    spaces: tuple[tuple[str, Length], ...] = ()

    @property
    def minutes(self) -> int:
        """Working time of the steps that everybody does, and of the finish."""
        finish = self.coating.minutes if self.coating and self.finishing is None else 0
        return finish + sum(step.minutes for step in self.steps if not step.optional)

    @property
    def finishing(self) -> Step | None:
        """The step in which the finish is put on; None where that comes after the steps, or nothing is."""
        return next((step for step in self.steps if "finish" in step.does), None) if self.coating else None
