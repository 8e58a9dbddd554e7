"""Single drawings that an author shows where she likes: of a part, or of what opens."""

from collections.abc import Sequence

from plankit.build import Moving
from plankit.errors import PlanError
from plankit.plan.bench import Bench
from plankit.plan.displays import PictureDisplay
from plankit.plan.handles import PartHandle, flat
from plankit.plan.opened import Opened

type Shown = PartHandle | Opened | Sequence[PartHandle]


class Drawn(Bench):
    """The part of a plan that shows single drawings."""

    def picture(self, what: Shown) -> PictureDisplay:
        """Show the drawing of a part, or of what opens, shut and open: `plan.picture(foot)`.

        what    a part to which something is done; what plan.door(…) and the like gave back; or a drawer
        raises  PlanError for a part that is cut to size and no more, and for a list of parts that open nowhere
        """
        if isinstance(what, PartHandle):
            return PictureDisplay(self.draft, what.id, what.name)
        return PictureDisplay(self.draft, self._moving_shown(what))

    def _moving_shown(self, what: Opened | Sequence[PartHandle]) -> Moving:
        if isinstance(what, Opened):
            return next(one for one in self._moving if one.name == what.name)
        named = {part.id for part in flat(what)}
        found = next((one for one in self._moving if named & set(one.parts)), None)
        if found is None:
            raise PlanError(
                "none of these parts opens.",
                given=", ".join(sorted(named)),
                remedy="Show one part, or what plan.door(…), plan.tilt_out(…) or plan.drawer(…) gave back.",
            )
        return found
