"""Markdown as plankit reads it: computed values found in its tokens, and put on the page there."""

import ast
import html
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from plankit.errors import PlanError
from plankit.publish.closing import closed
from plankit.publish.tying import tied
from plankit.reference.tables import did_you_mean

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

ROLE = "eval"
STORED = "user_expressions"
PAID_TITLES = ("paid", "sponsored")
_LIKE_A_ROLE = re.compile(r"\{[^{}`\s]+\}`")
_PREFERRED = ("text/html", "text/markdown", "text/plain")


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of the author's: where a link to it goes, its level on the page, and its words."""

    anchor: str
    level: int
    words: str


@dataclass(frozen=True, slots=True)
class Prose:
    """A Markdown cell made ready for the page.

    html       its HTML
    headings   its headings, in order
    paid       whether it holds a link that somebody pays for
    """

    html: str
    headings: tuple[Heading, ...] = ()
    paid: bool = False


@cache
def parser() -> "MarkdownIt":
    """Return the one Markdown parser: CommonMark with tables, struck words and MyST roles."""
    from markdown_it import MarkdownIt
    from mdit_py_plugins.myst_role import myst_role_plugin

    return MarkdownIt("commonmark").enable(["table", "strikethrough"]).use(myst_role_plugin)


def expressions(source: str) -> tuple[str, ...]:
    """Return the expressions of the `eval` roles in a Markdown text, in order, each once.

    What stands in a code span or a code block is an example, not an expression, and is left out.
    """
    if f"{{{ROLE}}}`" not in source:
        return ()
    found = (t.content.strip() for t in walk(parser().parse(source)) if _is_eval(t))
    return tuple(dict.fromkeys(found))


def refuse_unknown_roles(source: str, where: str) -> None:
    """Refuse a role that means nothing here: left alone, it would stand on the page as it is typed.

    raises  PlanError; what stands in a code span or a code block is an example and is let be
    """
    if not _LIKE_A_ROLE.search(source):
        return
    for token in walk(parser().parse(source)):
        if token.type == "myst_role" and token.meta.get("name") != ROLE:
            name = token.meta.get("name", "")
            raise PlanError(
                f"there is no role {{{name}}}, so what it is to show is not known",
                where=where,
                given=f"{{{name}}}`{token.content}`",
                remedy=f"{did_you_mean(name, [ROLE])} To show it as it is typed, put it into a code span.",
            )


def walk(tokens: Iterable["Token"]) -> Iterable["Token"]:
    """Yield each token and what is in it, in the order of the text."""
    for token in tokens:
        yield token
        yield from walk(token.children or ())


def _is_eval(token: "Token") -> bool:
    return token.type == "myst_role" and token.meta.get("name") == ROLE


def value_html(result: Mapping[str, Any]) -> str:
    """Return the HTML of one stored result of an expression, as it stands in a sentence."""
    data = result.get("data", {})
    kind = next((k for k in _PREFERRED if k in data), None)
    if kind is None:
        return ""
    text = "".join(data[kind])
    if kind == "text/html":
        return text.strip()
    if kind == "text/markdown":
        return str(parser().renderInline(text.strip()))
    return html.escape(_unquoted(text), quote=False)


def _unquoted(text: str) -> str:
    """Take the quotes off text that is the repr of a Python string."""
    if text[:1] not in {"'", '"'}:
        return text
    try:
        value = ast.literal_eval(text)
    except (ValueError, SyntaxError):
        return text
    return value if isinstance(value, str) else text


