"""Solid tops as an author fixes them: so that they can move."""

from dataclasses import replace

from plankit.build import buttons, fix_top, screw
from plankit.build.joints_top import BUTTON, button_items, button_screw, fixed_line
from plankit.parts import AXES, HIGH, LOW, Axis, Face, Part
from plankit.plan.asked import known_face, more_than_nothing, whole_number
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, Parts, single, some
from plankit.plan.placing import Given


class Topping(Bench):
    """The part of a plan that says how its top is held."""

    def fasten_top(
        self,
        top: PartHandle,
        *,
        to: Parts,
        fixed_along: Face,
        screws: str,
        each: int = 3,
        inset: Given | None = None,
    ) -> None:
        """Screw a solid top on from below so that it can move: round holes along one edge, slots elsewhere.

        The screws are pan-head screws on washers, which slide where a sunk head would wedge.

        to           the cleats or rails under it, whichever way they run
        fixed_along  the edge that stays where it is; the grain must run along it
        inset        from the ends of each cleat or rail to its outermost screws; where it is left out 1 1/2 in, or
                     clear of pocket holes that are there already
        """
        spec = screw(screws, "pan-head screw")
        known_face(fixed_along, single(top, "the top").name)
        whole_number(each, "each", top.name)
        cleats = some(to, "to=")
        away = (
            None
            if inset is None
            else more_than_nothing(self._read(top.name, "inset", inset), "inset", top.name)
        )
        line = fixed_line(top.part, [one.part for one in cleats], fixed_along, each, away)
        for part in cleats:
            joint, holes = fix_top(
                top.part, part.part, spec, fixed_along, each, line=line, inset=away, air=self.shop.humidities
            )
            self._joints.append(joint)
            self.join_work(part.id, holes)

    def button_top(
        self,
        top: PartHandle,
        *,
        to: Parts,
        screws: str | None = None,
        each: int | None = None,
        inner: Face | None = None,
        gap: Given | None = None,
    ) -> None:
        """Hold a solid top with wooden buttons that ride in a groove of each apron: it can move every way.

        to     the aprons under it; each gets a groove in its inner face
        screws as their box names them; by the top's thickness where they are left out
        each   buttons along each apron; at most 10 in apart where it is left out
        inner  the face with the groove; the one towards the middle of the top where it is left out
        gap    how far a button stands off its apron, and its tongue off the bottom of the groove: 1/8 in
        raises PlanError where the top moves further than the gap leaves room for
        """
        single(top, "the top")
        if each is not None:
            whole_number(each, "each", top.name)
        button = BUTTON
        if gap is not None:
            button = replace(BUTTON, gap=more_than_nothing(self._read(top.name, "gap", gap), "gap", top.name))
        spec = button_screw(top.part, button) if screws is None else screw(screws)
        for part in some(to, "to="):
            face = inner or _towards_middle(part.part, top.part)
            known_face(face, part.name)
            joint, groove = buttons(top.part, part.part, spec, face, each, button, self.shop.humidities)
            self._joints.append(joint)
            self._items += button_items(top.part, part.part, joint, face, button)
            self.join_work(part.id, groove)


def _towards_middle(apron: Part, top: Part) -> Face:
    """The long side of an apron that looks to the middle of the top over it."""
    axis: Axis = next(axis for axis in AXES if axis not in {apron.grain, top.through})
    return HIGH[axis] if apron.box.middle(axis).mm <= top.box.middle(axis).mm else LOW[axis]
