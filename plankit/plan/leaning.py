"""Legs that lean, braces, and sloping sides, as an author writes them: the saw's cuts are worked out."""

from fractions import Fraction

from plankit.errors import PlanError
from plankit.parts import Face
from plankit.plan.asked import known_face
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, Parts, flat, single
from plankit.plan.placing import Given, read_faces
from plankit.plan.slanting import STEEPEST, braced, cut_against, mitred_with, splayed, tilted
from plankit.stock import Lumber
from plankit.units import Angle

FLATTEST = Angle(Fraction(75))
"""A side that leans further lies: it is a bottom or a lid (common practice)."""


def _two_faces(name: str, inside: object) -> tuple[tuple[PartHandle, Face], tuple[PartHandle, Face]]:
    """The two faces that a brace lies in the corner of."""
    pairs = inside if isinstance(inside, tuple | list) else ()
    if len(pairs) != 2 or not all(isinstance(one, tuple | list) and len(one) == 2 for one in pairs):
        raise PlanError(
            "a brace lies between two faces, each of a part.",
            where=name,
            given=", ".join(one.id if isinstance(one, PartHandle) else repr(one) for one in pairs) or repr(inside),
            remedy='For instance  inside=((post, "right"), (rail, "bottom"))',
        )
    for _, face in pairs:
        known_face(face, name)
    (one, face), (other, other_face) = pairs
    return (single(one, "inside="), face), (single(other, "inside="), other_face)


class Leaning(Bench):
    """The part of a plan that says what leans."""

    def splay(self, legs: Parts, **foot: Angle | str | int) -> None:
        """Let upright boards lean so that their feet stand out: `plan.splay(leg, left="8°", front="5°")`.

        Each turns about the middle of its top, is made longer so that it still reaches from where it began to
        where it ended, and both its ends are sawn level. Angles are those seen from the front and from the side.
        raises  PlanError for a board that is not upright, has cut ends already, or leans too far
        """
        both = [pair for pair in (("left", "right"), ("front", "back")) if set(pair) <= set(foot)]
        if both:
            raise PlanError(
                "a foot stands out one way or the other.", given=" and ".join(both[0]), remedy="Drop one."
            )
        left, right, front, back = (
            Angle.read(foot.pop(face, 0)) for face in ("left", "right", "front", "back")
        )
        if foot:
            raise PlanError("a foot stands out to the left, right, front or back.", given=", ".join(foot))
        sideways, frontways = left.degrees - right.degrees, back.degrees - front.degrees
        if max(abs(sideways), abs(frontways)) >= STEEPEST.degrees:
            raise PlanError(
                "a leg that leans so far no longer stands.", given="45° or more", remedy="Let it lean less."
            )
        for leg in flat(legs):
            self._parts[leg.id] = splayed(leg.part, Angle(sideways), Angle(frontways))

    def tilt(self, parts: Parts, **top: Angle | str | int) -> None:
        """Let parts lean about their lower edge, as the sides of a planter do: `plan.tilt(side, left="10°")`.

        Their tops go to the left, right, front or back by that angle. Their edges stay square to their faces: saw the
        lower one level first, side.bevel("bottom", short="left", angle="10 deg"). Sizes and faces such as side.bottom
        are those before the part leans; side.reaches("bottom") says where it really ends.
        """
        top_given = next(iter(top.values()), None)
        found = [
            (face, Angle.read(top.pop(face))) for face in ("left", "right", "front", "back") if face in top
        ]
        if len(found) != 1 or top:
            raise PlanError(
                "a part is tilted one way.", given=", ".join(top), remedy='For instance  left="10°"'
            )
        if abs(found[0][1].degrees) > FLATTEST.degrees:
            raise PlanError(
                "a side that leans so far lies more than it stands.",
                given=f"{found[0][0]}={top_given!r}",
                remedy=f"Let it lean {FLATTEST.degrees}° or less.",
            )
        for part in flat(parts):
            self._parts[part.id] = tilted(part.part, *found[0])

    def cut_against(self, rail: PartHandle, *others: PartHandle) -> None:
        """Saw the ends of a board so that they lie against parts that lean: `plan.cut_against(rail, leg, other_leg)`.

        The board keeps its place across; each end is moved to where it meets the nearest face of the other part.
        raises  PlanError where a part lies beside the board
        """
        if not others:
            raise PlanError("it is cut against nothing.", where=rail.name, remedy="Name the part it is to lie against.")
        for other in others:
            met = single(other, "what it is cut against")
            self._parts[rail.id] = cut_against(rail.part, met.part)

    def brace(
        self,
        name: str,
        stock: Lumber,
        *,
        inside: tuple[tuple[PartHandle, Face], tuple[PartHandle, Face]],
        rise: Given,
        run: Given,
        **side: Given,
    ) -> PartHandle:
        """Put a brace across an inner corner, its ends sawn to lie on both faces.

        inside  the two faces: `inside=((front, "back"), (tray, "top"))`
        rise    how far from the corner it reaches along the first face, at its outer edge
        run     how far along the second
        side    where it lies along the corner: one of the brace's two other faces
        raises  PlanError where the faces lie in no corner, or the brace is too short for its width
        """
        one, other = _two_faces(name, inside)
        lengths = self._read(name, "rise", rise), self._read(name, "run", run)
        faces = read_faces(name, side, self.unit)
        made = braced(
            self._new_id(name), name, stock, (one[0].part, one[1]), (other[0].part, other[1]), lengths, faces
        )
        return self._add(made)

    def mitre_corner(self, one: PartHandle, other: PartHandle) -> None:
        """Saw the ends of two parts that meet in a corner so that they share it evenly, leaning or not."""
        first, second = single(one, "the first part").part, single(other, "the second part").part
        if one.id == other.id:
            raise PlanError("a corner is made by two parts.", where=one.name, remedy="Name the other one as well.")
        self._parts[one.id] = mitred_with(first, second)
        self._parts[other.id] = mitred_with(second, first)
