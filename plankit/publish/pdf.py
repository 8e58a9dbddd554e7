"""A plan on paper: WeasyPrint lays it out and tags it, a small clean-up finishes what it leaves open."""

import gc
import io
import logging
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

from plankit.errors import PlanError
from plankit.publish.document import Document
from plankit.publish.figures import PRINT_SCHEME, print_svg
from plankit.publish.fonts import font_path
from plankit.publish.ink import Ink, ink
from plankit.publish.stamping import stamp, stand_in
from plankit.publish.tagging import finish_tags


def to_pdf(page: str, document: Document, names: Mapping[str, str]) -> bytes:
    """Return the PDF of a page made for print; the same bytes for the same page.

    page      HTML whose figures are addressed `figure:NAME` and whose fonts `font:WEIGHT`
    document  the plan, whose figures they are
    names     what stands at each address of the page, in words
    raises    PlanError where the page asks for a picture that is not its own
    """
    answers = Answers(document)
    written = _laid_out(page, answers, names)
    if (
        written is None
    ):  # the marks that stand for figures were not found again: let the layout draw all of it
        answers = Answers(document, by_layout=True)
        written = _laid_out(page, answers, names)
    if answers.refused or written is None:
        raise PlanError("a page for print may only use its own pictures", given=", ".join(answers.refused))
    return written


class Answers:
    """What the layout is given for each address it asks for."""

    def __init__(self, document: Document, *, by_layout: bool = False) -> None:
        self.document = document
        self.by_layout = by_layout
        self.inks: list[Ink] = []
        self.given: dict[str, bytes] = {}
        self.refused: list[str] = []

    def figure(self, name: str) -> bytes:
        """Return a figure's stand-in, or the figure itself where it is for the layout to draw."""
        if name not in self.given:
            figure = self.document["figures"][name]
            svg = print_svg(figure)
            drawn = None if self.by_layout else ink(svg)
            if drawn is not None:
                svg = stand_in(len(self.inks), figure, drawn)
                self.inks.append(drawn)
            self.given[name] = svg
        return self.given[name]


def _laid_out(page: str, answers: Answers, names: Mapping[str, str]) -> bytes | None:
    import weasyprint

    logging.getLogger("weasyprint").setLevel(logging.CRITICAL)
    html = weasyprint.HTML(string=page, url_fetcher=_fetcher(answers), base_url="plan:")
    with _uncollected():
        raw = html.write_pdf(pdf_variant="pdf/ua-1", pdf_identifier=b"plankit", uncompressed_pdf=True)
        return finished(raw, names, answers.inks)


@contextmanager
def _uncollected() -> Iterator[None]:
    """Let no garbage be collected meanwhile: a layout makes very many small things and keeps most of them."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _fetcher(answers: Answers) -> Any:
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OnlyTheirs(URLFetcher):  # type: ignore[misc]
        """Answers with the plan's own figures and fonts, and with nothing else on or off this machine."""

        def fetch(self, url: str, headers: Any = None) -> Any:
            if url.startswith(PRINT_SCHEME):
                svg = answers.figure(url.removeprefix(PRINT_SCHEME))
                return URLFetcherResponse(url, svg, {"Content-Type": "image/svg+xml"})
            if url.startswith("font:"):
                body = font_path(int(url.removeprefix("font:"))).read_bytes()
                return URLFetcherResponse(url, body, {"Content-Type": "font/ttf"})
            if url.startswith("data:"):
                return super().fetch(url, headers)
            answers.refused.append(url)
            raise ValueError(url)

    return OnlyTheirs()


def finished(raw: bytes, names: Mapping[str, str], inks: Sequence[Ink] = ()) -> bytes | None:
    """Return a tagged PDF with its figures in their places, cleaned up as `tagging` says; None where one has none.

    Its identifier is made from its content.
    """
    import pikepdf

    with pikepdf.open(io.BytesIO(raw)) as pdf:
        if not stamp(pdf, inks):
            return None
        finish_tags(pdf, names)
        written = io.BytesIO()
        pdf.save(written, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return written.getvalue()
