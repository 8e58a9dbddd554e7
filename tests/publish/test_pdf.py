"""The PDF, opened again with other libraries: pypdf, pikepdf (qpdf) and Poppler."""

import io
import itertools
import re
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pikepdf
import pypdf
import pytest

from plankit.errors import PlanError
from plankit.publish.making import pdf_exporter
from plankit.publish.pdf import to_pdf

LETTER = (612, 792)  # 8 1/2 × 11 in at 72 points to the inch
A4 = (595.28, 841.89)  # 210 × 297 mm


@pytest.fixture(scope="module")
def opened(pdf: bytes) -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(io.BytesIO(pdf)) as one:
        yield one


@pytest.fixture(scope="module")
def text(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages)


def elements(pdf: pikepdf.Pdf, kind: str) -> list[Any]:
    """Every element of a kind in the tag tree, reached from its root."""
    found, waiting = [], [pdf.Root.StructTreeRoot.K[0]]
    while waiting:
        one = waiting.pop()
        if f"/{kind}" == one.S:
            found.append(one)
        kids = [k for k in one.get("/K", ()) if isinstance(k, pikepdf.Dictionary) and "/S" in k]
        waiting.extend(reversed(kids))
    return found


def test_it_opens_without_a_complaint(pdf: bytes, tmp_path: Path):
    if not shutil.which("qpdf"):
        pytest.skip("qpdf is not installed")
    path = tmp_path / "plan.pdf"
    path.write_bytes(pdf)
    done = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_inches_print_on_letter_and_millimetres_on_a4(ran: Any, document: Any, pdf: bytes):
    first = pypdf.PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    assert (float(first.width), float(first.height)) == pytest.approx(LETTER)
    page = pdf_exporter().page(ran).replace("paper-letter", "paper-a4", 1)
    page = page.replace('class="paper-letter"', 'class="paper-a4"')
    metric = pypdf.PdfReader(io.BytesIO(to_pdf(page, document, {}))).pages[0].mediabox
    assert (float(metric.width), float(metric.height)) == pytest.approx(A4, abs=0.05)


def test_it_says_its_title_and_language_and_that_it_is_tagged(opened: pikepdf.Pdf):
    # ISO 14289-1 (PDF/UA-1), from memory: Marked, Lang, DisplayDocTitle with dc:title, pdfuaid:part 1
    assert opened.Root.MarkInfo.Marked == True  # noqa: E712 - a PDF boolean
    assert str(opened.Root.Lang) == "en-US"
    assert opened.Root.ViewerPreferences.DisplayDocTitle == True  # noqa: E712
    with opened.open_metadata() as meta:
        assert meta["dc:title"].startswith("Shoe rack")
        assert meta["pdfuaid:part"] == "1"


def test_headings_are_tagged_without_a_gap(opened: pikepdf.Pdf):
    waiting, levels = [opened.Root.StructTreeRoot.K[0]], []
    while waiting:
        one = waiting.pop(0)
        if found := re.fullmatch(r"/H(\d)", str(one.S)):
            levels.append(int(found[1]))
        waiting[:0] = [k for k in one.get("/K", ()) if isinstance(k, pikepdf.Dictionary) and "/S" in k]
    assert levels[0] == 1
    assert all(later - earlier <= 1 for earlier, later in itertools.pairwise(levels))


def test_every_figure_says_in_words_what_it_shows(opened: pikepdf.Pdf, document: Any):
    said = [str(figure.Alt) for figure in elements(opened, "Figure")]
    drawings = [words for words in said if words != "Safety alert symbol"]
    assert len(drawings) == 7  # the whole, its front, one sheet, one part, three steps
    assert any("two sides and three shelves seen from the front" in words for words in drawings)


def test_every_header_cell_says_what_it_heads(opened: pikepdf.Pdf):
    scopes = [str(cell.A.Scope) for cell in elements(opened, "TH")]
    assert scopes.count("/Row") == 2 + 3 + 2 + 1 + 1 + 3  # tools, shopping, parts, given, hardware, cuts
    assert scopes.count("/Column") == 3 + 6 + 8 + 2 + 3 + 4 + 2  # the same, and the two of the author's own table


def test_every_link_says_in_words_where_it_goes(opened: pikepdf.Pdf):
    words = {str(note.Contents) for page in opened.pages for note in page.get("/Annots", ())}
    assert {"Tools", "Cutting drawings", "Building it"} <= words


