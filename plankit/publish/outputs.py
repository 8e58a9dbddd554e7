"""What ordinary cells show (text, tables, pictures, charts) as HTML for the page."""

import base64
import html
import re
from collections.abc import Mapping
from typing import Any

from plankit.plan.media import FRAGMENT_TYPE, PLAN_TYPE
from plankit.publish.closing import closed

_ADDRESS = re.compile(r" at 0x[0-9a-fA-F]+(?=>)")
_ANSI = re.compile(r"\x1b\[[0-9;]*[A-Za-z]")
_PICTURES = ("image/png", "image/jpeg", "image/gif", "image/webp")


def as_html(output: Mapping[str, Any], alternative: str) -> str:
    """Return one output of a cell as HTML; "" where a page shows nothing of it, or Markdown.

    alternative  the text that stands for a picture whose author gave it none
    """
    if output["output_type"] == "stream":
        return _text(output["text"]) if output["name"] == "stdout" else ""
    if "data" not in output:
        return ""
    data = output["data"]
    if PLAN_TYPE in data or FRAGMENT_TYPE in data:
        return ""
    return _rich(data, output.get("metadata", {}), alternative)


def markdown_of(output: Mapping[str, Any]) -> str:
    """Return the Markdown that stands on the page for an output; "" where something else does, or nothing."""
    data = output.get("data", {})
    if PLAN_TYPE in data or FRAGMENT_TYPE in data or "text/html" in data:
        return ""
    return "".join(data.get("text/markdown", ""))


def html_of(output: Mapping[str, Any]) -> str:
    """Return an author's own HTML that stands on the page for an output; "" where there is none."""
    data = output.get("data", {})
    return "" if PLAN_TYPE in data or FRAGMENT_TYPE in data else "".join(data.get("text/html", ""))


def _rich(data: Mapping[str, Any], metadata: Mapping[str, Any], alternative: str) -> str:
    if "text/html" in data:
        return _scrolling(closed("".join(data["text/html"])))
    if "image/svg+xml" in data:
        encoded = base64.b64encode("".join(data["image/svg+xml"]).encode()).decode("ascii")
        return _picture("image/svg+xml", encoded, _alt(metadata, "image/svg+xml", alternative))
    for kind in _PICTURES:
        if kind in data:
            return _picture(kind, "".join("".join(data[kind]).split()), _alt(metadata, kind, alternative))
    return _text("".join(data["text/plain"])) if "text/plain" in data else ""


def _alt(metadata: Mapping[str, Any], kind: str, otherwise: str) -> str:
    return str(metadata.get("alt") or metadata.get(kind, {}).get("alt") or otherwise)


def _picture(kind: str, encoded: str, alternative: str) -> str:
    words = html.escape(alternative)
    return f'<figure class="output"><img src="data:{kind};base64,{encoded}" alt="{words}"></figure>'


def _scrolling(markup: str) -> str:
    return f'<div class="output scrolls" role="region" aria-label="Output" tabindex="0">{markup}</div>'


def _text(text: str) -> str:
    plain = _ADDRESS.sub("", _ANSI.sub("", "".join(text))).strip("\n")
    return _scrolling(f"<pre>{html.escape(plain, quote=False)}</pre>") if plain.strip() else ""
