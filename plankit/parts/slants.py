"""Slanting saw cuts as planes: how deep each goes where, how the saw is set, and how long a part is where.

A slanting cut takes off one face, its depth growing along one slope or two; tapers, mitres, compound mitres
and bevels are all that.
"""

from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import asin, atan, degrees, radians, sqrt, tan

from plankit.parts.features import Bevel, CompoundMitre, Feature, Mitre, Taper
from plankit.parts.part import Part
from plankit.parts.space import AXES, AXIS_OF, HIGH, LOW, Axis, Face, Point, Size
from plankit.units import Angle, Length, largest, smallest

_STEP = 10**9
_TANGENT_STEP = 10**12
type Sawn = Taper | Mitre | CompoundMitre | Bevel
SAWN = (Taper, Mitre, CompoundMitre, Bevel)


@dataclass(frozen=True, slots=True)
class Slope:
    """How a cut deepens: `amount` at the face `towards`, nothing at `run` from it and beyond."""

    towards: Face
    amount: Length
    run: Length

    @property
    def tangent(self) -> float:
        """Rise over run."""
        return float(self.amount.mm / self.run.mm)


@dataclass(frozen=True, slots=True)
class Slant:
    """A slanting cut: the face it takes off, and its one slope or two, which add up."""

    face: Face
    slopes: tuple[Slope, ...]

    def depth(self, part: Part, at: Point) -> Fraction:
        """Return how deep it goes, square to its face, at a point of the build; in millimetres."""
        return sum((_fallen(part, slope, at) for slope in self.slopes), Fraction(0))

    @property
    def deepest(self) -> Length:
        """How deep it goes where it goes deepest."""
        return sum((slope.amount for slope in self.slopes), Length.zero())


def _fallen(part: Part, slope: Slope, at: Point) -> Fraction:
    axis = AXIS_OF[slope.towards]
    away = abs(at.along(axis).mm - part.box.face(slope.towards).mm)
    return slope.amount.mm * max(Fraction(0), 1 - away / slope.run.mm)


def slant_of(size: Size, feature: Feature) -> Slant | None:
    """Return a feature of a part of this size as a slanting cut; None for one that is none."""
    match feature:
        case Taper(face=face, narrow=narrow, amount=amount, run=run):
            return Slant(face, (Slope(narrow, amount, run),))
        case Mitre(end=face, short=short, setback=setback) | Bevel(edge=face, short=short, setback=setback):
            return Slant(face, (Slope(short, setback, _across(size, short)),))
        case CompoundMitre():
            one = Slope(feature.short, feature.setback, _across(size, feature.short))
            two = Slope(feature.also_short, feature.also_setback, _across(size, feature.also_short))
            return Slant(feature.end, (one, two))
        case _:
            return None


def slants_of(part: Part) -> tuple[tuple[Feature, Slant], ...]:
    """Return the slanting cuts of a part, each with the feature it is."""
    sawn = [feature for feature in part.features if isinstance(feature, SAWN)]
    size = part.box.size if sawn else None
    found = ((feature, slant_of(size, feature)) for feature in sawn if size is not None)
    return tuple((feature, slant) for feature, slant in found if slant is not None)


def _across(size: Size, face: Face) -> Length:
    return size[AXES.index(AXIS_OF[face])]


@dataclass(frozen=True, slots=True)
class SawSetting:
    """How a saw is set for one cut, the part lying on its wide face.

    miter  how far the blade, or the gauge, is turned away from a square crosscut
    tilt   how far the blade is tilted away from upright
    """

    miter: Angle
    tilt: Angle


