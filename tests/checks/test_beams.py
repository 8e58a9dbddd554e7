"""Closed forms of bending against beams integrated numerically, for every way a beam is held and loaded here."""

import re
from fractions import Fraction

import numpy as np
import pytest
from scipy.integrate import quad, solve_bvp

from plankit.checks import Load, sag
from plankit.checks.spans import Overhang
from plankit.checks.strength import (
    CENTRED,
    CREEP_PANEL,
    CREEP_SOLID,
    LIMIT,
    MOST_ON_A_SHELF,
    OVERHANG,
    OVERHANG_END,
    SHELF_PSF,
    UNIFORM,
    droop,
)
from plankit.parts import Part
from plankit.units import L, Mass
from tests.checks.small_builds import PLY
from tests.parts.one_of_each import box
from tests.published import published

F = Fraction
SPAN, WIDE, THICK, PSI, POUNDS = 36.0, 10.0, 0.75, 9.5e5, 72.0
STIFF = PSI * WIDE * THICK**3 / 12
RULES = {row["item"]: row for row in published("shelf_rules")}


def closed(shape: Fraction) -> float:
    return float(sag(F(72), L("36 in"), L("10 in"), L("3/4 in"), F(950_000), shape).inches)


def integrated(load, ends) -> float:
    """The most a beam bends: E I v'''' = load(x), from its four end conditions (v, v', v'', v''' at both ends)."""
    places = np.linspace(0, SPAN, 401)
    solved = solve_bvp(
        lambda x, v: np.vstack((v[1], v[2], v[3], load(x) / STIFF)), ends, places, np.zeros((4, 401)), tol=1e-8,
        max_nodes=200_000,
    )  # fmt: skip
    assert solved.success
    return float(np.abs(solved.sol(places)[0]).max())


def supported(a, b):
    return np.array([a[0], a[2], b[0], b[2]])


def evenly(x):
    return np.full_like(x, POUNDS / SPAN)


def test_a_load_spread_evenly() -> None:
    # E I v'''' = w; v = v'' = 0 at both ends: 5 w L⁴ / 384 E I
    assert closed(UNIFORM) == pytest.approx(integrated(evenly, supported), rel=1e-5)


def bent_by(moment, other, span: float) -> float:
    """Deflection by virtual work: ∫ M m / E I dx, m being the moment of a unit load where it is looked for."""
    return quad(lambda x: moment(x) * other(x) / STIFF, 0, span, points=[span / 2], limit=200)[0]


def test_a_load_in_the_middle() -> None:
    # M = P x / 2 up to the middle; m the same for a unit load: P L³ / 48 E I
    def unit(x: float) -> float:
        return min(x, SPAN - x) / 2

    assert closed(CENTRED) == pytest.approx(bent_by(lambda x: POUNDS * unit(x), unit, SPAN), rel=1e-9)


def test_an_overhang_under_an_even_load() -> None:
    # from its support M = w (L − x)² / 2; unit load at the end m = L − x: w L⁴ / 8 E I
    rate = POUNDS / SPAN
    found = bent_by(lambda x: rate * (SPAN - x) ** 2 / 2, lambda x: SPAN - x, SPAN)
    assert closed(OVERHANG) == pytest.approx(found, rel=1e-9)


def test_an_overhang_with_a_load_at_its_end() -> None:
    # M = P (L − x): P L³ / 3 E I
    found = bent_by(lambda x: POUNDS * (SPAN - x), lambda x: SPAN - x, SPAN)
    assert closed(OVERHANG_END) == pytest.approx(found, rel=1e-9)


@pytest.mark.parametrize("out", [6.0, 10.0, 19.0])
def test_a_beam_that_runs_on_beyond_its_support(out: float) -> None:
    """The check's own form against virtual work over both stretches; m of a unit load at the end."""
    back, part = 20.0, Part("top", "Top", "panel", PLY, box("0", "30", "0", "10", "0", "3/4"), "x", "z")
    overhang = Overhang("right", L(str(out), "in"), L("20 in"), L("10 in"))
    rate = 40 * 10 / 144

    def unit(x: float) -> float:
        return -out * x / back if x <= back else x - back - out

    def spread(x: float) -> float:
        left = rate * (back / 2 - out**2 / (2 * back))
        return left * x - rate * x**2 / 2 if x <= back else -rate * (back + out - x) ** 2 / 2

    def at_the_end(x: float) -> float:
        return 250 * unit(x)

    stiff = float(PLY.modulus_psi) * 10 * 0.75**3 / 12
    for moment, load in (
        (spread, Load("top", "books", F(40), lasting=False)),
        (at_the_end, Load("top", "a person", middle=Mass.of_pounds(250), lasting=False)),
    ):
        found = quad(lambda x, m=moment: m(x) * unit(x) / stiff, 0, back + out, points=[back], limit=200)[0]
        assert float(droop(part, overhang, load).inches) == pytest.approx(max(found, 0), rel=1e-6)


@pytest.mark.parametrize(
    ("item", "shape"),
    [
        ("uniform load, simple span, midspan deflection", UNIFORM),
        ("centre point load, simple span", CENTRED),
    ],
)
def test_shares_are_those_of_the_published_rows(item: str, shape: Fraction) -> None:
    # Wood Handbook table 9-1: k_b in each row
    found = re.search(r"k_b = (\d+/\d+)", RULES[item]["detail"])
    assert found
    assert F(found[1]) == shape


def test_overhangs_are_those_of_the_published_rows() -> None:
    assert "w L^4/(8 E I) ; P L^3/(3 E I)" in RULES["cantilever uniform / end load"]["value"]
    assert (F(1, 8), F(1, 3)) == (OVERHANG, OVERHANG_END)


def test_two_spans_over_a_middle_support_bend_less_than_half_as_far_as_one() -> None:
    # 0.0054 w L⁴ / E I (AISC tables): by the check's own form for one span, 5/384 = 0.0130, a shelf is safe there.
    # Half of the two: propped at one end, fixed at the middle, since the slope there is nothing
    def propped(a, b):
        return np.array([a[0], a[2], b[0], b[1]])

    share = integrated(evenly, propped) * STIFF / (POUNDS * SPAN**3)
    assert share == pytest.approx(0.0054, abs=5e-5)
    assert share < float(UNIFORM) / 2


def test_limits_and_loads_are_those_of_the_standard() -> None:
    # AWS 2009 section 10; NDS 3.5.2
    assert RULES["shelf deflection limit, architectural woodwork"]["value"] == f"L/{1 / LIMIT}"
    assert RULES["shelf load, all other shelving"]["value"].startswith(f"{SHELF_PSF} psf")
    most = RULES["maximum total load on any one shelf under these rules"]["value"]
    assert most.startswith(f"{MOST_ON_A_SHELF.lb} lb")
    creep = [row["value"] for item, row in RULES.items() if item.startswith("creep")]
    assert [F(one) for one in creep] == [CREEP_SOLID, CREEP_PANEL]
    # a rule of thumb for sag that is seen, 1/32 in to the foot, is stricter than the standard's limit
    assert F(1, 32) / 12 == F(1, 384) < LIMIT
