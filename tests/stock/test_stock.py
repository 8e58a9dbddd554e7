"""Stock has the size it really has, weighs what it weighs, and remembers how its sizes came about."""

from fractions import Fraction

import pytest
from hypothesis import given

from plankit import stock
from plankit.errors import PlanError
from plankit.stock import Lumber, Sheet, board_feet, check_measured
from plankit.units import Density, L, Length, Notation
from tests.published import published, within
from tests.strategies import boards, lengths, sheets

F = Fraction


@pytest.mark.parametrize("row", published("board_feet"), ids=lambda row: row["id"])
def test_board_feet_go_by_nominal_size(row: dict[str, str]) -> None:
    # nominal thickness (in) × nominal width (in) × length (ft) ÷ 12; source beside each row
    found = board_feet(row["nominal"], L(row["length"]))
    tolerance = "0" if row["tolerance"] == "exact" else row["tolerance"]
    assert within(found, row["answer"], tolerance)


def test_stock_under_an_inch_counts_as_an_inch() -> None:
    # Engineering Aid Basic ch. 6: 3/4 × 12 in × 1 ft is sold as 1 board foot
    assert board_feet("3/4x12", L("1 ft")) == 1


@pytest.mark.parametrize("row", published("lumber_weights"), ids=lambda row: row["nominal"])
def test_lumber_weighs_what_the_published_table_says_at_35_pcf(row: dict[str, str]) -> None:
    # dressed area (in²) ÷ 144 × 35 lb/ft³, for one foot
    board = stock.lumber(row["nominal"], species="loblolly pine")
    volume = board.thickness.mm * board.width.mm * L("1 ft").mm
    assert within(Density(F(35)).mass_of(volume).lb, row["answer"], row["tolerance"])


@pytest.mark.parametrize("row", published("plywood_weights"), ids=lambda row: row["thickness"])
def test_a_sheet_of_plywood_weighs_three_pounds_a_square_foot_for_an_inch(row: dict[str, str]) -> None:
    # 3 lb/ft² per inch × 32 ft²
    assert within(
        stock.sheet("plywood", row["thickness"]).weight.lb, row["answer"], row["tolerance"].split(" (")[0]
    )


def test_a_two_by_ten_of_loblolly_pine_weighs_what_its_dressed_size_weighs() -> None:
    # 62.4 × 0.51 × 1.12 = 35.64 lb/ft³; 1.5 × 9.25 in × 8 ft = 0.7708 ft³; 27.47 lb (Wood Handbook eq. 4-14)
    board = stock.lumber("2x10", species="loblolly pine")
    assert within(board.weight(L("8 ft")).lb, "27.47", "+/-0.01")


@given(boards(), lengths(), lengths())
def test_two_lengths_weigh_and_cost_board_feet_as_much_as_one_of_both(
    board: Lumber, one: Length, other: Length
) -> None:
    assert (board.weight(one) + board.weight(other)) == board.weight(one + other)
    assert board.board_feet(one) + board.board_feet(other) == board.board_feet(one + other)


@given(boards())
def test_softwood_is_smaller_than_its_nominal_size_and_names_its_sizes(board: Lumber) -> None:
    thickness, width = (F(size) for size in board.nominal.split("x"))
    assert (board.thickness.inches, board.width.inches) < (thickness, width)
    assert board.thickness.why().startswith(f"({board.name} thickness) = ")
    assert board.lengths == tuple(sorted(board.lengths))


@given(sheets())
def test_a_sheet_has_one_name_and_one_key_and_its_thickness_can_be_measured_anew(sheet: Sheet) -> None:
    assert sheet.key == stock.slug(sheet.name)
    assert sheet.name == f"{sheet.nominal} {sheet.kind}"
    label = f"{sheet.name} thickness"
    assert (sheet.thickness * 2).evaluate({label: L("1 in")}) == L("2 in")


