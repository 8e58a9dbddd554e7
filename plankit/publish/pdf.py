"""A plan on paper: WeasyPrint lays it out and tags it, a small clean-up finishes what it leaves open."""

import gc
import io
import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any, ClassVar

from plankit.errors import PlanError
from plankit.publish.document import Document
from plankit.publish.figures import PRINT_SCHEME, print_svg
from plankit.publish.fonts import font_path
from plankit.publish.tagging import finish_tags


def to_pdf(page: str, document: Document, names: Mapping[str, str]) -> bytes:
    """Return the PDF of a page made for print; the same bytes for the same page.

    page      HTML whose figures are addressed `figure:NAME` and whose fonts `font:WEIGHT`
    document  the plan, whose figures they are
    names     what stands at each address of the page, in words
    raises    PlanError where the page asks for a picture that is not its own
    """
    import weasyprint

    logging.getLogger("weasyprint").setLevel(logging.CRITICAL)
    fetcher = _fetcher(document)
    html = weasyprint.HTML(string=page, url_fetcher=fetcher, base_url="plan:")
    with _uncollected():
        raw = html.write_pdf(pdf_variant="pdf/ua-1", pdf_identifier=b"plankit", uncompressed_pdf=True)
    if fetcher.refused:
        raise PlanError("a page for print may only use its own pictures", given=", ".join(fetcher.refused))
    return finished(raw, names)


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


def _fetcher(document: Document) -> Any:
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OnlyTheirs(URLFetcher):  # type: ignore[misc]
        """Answers with the plan's own figures and fonts, and with nothing else on or off this machine."""

        refused: ClassVar[list[str]] = []

        def fetch(self, url: str, headers: Any = None) -> Any:
            if url.startswith(PRINT_SCHEME):
                svg = print_svg(document["figures"][url.removeprefix(PRINT_SCHEME)])
                return URLFetcherResponse(url, svg, {"Content-Type": "image/svg+xml"})
            if url.startswith("font:"):
                body = font_path(int(url.removeprefix("font:"))).read_bytes()
                return URLFetcherResponse(url, body, {"Content-Type": "font/ttf"})
            if url.startswith("data:"):
                return super().fetch(url, headers)
            self.refused.append(url)
            raise ValueError(url)

    return OnlyTheirs()


def finished(raw: bytes, names: Mapping[str, str]) -> bytes:
    """Return a tagged PDF cleaned up as `tagging` says, its identifier made from its content."""
    import pikepdf

    with pikepdf.open(io.BytesIO(raw)) as pdf:
        finish_tags(pdf, names)
        written = io.BytesIO()
        pdf.save(written, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return written.getvalue()
