"""The plan: what its author writes, and the document that every page is made from."""

from plankit.plan.author import Plan
from plankit.plan.computed import Computed, Reworked, computed, work_out_again
from plankit.plan.facts import Draft, Step

__all__ = ["Computed", "Draft", "Plan", "Reworked", "Step", "computed", "work_out_again"]
