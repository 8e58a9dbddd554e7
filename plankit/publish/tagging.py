"""The clean-up of a tagged PDF, so that it keeps what ISO 14289-1 (PDF/UA-1) asks.

- A header cell says whether it heads its row or its column (`/Scope`).
- What stands in the margins (running title, page number) is marked as an artifact, not as content.
- A link says in words where it goes (`/Contents`).
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

_MARKED = re.compile(rb"/[A-Za-z0-9]+\s*<<\s*/MCID (\d+)\s*>>\s*BDC")
_ARTIFACT = b"/Artifact\n<</Type /Pagination>>\nBDC"


def finish_tags(pdf: Any, names: Mapping[str, str]) -> None:
    """Clean up the tags of an open PDF in place.

    names  what stands at each address inside the document, in words
    """
    linked: dict[tuple[int, int], set[int]] = {}
    for element, above in _elements(pdf.Root.StructTreeRoot.K[0], ()):
        _scope(element, above)
        _gather(element, linked)
    for number, page in enumerate(pdf.pages):
        _set_margins_apart(pdf, number, page, linked.get(page.obj.objgen, set()))
        _name_links(page, names)


def _elements(element: Any, above: tuple[str, ...]) -> Iterator[tuple[Any, tuple[str, ...]]]:
    import pikepdf

    yield element, above
    inside = (*above, str(element.S))
    for kid in element.get("/K", ()):
        if isinstance(kid, pikepdf.Dictionary) and kid.get("/Type") == "/StructElem":
            yield from _elements(kid, inside)


def _scope(element: Any, above: tuple[str, ...]) -> None:
    import pikepdf

    if element.S != "/TH":
        return
    attributes = element.get("/A", pikepdf.Dictionary(O=pikepdf.Name("/Table")))
    attributes["/Scope"] = pikepdf.Name("/Column" if "/THead" in above else "/Row")
    element["/A"] = attributes


def _gather(element: Any, linked: dict[tuple[int, int], set[int]]) -> None:
    """Note which marked pieces of which page an element of the tag tree holds."""
    if "/Pg" in element:
        own = {int(kid) for kid in element.get("/K", ()) if isinstance(kid, int)}
        linked.setdefault(element.Pg.objgen, set()).update(own)


def _set_margins_apart(pdf: Any, number: int, page: Any, linked: set[int]) -> None:
    """Mark as artifacts what no element of the tag tree holds, and take it off the page's list of content."""
    content = page.Contents.read_bytes()
    loose: set[int] = set()

    def settle(found: re.Match[bytes]) -> bytes:
        mark = int(found[1])
        if mark in linked:
            return found[0]
        loose.add(mark)
        return _ARTIFACT

    settled = _MARKED.sub(settle, content)
    if loose:
        page.Contents.write(settled)
        holders = pdf.Root.StructTreeRoot.ParentTree.Nums[2 * number + 1]
        for mark in loose:
            holders[mark] = None


def _name_links(page: Any, names: Mapping[str, str]) -> None:
    import pikepdf

    for note in page.get("/Annots", ()):
        if note.get("/Subtype") == "/Link":
            target = str(note.get("/Dest", ""))
            if target in names:
                note["/Contents"] = pikepdf.String(names[target])
