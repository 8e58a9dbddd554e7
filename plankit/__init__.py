"""plankit: furniture build plans computed from a notebook.

    from plankit import Plan, stock

This shop window opens on demand, so that the command line starts at once.
"""

from importlib import import_module
from typing import Any

__version__ = "0.1.0"
_SHOWN = {
    "Plan": ("plankit.plan", "Plan"),
    "L": ("plankit.units", "L"),
    "Length": ("plankit.units", "Length"),
    "Notation": ("plankit.units", "Notation"),
    "PlanError": ("plankit.errors", "PlanError"),
    "stock": ("plankit.stock", None),
}
__all__ = ["L", "Length", "Notation", "Plan", "PlanError", "stock"]


def __getattr__(name: str) -> Any:
    if name not in _SHOWN:
        raise AttributeError(name)
    module, attribute = _SHOWN[name]
    found = import_module(module)
    return found if attribute is None else getattr(found, attribute)
