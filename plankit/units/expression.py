"""The expression beneath a length: how it was worked out, kept so that it can be worked out again.

Nodes are small and immutable. Their values are exact millimetres (`Fraction`), but for `Diagonal`,
which is a square root and is rounded once, to `ROOT_STEP`.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import isqrt
from typing import Any, override

ROOT_STEP = Fraction(1, 10**9)
"""Precision of square roots, in millimetres."""

type Show = Callable[[Fraction], str]


@dataclass(frozen=True, slots=True)
class Condition:
    """A question the author's code asked about lengths, and the answer it went on with.

    kind    "<", "<=", "//" or "/"
    answer  what came out: True or False, a whole number, or a ratio
    """

    left: "Node"
    kind: str
    right: "Node"
    answer: Fraction

    def still_holds(self, values: Mapping[str, Fraction]) -> bool:
        """Tell whether the same question has the same answer with other parameter values."""
        left, right = self.left.evaluate(values), self.right.evaluate(values)
        return ask(self.kind, left, right) == self.answer

    def words(self, show: Show) -> str:
        """Say the question and its answer."""
        question = f"{self.left.words(show)} {self.kind} {self.right.words(show)}"
        if self.kind in {"<", "<="}:
            return f"{question} is {'true' if self.answer else 'false'}"
        return f"{question} is {self.answer}"


def ask(kind: str, left: Fraction, right: Fraction) -> Fraction:
    """Answer one question about two values; yes is 1 and no is 0."""
    match kind:
        case "<":
            return Fraction(left < right)
        case "<=":
            return Fraction(left <= right)
        case "//":
            return Fraction(left // right)
        case _:
            return left / right


class ConditionBook:
    """Where the questions asked about one plan's parameters are written down, in order."""

    def __init__(self) -> None:
        self.conditions: list[Condition] = []
        self._noted: set[Condition] = set()

    def note(self, condition: Condition) -> None:
        """Write a question down, once."""
        if condition not in self._noted:
            self._noted.add(condition)
            self.conditions.append(condition)


@dataclass(frozen=True, slots=True)
class Node:
    """A value and the way to it; `value` is in millimetres."""

    value: Fraction
    givens: "frozenset[Given]" = field(default=frozenset(), init=False, compare=False, repr=False)

    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        """Work the value out again; parameters that `values` does not name keep theirs."""
        raise NotImplementedError

    def words(self, show: Show) -> str:
        """Say how the value is worked out, with plain numbers written by `show`."""
        return linear_words(self, lambda atom: atom.atom_words(show), show)

    def numbers(self, show: Show) -> str:
        """Say the same with every parameter replaced by its value."""
        return linear_words(self, lambda atom: show(atom.value), show)

    def atom_words(self, show: Show) -> str:
        """Say this node where it stands as one term of a sum."""
        return show(self.value)

    def to_data(self) -> list[Any]:
        """Return the node as nested lists, for pages and files."""
        raise NotImplementedError

    def _gather(self, parts: Iterable["Node"]) -> None:
        found: frozenset[Given] = frozenset()
        for part in parts:
            if part.givens and part.givens is not found:
                found = found | part.givens if found else part.givens
        if found:
            object.__setattr__(self, "givens", found)


@dataclass(frozen=True, slots=True)
class Typed(Node):
    """A plain number that somebody typed."""

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        return self.value

    @override
    def to_data(self) -> list[Any]:
        return ["mm", str(self.value)]


@dataclass(frozen=True, slots=True)
class Given(Node):
    """A parameter of the plan; `label` is its name in words."""

    name: str
    label: str
    book: ConditionBook | None = field(default=None, compare=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "givens", frozenset({self}))

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        return values.get(self.name, self.value)

    @override
    def atom_words(self, show: Show) -> str:
        return self.label

    @override
    def to_data(self) -> list[Any]:
        return ["given", self.name]


@dataclass(frozen=True, slots=True)
class StockSize(Node):
    """A size that a board or sheet is sold in; `label` says which ("2x10 thickness")."""

    label: str

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        return values.get(self.label, self.value)

    @override
    def atom_words(self, show: Show) -> str:
        return f"({self.label})" if self.label[:1].isdigit() else self.label

    @override
    def to_data(self) -> list[Any]:
        return ["stock", self.label, str(self.value)]


