"""Face frames as an author asks for them: stiles and rails on the front of a case, sized by it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from plankit.build import contacts
from plankit.build.joints_pocket import POCKETED
from plankit.errors import PlanError
from plankit.parts import AXES, AXIS_OF, HIGH, LOW, OPPOSITE, Axis, Box, Face, Part
from plankit.plan.asked import known_face, made_of
from plankit.plan.frames import UPRIGHTS, Frame, Framing
from plankit.plan.handles import PartHandle, Parts, flat
from plankit.stock import Lumber
from plankit.units import Length

OUTER_RAILS = ("bottom", "top")


class FaceFraming(Framing):
    """The part of a plan that makes face frames."""

    def face_frame(
        self,
        name: str,
        stock: Lumber,
        *,
        on: Parts,
        face: Face = "front",
        rails: str = "bottom top",
        stiles_on: Parts = (),
        rails_on: Parts = (),
        glued: bool = True,
    ) -> Frame:
        """Make a face frame on a case: stiles flush with its outside, rails between them, held with pocket screws.

        on         the parts of the case, which the frame covers and is glued to; its outside gives the sizes
        face       the face of the case that it covers
        rails      which outer rails there are: "bottom top"
        stiles_on  dividers that get a stile, in the middle of each, between the outer rails
        rails_on   shelves that get a rail, its upper edge level with theirs, between the stiles

        Gives its parts as a list, or by name: .uprights (stiles, left to right) and .rails (from the lowest up). It is
        joined on the bench: bring it in a step before the case, or else no driver gets at its pocket screws.
        """
        made_of(stock, Lumber, name, "a face frame")
        known_face(face, name)
        case = flat(on)
        if face not in UPRIGHTS or not case or set(rails.split()) - set(OUTER_RAILS):
            raise PlanError(
                "a face frame covers an upright face of a case, with a rail at its bottom, its top or both.",
                where=name,
                given=f'face="{face}", rails="{rails}"',
                remedy='For instance  on=[*sides, floor], face="front", rails="bottom top"',
            )
        _refuse_across(name, face, flat(stiles_on))
        layout = _Layout(_layer([one.part for one in case], face, stock), AXIS_OF[face], stock.width)
        stiles = self._stiles(name, stock, layout, rails.split(), flat(stiles_on))
        made = self._rails(name, stock, layout, rails.split(), flat(rails_on), stiles)
        frame = Frame(stiles, made)
        self._join(frame, layout, face, glued)
        if glued:
            for piece in frame:
                for part in case:
                    if contacts(piece.part, part.part):
                        self.glue(piece, part)
        return frame

    def _stiles(
        self,
        name: str,
        stock: Lumber,
        layout: "_Layout",
        rails: Sequence[str],
        dividers: Sequence[PartHandle],
    ) -> list[PartHandle]:
        made = []
        for start, outer in layout.stiles([one.part for one in dividers]):
            box = layout.upright(start, () if outer else rails)
            made.append(self._piece(f"{name} stile", stock, box, "z", layout.through))
        return made

    def _rails(  # noqa: PLR0917 - a frame and what it stands on
        self,
        name: str,
        stock: Lumber,
        layout: "_Layout",
        rails: Sequence[str],
        shelves: Sequence[PartHandle],
        stiles: Sequence[PartHandle],
    ) -> list[PartHandle]:
        ends = [
            (one.part.box.high(layout.along), two.part.box.low(layout.along)) for one, two in pairwise(stiles)
        ]
        whole = (ends[0][0], ends[-1][1])
        levels = [(layout.level(rail), [whole]) for rail in OUTER_RAILS if rail in rails]
        levels += [(shelf.part.box.top - stock.width, ends) for shelf in shelves]
        boxes = [layout.lying(low, *between) for low, spaces in levels for between in spaces]
        boxes.sort(key=lambda box: (box.bottom.mm, box.low(layout.along).mm))
        return [self._piece(f"{name} rail", stock, box, layout.along, layout.through) for box in boxes]

    def _join(self, frame: Frame, layout: "_Layout", face: Face, glued: bool) -> None:
        """Rails end at stiles, and the stiles between them at rails: what ends there is drilled."""
        for rail in frame.rails:
            for stile in frame.uprights:
                met = next(iter(contacts(rail.part, stile.part)), None)
                if met is None:
                    continue
                first, second = (rail, stile) if met.axis == layout.along else (stile, rail)
                self._pocketed(first, second, OPPOSITE[face], POCKETED, face)
                if glued:
                    self.glue(first, second)


def _refuse_across(name: str, face: Face, dividers: Sequence[PartHandle]) -> None:
    """Refuse a stile on what does not stand upright, edge on behind the frame: a shelf, a back."""
    for divider in dividers:
        part = divider.part
        thin = min(AXES, key=lambda axis: part.box.extent(axis).mm)
        if thin in {"z", AXIS_OF[face]}:
            raise PlanError(
                "a stile stands on an upright divider.",
                where=name,
                given=f"stiles_on={part.id}",
                remedy="Name it in rails_on= if it is a shelf, or leave it out.",
            )


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where the pieces of a face frame lie: in a layer, across an axis, so wide."""

    layer: Box
    through: Axis
    wide: Length

    @property
    def along(self) -> Axis:
        return "x" if self.through == "y" else "y"

    def stiles(self, dividers: Sequence[Part]) -> list[tuple[Length, bool]]:
        """Where each stile starts, left to right (or front to back), and whether it is one of the outer two."""
        low, high = self.layer.low(self.along), self.layer.high(self.along) - self.wide
        inner = [part.box.middle(self.along) - self.wide.portion(2) for part in dividers]
        return [(low, True), *((start, False) for start in sorted(inner, key=lambda at: at.mm)), (high, True)]

    def upright(self, start: Length, rails: Sequence[str]) -> Box:
        ends = {LOW[self.along]: start, HIGH[self.along]: start + self.wide}
        if "bottom" in rails:
            ends["bottom"] = self.layer.bottom + self.wide
        if "top" in rails:
            ends["top"] = self.layer.top - self.wide
        return replace(self.layer, **ends)

    def level(self, rail: str) -> Length:
        return self.layer.bottom if rail == "bottom" else self.layer.top - self.wide

    def lying(self, low: Length, start: Length, end: Length) -> Box:
        ends = {LOW[self.along]: start, HIGH[self.along]: end, "bottom": low, "top": low + self.wide}
        return replace(self.layer, **ends)


def _layer(case: Sequence[Part], face: Face, stock: Lumber) -> Box:
    """The space right outside a face of a case, as thick as the frame."""
    whole = case[0].box
    for part in case[1:]:
        whole = whole.around(part.box)
    axis, at = AXIS_OF[face], whole.face(face)
    if face == HIGH[axis]:
        return replace(whole, **{LOW[axis]: at, HIGH[axis]: at + stock.thickness})
    return replace(whole, **{LOW[axis]: at - stock.thickness, HIGH[axis]: at})
