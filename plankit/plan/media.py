"""How a plan's displays name themselves, for the publisher that reads them from a notebook."""

FORMAT = "plankit-plan-1"
"""The form of the plan document; a publisher reads no other."""
PLAN_TYPE = "application/vnd.plankit.plan+json"
"""Media type of the whole plan document."""
FRAGMENT_TYPE = "application/vnd.plankit.fragment+json"
"""Media type of what stands for one step, view or list."""
