"""How far shelves and tops bend, against published tables and against a beam integrated numerically."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plankit import Plan
from plankit.build import Build, glue
from plankit.checks import Load, longest_span, sag, strength
from plankit.checks.spans import Span, carried, span_of
from plankit.checks.strength import CENTRED, LIMIT, UNIFORM, deflection, droop, usual_loads
from plankit.checks.weakened import weakened
from plankit.errors import PlanError
from plankit.parts import Groove, Notch, Part
from plankit.units import L, Length, Mass
from tests.checks.small_builds import INCHES, PLY, SLAB, instead, mirrored, shelved
from tests.parts.one_of_each import POST, box
from tests.published import published, within

SHELVES = {row["id"]: row for row in published("shelves")}


def value(row: dict[str, str], pattern: str) -> Fraction:
    match = re.search(pattern, row["inputs"])
    assert match
    return Fraction(match[1])


@pytest.mark.parametrize("name", [name for name in SHELVES if name.startswith("SH-A")])
def test_longest_shelf_of_the_architectural_woodwork_standards(name: str) -> None:
    # AWS 2009 4.4.14.10: whole inches at L/144; one printed cell needs 0.03 in of grace
    row = SHELVES[name]
    span = longest_span(
        value(row, r"q=(\d+) psf"), L(value(row, r"t=([\d.]+) in"), "in"), value(row, r"E=(\d+) psi")
    )
    assert int(span.inches + Fraction(3, 100)) == int(row["answer"])
    printed = re.search(r"unrounded ([\d.]+) in", row["note"])
    assert printed
    assert float(span.inches) == pytest.approx(float(printed[1]), abs=0.002)


@pytest.mark.parametrize("name", [name for name in SHELVES if name.startswith("SH-B")])
def test_sag_under_an_even_load(name: str) -> None:
    # Wood Handbook eq. 9-2: 5 w L⁴ / (384 E I); "1 x 12 x 48" gives thickness, depth and span in inches
    row = SHELVES[name]
    sizes = re.search(r"([\d\-/.]+) x ([\d\-/.]+) x ([\d.]+), (\d+) lb/ft", row["inputs"])
    assert sizes
    thick, wide, span = (L(sizes[i], "in") for i in (1, 2, 3))
    pounds = Fraction(sizes[4]) * span.inches / 12
    found = sag(pounds, span, wide, thick, value(row, r"E=(\d+) psi"))
    assert within(found.inches, row["answer"], row["tolerance"])


def test_sag_under_a_load_in_the_middle() -> None:
    # P L³ / (48 E I): 24 lb on eastern white pine 3/4 × 11 1/4 × 36, E 1.24 million psi
    row = SHELVES["SH-C03"]
    found = sag(Fraction(24), L("36 in"), L("11 1/4 in"), L("3/4 in"), Fraction(1_240_000), CENTRED)
    assert within(found.inches, row["answer"], row["tolerance"])


def test_the_closed_form_against_a_beam_integrated_numerically() -> None:
    # scipy solves E I v'' = M(x), M = w x (L − x) / 2, v(0) = v(L) = 0; the middle is 5 w L⁴ / (384 E I)
    import numpy as np
    from scipy.integrate import solve_bvp

    span, load, stiff = 36.0, 2.0, 9.5e5 * 10 * 0.75**3 / 12

    def beam(x, v):
        return np.vstack((v[1], -load * x * (span - x) / 2 / stiff))

    places = np.linspace(0, span, 21)
    solved = solve_bvp(beam, lambda a, b: np.array([a[0], b[0]]), places, np.zeros((2, 21)), tol=1e-9)
    exact = sag(Fraction(72), L("36 in"), L("10 in"), L("3/4 in"), Fraction(950_000))
    assert float(exact.inches) == pytest.approx(float(solved.sol(span / 2)[0]), rel=1e-6)


def test_both_shapes_of_load_as_shares_of_one_another() -> None:
    # the same weight in the middle bends a beam 8/5 as far as spread evenly: 1/48 over 5/384
    assert Fraction(8, 5) == CENTRED / UNIFORM


@given(st.integers(5, 90), st.integers(4, 32), st.integers(10, 100))
def test_the_longest_span_is_just_within_the_limit(psf: int, sixteenths: int, stiff: int) -> None:
    thick, psi = L(Fraction(sixteenths, 16), "in"), Fraction(stiff * 20_000)

    def bends(span: Length) -> Fraction:
        return sag(psf * span.inches / 144, span, L("1 in"), thick, psi) / span

    found = longest_span(Fraction(psf), thick, psi)
    assert bends(found) <= LIMIT < bends(found + L("0.001 in"))


@pytest.mark.parametrize(("span", "fires"), [("31", False), ("32", True)])
def test_a_plywood_shelf_is_kept_under_31_inches(span: str, fires: bool) -> None:
    # 3/4 in plywood at 40 psf spans 40.026 in (AWS table); a load that stays doubles it (NDS 3.5.2 K_cr 2.0):
    # 40.026 ÷ ∛2 = 31.77 in
    found = strength(shelved(span), INCHES)
    assert [f.check for f in found] == ["bends too far"] * fires
    if fires:
        assert "keep its span under 31\u00a0in" in found[0].remedy
        assert (found[0].level, found[0].part) == ("look at", "Shelf")


def test_the_number_is_the_deflection_with_creep() -> None:
    build = shelved("36")
    shelf = build.part("shelf")
    span = span_of(shelf, build)
    assert span is not None
    assert (span.along, span.clear, span.width) == ("x", L("36 in"), L("10 in"))
    # 5/384 × (40 psf × 36 × 10 ÷ 144 = 100 lb) × 36³ ÷ (950,000 × 10 × 0.75³ ÷ 12) = 0.1819 in; twice: 0.3638
    found = deflection(shelf, span, Load("shelf", "books", Fraction(40)))
    assert float(found.inches) == pytest.approx(0.3638, abs=1e-4)
    once = deflection(shelf, span, Load("shelf", "books", Fraction(40), lasting=False))
    assert found == once * 2


def test_thicker_stock_or_a_shorter_span_or_a_rail_mends_it() -> None:
    assert strength(shelved("36"), INCHES)
    assert not strength(shelved("36", "1"), INCHES)  # 53.368 ÷ ∛2 = 42.4 in
    build = shelved("36")
    rail = Part("rail", "Rail", "panel", PLY, box("18", "18 3/4", "0", "10", "0", "30"), "z", "x")
    assert not strength(replace(build, parts=(*build.parts, rail)), INCHES)


def test_grain_that_runs_across_the_span_carries_half() -> None:
    # plywood across the grain about half as stiff (from memory): 40.026 ÷ ∛4 = 25.2 in
    assert not strength(shelved("30"), INCHES)
    (found,) = strength(shelved("30", grain="y"), INCHES)
    assert "turn its grain" in found.remedy


def test_what_the_author_says_a_shelf_carries_counts_instead() -> None:
    build = shelved("36")
    assert not strength(build, INCHES, (Load("shelf", "hats", Fraction(5)),))
    (found,) = strength(shelved("30"), INCHES, (Load("shelf", "books", Fraction(120)),))
    assert "books" in found.what


def bench(thick: str, clear: str = "40") -> Build:
    """A low top that somebody will sit on, held at its ends."""
    uprights = [
        Part(f"end-{n}", "End", "panel", PLY, box("0", "3/4", "0", "12", "0", "16").moved("x", at), "z", "x")
        for n, at in enumerate((L("0 in"), L(clear, "in") + L("3/4 in")))
    ]
    whole = replace(
        box("0", "1", "0", "12", "16", "17"),
        right=L(clear, "in") + L("1 1/2 in"),
        top=L("16 in") + L(thick, "in"),
    )
    top = Part("top", "Top", "board", SLAB, whole, "x", "z")
    return Build("Bench", (*uprights, top), tuple(glue(top, one) for one in uprights))


def test_a_low_top_carries_a_person_and_a_high_one_does_not() -> None:
    # 250 lb in the middle of 40 in, 12 in wide, loblolly pine 1.79 million psi:
    # 3/4 in: 250 × 40³ ÷ (48 × 1.79e6 × 12 × 0.75³ ÷ 12) = 0.441 in, more than 40/144 = 0.278; 1 in: 0.186
    assert {load.what for load in usual_loads(bench("3/4"))} == {"a loaded shelf", "a person"}
    found = [f for f in strength(bench("3/4"), INCHES) if "a person" in f.what]
    assert [f.level for f in found] == ["look at"]
    assert not [f for f in strength(bench("1"), INCHES) if "a person" in f.what]
    assert {load.what for load in usual_loads(shelved("20"))} == {"a loaded shelf"}  # 30 3/4 in high


def test_the_remedy_says_how_a_top_stops_being_a_seat() -> None:
    found = strength(bench("3/4"), INCHES)
    (seat,) = (f for f in found if "a person" in f.what)
    assert 'plan.load(part, "jars", psf=20)' in seat.remedy
    jars = Load("top", "jars", Fraction(20))
    assert not [
        f for f in strength(bench("3/4"), INCHES, (jars,)) if "a person" in f.what or "shelf" in f.what
    ]
    # a load that the author gives herself is not argued with
    (heavy,) = strength(bench("3/4"), INCHES, (Load("top", "anvils", Fraction(400)),))
    assert "plan.load" not in heavy.remedy


def test_what_hangs_on_a_wall_is_no_seat() -> None:
    """The same 17 in of case, its lowest edge 40 in above the floor, which lies at 0."""
    low = bench("3/4")
    hung = replace(low, parts=tuple(replace(p, box=p.box.moved("z", L("40 in"))) for p in low.parts))
    assert {load.what for load in usual_loads(hung)} == {"a loaded shelf"}


def test_the_top_of_one_and_a_half_inches_is_stiff_enough() -> None:
    assert strength(bench("1 1/2"), INCHES) == ()


def test_what_something_stands_on_is_not_taken_for_a_shelf() -> None:
    build = shelved("36")
    box_on_top = Part("box", "Box", "panel", PLY, box("5", "5 3/4", "0", "10", "30 3/4", "40"), "z", "x")
    assert not strength(replace(build, parts=(*build.parts, box_on_top)), INCHES)


def test_a_shelf_on_four_posts_spans_the_long_way() -> None:
    posts = [
        Part(f"post-{n}", "Post", "board", POST, box(x, "1", y, "1", "0", "30"), "z", "y")
        for n, (x, y) in enumerate((x, y) for x in ("0", "40") for y in ("0", "20"))
    ]
    posts = [
        replace(p, box=replace(p.box, right=p.box.left + L("2 in"), back=p.box.front + L("2 in")))
        for p in posts
    ]
    shelf = Part("shelf", "Shelf", "panel", PLY, box("0", "42", "0", "22", "30", "30 3/4"), "x", "z")
    span = span_of(shelf, Build("b", (*posts, shelf)))
    assert span is not None
    assert (span.along, span.clear) == ("x", L("38 in"))
    upright = replace(shelf, through="y")
    assert span_of(upright, Build("b", (*posts, upright))) is None


@given(st.integers(8, 60), st.integers(1, 20))
def test_a_longer_span_never_bends_less(inches: int, more: int) -> None:
    def bent(clear: int) -> Length:
        build = shelved(str(clear))
        span = span_of(build.part("shelf"), build)
        assert span is not None
        return deflection(build.part("shelf"), span, Load("shelf", "books", Fraction(40), Mass.of_pounds(0)))

    assert bent(inches + more).mm > bent(inches).mm


@pytest.mark.parametrize("axis", ["x", "y"])
def test_mirroring_changes_nothing(axis: str) -> None:
    assert strength(mirrored(shelved("36"), axis), INCHES) == strength(shelved("36"), INCHES)


def test_a_tread_carries_somebody_however_much_is_above_it() -> None:
    # 250 lb in the middle of 31 in of 3/4 in plywood bends it too far; a shelf at the same place carries no person
    build = shelved("31")
    above = replace(
        build.part("shelf"), id="above", name="Shelf", box=build.part("shelf").box.moved("z", L("9 in"))
    )
    uprights = tuple(
        replace(part, box=replace(part.box, top=L("39 in"))) for part in build.parts if part.id != "shelf"
    )

    def loads(name: str) -> list[str]:
        middle = replace(build.part("shelf"), name=name)
        inner = replace(middle.box, left=L("3/4 in"), right=L("31 3/4 in"))
        parts = (*uprights, replace(middle, box=inner), above)
        return [load.what for load in usual_loads(replace(build, parts=parts)) if load.part == "shelf"]

    assert loads("Lower tread") == ["a loaded shelf", "a person"]
    assert loads("Shelf") == ["a loaded shelf"]


def on_two_sides(out: str, clear: str = "20") -> Build:
    """A 3/4 in top on two sides 20 in apart, that runs on beyond the right one.

    ```
      ════════════════════════
      ║          ║
    ```
    """
    build = shelved(clear)
    end = build.part("right").box.right + L(out, "in")
    return instead(build, "shelf", box=replace(build.part("shelf").box, right=end))


def places(build: Build, *loads: Load) -> list[str]:
    return [one.place for one in strength(build, INCHES, loads) if one.check == "bends too far"]


def test_a_top_that_runs_on_beyond_its_support_bends_there() -> None:
    # 40 psf on 10 in of 3/4 in plywood, E I = 950,000 × 10 × 0.75³ ÷ 12 = 333,984; w = 40 × 10 ÷ 144 = 2.78 lb/in;
    # a 18.5, L 20: w (a⁴/8 + a³L/6 − aL³/24) = 2.78 × (14,642 + 21,105 − 6,167) = 82,167; ÷ E I = 0.246 in, twice
    # that with creep = 0.49; 2 × 18.5 ÷ 144 = 0.257 is the limit
    books = Load("shelf", "books", Fraction(40))
    (found,) = strength(on_two_sides("18 1/2"), INCHES, (books,))
    assert (found.place, found.number) == ("at its right end", "≈1/2\u00a0in")
    assert "18\u00a01/2\u00a0in beyond its last support" in found.what
    assert places(on_two_sides("6"), books) == places(on_two_sides("0"), books) == []


def test_a_top_that_runs_on_beyond_rails_that_lie_its_own_way() -> None:
    # rails along it, front and back: nothing behind them turns, a cantilever of 18 in; w = 40 × 20 ÷ 144 = 5.56,
    # E I = 950,000 × 20 × 0.75³ ÷ 12 = 667,969: 5.56 × 18⁴ / 8 ÷ 667,969 = 0.109, twice 0.218; 36 ÷ 144 = 0.25
    rails = [
        Part(f"rail-{at}", "Rail", "panel", PLY, box("0", "24", at, str(int(at) + 1), "26", "30"), "x", "y")
        for at in ("0", "19")
    ]
    top = Part("top", "Top", "panel", PLY, box("0", "42", "0", "20", "30", "30 3/4"), "x", "z")
    build = Build("Table", (*rails, top), tuple(glue(top, rail) for rail in rails))
    (out,) = carried(top, build).overhangs
    assert (out.face, out.out, out.back) == ("right", L("18 in"), L("0 in"))
    bent = droop(top, out, Load("top", "books", Fraction(40)))
    assert float(bent.inches) == pytest.approx(0.218, abs=1e-3)
    assert places(build, Load("top", "books", Fraction(40))) == []
    assert places(build, Load("top", "books", Fraction(60))) == ["at its right end"]


def test_somebody_comes_to_the_end_of_an_overhang_and_what_stays_is_not_reckoned_there() -> None:
    # 250 lb, 10 in out, strip 10 in: 250 × (10³/3 + 10² × 20/3) ÷ 333,984 = 0.75 in; 20 ÷ 144 = 0.139 is the limit
    person = Load("shelf", "a person", middle=Mass.of_pounds(250), lasting=False)
    assert "at its right end" in places(on_two_sides("10"), person)
    stays = Load("shelf", "a vice", middle=Mass.of_pounds(30))
    (told,) = strength(on_two_sides("10"), INCHES, (stays,))
    assert (told.level, told.check) == ("for information", "load not reckoned")
    assert strength(on_two_sides("3"), INCHES, (stays,)) == ()


def test_ends_held_from_the_side_are_no_overhang() -> None:
    # between two sides all its depth long, a shelf that also lies on two strips near its front
    build = shelved("20")
    box_of_shelf = replace(build.part("shelf").box, left=L("3/4 in"), right=L("20 3/4 in"))
    low = replace(box_of_shelf, bottom=L("28 in"), top=L("28 3/4 in"))
    strips = [
        Part(f"strip-{n}", "Strip", "panel", PLY, box("0", "20", y, "1", "27", "28"), "x", "y")
        for n, y in enumerate(("0", "2"))
    ]
    strips = [replace(s, box=replace(s.box, left=L("3/4 in"), back=s.box.front + L("3/4 in"))) for s in strips]
    shelf = replace(build.part("shelf"), box=low)
    case = Build("Case", (build.part("left"), build.part("right"), *strips, shelf),
                 (glue(shelf, build.part("left")), glue(shelf, build.part("right"))))  # fmt: skip
    assert carried(shelf, case).overhangs == ()


@pytest.mark.parametrize(
    ("cut", "times"),
    [
        # 3/4 in wide, 5/8 deep at the middle of 30 in: 1/8 left is 1/216 as stiff; even load: M m is greatest there.
        # ∫ over 0.75 in of x²(L−x)/4 ≈ 0.75 × 15² × 15 / 4 = 632.8 of 5 L⁴/384 = 10,547 … × 215 more = 13.9 times
        (Groove("top", box("14 5/8", "15 3/8", "0", "10", "1/8", "3/4"), ""), 13.9),
        # 5 of 10 in wide away over the middle 4 in: 4 × 15² × 15/4 ÷ 10,547 ≈ 0.32 more
        (Notch(box("13", "17", "0", "5", "0", "3/4")), 1.31),
        # the same within 2 in of an end: next to nothing
        (Notch(box("0", "2", "0", "5", "0", "3/4")), 1.00),
    ],
)
def test_a_cut_at_midspan_weakens_a_shelf(cut: Groove | Notch, times: float) -> None:
    span = Span("x", L("30 in"), L("10 in"))
    shelf = Part("shelf", "Shelf", "panel", PLY, box("0", "30", "0", "10", "0", "3/4"), "x", "z")
    assert float(weakened(shelf, span, centred=False)) == 1
    assert float(weakened(shelf.with_features([cut]), span, centred=False)) == pytest.approx(times, rel=0.02)


def test_a_weakened_shelf_is_told_as_one() -> None:
    build = shelved("28")
    assert not strength(build, INCHES)
    dado = Groove("top", box("14", "14 3/4", "0", "10", "1/8", "3/4"), "")
    cut = instead(build, "shelf", features=(dado,))
    (found,) = strength(cut, INCHES)
    assert "weakened by its cuts" in found.what
    assert found.remedy.startswith("Cut less out of it.")


def test_the_author_s_limit_counts_instead_of_the_usual_one() -> None:
    # 28 in at 40 psf: 0.1819 × (28/36)⁴ × 2 = 0.133 in; 28/144 = 0.194, 28/240 = 0.117
    build, books = shelved("28"), Load("shelf", "books", Fraction(40))
    assert strength(build, INCHES, (books,)) == ()
    strict = replace(books, limit=Fraction(1, 240))
    (found,) = strength(build, INCHES, (strict,))
    assert "≈7/64\u00a0in is the limit" in found.what
    (usual,) = strength(build, INCHES, limit=Fraction(1, 240))
    assert usual.source.endswith("span ÷ 240")
    assert strength(build, INCHES, (replace(books, limit=LIMIT),), limit=Fraction(1, 240)) == ()


def test_a_plan_says_how_far_one_part_may_bend() -> None:
    plan = Plan("Shelf")
    shelf = plan.panel("Shelf", PLY, left=0, right="30", front=0, back="10", bottom=0)
    plan.load(shelf, "glasses", psf=20, limit=360)
    plan.load(shelf, "books", psf=40)
    assert [load.limit for load in plan.draft().loads] == [Fraction(1, 360), None]
    with pytest.raises(PlanError, match="limit"):
        plan.load(shelf, "books", psf=40, limit=0)
