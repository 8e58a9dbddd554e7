"""Values in prose are found and placed in Markdown's tokens: what only looks like one stays as it is."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from plankit.errors import PlanError
from plankit.publish.closing import closed
from plankit.publish.markdown import Prose, expressions, fresh_anchor, render

VALUE = {"status": "ok", "data": {"text/plain": "13 2/3 in"}}


def put(source: str, values: dict[str, object] | None = None, **how: object) -> Prose:
    kept = [{"expression": name, "result": result} for name, result in (values or {}).items()]
    cell = {"source": source, "metadata": {"user_expressions": kept}}
    settings: dict[str, object] = {"top_level": 3, "before": 2, "anchors": set(), **how}
    return render(cell, "Markdown cell after cell [4]", **settings)


def text(kind: str, words: str) -> dict[str, object]:
    return {"status": "ok", "data": {kind: words}}


def test_expressions_are_found_in_order_and_each_once():
    source = "A {eval}`b + 1`, *{eval}`a`*, and\n\n- {eval}`b + 1`\n\n> [{eval}`c`](x)"
    assert expressions(source) == ("b + 1", "a", "c")


@pytest.mark.parametrize(
    "source",
    [
        "`` {eval}`width` ``",
        "```\n{eval}`width`\n```",
        "    {eval}`width`",
        "\\{eval}`width`",
        "<!-- {eval}`width` -->\n",
        "eval`width`",
    ],
)
def test_what_only_looks_like_a_value_is_none(source: str):
    assert expressions(source) == ()
    assert "13 2/3" not in put(source, {"width": VALUE}).html


def test_an_expression_with_backticks_in_longer_ticks_is_whole():
    assert expressions("{eval}``d['`']``") == ("d['`']",)


def test_a_value_stands_where_its_role_stood():
    assert put("Each is {eval}`w` wide.", {"w": VALUE}).html == "<p>Each is 13 2/3 in wide.</p>\n"


def test_a_code_span_beside_a_value_keeps_its_words():
    html = put("{eval}`w`, written `` {eval}`w` ``", {"w": VALUE}).html
    assert html == "<p>13 2/3 in, written <code>{eval}`w`</code></p>\n"


@pytest.mark.parametrize(
    ("result", "shown"),
    [
        (text("text/plain", "'13 in'"), "13 in"),  # a Python string loses the quotes of its repr
        (text("text/plain", '"it\'s"'), "it's"),
        (text("text/plain", "<b>&"), "&lt;b&gt;&amp;"),
        (text("text/html", "<sup>1</sup>/<sub>2</sub>"), "<sup>1</sup>/<sub>2</sub>"),
        (text("text/markdown", "**13** in"), "<strong>13</strong> in"),
        ({"status": "ok", "data": {"text/html": "<i>h</i>", "text/plain": "p"}}, "<i>h</i>"),
        ({"status": "ok", "data": {"image/png": "AAAA"}}, ""),
    ],
)
def test_a_value_is_shown_in_its_richest_form(result: dict[str, object], shown: str):
    assert put("{eval}`w`", {"w": result}).html == f"<p>{shown}</p>\n"


def test_a_value_that_was_not_computed_says_how_to_compute_it():
    with pytest.raises(PlanError, match=r"has not been computed\n.*--execute") as caught:
        put("{eval}`w`")
    assert caught.value.where == "Markdown cell after cell [4]"


def test_a_value_that_failed_names_the_cell_and_the_expression():
    failed = {"status": "error", "ename": "NameError", "evalue": "name 'w' is not defined", "traceback": []}
    with pytest.raises(
        PlanError, match=r"Markdown cell after cell \[4\]: \{eval\}`w` has no value: NameError"
    ):
        put("{eval}`w`", {"w": failed})


def test_headings_follow_the_page_and_skip_no_level():
    prose = put("# One\n\n### Two\n\n##### Three\n\n# Four", before=2)
    assert [(h.level, h.words) for h in prose.headings] == [(3, "One"), (4, "Two"), (5, "Three"), (3, "Four")]
    assert re.findall(r"<(h\d) id=\"([^\"]+)\"", prose.html) == [
        ("h3", "one"),
        ("h4", "two"),
        ("h5", "three"),
        ("h3", "four"),
    ]


def test_two_headings_of_the_same_words_have_two_addresses():
    anchors = {"step-1"}
    prose = put("## Step 1\n\n## Step 1\n\n## —", anchors=anchors)
    assert [h.anchor for h in prose.headings] == ["step-1-2", "step-1-3", "part"]


def test_the_title_of_the_page_is_not_said_twice():
    assert put("# Bench\n\nA bench.\n\n# More", without_title=True, top_level=2, before=1).html == (
        '<p>A bench.</p>\n<h2 id="more">More</h2>\n'
    )


def test_a_paid_link_is_marked_for_machines_and_for_readers():
    prose = put('[clamps](https://example.org/c "paid") and [glue](https://example.org/g "Glue")')
    assert prose.paid
    assert prose.html.count('rel="sponsored nofollow"') == prose.html.count("(paid link)") == 1
    assert 'title="Glue"' in prose.html
    assert not put("[glue](https://example.org/g)").paid


def test_a_pasted_picture_travels_inside_the_page():
    cell = {
        "source": "![jig](attachment:jig.png)",
        "metadata": {},
        "attachments": {"jig.png": {"image/png": "QUJD\n"}},
    }
    html = render(cell, "", top_level=3, before=2, anchors=set()).html
    assert html == '<p><img src="data:image/png;base64,QUJD" alt="jig"></p>\n'.replace('">', '" />')


def test_a_picture_that_is_not_there_is_named():
    with pytest.raises(PlanError, match=r"\[4\]: this picture is not there(.|\n)*photo\.jpg"):
        put("![photo](photo.jpg)")


@given(st.text(alphabet="abc `*_#>-[]()!\n\t\\<&", max_size=80))
def test_prose_without_values_reads_as_commonmark_reads_it(source: str):
    plain = MarkdownIt("commonmark").enable(["table", "strikethrough"])
    tokens = [t for one in plain.parse(source) for t in (one, *(one.children or ()))]
    if not any(token.type in {"heading_open", "image"} for token in tokens):
        expected = plain.render(source)
        if any(token.type.startswith("html") for token in tokens):
            expected = closed(expected)  # an author's own tags are closed where she left them open
        assert put(source).html == expected


@given(st.lists(st.text(max_size=12), max_size=8))
def test_addresses_are_never_given_twice(words: list[str]):
    taken: set[str] = set()
    given_out = [fresh_anchor(one, taken) for one in words]
    assert len(set(given_out)) == len(words)
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", anchor) for anchor in given_out)