def test_names_are_those_of_the_trade() -> None:
    assert stock.sheet("plywood", "3/4").name == "3/4 in plywood"
    assert stock.sheet("Plywood", "3/4 in").name == "3/4 in plywood"
    assert stock.sheet("mdf", "18 mm").name == "18 mm MDF"
    assert stock.lumber("4x4", species="Pine, loblolly").name == "4x4 loblolly pine"
    assert stock.lumber("2 × 10", species="loblolly pine").key == "2x10-loblolly-pine"


def test_inch_sheets_are_four_by_eight_and_metric_ones_2440_by_1220() -> None:
    inch, metric = stock.sheet("plywood", "3/4"), stock.sheet("plywood", "18 mm")
    assert (inch.length, inch.width) == (L("8 ft"), L("4 ft"))
    assert (metric.length, metric.width) == (L("2440 mm"), L("1220 mm"))
    assert metric.thickness == L("18 mm")


def test_sheets_of_unusual_size_have_a_key_of_their_own() -> None:
    usual, square = stock.sheet("plywood", "1/2"), stock.sheet("plywood", "1/2", length="60", width="60")
    assert usual.key != square.key
    assert usual.name == square.name


def test_a_measured_thickness_may_be_text_or_a_parameter_of_the_plan() -> None:
    assert stock.sheet("plywood", "3/4", measured="23/32").thickness == L("23/32 in")
    measured = Length.given("ply", L("23/32 in"), label="measured plywood")
    sheet = stock.sheet("plywood", "3/4", measured=measured)
    assert (sheet.thickness * 2).evaluate({"ply": L("11/16 in")}) == L("1 3/8 in")
    assert sheet.thickness.names == ("ply",)
    assert sheet.measured


@pytest.mark.parametrize(
    ("nominal", "measured", "way"),
    # PS 1: 3/4 may measure 23/32 to 25/32; 1 in may measure 0.95 to 1.05 in
    [
        ("3/4", "23/32", None),
        ("3/4", "25/32", None),
        ("3/4", "0.718", "thinner"),
        ("3/4", "18 mm", "thinner"),  # 0.709 in
        ("3/4", "13/16", "thicker"),
        ("1", "0.96", None),
        ("1", "0.94", "thinner"),
    ],
)
def test_a_sheet_that_measures_outside_its_class_is_something_to_look_at(
    nominal: str, measured: str, way: str | None
) -> None:
    finding = check_measured(stock.sheet("plywood", nominal, measured=measured))
    if way is None:
        assert finding is None
        return
    assert finding is not None
    assert finding.level == "look at"
    assert way in finding.what
    assert "PS 1" in finding.source
    assert finding.remedy


def test_a_finding_gives_the_measure_and_the_limits_in_thousandths() -> None:
    finding = check_measured(stock.sheet("plywood", "3/4", measured="18 mm"))
    assert finding is not None
    # 18 / 25.4 = 0.7087; 23/32 = 0.71875; 25/32 = 0.78125
    assert finding.number == ("0.709 in (18 mm), where 0.719 in (18.3 mm) to 0.781 in (19.8 mm) are allowed")


def test_a_metric_plan_gives_the_measure_in_millimeters_first() -> None:
    finding = check_measured(stock.sheet("plywood", "3/4", measured="18 mm"), Notation("mm"))
    assert finding is not None
    assert finding.number == "18 mm (0.709 in), where 18.3 mm (0.719 in) to 19.8 mm (0.781 in) are allowed"


# 3/4 in less a quarter of it is 9/16 in, and a quarter more 15/16 in; 0.75 × 18 mm is 13 1/2 mm
@pytest.mark.parametrize(
    ("nominal", "at_the_limit", "beyond"),
    [
        ("3/4", "9/16", "17/32"),
        ("3/4", "15/16", 18),
        ("18 mm", "13 1/2", "13"),
        ("18 mm", "23/32 in", "3/4"),
    ],
)
def test_a_sheet_that_measures_far_from_its_name_was_read_in_another_unit(
    nominal: str, at_the_limit: str, beyond: str | int
) -> None:
    assert stock.sheet("plywood", nominal, measured=at_the_limit).measured
    with pytest.raises(PlanError, match="does not measure so far") as caught:
        stock.sheet("plywood", nominal, measured=beyond)
    assert f"measured={beyond!r}, which is read as" in caught.value.given
    assert "Write the unit" in caught.value.remedy