@dataclass(frozen=True, slots=True)
class Sum(Node):
    """One value added to another."""

    left: Node
    right: Node

    def __post_init__(self) -> None:
        self._gather((self.left, self.right))

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        return self.left.evaluate(values) + self.right.evaluate(values)

    @override
    def to_data(self) -> list[Any]:
        return ["add", self.left.to_data(), self.right.to_data()]


@dataclass(frozen=True, slots=True)
class Scaled(Node):
    """A value times a plain number."""

    of: Node
    factor: Fraction

    def __post_init__(self) -> None:
        self._gather((self.of,))

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        return self.of.evaluate(values) * self.factor

    @override
    def to_data(self) -> list[Any]:
        return ["times", self.of.to_data(), str(self.factor)]


@dataclass(frozen=True, slots=True)
class Extreme(Node):
    """The smallest or the largest of several values; `which` is "smallest" or "largest"."""

    which: str
    among: tuple[Node, ...]

    def __post_init__(self) -> None:
        self._gather(self.among)

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        found = [node.evaluate(values) for node in self.among]
        return min(found) if self.which == "smallest" else max(found)

    @override
    def atom_words(self, show: Show) -> str:
        return f"the {self.which} of ({', '.join(node.words(show) for node in self.among)})"

    @override
    def to_data(self) -> list[Any]:
        return [self.which, *(node.to_data() for node in self.among)]


@dataclass(frozen=True, slots=True)
class Rounded(Node):
    """A value moved to the nearest multiple of `step` millimetres (halves away from zero), or to the next one up."""

    of: Node
    step: Fraction
    up: bool = False

    def __post_init__(self) -> None:
        self._gather((self.of,))

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        return to_step(self.of.evaluate(values), self.step, up=self.up)

    @override
    def atom_words(self, show: Show) -> str:
        return (
            f"({self.of.words(show)}) {'up to the next' if self.up else 'to the nearest'} {show(self.step)}"
        )

    @override
    def to_data(self) -> list[Any]:
        return ["up" if self.up else "nearest", self.of.to_data(), str(self.step)]


@dataclass(frozen=True, slots=True)
class Diagonal(Node):
    """The long side of a right triangle, rounded once to `ROOT_STEP`."""

    one: Node
    other: Node

    def __post_init__(self) -> None:
        self._gather((self.one, self.other))

    @override
    def evaluate(self, values: Mapping[str, Fraction]) -> Fraction:
        return root_of_squares(self.one.evaluate(values), self.other.evaluate(values))

    @override
    def atom_words(self, show: Show) -> str:
        return f"the diagonal of ({self.one.words(show)}) and ({self.other.words(show)})"

    @override
    def to_data(self) -> list[Any]:
        return ["diagonal", self.one.to_data(), self.other.to_data()]


LEGIBLE = 1000
"""A factor with a larger denominator comes from an angle, and is written in decimals."""


def to_nearest(value: Fraction, step: Fraction) -> Fraction:
    """Return the multiple of `step` nearest to `value`; halves go away from zero."""
    count = abs(value) / step
    whole = (2 * count.numerator + count.denominator) // (2 * count.denominator)
    return step * (whole if value >= 0 else -whole)


