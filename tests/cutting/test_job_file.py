import json
from fractions import Fraction

import pytest

from plankit.cutting import cut, read_job, result_object
from plankit.errors import AskedWrongly, PlanError
from plankit.units import MM_IN

JOB = {
    "unit": "in", "kerf": "1/8",
    "stock": [{"name": "sheet", "length": "96", "width": "48", "available": 4, "price": "62.00", "trim": "1/4"}],
    "parts": [{"name": "side", "length": "30", "width": "15 1/4", "quantity": 2, "grain": "length", "from": ["sheet"]}],
    "stages": 3,
}  # fmt: skip


def changed(path: str, value: object) -> str:
    job = json.loads(json.dumps(JOB))
    *way, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    place = job
    for step in way:
        place = place[step]
    if value is ...:
        del place[last]
    else:
        place[last] = value
    return json.dumps(job)


def test_a_job_is_read_exactly() -> None:
    job = read_job(json.dumps(JOB))
    assert job.kerf == Fraction(254, 80)  # 1/8 in of 25.4 mm
    assert job.stock[0].clear_width == Fraction(475, 10) * Fraction(254, 10)  # 48 - 2 × 1/4 = 47 1/2 in
    assert job.pieces[0].width == Fraction(61, 4) * Fraction(254, 10)
    assert not job.pieces[0].turns
    assert job.stages == 3


def test_trim_may_be_given_apart_for_ends_and_edges() -> None:
    kind = read_job(changed("stock.0.trim", {"ends": "1", "edges": "1/4"})).stock[0]
    assert (kind.clear_length, kind.clear_width) == (
        94 * Fraction(254, 10),
        Fraction(475, 10) * Fraction(254, 10),
    )
    only_ends = read_job(changed("stock.0.trim", {"ends": "1"})).stock[0]
    assert only_ends.clear_width == only_ends.width


def test_lengths_in_another_unit_than_the_jobs_are_converted() -> None:
    assert read_job(changed("parts.0.length", "590 mm")).pieces[0].length == 590


@pytest.mark.parametrize(
    ("path", "value", "field"),
    [
        ("unit", "cm", "unit"), ("kerf", "-1/8", "kerf"), ("kerf", 0.125, "kerf"), ("kerf", True, "kerf"),
        ("kerf", "1,5", "kerf"), ("stock", [], "stock"), ("stock", {}, "stock"), ("stock.0", "sheet", "stock[0]"),
        ("stock.0.name", "", "stock[0].name"), ("stock.0.length", ..., "stock[0]"),
        ("stock.0.length", "0", "stock[0].length"), ("stock.0.available", -1, "stock[0].available"),
        ("stock.0.available", "4", "stock[0].available"), ("stock.0.price", "cheap", "stock[0].price"),
        ("stock.0.price", "1e999999999", "stock[0].price"), ("stock.0.price", "-1", "stock[0].price"),
        ("stock.0.trim", "24", "stock[0].trim"), ("stock.0.trim", {"sides": "1"}, "stock[0].trim.sides"),
        ("parts", ..., "job"), ("parts.0.quantity", 1.5, "parts[0].quantity"),
        ("parts.0.quantity", True, "parts[0].quantity"), ("parts.0.length", "long", "parts[0].length"),
        ("parts.0.length", "12 34", "parts[0].length"), ("parts.0.grain", "across", "parts[0].grain"),
        ("parts.0.from", ["shelf"], "parts[0].from"), ("parts.0.from", [], "parts[0].from"),
        ("parts.0.quanity", 2, "parts[0].quanity"), ("stages", 0, "stages"), ("stages", "3", "stages"),
        ("parts.0.quantity", 10**12, "parts"),
    ],
)  # fmt: skip
def test_a_malformed_field_is_named_with_its_value_and_what_was_expected(
    path: str, value: object, field: str
) -> None:
    with pytest.raises(AskedWrongly) as told:
        read_job(changed(path, value))
    assert told.value.where == field
    assert told.value.given or value is ...
    assert told.value.remedy


@pytest.mark.parametrize(
    "text", ["", "[]", "{", "{'unit': 'in'}", '{"unit": "in", "unit": "in"}', "[" * 100_000]
)
def test_what_is_no_job_at_all_is_refused(text: str) -> None:
    with pytest.raises(AskedWrongly):
        read_job(text)


def test_two_parts_of_one_name_must_be_the_same() -> None:
    again = {"name": "side", "length": "30", "width": "15 1/4", "quantity": 1, "from": ["sheet"]}
    job = json.loads(changed("unit", "in"))
    job["parts"].append(again)
    assert len(cut(read_job(json.dumps(job))).layouts[0].pieces) == 3  # 2 + 1
    job["parts"][1]["length"] = "31"
    with pytest.raises(AskedWrongly, match="share one name"):
        read_job(json.dumps(job))


def test_two_kinds_of_stock_of_one_name_are_refused() -> None:
    job = json.loads(changed("unit", "in"))
    job["stock"].append({"name": "sheet", "length": "60", "width": "30"})
    with pytest.raises(AskedWrongly, match="share one name"):
        read_job(json.dumps(job))


def test_a_part_that_fits_no_stock_is_named_with_how_much_it_is_over() -> None:
    with pytest.raises(PlanError) as told:  # 96 - 2 × 1/4 = 95 1/2; 100 - 95 1/2 = 4 1/2
        cut(read_job(changed("parts.0.length", "100")))
    assert str(told.value).startswith("side: 100 × 15 1/4 in fits no stock: the nearest is sheet, ")
    assert "4 1/2 in too long" in str(told.value)
    assert str(told.value).count("side") == 2  # once its name, once "inside its trim"


