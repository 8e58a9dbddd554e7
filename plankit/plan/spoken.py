"""A verb answers by its own name: what it does not take, what it still needs, and verbs that are not there."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import nullcontext
from functools import wraps
from inspect import Parameter, getattr_static, signature
from types import FunctionType
from typing import Any

from plankit.errors import PlanError
from plankit.reference.tables import did_you_mean
from plankit.units import Notation, speaking

_CALL = "(…)"
_NAMED = {Parameter.POSITIONAL_OR_KEYWORD, Parameter.KEYWORD_ONLY}


class NoSuchVerb(PlanError, AttributeError):  # noqa: N818 - it reads as a sentence
    """What an author asks for is nothing that can be said here."""


def verbs_of(kind: type) -> tuple[str, ...]:
    """Return the names of what an author can do with something, in alphabetical order."""
    return tuple(
        name
        for name in sorted(dir(kind))
        if not name.startswith("_") and isinstance(getattr_static(kind, name), FunctionType)
    )


def answers_as[T](word: str, made_by: str = "") -> Callable[[type[T]], type[T]]:
    """Let every verb of a class, those it inherits included, speak of itself as an author writes it: `plan.about(…)`.

    Words that a verb does not take, or still needs, are told as a `PlanError`; so is where any other
    `PlanError` came from, if it does not say so itself.

    word     what authors commonly call the thing: "plan"
    made_by  what they write to make one, where that is to answer as well: "Plan"
    """

    def decorate(kind: type[T]) -> type[T]:
        called = {name: f"{word}.{name}" for name in verbs_of(kind)}
        if made_by:
            called["__init__"] = made_by
        for name, words in called.items():
            setattr(kind, name, _answering(getattr_static(kind, name), words))
        return kind

    return decorate


def no_such_verb(kind: type, word: str, name: str) -> AttributeError:
    """Return the error for a verb that is not there, with those that may have been meant."""
    if name.startswith("_"):
        return AttributeError(name)
    known = [one for one in dir(kind) if not one.startswith("_")]
    return NoSuchVerb(f"there is no {word}.{name}.", remedy=did_you_mean(name, known))


def _answering(verb: Callable[..., Any], called: str) -> Callable[..., Any]:
    takes = list(signature(verb).parameters.values())[1:2]
    named_first = any(one.name == "name" and one.default is Parameter.empty for one in takes) and "." in called

    @wraps(verb)
    def said(*given: Any, **named: Any) -> Any:
        try:
            _refuse_strangers(given, [*given[1:], *named.values()])
            if named_first:
                _refuse_nameless(given, named)
            with speaking(_notation_of(given[0])) if given else nullcontext():
                return verb(*given, **named)
        except PlanError as error:
            if not error.where or error.where.endswith(_CALL):
                error.where = f"{called}{_CALL}"
            raise
        except TypeError as error:
            if error.__traceback__ is None or error.__traceback__.tb_next is not None:
                raise  # it came from inside
            raise _not_taken(verb, called, given[1:], named, error) from None

    return said


def _refuse_strangers(given: Sequence[object], words: Iterable[object]) -> None:
    """Refuse parts that were made by another plan than the one that is asked."""
    bench = getattr(given[0], "_bench", given[0]) if given else None
    for word in words:
        if isinstance(word, Sequence) and not isinstance(word, str):
            _refuse_strangers(given, word)
        elif getattr(word, "_bench", bench) is not bench:
            raise PlanError(
                "this part belongs to another plan.",
                given=getattr(word, "name", ""),
                remedy="Use the parts that this plan made; where the plan was made anew, "
                "run the cells of its parts again.",
            )


def _refuse_nameless(given: Sequence[object], named: Mapping[str, object]) -> None:
    """Refuse what is no name where one is needed; a name left out is told with all else that is."""
    name = given[1] if len(given) > 1 else named.get("name", "…")
    if not isinstance(name, str) or not name.strip():
        remedy = 'Write one in quotes, such as "Side", and first.'
        raise PlanError("it needs a name of its own.", given=repr(name), remedy=remedy)


def _notation_of(holder: object) -> Notation:
    """How the plan that a verb belongs to writes; the usual way while the plan is being made."""
    bench = getattr(holder, "_bench", holder)
    found = getattr(bench, "notation", None)
    return found if isinstance(found, Notation) else Notation()


def _not_taken(
    verb: Callable[..., Any], called: str, given: Sequence[Any], named: Mapping[str, Any], error: TypeError
) -> PlanError:
    words = list(signature(verb).parameters.values())[1:]
    takes = [one.name for one in words if one.kind in _NAMED]
    placed = [one.name for one in words if one.kind is Parameter.POSITIONAL_OR_KEYWORD]
    open_ended = any(one.kind is Parameter.VAR_KEYWORD for one in words)
    unknown = [] if open_ended else [name for name in named if name not in takes]
    there = {*named, *placed[: len(given)]}
    missing = [
        one.name for one in words if one.kind in _NAMED and one.default is Parameter.empty and one.name not in there
    ]
    where = f"{called}{_CALL}"
    if unknown:
        guesses = " ".join(did_you_mean(name, takes) for name in unknown) if takes else ""
        return PlanError(f"it takes no {_listed(unknown)}.", where=where, remedy=f"{guesses} {_needs(missing)}".strip())
    if missing:
        return PlanError(f"it needs {_listed(missing)} as well.", where=where, remedy=f"It takes: {_listed(takes)}.")
    what = str(error).partition("() ")[2] or str(error)
    return PlanError(f"{what}.", where=where, remedy=f"Name each value: {_listed(takes)}.")


def _needs(missing: Sequence[str]) -> str:
    return f"It needs: {_listed(missing)}." if missing else ""


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f"{name}=" for name in names)
