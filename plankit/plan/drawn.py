"""Single drawings that an author shows where she likes: of a part, or of what opens."""

from collections.abc import Sequence

from plankit.build import Moving
from plankit.errors import PlanError
from plankit.parts import Face
from plankit.plan.asked import known_face
from plankit.plan.bench import Bench
from plankit.plan.displays import FaceDisplay, PictureDisplay, SectionDisplay, UnfoldedDisplay
from plankit.plan.handles import PartHandle, Parts, flat, single
from plankit.plan.opened import Opened

type Shown = PartHandle | Opened | Sequence[PartHandle]


class Drawn(Bench):
    """The part of a plan that shows single drawings."""

    def picture(
        self, what: Shown, *, section: PartHandle | None = None, face: Face | None = None
    ) -> PictureDisplay | SectionDisplay | FaceDisplay:
        """Show the drawing of a part, or of what opens, shut and open: `plan.picture(foot)`.

        what     a part to which something is done; what plan.door(…) and the like gave back; or a drawer
        section  another part: shows the joint of the two, cut through, with its fastener in true length
        face     one face of the part: shows what is glued on it, each strip in its place
        raises   PlanError for a part that is cut to size and no more, and for a list of parts that open nowhere
        """
        if section is not None and face is not None:
            raise PlanError("a picture shows a section or a face.", given=f'section=…, face="{face}"',
                            remedy="Leave one of the two out, or ask for two pictures.")  # fmt: skip
        if section is not None:
            joined = single(what, "the first part of a section"), single(section, "section=")
            return SectionDisplay(self.draft, joined[0].id, joined[1].id)
        if face is not None:
            part = single(what, "the part whose face is shown")
            known_face(face, part.name)
            return FaceDisplay(self.draft, part.id, face)
        if isinstance(what, PartHandle):
            return PictureDisplay(self.draft, what.id, what.name)
        return PictureDisplay(self.draft, self._moving_shown(what))

    def unfold(self, *sides: Parts) -> UnfoldedDisplay:
        """Show the sides of a box laid flat in a row, their outer faces up: `plan.unfold(walls)`.

        sides  in the order in which they stand beside each other; all that lean and are mitred where none is named
        """
        return UnfoldedDisplay(self.draft, tuple(part.id for part in flat(*sides)))

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