def to_step(value: Fraction, step: Fraction, *, up: bool) -> Fraction:
    """Return the multiple of `step` nearest to `value`, or the next one that is not below it."""
    return -(-value // step) * step if up else to_nearest(value, step)


def root_of_squares(one: Fraction, other: Fraction) -> Fraction:
    """Return the square root of the sum of two squares, to the nearest `ROOT_STEP`."""
    square = one * one + other * other
    scaled = square / (ROOT_STEP * ROOT_STEP)
    floor = isqrt(scaled.numerator // scaled.denominator)
    up = scaled > (2 * floor + 1) ** 2 * Fraction(1, 4)
    return ROOT_STEP * (floor + up)


def linear_form(node: Node) -> dict[Node, Fraction]:
    """Return a node as a sum: each term with its factor, like terms taken together.

    Plain numbers stay as they were typed: 4 in less 1/8 in is not told as 3 7/8 in, which stands nowhere.
    """
    order, terms = _inner_first(node)
    factors: dict[int, Fraction] = {id(node): Fraction(1)}
    for current in reversed(order):
        factor = factors.pop(id(current))
        passed: tuple[tuple[Node, Fraction], ...]
        match current:
            case Sum(left=left, right=right):
                passed = ((left, factor), (right, factor))
            case Scaled(of=of, factor=by):
                passed = ((of, factor * by),)
            case _:
                terms[current] += factor
                continue
        for part, share in passed:
            factors[id(part)] = factors.get(id(part), Fraction(0)) + share
    return {term: factor for term, factor in terms.items() if factor and term != Typed(Fraction(0))}


def _inner_first(node: Node) -> tuple[list[Node], dict[Node, Fraction]]:
    """Every node of a sum once, each after all that it is made of; and its terms, in the order they are written."""
    order: list[Node] = []
    terms: dict[Node, Fraction] = {}
    seen: set[int] = set()
    pending: list[tuple[Node, bool]] = [(node, False)]
    while pending:
        current, done = pending.pop()
        if done:
            order.append(current)
            continue
        if id(current) in seen:
            continue
        seen.add(id(current))
        pending.append((current, True))
        match current:
            case Sum(left=left, right=right):
                pending += [(right, False), (left, False)]
            case Scaled(of=of):
                pending.append((of, False))
            case _:
                terms.setdefault(current, Fraction(0))
    return order, terms


def gathered(node: Node, step: Fraction) -> Node:
    """Return a node as one flat sum with each term once, its factors rounded to a step.

    For what geometry works out through many turns, which would otherwise grow with every one of them.
    """
    total: Node = Typed(Fraction(0))
    for term, factor in linear_form(node).items():
        by = to_nearest(factor, step)
        part = term if by == 1 else Scaled(term.value * by, term, by)
        total = part if isinstance(total, Typed) and not total.value else Sum(total.value + part.value, total, part)
    return total


def linear_words(node: Node, name: Callable[[Node], str], show: Show) -> str:
    """Write a node as a sum: named terms first, then plain numbers; plain numbers alone as their sum.

    What divides every term is told once: "(width − 2 × overhang) ÷ 3".
    """
    terms = linear_form(node)
    plain = {term: factor for term, factor in terms.items() if isinstance(term, Typed)}
    if len(plain) == len(terms):
        return _signed(node.value, show)
    shared = {factor.denominator for factor in terms.values()}
    if len(terms) > 1 and len(shared) == 1 and 1 < (over := min(shared)) <= LEGIBLE:
        return f"({_sum_words({term: factor * over for term, factor in terms.items()}, name, show)}) ÷ {over}"
    return _sum_words(terms, name, show)


def _sum_words(terms: Mapping[Node, Fraction], name: Callable[[Node], str], show: Show) -> str:
    plain = {term: factor for term, factor in terms.items() if isinstance(term, Typed)}
    named = [(factor, _term_words(abs(factor), name(term))) for term, factor in terms.items() if term not in plain]
    typed = [(term.value * factor, _term_words(abs(factor), show(abs(term.value)))) for term, factor in plain.items()]
    pieces = [piece for group in (named, typed) for piece in sorted(group, key=lambda one: one[0] < 0)]
    first = next((piece for piece in pieces if piece[0] > 0), pieces[0])
    pieces.sort(key=lambda piece: piece is not first)  # a sum begins with what is added, where anything is
    text = f"−{pieces[0][1]}" if pieces[0][0] < 0 else pieces[0][1]
    for factor, words in pieces[1:]:
        text += f" {'−' if factor < 0 else '+'} {words}"
    return text


def _signed(value: Fraction, show: Show) -> str:
    return f"−{show(abs(value))}" if value < 0 else show(value)


def _term_words(factor: Fraction, words: str) -> str:
    if factor == 1:
        return words
    if factor.numerator == 1:
        return f"{words} ÷ {factor.denominator}"
    if factor.denominator == 1:
        return f"{factor} × {words}"
    if factor.denominator > LEGIBLE:
        return f"≈{float(factor):.4f} × {words}"
    return f"{factor.numerator} × {words} ÷ {factor.denominator}"
