"""Figures drawn straight onto the pages of a PDF: the same picture that the layout engine draws, sooner."""

import io
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pikepdf
import pypdf
import pytest

from plankit.publish import pdf as printing
from plankit.publish.document import find_document
from plankit.publish.figures import print_svg
from plankit.publish.fonts import print_font
from plankit.publish.ink import ink
from plankit.publish.making import pdf_exporter
from plankit.publish.stamping import stamp

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="10mm" viewBox="0 0 20 10">'


def drawn(inside: str) -> str | None:
    found = ink(f"{HEAD}{inside}</svg>".encode())
    return None if found is None else found.operators.decode()


def test_a_line_becomes_a_stroke_of_its_pen():
    said = drawn('<g fill="none" stroke="#000" stroke-width="0.5"><path d="M1 2L3 4"/></g>')
    assert said == "q\n0 0 0 RG\n0.5 w 0 j 0 J [] 0 d\n1 2 m 3 4 l \nS\nQ"


def test_a_closed_area_with_a_hole_is_filled_by_the_even_odd_rule():
    said = drawn('<g fill="#fff" fill-rule="evenodd"><path d="M0 0L9 0L9 9ZM2 2L3 2L3 3Z"/></g>')
    assert said is not None
    assert "1 1 1 rg" in said
    assert said.endswith("f*\nQ")
    assert said.count(" h ") == 2


def test_dashes_and_round_ends_are_kept():
    said = drawn(
        '<path fill="none" stroke="#111" stroke-width="0.25" stroke-dasharray="3 0.75" stroke-linecap="round" '
        'd="M0 0L9 0"/>'
    )
    assert said is not None
    assert "0.25 w 0 j 1 J [3 0.75] 0 d" in said


def test_words_in_the_middle_start_half_their_width_before():
    font = print_font(400)
    width = sum(font.advances[font.glyphs[sign]] for sign in "12") / 1000 * 4
    said = drawn('<text x="10" y="5" font-size="4" text-anchor="middle" fill="#000">12</text>')
    assert said is not None
    assert f"{10 - width / 2:.3f} 5.000 Tm" in said


def test_turned_words_run_up_the_page():
    said = drawn('<text x="10" y="5" font-size="4" fill="#000" transform="rotate(-90 10 5)">12</text>')
    assert said is not None
    assert "0 -1 -1 -0 10.000 5.000 Tm" in said or "0 -1 -1 0 10.000 5.000 Tm" in said


@pytest.mark.parametrize(
    "inside",
    [
        '<rect x="1" y="1" width="3" height="3"/>',
        '<path d="M0 0C1 1 2 2 3 3"/>',
        '<path d="M0 0L1 1" opacity="0.5"/>',
        '<text x="1" y="1" font-size="3" fill="#000">日本</text>',
        '<text x="1" y="1" font-size="3" fill="#000" transform="rotate(45 0 0)">turned about somewhere else</text>',
        '<g fill="url(#p)"><path d="M0 0L1 1Z"/></g>',
        '<text x="1" y="1" font-size="3" fill="#000">a<tspan>b</tspan></text>',
    ],
)
def test_what_our_drawings_do_not_say_is_left_to_the_layout(inside: str):
    assert drawn(inside) is None


def test_every_figure_of_the_bench_is_drawn_straight(bench: Any):
    figures = find_document(bench)["figures"]
    assert [name for name, figure in figures.items() if ink(print_svg(figure)) is None] == []


def test_the_words_of_figures_are_found_in_the_pdf(bench: Any):
    text = "\n".join(
        page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf_exporter().pdf(bench))).pages
    )
    assert "front edge" in text
    assert "Scale 1:" in text


def test_a_pdf_whose_marks_are_not_found_is_made_by_the_layout_alone(
    bench: Any, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(printing, "stamp", lambda pdf, inks: not inks)
    made = pdf_exporter().pdf(bench)
    with pikepdf.open(io.BytesIO(made)) as pdf:
        assert not any(name.startswith("/Figure") for page in pdf.pages for name in page.Resources.XObject)
    assert "front edge" in "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages)


def test_a_mark_that_is_missing_is_noticed():
    one = ink(f'{HEAD}<path d="M0 0L1 1Z"/></svg>'.encode())
    assert one is not None
    pdf = pikepdf.new()
    pdf.add_blank_page()
    pdf.pages[0].Contents = pdf.make_stream(b"q Q")
    pdf.pages[0].obj["/Resources"] = pikepdf.Dictionary()
    assert not stamp(pdf, [one])


def grey(pdf: bytes, page: int, folder: Path) -> list[int]:
    """A page as grey pixels, 40 to the inch, drawn by Poppler."""
    path = folder / "plan.pdf"
    path.write_bytes(pdf)
    line = ["pdftoppm", "-r", "40", "-gray", "-f", str(page), "-l", str(page), str(path)]
    done = subprocess.run(line, capture_output=True, check=True)
    return list(done.stdout.split(b"\n", 3)[3])


def test_both_ways_to_draw_a_figure_give_the_same_page(
    bench: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    if not shutil.which("pdftoppm"):
        pytest.skip("Poppler is not installed")
    straight = pdf_exporter().pdf(bench)
    monkeypatch.setattr(printing, "ink", lambda svg: None)
    by_layout = pdf_exporter().pdf(bench)
    assert straight != by_layout
    for page in range(1, len(pypdf.PdfReader(io.BytesIO(straight)).pages) + 1):
        one, other = grey(straight, page, tmp_path), grey(by_layout, page, tmp_path)
        assert len(one) == len(other)
        # words keep their spacing but not their double spaces, so edges of letters differ a little
        assert sum(abs(a - b) for a, b in zip(one, other, strict=True)) / len(one) < 2.0
        assert sum(abs(a - b) > 128 for a, b in zip(one, other, strict=True)) / len(one) < 0.01