def saw_setting(part: Part, cut: Sawn) -> SawSetting:
    """Return the setting for a slanting cut: of a miter saw for an end, of the blade's tilt for a long edge.

    source  the cut is the plane x = a·y + b·z in the part's length x, width y and thickness z. Its trace on
            the table leaves square by atan a; its normal (1, −a, −b) rises over the table by asin(b ÷ |n|)
    """
    square = Angle(Fraction(0))
    slant = slant_of(part.box.size, cut)
    assert slant is not None
    if isinstance(cut, Taper | Bevel):
        found = Angle.of_slope(slant.slopes[0].amount, slant.slopes[0].run)
        return SawSetting(square, found) if isinstance(cut, Bevel) else SawSetting(found, square)
    across = {AXIS_OF[slope.towards]: slope for slope in slant.slopes}
    wide, thick = across.get(part.across), across.get(part.through)
    if wide is None or thick is None:
        one = slant.slopes[0]
        turned = Angle.of_slope(one.amount, one.run)
        return SawSetting(square, turned) if wide is None else SawSetting(turned, square)
    a, b = wide.tangent, thick.tangent
    return SawSetting(_angle(degrees(atan(a))), _angle(degrees(asin(b / sqrt(1 + a * a + b * b)))))


def tangent(angle: Angle) -> Fraction:
    """Return the tangent of an angle, rounded once to a millionth of a millionth."""
    return Fraction(round(tan(radians(float(angle.degrees))) * _TANGENT_STEP), _TANGENT_STEP)


def mitre_at(part: Part, end: Face, short: Face, miter: Angle) -> Mitre:
    """Return the mitre that falls back along the face `short` by an angle away from square."""
    return Mitre(end, short, part.box.extent(AXIS_OF[short]) * tangent(miter))


def compound_at(part: Part, end: Face, short: tuple[Face, Face], setting: SawSetting) -> CompoundMitre:
    """Return the compound mitre that a saw cuts when it is set like this, the part on its wide face.

    short   the edge and the wide face along which the part ends up shorter, in either order
    source  the plane x = a·y + b·z is cut with a = tan(miter) and b = tan(tilt) ÷ cos(miter)
    """
    edge, face = sorted(short, key=lambda one: AXIS_OF[one] != part.across)
    a = tangent(setting.miter)
    b = tan(radians(float(setting.tilt.degrees))) * sqrt(1 + float(a) ** 2)
    thick = Fraction(round(b * _TANGENT_STEP), _TANGENT_STEP)
    return CompoundMitre(
        end, edge, part.box.extent(AXIS_OF[edge]) * a, face, part.box.extent(AXIS_OF[face]) * thick
    )


def lengths_of(part: Part) -> dict[tuple[Face, Face], Length]:
    """Return how long a part is along each of its four long corners, where its ends are mitred or not.

    A corner is named by the two faces that meet in it, in the order of the axes.
    """
    one, two = (axis for axis in AXES if axis != part.grain)
    cuts = [slant for _, slant in slants_of(part) if AXIS_OF[slant.face] == part.grain]
    found: dict[tuple[Face, Face], Length] = {}
    for first, second in product((LOW[one], HIGH[one]), (LOW[two], HIGH[two])):
        taken = Length.zero()
        for cut in cuts:
            for slope in cut.slopes:
                if slope.towards in {first, second}:
                    taken += slope.amount
        found[first, second] = part.length - taken
    return found


def points_of(part: Part) -> tuple[Length, Length]:
    """Return a part's length to its long points and to its short points; the same twice with square ends."""
    lengths = lengths_of(part).values()
    return largest(*lengths), smallest(*lengths)


def _angle(found: float) -> Angle:
    return Angle(Fraction(round(found * _STEP), _STEP))


def profile_axes(cut: Sawn) -> tuple[Axis, ...]:
    """Return the axes along which one sees a slanting cut's outline: one for each slope, across it and its face."""
    match cut:
        case Taper(face=face, narrow=narrow):
            pairs = ((face, narrow),)
        case Mitre(end=face, short=short) | Bevel(edge=face, short=short):
            pairs = ((face, short),)
        case CompoundMitre():
            return AXIS_OF[cut.also_short], AXIS_OF[cut.short]
    return tuple(axis for axis in AXES for pair in pairs if axis not in {AXIS_OF[one] for one in pair})