def stored_values(cell: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    """Return the results kept in a cell's metadata, by expression."""
    kept = cell.get("metadata", {}).get(STORED, ())
    return {one["expression"].strip(): one["result"] for one in kept}


def render(
    cell: Mapping[str, Any],
    where: str,
    *,
    top_level: int,
    before: int,
    anchors: set[str],
    without_title: bool = False,
) -> Prose:
    """Return a Markdown cell ready for the page, each computed value in its place.

    where          what to call the cell in an error
    top_level      the level the cell's highest heading takes on the page (2 for h2)
    before         the level of the last heading on the page before it; no level is skipped after it
    anchors        the addresses already given away on the page; those of this cell are added
    without_title  leave out the first heading of level 1: the page has a title of its own
    raises         PlanError where a value has not been computed, or a role is not known
    """
    refuse_unknown_roles(str(cell["source"]), where)
    tokens = _tokens(str(cell["source"]), without_title)
    _place_values(tokens, stored_values(cell), where)
    _embed_pictures(tokens, cell.get("attachments", {}), where)
    headings = _settle_headings(tokens, top_level, before, anchors)
    paid = _settle_links(tokens)
    md = parser()
    for token in walk(tokens):
        if token.type == "text":
            token.content = tied(token.content)
    markup = str(md.renderer.render(tokens, md.options, {}))
    if any(token.type in {"html_block", "html_inline"} for token in walk(tokens)):
        markup = closed(markup)
    return Prose(markup, headings, paid)


def _tokens(source: str, without_title: bool) -> list["Token"]:
    tokens = parser().parse(source)
    if without_title:
        for i, token in enumerate(tokens):
            if token.type == "heading_open" and token.tag == "h1":
                return tokens[:i] + tokens[i + 3 :]
    return tokens


def _place_values(tokens: Sequence["Token"], values: Mapping[str, Mapping[str, Any]], where: str) -> None:
    for token in walk(tokens):
        if _is_eval(token):
            expression = token.content.strip()
            result = values.get(expression)
            if result is None or result.get("status") != "ok":
                raise _no_value(expression, result, where)
            token.type, token.content = "html_inline", value_html(result)


def _no_value(expression: str, result: Mapping[str, Any] | None, where: str) -> PlanError:
    if result is None:
        return PlanError(
            f"the value of {{eval}}`{expression}` has not been computed",
            where=where,
            remedy="Run it while publishing: plankit make NOTEBOOK, or jupyter nbconvert --execute.",
        )
    return failed_expression(expression, str(result.get("ename", "")), str(result.get("evalue", "")), where)


def failed_expression(expression: str, name: str, words: str, where: str) -> PlanError:
    """Return the error for an expression in prose that could not be evaluated."""
    remedy = "Correct the expression, or the cell that makes what it names."
    if name == "NameError":
        remedy = "Name something that a cell of this notebook makes."
    return PlanError(f"{{eval}}`{expression}` has no value: {name}: {words}", where=where, remedy=remedy)


def _embed_pictures(tokens: Sequence["Token"], attached: Mapping[str, Mapping[str, Any]], where: str) -> None:
    for token in walk(tokens):
        source = str(token.attrs.get("src", "")) if token.type == "image" else "data:"
        if source.startswith("data:"):
            continue
        held = attached.get(source.removeprefix("attachment:"), {})
        if not held:
            raise PlanError(
                "this picture is not there, and a page must carry its pictures with it",
                where=where,
                given=source,
                remedy="Put the picture beside the notebook and name it as it is named there.",
            )
        for kind, text in held.items():
            token.attrSet("src", f"data:{kind};base64,{''.join(text.split())}")


def picture_names(source: str) -> tuple[str, ...]:
    """Return the addresses of the pictures in a Markdown text, but for those it holds itself."""
    if "![" not in source:
        return ()
    addresses = [str(t.attrs.get("src", "")) for t in walk(parser().parse(source)) if t.type == "image"]
    return tuple(a for a in dict.fromkeys(addresses) if not a.startswith(("data:", "attachment:")))


def _settle_headings(
    tokens: Sequence["Token"], top_level: int, before: int, anchors: set[str]
) -> tuple[Heading, ...]:
    opens = [i for i, token in enumerate(tokens) if token.type == "heading_open"]
    highest = min((int(tokens[i].tag[1]) for i in opens), default=1)
    settled: list[Heading] = []
    for i in opens:
        wanted = int(tokens[i].tag[1]) - highest + top_level
        level = max(top_level, min(wanted, before + 1, 6))
        before = level
        words = plain_words(tokens[i + 1])
        anchor = fresh_anchor(words, anchors)
        tokens[i].tag = tokens[i + 2].tag = f"h{level}"
        tokens[i].attrSet("id", anchor)
        settled.append(Heading(anchor, level, words))
    return tuple(settled)


def plain_words(token: "Token") -> str:
    """Return the words of a token without any markup."""
    parts = [t.content for t in token.children or () if t.type in {"text", "code_inline", "html_inline"}]
    return html.unescape(re.sub(r"<[^>]*>", "", "".join(parts))).strip()


def fresh_anchor(words: str, taken: set[str]) -> str:
    """Return an address on the page made from words, not yet in `taken`, and add it there."""
    stem = re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-") or "part"
    anchor, count = stem, 1
    while anchor in taken:
        count += 1
        anchor = f"{stem}-{count}"
    taken.add(anchor)
    return anchor


def _settle_links(tokens: Sequence["Token"]) -> bool:
    """Mark links that somebody pays for (their title is "paid" or "sponsored"); say whether there are any."""
    found = False
    for token in tokens:
        children = token.children or []
        open_paid = False
        for child in list(children):
            if child.type == "link_open" and str(child.attrs.get("title", "")).lower() in PAID_TITLES:
                child.attrs.pop("title")
                child.attrSet("rel", "sponsored nofollow")
                child.attrSet("class", "paid")
                open_paid = found = True
            elif child.type == "link_close" and open_paid:
                children.insert(children.index(child), _paid_mark(child))
                open_paid = False
    return found


def _paid_mark(beside: "Token") -> "Token":
    from markdown_it.token import Token

    return Token(
        "html_inline", "", 0, content=' <span class="paid-mark">(paid link)</span>', level=beside.level
    )
