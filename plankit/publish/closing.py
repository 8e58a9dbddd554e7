"""HTML of an author's own, made whole: what she opened is closed, and what she did not open is not closed."""

from html.parser import HTMLParser

_VOID = frozenset(
    {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr"}
)
"""The HTML Standard's void elements, and `param`, which was one."""
_OF_A_WHOLE_PAGE = frozenset({"html", "head", "body", "frameset", "plaintext"})
_AND = "\ufdd0"  # a code point that is no character, and never will be one
_DRAWN = frozenset({"svg", "math"})


def closed(markup: str) -> str:
    """Return HTML that leaves nothing open behind it and closes nothing that stands round it.

    Elements left open end where the text ends, end tags without a start are left out, as are comments; a tag
    that is not finished shows as the text it is.
    """
    whole = _Whole()
    whole.feed(markup.replace("&", _AND))  # what stands after an ampersand stays as it is
    whole.close()
    return whole.ended().replace(_AND, "&")


class _Whole(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self._parts: list[str] = []
        self._open: list[str] = []

    def ended(self) -> str:
        """Return what was read, with an end for everything that is open still."""
        return "".join([*self._parts, *(f"</{tag}>" for tag in reversed(self._open))])

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _OF_A_WHOLE_PAGE:
            return
        self._parts.append(self.get_starttag_text() or "")
        if tag not in _VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._parts.append(self.get_starttag_text() or "")
        if tag not in _VOID and not _DRAWN.intersection(self._open):
            self._open.append(tag)  # in HTML a slash at its end closes no element

    def handle_endtag(self, tag: str) -> None:
        if tag not in self._open:
            return
        while True:
            last = self._open.pop()
            self._parts.append(f"</{last}>")
            if last == tag:
                return

    def handle_data(self, data: str) -> None:
        is_code = bool(self._open) and self._open[-1] in self.CDATA_CONTENT_ELEMENTS
        self._parts.append(data if is_code else data.replace("<", "&lt;"))