def test_all_content_is_tagged_or_an_artifact(opened: pikepdf.Pdf):
    tagged = set()
    for kind in (
        "Span",
        "Link",
        "Figure",
        "P",
        "Lbl",
        "LBody",
        "TD",
        "TH",
        "NonStruct",
        "Caption",
        "H1",
        "H2",
        "H3",
        "H4",
    ):
        for one in elements(opened, kind):
            tagged |= {(one.Pg.objgen, int(k)) for k in one.get("/K", ()) if isinstance(k, int)}
    for page in opened.pages:
        depth = 0
        for operands, operator in pikepdf.parse_content_stream(page):
            if str(operator) in {"BDC", "BMC"}:
                depth += 1
                if str(operator) == "BDC" and operands[0] != "/Artifact":
                    assert (page.obj.objgen, int(operands[1].MCID)) in tagged
            elif str(operator) == "EMC":
                depth -= 1
            elif str(operator) in {"Tj", "TJ", "Do", "f", "F", "f*", "S", "s", "B", "b", "sh"}:
                assert depth > 0


def test_every_font_is_inside_with_the_letters_it_stands_for(opened: pikepdf.Pdf):
    seen = 0
    for thing in opened.objects:
        if (
            isinstance(thing, pikepdf.Dictionary)
            and thing.get("/Type") == "/Font"
            and thing.Subtype == "/Type0"
        ):
            seen += 1
            assert "/ToUnicode" in thing
            descriptor = thing.DescendantFonts[0].FontDescriptor
            assert {"/FontFile2", "/FontFile3"} & set(descriptor.keys())
            assert "Source" in str(descriptor.FontName)
    assert seen >= 2  # regular and bold


def test_the_text_reads_in_the_order_of_the_page(text: str):
    words = ["Shoe rack", "Outside size", "A rack of three shelves", "Before you start", "Circular saw", "Together",
             "Parts list", "Hardware", "Order of cuts", "Cut and notch the sides", "Screw in the shelves",
             "Brush on a thin coat", "Already begun?", "Licence"]  # fmt: skip
    body = text[text.index("A rack of three shelves") :]
    places = [text.index(one) for one in words[:2]] + [
        len(text) - len(body) + body.index(one) for one in words[2:]
    ]
    assert places == sorted(places)


def test_signs_of_the_trade_survive(text: str):
    for sign in ("30 × 12 × 20 in", "≈28 9/16 in", "#8 × 2 in"):
        assert sign in re.sub(r"\s+", " ", text)


def test_pages_are_numbered_and_bear_the_title(pdf: bytes):
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]
    for number, words in enumerate(pages, 1):
        assert f"{number} of {len(pages)}" in words
    assert all("Shoe rack" in words for words in pages)


def test_nothing_of_this_machine_or_this_day_is_inside(pdf: bytes, opened: pikepdf.Pdf):
    unpacked = io.BytesIO()
    opened.save(unpacked, object_stream_mode=pikepdf.ObjectStreamMode.disable, compress_streams=False)
    for trace in (str(Path(__file__).parents[2]).encode(), b"file://", str(Path.home()).encode() + b"/"):
        assert trace not in unpacked.getvalue()
    assert str(opened.docinfo.CreationDate).startswith("D:20261120")  # the day the plan was published


def test_the_same_plan_gives_the_same_bytes(ran: Any, pdf: bytes):
    assert pdf_exporter().pdf(ran) == pdf


def test_a_page_cannot_fetch_what_is_not_its_own(document: Any):
    page = '<html lang="en"><title>x</title><img alt="x" src="file:///etc/hostname">'
    with pytest.raises(PlanError, match="only use its own pictures"):
        to_pdf(page, document, {})


def test_it_reads_in_black_and_white(pdf: bytes, tmp_path: Path):
    """Printed in greys, every signal word still stands out from what is behind it."""
    if not shutil.which("pdftoppm"):
        pytest.skip("poppler-utils is not installed")
    path = tmp_path / "plan.pdf"
    path.write_bytes(pdf)
    subprocess.run(["pdftoppm", "-gray", "-r", "50", str(path), str(tmp_path / "page")], check=True)
    from PIL import Image

    pictures = [Image.open(one) for one in sorted(tmp_path.glob("page-*.pgm"))]
    assert len(pictures) == len(pypdf.PdfReader(io.BytesIO(pdf)).pages)
    for picture in pictures:
        low, high = picture.getextrema()
        assert low < 90  # ink
        assert high == 255  # paper