def test_sheets_that_were_not_measured_or_have_no_class_are_left_alone() -> None:
    assert check_measured(stock.sheet("plywood", "3/4")) is None
    assert check_measured(stock.sheet("MDF", "3/4", measured="0.7")) is None
    assert check_measured(stock.sheet("plywood", "18 mm", measured="17 mm")) is None


def test_lumber_may_be_measured_and_have_its_own_lengths() -> None:
    board = stock.lumber("2x10", species="Douglas-fir", measured=("1 7/16", "9 1/8"), lengths=("16 ft", "96"))
    assert (board.thickness, board.width) == (L("1 7/16 in"), L("9 1/8 in"))
    assert board.lengths == (L("8 ft"), L("16 ft"))


def test_hardwood_in_quarters_has_its_surfaced_thickness_and_the_width_it_is_written_with() -> None:
    # hardwood S2S: 8/4 surfaces to 1 3/4 in (Wood Handbook ch. 6)
    board = stock.lumber("8/4 x 7", species="walnut")
    assert (board.thickness, board.width, board.name) == (L("1 3/4 in"), L("7 in"), "8/4x7 walnut")
    assert board.board_feet(L("9 ft")) == F(21, 2)


def test_every_sheet_and_board_says_where_its_numbers_come_from() -> None:
    for kind in ("plywood", "hardwood plywood", "MDF", "particleboard", "hardboard"):
        sheet = stock.sheet(kind, "1/4")
        assert "weight: " in sheet.source
        assert "memory" in sheet.status or "read" in sheet.status
    board = stock.lumber("4x4", species="loblolly pine")
    assert "PS 20" in board.source
    assert "Wood Handbook" in board.source


@pytest.mark.parametrize(
    ("make", "where", "given", "remedy"),
    [
        (lambda: stock.sheet("plywod", "3/4"), "", "'plywod'", "plywood"),
        (lambda: stock.sheet("plywood", "9/16"), "9/16 in plywood", "9/16 in", "19/32"),
        (lambda: stock.sheet("plywood", "thick"), "plywood", "'thick'", "Write it like"),
        (lambda: stock.sheet("plywood", "0"), "plywood", "0 in", "as it measures"),
        (lambda: stock.sheet("plywood", "3/4", measured="-1"), "3/4 in plywood", "−1 in", "as it measures"),
        (
            lambda: stock.sheet("plywood", "3/4", measured=0.7),
            "3/4 in plywood",
            "0.7",
            'Put it in quotes: "0.7"',
        ),
        (lambda: stock.sheet("plywood", "3/4", width="wide"), "3/4 in plywood", "'wide'", "Write it like"),
        (lambda: stock.lumber("2x9", species="loblolly pine"), "", "'2x9'", "2x8"),
        (lambda: stock.lumber("2x10", species="lobloly"), "", "'lobloly'", "loblolly pine"),
        (lambda: stock.lumber("2x10", species="teak"), "", "'teak'", "red oak"),
        (
            lambda: stock.lumber("2x10", species="Douglas-fir", measured="1 1/2"),
            "2x10 Douglas-fir",
            "'1 1/2'",
            "width",
        ),
        (
            lambda: stock.lumber("2x4", species="Douglas-fir", lengths=("long",)),
            "2x4 Douglas-fir",
            "'long'",
            "Write",
        ),
        (lambda: board_feet("plank", L("8 ft")), "", "'plank'", "2x10"),
    ],
)
def test_stock_that_is_not_sold_is_refused_with_what_is(
    make: object, where: str, given: str, remedy: str
) -> None:
    with pytest.raises(PlanError) as refused:
        make()  # type: ignore[operator]
    assert (refused.value.where, refused.value.given) == (where, given)
    assert remedy in refused.value.remedy
