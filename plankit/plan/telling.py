"""What an author tells beside parts and joints: steps, cautions, finish, corrections, and who she is."""

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, NoReturn, override

from plankit.build import Build, Joint
from plankit.checks import Load
from plankit.drawing.choosing import named
from plankit.errors import PlanError
from plankit.plan.asked import known_operations, maybe_words, whole_number, words
from plankit.plan.displays import CompleteDisplay, CuttingDisplay, FindingsDisplay, StepDisplay, ViewDisplay
from plankit.plan.facts import Acceptance, Bought, Coating, Correction, Draft, Facts, Link, Step
from plankit.plan.handles import Parts, flat
from plankit.plan.spoken import no_such_verb
from plankit.plan.waiting import known_fitting, pause, waiting_words
from plankit.shop import Caution, Shop
from plankit.shop.tool import SIGNALS, Signal
from plankit.stock import slug
from plankit.units import Angle, Condition, Length, Notation


class Words(str):
    """Text that shows without quotes where a notebook evaluates it."""

    __slots__ = ()

    @override
    def __repr__(self) -> str:
        return str(self)


class Telling:
    """Steps and facts of a plan; `Plan` adds the parts and joints."""

    def __init__(self, name: str, notation: Notation, shop: Shop) -> None:
        self.name = name
        self.notation = notation
        self.shop = shop
        self._outdoors = False
        self._facts: Facts | None = None
        self._steps: list[Step] = []
        self._shown_steps: set[int] = set()
        self._made_joints: set[int] = set()
        self._arrived: dict[str, int] = {}
        self._coating: Coating | None = None
        self._bought: list[Bought] = []
        self._corrections: list[Correction] = []
        self._cautions: list[Caution] = []
        self._acceptances: list[Acceptance] = []
        self._loads: list[Load] = []
        self._spaces: list[tuple[str, Length]] = []
        self._written: dict[str, None] = {}
        self._joints: list[Joint]

    if not TYPE_CHECKING:

        def __getattr__(self, name: str) -> NoReturn:
            raise no_such_verb(type(self), "plan", name)

    def about(
        self,
        *,
        summary: str,
        author: str,
        organisation: str = "",
        version: str,
        published: str,
        updated: str = "",
        licence: tuple[str, str] | None = None,
        disclosure: str = "",
        film: tuple[str, str] | None = None,
        skill: str = "",
        language: str = "en-US",
        address: str = "",
        outdoors: bool = False,
    ) -> None:
        """Say who made the plan, which version it is, and under which licence it may be used.

        organisation        for whom she made it, where there is one
        published, updated  dates as 2026-11-20; `updated` is the day of the newest correction
        licence             its name and address; without one, readers are told to ask before they copy the plan
        disclosure          one plain sentence where anybody paid, or gave tools or material
        film                title and address of the film of this build
        address             the name of the plan's folder and page, as "boot-bench"; else made from its title
        outdoors            it stands in the weather: glue, screws and finish are asked for that last there
        raises              PlanError where a date or the address cannot be used
        """
        for what, day in (("published", published), ("updated", updated or published)):
            _refuse_date(what, day)
        if outdoors and not self._outdoors:
            self.outdoors()
        self._facts = Facts(
            self.name, self._address(address), summary, author, organisation, version, published, updated or published,
            Link(*(licence or ("", ""))), disclosure, Link(*film) if film else None, language, skill, outdoors,
        )  # fmt: skip

    def outdoors(self) -> None:
        """Say that the piece stands in the weather."""
        raise NotImplementedError

    def _address(self, given: str) -> str:
        if given and slug(given) == given:
            return given
        if given:
            raise PlanError(
                "an address is small Latin letters, figures and single hyphens.", where="address", given=repr(given),
                remedy=f'Write address="{slug(given) or "boot-bench"}".',
            )  # fmt: skip
        if not slug(self.name):
            raise PlanError(
                "no address can be made from this title.", where=self.name,
                remedy='Add address="…" to plan.about(…), in small Latin letters, figures and hyphens.',
            )  # fmt: skip
        return slug(self.name)

    def step(
        self,
        title: str,
        *,
        brings: Parts = (),
        works_on: Parts = (),
        onto: Parts = (),
        does: str | Sequence[str] = (),
        view: str | None = None,
        note: str = "",
        waits: str = "",
        hours: int | str | None = None,
        minutes: int = 0,
        optional: bool = False,
        using: dict[str, str] | None = None,
        only: str = "",
        fitting: str = "",
        hangs: bool = False,
    ) -> StepDisplay:
        """Say what happens next; the display shows its drawing, pieces, fasteners, tools and cautions.

        brings    parts that arrive and are joined to what is there
        works_on  parts that something is done to (tapered, banded, glued up) without joining them; what a step
                  names in `does` waits for it, even where the part is in place already
        does      narrows down what is done to them, in operations such as "taper", "glue", "band edges"
        only      narrows it down to cuts and holes for one purpose: does="bore", only="shelf pin"
        onto      what they arrive on; it must be there already
        view      where to look from: "from below", "from the front left" …
        waits     "glue", "finish", or a sentence
        hours     how long that takes before these parts are worked on again, where it is a sentence: 4, "1/2"
        using     the tool for an operation where the shop has several: {"taper": "hand saw"}
        fitting   "dry" where it is put together without glue first, "by trial" where it is fitted bit by bit
        hangs     the piece is hung on its cleats in it; in the last step that brings parts where no step says so
        """
        where = f"step {len(self._steps) + 1}, “{title}”"
        words(title, "the step's title", 'plan.step("Join the sides", brings=sides)', f"step {len(self._steps) + 1}")
        for text, what in ((note, 'note="Keep it square."'), (only, 'only="shelf pin"'), (waits, 'waits="glue"')):
            maybe_words(text, what.partition("=")[0], what, where)
        if using is not None and not isinstance(using, dict):
            raise PlanError(
                "using: the tool for each operation was expected.", where=where, given=repr(using),
                remedy='For instance  using={"taper": "hand saw"}',
            )  # fmt: skip
        brought, worked = flat(brings), flat(works_on)
        whole_number(minutes, "minutes", where, least=0)
        _refuse_view(view, where)
        known_operations(where, tuple(using or {}))
        done = known_operations(where, (does,) if isinstance(does, str) else tuple(does))
        until, rest, way = waiting_words(waits, where), pause(waits, hours, where), known_fitting(fitting, where)
        self._refuse_order(title, [p.id for p in brought], [p.id for p in flat(onto)])
        number = len(self._steps) + 1
        said = _one_line(note)
        self._arrived |= {part.id: number for part in brought}
        joints = self._joints_ready()
        step = Step(
            number,
            title,
            tuple(part.id for part in brought),
            tuple(part.id for part in worked),
            tuple(part.id for part in flat(onto)),
            done,
            joints,
            view,
            said,
            until,
            minutes,
            optional,
            tuple(sorted((using or {}).items())),
            only=only.strip(),
            pause=rest,
            fitting=way,
            written=tuple(one for one in self._written if one in said),
            hangs=hangs,
        )
        self._steps.append(step)
        return StepDisplay(self.draft, number, self._shown_steps)

    def _steps_left(self) -> list[StepDisplay]:
        """The steps that no cell has shown yet: of several in one cell a notebook shows the last alone."""
        return [
            StepDisplay(self.draft, step.number, self._shown_steps)
            for step in self._steps
            if step.number not in self._shown_steps
        ]

    def _refuse_order(self, title: str, brings: list[str], onto: list[str]) -> None:
        where = f"step {len(self._steps) + 1}, “{title}”"
        for part_id in brings:
            if part_id in self._arrived:
                raise PlanError(
                    "this part has arrived already.",
                    where=where,
                    given=part_id,
                    remedy=f"It came in step {self._arrived[part_id]}; bring it once.",
                )
        missing = [part_id for part_id in onto if part_id not in self._arrived and part_id not in brings]
        if missing:
            raise PlanError(
                "the step stands on what is not there yet.",
                where=where,
                given=", ".join(missing),
                remedy="Bring it in an earlier step, or name what is there.",
            )

    def _joints_ready(self) -> tuple[int, ...]:
        ready = []
        for number, joint in enumerate(self._joints):
            if number not in self._made_joints and joint.holds in self._arrived and joint.to in self._arrived:
                ready.append(number)
                self._made_joints.add(number)
        return tuple(ready)

    def write(self, *lengths: Length) -> "Words":
        """Write a length, or several as one size, as the plan writes them: for notes and f-strings."""
        if not lengths or not all(isinstance(one, Length) for one in lengths):
            raise PlanError(
                "a length was expected: one that the plan knows.",
                where="plan.write",
                given=", ".join(repr(one) for one in lengths),
                remedy='For instance  plan.write(side.length), or  plan.write(L("3 in"))',
            )
        write = self.notation
        return self._noted(write.both(lengths[0]) if len(lengths) == 1 else write.size_both(*lengths))

    def why(self, length: Length) -> "Words":
        """Say how a length is worked out, for prose: "width − 2 × overhang = 45 in − 2 × 1/2 in = 44 in"."""
        if not isinstance(length, Length):
            raise PlanError(
                "a length was expected: one that the plan knows.",
                where="plan.why",
                given=getattr(length, "id", None) or repr(length),
                remedy="For instance  plan.why(side.length)",
            )
        return self._noted(self.notation.why(length))

    def _noted(self, text: str) -> "Words":
        """Remember what the plan wrote itself, so that nobody takes it for typed by hand."""
        self._written[_one_line(text)] = None
        return Words(text)

    def caution(self, text: str, *, signal: Signal = "caution", about: str = "") -> None:
        """Add a caution of the author's own to the step before it, and to the list at the front.

        Say the hazard, what it can do, and how to avoid it, in that order.
        """
        if signal not in SIGNALS:
            raise PlanError(
                "this is no signal word.", given=signal, remedy=f"Use one of: {', '.join(SIGNALS)}."
            )
        words(text, "the caution", 'plan.caution("The lid falls: keep fingers off its edge.")')
        made = Caution(signal, about, text, "the plan's author")
        if not self._steps:
            self._cautions.append(made)
            return
        last = self._steps[-1]
        self._steps[-1] = replace(last, cautions=(*last.cautions, made))

    def finish(
        self,
        product: str,
        *,
        coats: int,
        how: Sequence[str],
        oily: bool = False,
        solvent: bool | None = None,
        minutes: int = 0,
    ) -> None:
        """Say what the piece is finished with and how.

        It comes after the steps told so far. Where a step says does="finish", it is told there instead.

        oily     adds the caution about rags that can catch fire
        solvent  whether it gives off vapors that burn, as most do; a product called water-based does not
        minutes  work for all coats together, sanding included
        """
        words(product, "what it is finished with", 'plan.finish("clear finish", coats=2, how=["Brush it on."])')
        for one in how if isinstance(how, Sequence) and not isinstance(how, str) else (how,):
            words(one, "how", 'how=["Brush it on.", "Sand between coats."]', product)
        burns = "water" not in product.casefold() if solvent is None else solvent
        topics = (*["finish" if burns else "water-based finish"], *["oily rags"] * oily)
        whole_number(coats, "coats", product)
        whole_number(minutes, "minutes", product, least=0)
        said = (how,) if isinstance(how, str) else tuple(how)
        self._coating = Coating(product, coats, said, topics, minutes, len(self._steps))

    def buy(self, item: str, count: int, *, where: str, note: str = "") -> None:
        """Put something on the hardware and shopping lists that no joint asks for: pads, sandpaper."""
        words(item, "what is bought", 'plan.buy("felt pads", 4, where="under the feet")')
        self._bought.append(Bought(item, whole_number(count, "count", item), where, note))

    def correct(self, day: str, *, version: str, what: str, already_begun: str) -> None:
        """Note a correction: what was wrong, and what a reader who has already begun must change."""
        _refuse_date("date", day)
        self._corrections.append(Correction(day, version, what, already_begun))

    def accept(self, check: str, *, reason: str, part: str = "") -> None:
        """Live with a finding, giving a reason that the plan records: `plan.accept("end grain", reason=…)`."""
        if not isinstance(reason, str) or not reason.strip():
            raise PlanError(
                "accepting a finding takes a written reason.", where=check, remedy='Add reason="…"'
            )
        self._acceptances.append(Acceptance(check, part, reason))

    def draft(self) -> Draft:
        """Return the whole plan as it is now, frozen."""
        raise NotImplementedError

    def _draft(
        self, build: Build, givens: tuple[tuple[str, Length | Angle], ...], conditions: tuple[Condition, ...]
    ) -> Draft:
        facts = self._facts or Facts(
            self.name, slug(self.name), "", "", "", "0", "", "", Link("", ""),
        )  # fmt: skip
        facts = replace(facts, outdoors=facts.outdoors or self._outdoors)
        return Draft(
            facts, build, tuple(self._steps), givens, conditions, self.shop, self.notation, self._coating,
            tuple(self._bought), tuple(self._corrections), tuple(self._cautions), tuple(self._acceptances),
            tuple(self._loads), tuple(self._spaces),
        )  # fmt: skip

    # Displays

    def view(self, side: str = "whole") -> ViewDisplay:
        """Show the build: "whole", "front", "side", "top", "back" or "below"; or the "wall" that it hangs on."""
        return ViewDisplay(self.draft, side)

    def findings(self) -> FindingsDisplay:
        """Show what the checks found, gravest first."""
        return FindingsDisplay(self.draft)

    def cutting(self) -> CuttingDisplay:
        """Show how boards and sheets are cut."""
        return CuttingDisplay(self.draft)

    def complete(self) -> CompleteDisplay:
        """Close the plan: check it, cut it, draw it, and give it to the page. This is a notebook's last cell.

        raises  PlanError where `plan.about(…)` is missing, a part never arrives, or a tool has no cautions
        """
        if self._facts is None:
            raise PlanError(
                "nobody says yet who made this plan.", where=self.name, remedy="Add a cell with plan.about(…)"
            )
        return CompleteDisplay(self.draft)


def _one_line(text: str) -> str:
    """A text on one line; spaces that no line breaks at stay what they are."""
    return re.sub(r"[ \t\r\n]+", " ", text).strip(" \t\r\n")


def _refuse_view(view: str | None, where: str) -> None:
    if view is not None:
        try:
            named(view)
        except PlanError as error:
            raise PlanError(error.what, where=where, given=error.given, remedy=error.remedy) from None


def _refuse_date(what: str, day: str) -> None:
    try:
        good = isinstance(day, str) and bool(re.fullmatch(r"\d{4}-\d{2}-\d{2}", day)) and bool(date.fromisoformat(day))
    except ValueError:
        good = False
    if not good:
        raise PlanError(
            "this is not a date.", where=what, given=repr(day), remedy="Write it like 2026-11-20."
        )
