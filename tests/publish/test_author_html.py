"""What authors write and print never breaks the page round it: elements, characters, links, pictures."""

from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st

from plankit.publish.characters import printable, printable_data
from plankit.publish.closing import closed
from plankit.publish.document import find_document
from plankit.publish.making import html_exporter, pdf_exporter
from plankit.publish.page import page_of
from plankit.publish.printed import LEFT_OUT, MOST
from plankit.publish.run import run
from tests.publish.cells import code, prose, saved

PLAN = """from plankit import Plan, stock
from IPython.display import HTML, Markdown
plan = Plan("Crate")
plan.about(summary="A crate.", author="R. T.", version="1.0", published="2026-11-20")
ply = stock.sheet("plywood", "3/4")
bottom = plan.panel("Bottom", ply, left=0, right="20", front=0, back="12", bottom=0)
plan.step("Cut", works_on=plan.parts, does="break down sheets", minutes=10)
plan.step("Lay it down", brings=bottom, minutes=1)"""


def ran(tmp_path: Path, *cells: Any, kernel: bool = False) -> Any:
    return run(saved(tmp_path / "crate.ipynb", code(PLAN), *cells, code("plan.complete()")), kernel=kernel)


def shown(tmp_path: Path, *cells: Any, kernel: bool = False) -> BeautifulSoup:
    return BeautifulSoup(html_exporter().page(ran(tmp_path, *cells, kernel=kernel)), "html.parser")


@pytest.mark.parametrize(
    ("written", "made"),
    [
        ("<div><b>x", "<div><b>x</b></div>"),
        ("x</main></body>", "x"),
        ("a <b>c <i>d</b> e</i>", "a <b>c <i>d</i></b> e"),
        ("<br><hr/>R&D &amp; 1 < 2", "<br><hr/>R&D &amp; 1 &lt; 2"),
        ("<div/>x", "<div/>x</div>"),  # the HTML Standard: a slash closes no element but foreign ones
        ('<svg viewBox="0 0 1 1"><path d="M0"/></svg>', '<svg viewBox="0 0 1 1"><path d="M0"/></svg>'),
        ('<div class="x>', '&lt;div class="x>'),  # a tag that never ends
        ("<script>if (1 < 2 && 3) {}</script>", "<script>if (1 < 2 && 3) {}</script>"),
        ("<body><p>x</p></body>", "<p>x</p>"),
        ("<details><summary>S</summary>t</details>", "<details><summary>S</summary>t</details>"),
    ],
)
def test_what_is_opened_is_closed_and_nothing_else(written: str, made: str):
    assert closed(written) == made


@given(
    st.lists(
        st.sampled_from(
            ["<div>", "</div>", "<p>", "<b>", "</b>", "<li>", "</main>", "<br>", "a", "<", "&", '"', ">"]
        )
    )
)
def test_whatever_is_written_the_page_round_it_stays_whole(pieces: list[str]):
    page = BeautifulSoup(
        f"<main>{closed(''.join(pieces))}<i id=after></i></main><footer></footer>", "html.parser"
    )
    assert page.find(id="after").parent.name == "main"
    assert page.find("footer").parent is page


def test_html_left_open_in_prose_and_displays_stays_in_its_place(tmp_path: Path):
    page = shown(tmp_path, prose("<div><em>open\n\nmore</section></main>"), code("HTML('<table><tr><td>1')"))
    assert page.find(id="about").find_parent("main")["id"] == "plan"
    assert page.find(id="about").find_parent("div", class_="prose") is None
    assert not page.find(id="about").find_parents(["em", "table"])


def test_characters_that_no_page_can_hold_are_taken_out(tmp_path: Path):
    notebook = ran(tmp_path, code("print('saw\\x00dust \\x07\\ud800 end')"))
    page = html_exporter().page(notebook)
    assert "<pre>sawdust \ufffd end</pre>" in page
    assert page.encode()
    assert pdf_exporter().pdf(notebook).startswith(b"%PDF")
    assert printable("a\tb\nc\rd é 木 𝄞") == "a\tb\nc\rd é 木 𝄞"
    assert printable_data({"a": ["x\x00", 1, None]}) == {"a": ["x", 1, None]}


@pytest.mark.parametrize("kernel", [False, True], ids=["process", "kernel"])
def test_what_a_cell_prints_without_end_is_cut_short_with_a_sentence(tmp_path: Path, kernel: bool):
    path = saved(
        tmp_path / "loud.ipynb", code(f"for _ in range({MOST}): print('chip')"), code("print('quiet')")
    )
    cells = run(path, kernel=kernel).cells
    text = "".join(output.text for output in cells[0].outputs)
    assert text == ("chip\n" * MOST)[:MOST] + LEFT_OUT
    assert cells[1].outputs[0].text == "quiet\n"


def test_exit_in_a_cell_is_told_in_words(tmp_path: Path):
    with pytest.raises(
        ValueError, match=r"cell \[1\]: this cell ends the notebook with exit\(\) or quit\(\)"
    ):
        run(saved(tmp_path / "bench.ipynb", code("exit()"), code("1")))


@pytest.mark.parametrize("kernel", [False, True], ids=["process", "kernel"])
def test_markdown_that_a_cell_displays_is_prose_like_any_other(tmp_path: Path, kernel: bool):
    (tmp_path / "jig.png").write_bytes(b"ABC")
    display = code("Markdown('# The jig\\n\\n![jig](jig.png) [up](#sides)')")
    notebook = ran(tmp_path, prose("## Sides"), display, kernel=kernel)
    page = BeautifulSoup(html_exporter().page(notebook), "html.parser")
    heading = page.find(id="the-jig")
    assert heading.name in {"h3", "h4"}  # below the section, whatever level it was typed at
    assert page.find("img", alt="jig")["src"] == "data:image/png;base64,QUJD"  # "ABC" in base64
    assert [one.anchor for one in page_of(notebook).headings] == ["sides", "the-jig"]


def findings(notebook: Any) -> list[tuple[str, str]]:
    return [(f["level"], f["what"]) for f in find_document(notebook)["findings"] if f["check"] == "links"]


def test_links_that_lead_nowhere_are_found(tmp_path: Path):
    written = "## Sides first\n\n[x](nope.html) [up](#nope) <a href='#gone'>g</a>"
    found = findings(ran(tmp_path, prose(written), code("Markdown('[y](#nope-too)')")))
    where = "Markdown cell after cell [1]"
    assert found == [
        ("look at", f"The link to “nope.html” in {where} leads nowhere."),
        ("look at", f"The link to “#nope” in {where} leads nowhere."),
        ("look at", f"The link to “#gone” in {where} leads nowhere."),
        ("look at", "The link to “#nope-too” in cell [2] leads nowhere."),
    ]


def test_links_that_lead_somewhere_are_not(tmp_path: Path):
    written = (
        "## Sides first\n\n[a](#sides-first) [b](#parts) [c](#step-1) [d](https://example.org/x)"
        " [e](mailto:a@example.org) [f](plan.pdf) [g](figures/whole.svg)"
        " [h](../other/) [i](#mine) [j](/x) <b id='mine'>k</b> `[l](no.html)`"
    )
    assert findings(ran(tmp_path, prose(written))) == []
