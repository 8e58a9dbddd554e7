"""What a page says and in which order; what stops a page from being made."""

import copy
import itertools
import json
import re
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

import plankit.plan
from plankit.errors import PlanError
from plankit.plan import displays
from plankit.plan.media import FRAGMENT_TYPE, PLAN_TYPE
from plankit.publish import figures
from plankit.publish.document import Document, find_document, refuse_unfinished
from plankit.publish.findings import told
from plankit.publish.making import around_alone, html_exporter, slug_of
from plankit.publish.outputs import as_html
from plankit.publish.page import page_of
from plankit.publish.structured import as_script, how_to, iso_duration
from tests.publish.cells import code, notebook, prose


def book_of(document: Document, *cells: Any) -> Any:
    """A notebook that has run and shows this plan."""
    last = code("plan.complete()")
    last["execution_count"] = 1
    last["outputs"] = [{"output_type": "display_data", "data": {PLAN_TYPE: document}, "metadata": {}}]
    return notebook(*cells, last)


@pytest.fixture
def changed(document: Document) -> dict[str, Any]:
    return copy.deepcopy(dict(document))


@pytest.fixture(scope="session")
def soup(page: str) -> BeautifulSoup:
    return BeautifulSoup(page, "html.parser")


def test_the_sample_is_a_plan_as_the_schema_has_it(document: Document):
    jsonschema = pytest.importorskip("jsonschema")
    schema = json.loads((Path(plankit.plan.__file__).parent / "schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(schema).validate(document)


def test_media_types_are_those_the_plan_room_writes():
    assert (PLAN_TYPE, FRAGMENT_TYPE) == (displays.PLAN_TYPE, displays.FRAGMENT_TYPE)


def test_sections_come_in_the_order_a_builder_needs_them(soup: BeautifulSoup):
    order = [tag["id"] for tag in soup.find_all("section")]
    assert order == [
        "glance", "cautions", "tools", "shopping", "parts", "hardware", "views", "cutting", "drawings",
        "build", "finish", "findings", "corrections", "about",
    ]  # fmt: skip


def test_every_section_is_linked_from_the_contents(soup: BeautifulSoup):
    links = [a["href"] for a in soup.find("nav", class_="contents").find_all("a")]
    assert links == [f"#{tag['id']}" for tag in soup.find_all("section")]


def test_the_disclosure_comes_before_the_first_paid_link(page: str):
    assert 0 < page.index("Who pays for what") < page.index('rel="sponsored nofollow"')


def test_headings_descend_without_a_gap(soup: BeautifulSoup):
    levels = [int(tag.name[1]) for tag in soup.find_all(re.compile(r"^h[1-6]$"))]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(later - earlier <= 1 for earlier, later in itertools.pairwise(levels))


def test_no_address_on_the_page_is_given_twice(soup: BeautifulSoup):
    ids = [tag["id"] for tag in soup.find_all(id=True)]
    assert len(ids) == len(set(ids))


def test_every_local_link_and_label_points_at_something(soup: BeautifulSoup):
    ids = {tag["id"] for tag in soup.find_all(id=True)}
    links = {a["href"][1:] for a in soup.find_all("a", href=re.compile("^#"))}
    labels = {
        name
        for tag in soup.find_all(attrs={"aria-labelledby": True})
        for name in tag["aria-labelledby"].split()
    }
    assert links <= ids
    assert labels <= ids


def test_the_page_stands_alone(page: str):
    assert not re.search(r'<(?:script|img|link|iframe)[^>]+(?:src|href)="(?!data:)', page)
    assert "url(http" not in page
    assert "@import" not in page


def test_code_stays_off_the_page_and_its_outputs_come_on(page: str):
    assert "json.loads" not in page
    assert "3 shelves take 18 screws" in page  # 3 shelves, 6 screws each
    assert "<strong>12</strong> pairs" in page  # 3 shelves, 4 pairs each


def test_steps_stand_where_their_cells_stand(page: str):
    places = [
        page.index(words) for words in ('id="step-1"', "Then the shelves", 'id="step-2"', 'id="step-3"')
    ]
    assert places == sorted(places)


def test_cautions_of_a_step_come_before_its_drawing(soup: BeautifulSoup):
    step = str(soup.find(id="step-1"))
    assert step.index("Clamp the sheet") < step.index("<figure")


def test_tables_have_captions_and_headers_with_scope(soup: BeautifulSoup):
    for table in soup.find_all("table", class_="reflow"):
        assert table.caption.text.strip()
        assert all(th.get("scope") in {"row", "col"} for th in table.find_all("th"))
        assert {th["scope"] for th in table.find_all("th")} == {"row", "col"}


def test_a_notice_bears_no_alert_symbol(soup: BeautifulSoup):
    # ANSI Z535.4: the safety alert symbol is not used with NOTICE (from memory)
    assert soup.select_one(".signal-warning .alert")
    assert soup.select_one(".signal-caution .alert")
    assert not soup.select_one(".signal-notice .alert")


def test_a_step_the_notebook_does_not_show_is_put_at_the_end(document: Document):
    page = page_of(book_of(document))
    assert [block.step["number"] for block in page.blocks] == [1, 2, 3]


def test_a_step_shown_twice_stands_once(document: Document):
    twice = code("step")
    shown = {
        "output_type": "display_data",
        "data": {FRAGMENT_TYPE: {"plankit": "step", "number": 2}},
        "metadata": {},
    }
    twice["outputs"] = [shown, shown]
    page = page_of(book_of(document, twice))
    assert [block.step["number"] for block in page.blocks] == [1, 2, 3]  # step 1 is shown nowhere else


def test_a_view_shown_in_the_notebook_stands_there_with_names_of_its_own(document: Document):
    cell = code("view")
    svg = '<svg aria-labelledby="t"><title id="t">So far</title></svg>'
    view = {FRAGMENT_TYPE: {"plankit": "view", "side": "front"}, "text/html": svg}
    cell["outputs"] = [{"output_type": "display_data", "data": view, "metadata": {}}] * 2
    page = page_of(book_of(document, cell))
    assert 'id="fig-view-1-t"' in page.blocks[0].html
    assert 'id="fig-view-2-t"' in page.blocks[1].html


def test_a_view_shown_in_the_notebook_is_printed_as_small_as_the_others_and_says_so(document: Document):
    # 100 mm at 0.88 of its size are 88 mm, and 1:10 is then 1:11.4 (10 / 0.88 = 11.36)
    cell = code("view")
    svg = '<svg xmlns="s" width="100mm" height="40mm" viewBox="0 0 100 40"><text>Scale 1:10</text></svg>'
    view = {FRAGMENT_TYPE: {"plankit": "view", "side": "wall"}, "text/html": svg}
    cell["outputs"] = [{"output_type": "display_data", "data": view, "metadata": {}}]
    book = book_of(document, cell)
    on_screen, on_paper = (page_of(book, medium).blocks[0].html for medium in ("screen", "print"))
    assert "Scale 1:10<" in on_screen
    assert "Scale 1:11.4<" in on_paper
    assert "--drawn: 100mm; --printed: 88mm" in on_paper


def test_views_with_sizes_are_those_no_step_part_or_sheet_shows(document: Document):
    assert page_of(book_of(document)).views == ("front",)


def test_words_are_escaped_wherever_they_stand(changed: dict[str, Any]):
    nasty = '</script><script>alert("x")</script>'
    changed["title"] = changed["summary"] = changed["steps"][0]["note"] = changed["parts"][0]["name"] = nasty
    page = html_exporter().page(book_of(changed))
    assert "<script>alert" not in page
    assert page.count("<script") == 1


def test_a_finding_that_must_be_fixed_stops_the_page(changed: dict[str, Any]):
    changed["findings"][0] |= {"level": "must fix", "accepted": "", "remedy": "Use 3/4 in plywood."}
    with pytest.raises(PlanError) as caught:
        html_exporter().page(book_of(changed))
    assert "1 finding must be fixed before this plan is made" in str(caught.value)
    assert "shelf sag" in str(caught.value)
    assert "Use 3/4 in plywood." in str(caught.value)


def test_an_accepted_finding_stops_nothing(changed: dict[str, Any]):
    changed["findings"][0] |= {"level": "must fix", "accepted": "Shoes weigh less."}
    refuse_unfinished(changed)


def test_a_paid_link_without_a_disclosure_stops_the_page(changed: dict[str, Any]):
    changed["disclosure"] = ""
    with pytest.raises(PlanError, match="paid link"):
        page_of(book_of(changed, code("1"), prose('[glue](https://example.org "paid")')))


def test_a_notebook_without_a_plan_says_how_to_end_it():
    cell = code("1")
    cell["execution_count"] = 1
    with pytest.raises(PlanError, match=r"is not a plan.*\n.*plan\.complete\(\)"):
        find_document(notebook(prose("# Notes"), cell))


def test_a_plan_of_another_form_is_refused(changed: dict[str, Any]):
    changed["format"] = "plankit-plan-9"
    with pytest.raises(PlanError, match="plankit-plan-9"):
        find_document(book_of(changed))


def test_a_notebook_saved_with_an_error_is_refused(document: Document):
    cell = code("1 / 0")
    cell["outputs"] = [
        {"output_type": "error", "ename": "ZeroDivisionError", "evalue": "division", "traceback": []}
    ]
    with pytest.raises(PlanError, match=r"cell \[1\]: this cell has raised ZeroDivisionError"):
        find_document(book_of(document, cell))


@pytest.mark.parametrize("slug", ["", "../up", "Boot bench", "a/b", "-a", "a--b", ".hidden", "é"])
def test_an_address_that_is_no_address_is_refused(slug: str):
    with pytest.raises(PlanError, match="address"):
        slug_of({"slug": slug, "title": "Bench"})


def test_structured_data_says_what_schema_org_knows_of_a_how_to(document: Document):
    # schema.org/HowTo: step (not "steps"), tool is used, supply is consumed, times are ISO 8601 durations
    data = how_to(document)
    assert data["@type"] == "HowTo"
    assert data["totalTime"] == "PT2H30M"
    assert [one["name"] for one in data["tool"]] == ["Circular saw", "Drill"]
    assert data["supply"][1] == {
        "@type": "HowToSupply", "name": "#8 × 2 in wood screws", "requiredQuantity": "1 box of 50",
    }  # fmt: skip
    assert [one["position"] for one in data["step"]] == [1, 2, 3]


def test_structured_data_on_the_page_is_json_again(soup: BeautifulSoup, document: Document):
    script = soup.find("script", type="application/ld+json")
    assert json.loads(script.string) == how_to(document)


def test_structured_data_cannot_end_its_script():
    assert "</" not in as_script({"name": "</script>"})


@pytest.mark.parametrize(
    ("minutes", "duration"),
    [(405, "PT6H45M"), (150, "PT2H30M"), (45, "PT45M"), (180, "PT3H"), (0, "")],  # 6 × 60 + 45 = 405
)
def test_times_are_told_as_iso_8601_tells_them(minutes: int, duration: str):
    assert iso_duration(minutes) == duration


def test_the_total_time_is_the_plans_minutes_whatever_the_glance_says(changed: dict[str, Any]):
    changed["minutes"] = 405
    changed["glance"] = [{"label": "Working time", "value": "6 h 45 min; drying comes on top"}]
    assert how_to(changed)["totalTime"] == "PT6H45M"


def test_the_finish_tells_its_product_and_dangers_before_its_work(soup: BeautifulSoup):
    finish = soup.find(id="finish").text
    told = ["Water-based clear finish", "Wet finish irritates", "The caution about dust", "Sand to 150 grit"]
    places = [finish.index(words) for words in told]
    assert places == sorted(places)


def test_cautions_told_before_are_called_to_mind_after_those_of_the_step(soup: BeautifulSoup):
    step = soup.find(id="step-2").text
    assert step.index("Drill pilot holes") < step.index("The caution of step 1") < step.index("Glue first")


def test_the_hardware_table_is_followed_by_what_its_heads_are(soup: BeautifulSoup):
    assert "The screws have flat heads." in soup.find(id="hardware").find("table").find_next("p").text


def test_every_drawing_has_a_frame_the_keyboard_can_reach(soup: BeautifulSoup):
    frames = soup.select(".figure-drawing")
    assert len(frames) == len(soup.select("figure.figure")) > 0
    assert all(frame["tabindex"] == "0" and frame["aria-label"] for frame in frames)


def test_the_front_says_where_the_cautions_of_tools_stand(soup: BeautifulSoup):
    assert "caution for each tool stands at the step" in soup.find(id="cautions").find("p").text


def test_hardware_is_called_by_no_name_that_sandpaper_would_not_bear(soup: BeautifulSoup):
    assert "crew" not in soup.find(id="hardware").find("caption").text


def test_each_drawing_leads_to_its_own_file_where_there_is_one(ran: Any, page: str, document: Document):
    assert "Open the drawing by itself" not in page  # a page that stands alone has no files beside it
    beside = html_exporter().page(ran, around_alone(("html",)))
    links = {a["href"] for a in BeautifulSoup(beside, "html.parser").select(".alone a")}
    assert links == {f"figures/{name}" for name in figures.files(document)}


def finding(part: str, number: str, **others: str) -> dict[str, str]:
    words = {
        "what": f"A screw is near an edge of {part}.",
        "remedy": f"{part} wants lead holes.",
        "place": "",
    }
    known = {"level": "look at", "check": "near an edge", "source": "arithmetic", "accepted": ""}
    return {**known, **words, "part": part, "number": number, **others}


def test_findings_that_are_alike_are_told_once_with_all_their_parts():
    one, *others = told([finding("Side", "3/8 in"), finding("Back", "1/2 in"), finding("Cleat", "3/8 in")])
    assert not others
    assert one.parts == "Side, Back, Cleat"
    assert one.what == "A screw is near an edge of Side, Back or Cleat."
    assert one.here == "3/8 in (Side, Cleat); 1/2 in (Back)"
    assert one.remedy == "Side, Back or Cleat wants lead holes."


def test_findings_that_differ_in_more_than_their_part_stay_apart():
    graver = finding("Back", "1/4 in", level="must fix", accepted="It carries nothing.")
    longer = finding("Cleat", "1/4 in", what="A nail is near an edge of Cleat.")
    entries = told([finding("Side", "3/8 in"), graver, longer, finding("Sideboard", "3/8 in")])
    assert [one.parts for one in entries] == ["Side, Sideboard", "Back", "Cleat"]
    assert entries[1].here == "1/4 in"


def test_a_finding_tells_its_value_and_its_level(soup: BeautifulSoup, document: Document):
    entry = soup.find(id="findings").find("li").text
    assert document["findings"][0]["level"] in entry
    assert f"Here: {document['findings'][0]['number']}" in entry.replace("\N{NO-BREAK SPACE}", " ")


def test_a_drawing_says_the_scale_it_is_printed_at():
    # 1:3 printed at 0.88 of its size is 1:3.4 (3 / 0.88 = 3.409); 1:11 is 1:12.5
    for drawn, printed in (("Scale 1:3.", b"Scale 1:3.4."), ("Scale 1:11", b"Scale 1:12.5"), ("1:3", b"1:3")):
        assert figures.print_svg({"svg": drawn}) == printed


def test_words_of_eight_points_are_printed_with_seven_at_least():
    assert figures.printed_width({"svg": "", "width_mm": 100.0}) / 100 * 8 >= 7  # 0.88 × 8 pt = 7.04 pt
    assert figures.printed_width({"svg": "Full size (1:1) if printed at 100 %", "width_mm": 100.0}) == 100


def test_two_figures_on_a_page_never_share_a_name():
    svg = (
        '<svg xmlns="s" aria-labelledby="t d"><title id="t">T</title><desc id="d">D</desc>'
        '<use href="#p"/><g fill="url(#p)"/></svg>'
    )
    one = figures.inline("step-1", {"svg": f'<?xml version="1.0"?>\n{svg}'})
    assert one == (
        '<svg xmlns="s" aria-labelledby="fig-step-1-t fig-step-1-d"><title id="fig-step-1-t">T</title>'
        '<desc id="fig-step-1-d">D</desc><use href="#fig-step-1-p"/><g fill="url(#fig-step-1-p)"/></svg>'
    )


@pytest.mark.parametrize(
    ("output", "shown"),
    [
        ({"output_type": "stream", "name": "stdout", "text": "\x1b[31mred\x1b[0m <b>\n"}, "red &lt;b&gt;"),
        ({"output_type": "stream", "name": "stderr", "text": "warning"}, None),
        (
            {"output_type": "display_data", "data": {"text/plain": "<Box object at 0x7f00aa>"}},
            "&lt;Box object&gt;",
        ),
        ({"output_type": "display_data", "data": {"image/png": "QUJD\n", "text/plain": "x"}}, "base64,QUJD"),
        (
            {"output_type": "display_data", "data": {"image/svg+xml": "<svg/>"}},
            "image/svg+xml;base64,PHN2Zy8+",
        ),
        ({"output_type": "execute_result", "data": {"text/html": "<table></table>"}}, "<table></table>"),
        ({"output_type": "execute_result", "data": {"application/javascript": "alert(1)"}}, None),
        ({"output_type": "display_data", "data": {PLAN_TYPE: {}, "text/html": "x"}}, None),
    ],
)
def test_outputs_come_on_the_page_in_a_form_that_stays_the_same(output: dict[str, Any], shown: str | None):
    html = as_html(output, alternative="Chart")
    assert (shown in html) if shown else html == ""


def test_a_picture_says_what_its_author_says_of_it():
    data = {
        "output_type": "display_data",
        "data": {"image/png": "QUJD"},
        "metadata": {"image/png": {"alt": 'A "jig"'}},
    }
    assert 'alt="A &quot;jig&quot;"' in as_html(data, alternative="Chart")


def test_strokes_joined_for_print_are_the_same_strokes():
    group = '<g fill="none" stroke="#000">\n<path d="M0 0L1 1"/>\n<path d="M2 2L3 3"/>\n</g>\n'
    filled = '<g fill="#fff">\n<path d="M0 0L1 1Z"/>\n<path d="M2 2L3 3Z"/>\n</g>'
    joined = '<path fill="none" stroke="#000" d="M0 0L1 1M2 2L3 3"/>\n'
    assert figures.print_svg({"svg": group + filled}) == (joined + filled).encode()
