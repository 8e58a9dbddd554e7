"""Slanting cuts as an author writes them, and what is cut over length first or measured before it is cut."""

from typing import Self

from plankit.parts import (
    AXES,
    AXIS_OF,
    FACES,
    HIGH,
    LOW,
    OPPOSITE,
    Bevel,
    CompoundMitre,
    Face,
    LeftOn,
    Mitre,
    SawSetting,
    Taper,
    compound_at,
    lengths_of,
    mitre_at,
)
from plankit.plan.asked import known_face, maybe_words, not_below_nothing
from plankit.plan.placing import Given
from plankit.plan.worked import GivenAngle, Worked
from plankit.units import Length, told


class Sawing(Worked):
    """A part that is sawn at a slant, or sawn twice."""

    def taper(self, *, towards: Face = "bottom", run: Given | None = None, **amounts: Given) -> Self:
        """Taper one or more faces: `foot.taper(left="1", front="1/2")` takes so much off each at the narrow end.

        towards  the end that gets narrower
        run      how far from that end the tapers start; the whole part where it is left out
        raises   PlanError for a taper that leaves nothing, or a face that cannot be tapered that way
        """
        part = self.part
        known_face(towards, part.name)
        if not amounts:
            self._refuse(
                "a taper takes something off a face.", remedy='For instance  taper(left="1", front="1/2")'
            )
        whole = part.box.extent(AXIS_OF[towards])
        over = whole if run is None else self._read(run, "run")
        if not Length.zero() < over <= whole:
            self._refuse(
                "a taper runs over some of the part, and no further than it is long.",
                f"run {told(over)}",
            )
        tapers = [
            self._one_taper(face, towards, self._read(amount, face), over) for face, amount in amounts.items()
        ]
        before = [t for t in part.features if isinstance(t, Taper) and t.narrow == towards]
        for axis in AXES:
            taken = sum((t.amount for t in [*before, *tapers] if AXIS_OF[t.face] == axis), Length.zero())
            if taken >= part.box.extent(axis):
                self._refuse(
                    "the tapers leave nothing of it.",
                    f"{told(taken)} off {told(part.box.extent(axis))}",
                    "Take less off at the narrow end.",
                )
        self._bench.work_on(self.id, tapers)
        return self

    def _one_taper(self, face: str, towards: Face, amount: Length, run: Length) -> Taper:
        if face not in FACES or AXIS_OF[face] == AXIS_OF[towards]:
            beside = ", ".join(f for f in FACES if AXIS_OF[f] != AXIS_OF[towards])
            self._refuse(
                f"a taper towards the {towards} is sawn on one of its sides.", face, f"Name one of: {beside}"
            )
        if amount <= Length.zero():
            self._refuse("a taper takes something off.", f"{face} {told(amount)}")
        return Taper(face, towards, amount, run)

    def mitre(
        self, end: Face, *, short: Face, setback: Given | None = None, angle: GivenAngle | None = None
    ) -> Self:
        """Cut an end at an angle: `mitre("left", short="bottom", angle="35°")`; 45 degrees if nothing is said.

        short    the face along which the part ends up shorter
        setback  by how much; or instead of it
        angle    the saw's setting, away from a square cut: 35° leaves 55° to the edge
        """
        self._refuse_no_end(end, short)
        if setback is not None and angle is not None:
            self._refuse("a miter is given by its setback or by its angle, not both.", f"{setback}, {angle}")
        if angle is not None:
            made = mitre_at(self.part, end, short, self._angle(angle, "angle"))
        else:
            across = self.part.box.extent(AXIS_OF[short])
            made = Mitre(end, short, across if setback is None else self._read(setback, "setback"))
        self._refuse_mitre(end, made.setback)
        self._saw_end(made)
        return self

    def compound_mitre(
        self,
        end: Face,
        *,
        short: tuple[Face, Face] | None = None,
        miter: GivenAngle | None = None,
        bevel: GivenAngle | None = None,
        **setbacks: Given,
    ) -> Self:
        """Cut an end slanting both ways: `compound_mitre("left", bottom="2", front="1/4")`.

        setbacks  how much shorter the part ends up along two faces that meet; or instead of them
        short     these two faces, with the saw's two settings:
        miter     the blade's turn away from a square crosscut, the part lying on its wide face
        bevel     the blade's tilt away from upright
        """
        faces = tuple(setbacks) if short is None else tuple(short)
        beside = [face for face in FACES if face in faces and AXIS_OF[face] != self.part.grain]
        if end not in FACES or AXIS_OF[end] != self.part.grain or len(beside) != 2 or len(faces) != 2:
            self._refuse_compound(end, faces)
        if AXIS_OF[beside[0]] == AXIS_OF[beside[1]]:
            self._refuse_compound(end, faces)
        if short is None:
            if miter is not None or bevel is not None:
                self._refuse("the saw's settings go with short=…, the two faces that end up shorter.")
            one, two = (self._more_than_nothing(setbacks[face], face) for face in beside)
            made = CompoundMitre(end, beside[0], one, beside[1], two)
        else:
            if miter is None or bevel is None or setbacks:
                self._refuse(
                    "a compound miter takes two setbacks, or two settings of the saw.",
                    remedy='For instance  short=("bottom", "front"), miter="31.6°", bevel="33.9°"',
                )
            setting = SawSetting(self._angle(miter, "miter"), self._angle(bevel, "bevel"))
            made = compound_at(self.part, end, (beside[0], beside[1]), setting)
        self._saw_end(made)
        return self

    def _refuse_compound(self, end: str, faces: tuple[str, ...]) -> None:
        self._refuse(
            "a compound miter is cut on an end, and falls back along two faces that meet beside it.",
            f'"{end}", {", ".join(faces)}',
            'For instance  compound_mitre("left", bottom="2", front="1/4")',
        )

    def _refuse_no_end(self, end: Face, short: Face) -> None:
        grain = self.part.grain
        if end not in FACES or short not in FACES or AXIS_OF[end] != grain or AXIS_OF[short] == grain:
            self._refuse(
                "a miter is cut on an end, and shortens one of the sides.",
                f'end="{end}", short="{short}"',
                "A long edge sawn at an angle is a bevel.",
            )

    def _refuse_mitre(self, end: Face, back: Length) -> None:
        if not Length.zero() < back <= self.part.length:
            self._refuse(
                "a miter takes something off, and no more than there is.", f"{told(back)}"
            )

    def _saw_end(self, made: Mitre | CompoundMitre) -> None:
        part = self.part
        if any(isinstance(one, Mitre | CompoundMitre) and one.end == made.end for one in part.features):
            self._refuse("this end is mitered already.", f'end="{made.end}"')
        lengths = lengths_of(part.with_features([made]))
        if any(left < Length.zero() for left in lengths.values()):
            taken = part.length - min(lengths.values(), key=lambda left: left.mm)
            self._refuse(
                "the miters at both ends meet before they reach its short side.",
                f"{told(taken)} off {told(part.length)}",
                "Make it longer, or set the cuts back less.",
            )
        self._bench.work_on(self.id, [made])

    def bevel(
        self, edge: Face, *, short: Face, setback: Given | None = None, angle: GivenAngle | None = None
    ) -> Self:
        """Saw a long edge at an angle: `bevel("front", short="top", angle="15°")`; 45 degrees if nothing is said.

        short    the face along which the part ends up narrower
        setback  by how much; or instead of it
        angle    the blade's tilt, away from upright
        """
        part = self.part
        known_face(edge, part.name)
        known_face(short, part.name)
        if part.grain in {AXIS_OF[edge], AXIS_OF[short]} or AXIS_OF[edge] == AXIS_OF[short]:
            self._refuse(
                "a bevel runs along a long edge, and makes one of the faces beside it narrower.",
                f'"{edge}", short="{short}"',
                "An end sawn at an angle is a miter.",
            )
        if setback is not None and angle is not None:
            self._refuse("a bevel is given by its setback or by its angle, not both.", f"{setback}, {angle}")
        back = part.box.extent(AXIS_OF[short])
        if angle is not None:
            back = mitre_at(part, edge, short, self._angle(angle, "angle")).setback
        elif setback is not None:
            back = self._more_than_nothing(setback, "setback")
        bevels = [one for one in part.features if isinstance(one, Bevel)]
        if any(one.edge == edge for one in bevels):
            self._refuse("this edge is beveled already.", edge)
        facing = [one.setback for one in bevels if (one.edge, one.short) == (OPPOSITE[edge], short)]
        taken, room = sum(facing, back), part.box.extent(AXIS_OF[edge])
        if taken > room:
            self._refuse(
                f"the bevels leave nothing of the {short} face.",
                f"{told(taken)} off {told(room)}",
                "Make it wider, or tilt the blade less.",
            )
        self._bench.work_on(self.id, [Bevel(edge, short, back)])
        return self

    def leave(self, amount: Given, *, on: str) -> Self:
        """Cut the part out larger and trim it later: `top.leave("1/2", on="ends")`.

        amount  what is left on at each place
        on      "ends", "edges", or faces: "left right front"
        raises  PlanError for a face no saw trims, and for a glue-up, which has its own allowance
        """
        part = self.part
        if part.glue_up is not None:
            self._refuse("a glue-up has its own allowance.", remedy="Give trim_each_end=… and trim_each_edge=… to it.")
        more = self._more_than_nothing(amount, "amount")
        groups = {
            "ends": (LOW[part.grain], HIGH[part.grain]),
            "edges": (LOW[part.across], HIGH[part.across]),
        }
        maybe_words(on, "on", 'on="ends"', part.name)
        faces = [face for word in on.split() for face in groups.get(word, (word,))]
        sawn = [face for face in FACES if AXIS_OF[face] != part.through]
        left = {one.face for one in part.features if isinstance(one, LeftOn)}
        for face in faces or [""]:
            if face not in sawn:
                known = ", ".join(("ends", "edges", *sawn))
                self._refuse("it is trimmed at its ends and edges.", face, f"Write one of: {known}")
            if face in left:
                self._refuse("something is left on there already.", face)
        self._bench.work_on(self.id, [LeftOn(face, more) for face in sawn if face in faces])
        return self

    def cut_to_fit(self, measure: str, *, spare: Given | None = None) -> Self:
        """Say what is measured before the part is cut to its final size: `rail.cut_to_fit("between the sides")`.

        Its sizes in the plan are nominal then.

        spare  how much longer, and of a sheet wider too, it is cut out first; where it is left out 1/2 in (12 mm in a
               metric plan), or as much of that as fits without buying more
        """
        if not isinstance(measure, str) or not measure.strip():
            self._refuse("say what is measured.", remedy='For instance  cut_to_fit("between the sides")')
        more = None if spare is None else not_below_nothing(self._read(spare, "spare"), "spare", self.name)
        self._bench.measure_first(self.id, measure.strip().removeprefix("measure ").strip(), more)
        return self
