"""What can be done to a part, as its author writes it: sawn, notched, bored, ploughed, eased."""

from plankit.plan.boring import Boring
from plankit.plan.notching import Notching
from plankit.plan.routing import Routing
from plankit.plan.sawing import Sawing
from plankit.plan.worked import Workbench


class Shaping(Sawing, Notching, Boring, Routing):
    """A part that its author can still work on; `PartHandle` adds its faces and sizes."""


__all__ = ["Shaping", "Workbench"]
