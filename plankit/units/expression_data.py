"""Reading an expression back from the nested lists that `Node.to_data` writes."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from plankit.errors import PlanError
from plankit.units.expression import (
    Diagonal,
    Extreme,
    Given,
    Node,
    Rounded,
    Scaled,
    StockSize,
    Sum,
    Typed,
    root_of_squares,
    to_step,
)


def node_of(data: Sequence[Any], givens: Mapping[str, Fraction]) -> Node:  # noqa: PLR0911 - a case for each kind
    """Return the expression that nested lists stand for.

    givens  each parameter's value in millimetres
    raises  PlanError for a list that stands for nothing known
    """
    match list(data):
        case ["mm", str(value)]:
            return Typed(Fraction(value))
        case ["given", str(name)] if name in givens:
            return Given(givens[name], name, name.replace("_", " "))
        case ["stock", str(label), str(value)]:
            return StockSize(Fraction(value), label)
        case ["add", left, right]:
            one, two = node_of(left, givens), node_of(right, givens)
            return Sum(one.value + two.value, one, two)
        case ["times", of, str(factor)]:
            node, by = node_of(of, givens), Fraction(factor)
            return Scaled(node.value * by, node, by)
        case ["smallest" | "largest" as which, *among]:
            nodes = tuple(node_of(one, givens) for one in among)
            values = [node.value for node in nodes]
            return Extreme(min(values) if which == "smallest" else max(values), which, nodes)
        case ["nearest" | "up" as way, of, str(step)]:
            node, by = node_of(of, givens), Fraction(step)
            return Rounded(to_step(node.value, by, up=way == "up"), node, by, way == "up")
        case ["diagonal", one, other]:
            first, second = node_of(one, givens), node_of(other, givens)
            return Diagonal(root_of_squares(first.value, second.value), first, second)
        case _:
            raise PlanError("this is no expression of a length.", given=repr(data))
