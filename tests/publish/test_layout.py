"""How plans are laid out on paper: what shares a page, and what never collides."""

import itertools
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest

from plankit.publish import pdf as printing
from plankit.publish.document import find_document
from plankit.publish.making import pdf_exporter

PAPERS = ("paper-letter", "paper-a4")
MM = 96 / 25.4  # a CSS pixel is 1/96 in


@pytest.fixture(scope="module")
def laid_out(bench: Any) -> Any:
    """Lay the demo's plan out on a paper and return WeasyPrint's pages."""
    import weasyprint

    @cache
    def lay(paper: str) -> tuple[Any, ...]:
        page = pdf_exporter().page(bench).replace('class="paper-letter"', f'class="{paper}"')
        fetcher = printing._fetcher(printing.Answers(find_document(bench)))
        return tuple(weasyprint.HTML(string=page, url_fetcher=fetcher, base_url="plan:").render().pages)

    return lay


def boxes(page: Any, kind: str) -> Iterator[Any]:
    """Every box of a kind on a laid-out page, those in its margins aside."""
    for box in page._page_box.children[0].descendants():
        if type(box).__name__ == kind:
            yield box


def lines(page: Any) -> list[float]:
    """Where the lines of text on a page end, in millimetres from its top."""
    return sorted({round((box.position_y + box.height) / MM, 1) for box in boxes(page, "LineBox")})


@pytest.mark.parametrize("paper", PAPERS)
def test_the_bench_takes_nineteen_pages_at_most(laid_out: Any, paper: str):
    assert len(laid_out(paper)) <= 19


@pytest.mark.parametrize("paper", PAPERS)
def test_the_last_page_holds_more_than_a_few_lines(laid_out: Any, paper: str):
    assert len(lines(laid_out(paper)[-1])) > 5


@pytest.mark.parametrize("paper", PAPERS)
def test_no_word_and_no_bullet_lies_on_a_drawing(laid_out: Any, paper: str):
    looked_at = 0
    for page in laid_out(paper):
        drawings = [box for kind in ("BlockReplacedBox", "InlineReplacedBox") for box in boxes(page, kind)]
        for words, drawing in itertools.product(boxes(page, "TextBox"), drawings):
            looked_at += 1
            beside = words.position_x >= drawing.position_x + drawing.width - 1
            before = words.position_x + words.width <= drawing.position_x + 1
            above = words.position_y + words.height <= drawing.position_y + 1
            below = words.position_y >= drawing.position_y + drawing.height - 1
            assert beside or before or above or below, words.text
    assert looked_at > 1000


@pytest.mark.parametrize("paper", PAPERS)
def test_drawings_are_printed_at_seven_eighths_and_a_little_and_fit_the_page(
    bench: Any, laid_out: Any, paper: str
):
    known = find_document(bench)["figures"]
    seen = set()
    for page in laid_out(paper):
        for box in [*boxes(page, "BlockReplacedBox"), *boxes(page, "InlineReplacedBox")]:
            name = (box.element.get("src") or "").removeprefix("figure:")
            if name in known:
                seen.add(name)
                assert box.width / MM >= 0.88 * known[name]["width_mm"] - 0.01
                assert box.position_x + box.width <= page.width - 9 * MM
    assert seen == set(known)


@pytest.mark.parametrize("paper", PAPERS)
def test_no_heading_stands_at_the_foot_of_a_page_without_what_it_heads(laid_out: Any, paper: str):
    for page in laid_out(paper):
        everything = [box for kind in ("TextBox", "BlockReplacedBox") for box in boxes(page, kind)]
        foot = max(box.position_y + box.height for box in everything)
        last = {box.element_tag for box in everything if box.position_y + box.height > foot - 1.5 * MM}
        assert last - {"h1", "h2", "h3", "h4", "caption"}


@pytest.mark.parametrize("paper", PAPERS)
def test_no_table_leaves_a_row_or_two_alone(laid_out: Any, paper: str):
    for page in laid_out(paper):
        for group in boxes(page, "TableRowGroupBox"):
            assert group.is_header or len(group.children) >= 3 or len(list(group.element)) < 3


def test_two_steps_share_a_page_where_they_fit(laid_out: Any):
    steps = [[box.element.get("id") for box in boxes(page, "BlockBox") if box.element_tag == "article"]
             for page in laid_out("paper-letter")]  # fmt: skip
    assert sum(len(names) > 1 for names in steps) >= 3


@pytest.mark.parametrize("paper", PAPERS)
def test_part_drawings_share_pages_and_none_is_on_two(laid_out: Any, paper: str):
    """The bench has five: feet in both hands, bottom, top, sides in both hands, cleats."""
    shared = [
        [
            box.element.get("id")
            for box in boxes(page, "InlineBlockBox")
            if "part-figure" in box.element.get("class", "")
        ]
        for page in laid_out(paper)
    ]
    names = [name for page in shared for name in page]
    assert len(names) == len(set(names)) == 5
    assert max(map(len, shared)) >= 2
    assert sum(bool(page) for page in shared) <= 3


def test_the_head_of_a_step_its_cautions_and_its_drawing_stay_on_one_page(laid_out: Any):
    """A step's words may run on; its drawing never parts from its heading, nor a cutting drawing from its own."""
    begun: list[str] = []
    drawn: set[str] = set()
    for page in laid_out("paper-letter"):
        for box in boxes(page, "BlockBox"):
            if box.element.get("class") in {"step-top", "cutting-top"}:
                begun.append(words_of(box))
                drawn |= {one.element.get("src") for one in box.descendants() if one.element_tag == "img"}
    assert len(begun) == len(set(begun))  # none of them is on two pages
    assert {"figure:step-4", "figure:step-9", "figure:cut-1", "figure:cut-4"} <= drawn


def words_of(box: Any) -> str:
    return "".join(one.text for one in box.descendants() if type(one).__name__ == "TextBox")


def test_the_head_of_a_page_names_the_section_its_first_line_is_in(laid_out: Any):
    section, begun = "", 0
    for page in laid_out("paper-letter")[1:]:
        heads = [box for box in boxes(page, "BlockBox") if box.element_tag == "h2"]
        first = min(boxes(page, "TextBox"), key=lambda box: box.position_y)
        if first.element_tag == "h2":
            section, begun = words_of(heads[0]), begun + 1
        margins = {words_of(box) for box in page._page_box.children[1:]}
        assert not section or section in margins
        section = words_of(heads[-1]) if heads else section
    assert begun > 0