def test_what_a_job_lacks_is_said_at_once_with_all_it_needs() -> None:
    with pytest.raises(AskedWrongly) as told:
        read_job("{}")
    assert str(told.value).splitlines() == [
        "job: the fields stock and parts are missing.",
        "It needs stock and parts; it may also have kerf, lifting_limit, saws, stages, unit.",
    ]
    with pytest.raises(AskedWrongly) as told:
        read_job(changed("stock", ...))
    assert str(told.value).startswith("job: the field stock is missing.\n")


def test_a_field_nearly_right_is_answered_with_the_one_it_may_mean() -> None:
    with pytest.raises(AskedWrongly, match=r"Did you mean quantity\?"):
        read_job(changed("parts.0.quanity", 2))
    with pytest.raises(PlanError, match="there is no board"):
        cut(read_job(changed("parts.0", {"name": "rail", "length": "30"})))


def test_the_result_reads_as_the_job_file_says() -> None:
    found = result_object(cut(read_job(json.dumps(JOB))))
    assert list(found) == [
        "unit",
        "complete",
        "proven",
        "totals",
        "cost",
        "least_count",
        "least_cost",
        "layouts",
        "settings",
        "sequence",
    ]
    assert (found["cost"], found["least_cost"], found["least_count"]) == ("62.00", "62.00", 1)
    layout = found["layouts"][0]
    assert list(layout) == ["stock", "copies", "pieces", "offcuts", "cuts"]
    assert layout["pieces"][0] == {
        "part": "side", "x": "1/4", "y": "1/4", "length": "30", "width": "15 1/4", "turned": False,
    }  # fmt: skip
    first = ["order", "kind", "tool", "from", "setting", "of", "gives", "frees"]
    assert list(layout["cuts"][0]) == [*first, "group", "people", "support", "rail_on"]
    assert found["sequence"][0] == {"layout": 1, "cut": 1}


def test_a_job_may_name_its_saws_weights_and_what_one_person_lifts() -> None:
    job = json.loads(changed("kerf", "1/8"))
    job["stock"][0] |= {"thickness": "3/4", "weight": "62 lb"}
    job |= {
        "lifting_limit": "40 lb",
        "saws": [
            {"name": "Miter saw", "led": "stop", "widest_crosscut": "32", "shortest_piece": "8"},
            {"name": "Guided circular saw", "led": "guide", "kerf": "3/32", "longest_cut": "100"},
        ],
    }
    read = read_job(json.dumps(job))
    assert [(saw.name, saw.way, saw.kerf / MM_IN["in"]) for saw in read.saws] == [
        ("Miter saw", "stop", Fraction(1, 8)),
        ("Guided circular saw", "guide", Fraction(3, 32)),
    ]
    cuts = result_object(cut(read))["layouts"][0]["cuts"]
    # the whole sheet is 62 lb, above the limit of 40 lb, so it is cut where it lies; a strip for the sides, 30 or
    # 15 1/4 in wide, is light enough to be carried to the stop
    assert (cuts[0]["tool"], cuts[0]["weight"], cuts[0]["support"]) == ("Guided circular saw", "62.00 lb", "bearers")
    assert "Miter saw" in {made["tool"] for made in cuts}
    for path, value, said in (
        ("saws", [{"name": "x", "led": "rail"}], "guide"),
        ("lifting_limit", "heavy", "40 lb"),
        ("saws", [{"name": "x", "led": "hand", "kerf": "1/4"}], "wider kerf"),
        ("saws", [{"name": "x", "led": []}], "guide"),
        ("saws", [{"name": "x", "led": "stop", "widest_rip": "12"}], "no such field"),
        ("saws", [{"name": "x", "led": "hand"}, {"name": "x", "led": "guide"}], "share one name"),
    ):
        with pytest.raises(AskedWrongly, match=said):
            read_job(json.dumps({**job, path: value}))


def test_lengths_without_a_finite_form_stay_exact() -> None:
    job = read_job(changed("parts.0.length", "10/3"))
    placed = result_object(cut(job))["layouts"][0]["pieces"][0]
    assert placed["length"] == "3 1/3"
    metric = json.loads(changed("parts.0.length", "387.35"))
    metric |= {"unit": "mm", "stock": [{"name": "sheet", "length": "2440", "width": "1220"}]}
    assert result_object(cut(read_job(json.dumps(metric))))["layouts"][0]["pieces"][0]["length"] == "387.35"


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("stock.0.length", "9" * 400, "a kilometre at the most"),
        ("stock.0.length", "1001 m", "a kilometre at the most"),
        ("stock.0.name", "sheet \ud800", "half letters"),
        ("stock.0.price", "٦٢", "a price of 0 or more"),  # 62 in Arabic-Indic digits
    ],
)
def test_what_cannot_be_meant_is_refused_in_words_that_can_be_printed(path: str, value: str, said: str) -> None:
    job = json.loads(changed(path, value))
    job["parts"][0].pop("from")
    with pytest.raises(AskedWrongly, match=said) as told:
        read_job(json.dumps(job))
    assert str(told.value).encode()  # no half letter is left in it


def test_a_strip_far_longer_than_wide_is_cut_all_the_same() -> None:
    strip = {"name": "strip", "length": "1000 m", "width": "10 mm"}  # 100 000 times as long as wide
    job = {"stock": [strip], "parts": [{"name": "lath", "length": "94 mm", "width": "10 mm", "quantity": 3}]}
    assert cut(read_job(json.dumps(job))).complete
