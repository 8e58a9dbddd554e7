"""Thin backs as an author fixes them: pinned or stapled to what stands in front of them."""

from plankit.build import Spec, contacts, pinned, pinned_along
from plankit.build.joints_pins import BRAD_SPACING
from plankit.errors import PlanError
from plankit.parts import Face
from plankit.plan.asked import known_face, more_than_nothing
from plankit.plan.bench import Bench
from plankit.plan.handles import PartHandle, Parts, flat, single
from plankit.plan.placing import Given


class Pinning(Bench):
    """The part of a plan that says how thin parts are held."""

    def pin(
        self,
        thin: PartHandle,
        *,
        into: Parts = (),
        edges: str = "",
        brads_long: Given = "1",
        spacing: Given | None = None,
    ) -> None:
        """Pin a thin part with brads to the parts it lies against: `plan.pin(back, into=[*sides, rail])`.

        into     the parts it is pinned to, so that some sections may stay open; every part it lies on if left out
        edges    pins along the whole of these edges instead, whatever stands behind them: "left right top"
        spacing  at most so far apart: 5 in where it is left out
        """
        self._pin(thin, into, edges, spacing, "brad", brads_long)

    def staple(
        self,
        thin: PartHandle,
        *,
        into: Parts = (),
        edges: str = "",
        legs: Given = "3/4",
        spacing: Given | None = None,
    ) -> None:
        """Staple a thin part to the parts it lies against; the words are those of `plan.pin`."""
        self._pin(thin, into, edges, spacing, "staple", legs)

    def _pin(  # noqa: PLR0917 - what, where and with what
        self,
        thin: PartHandle,
        into: Parts,
        edges: str,
        spacing: Given | None,
        kind: str,
        length: Given,
    ) -> None:
        name = single(thin, "what is pinned").name
        long = more_than_nothing(self._read(name, "their length", length), "their length", name)
        spec = Spec("staple" if kind == "staple" else "brad", None, long)
        apart = BRAD_SPACING
        if spacing is not None:
            apart = more_than_nothing(self._read(name, "spacing", spacing), "spacing", name)
        behind = flat(into) or self._behind(thin)
        if not edges or flat(into):
            self._joints += [pinned(thin.part, part.part, spec, apart) for part in behind]
        faces = [_edge(edge, name) for edge in edges.split()]
        against = [part.part for part in self._behind(thin)] if faces else []
        for edge in faces:
            self._joints += pinned_along(thin.part, against, edge, spec, apart)

    def _behind(self, thin: PartHandle) -> list[PartHandle]:
        """Every part made so far that a thin one lies flat against."""
        found = [
            other
            for other in self.parts
            if other.id != thin.id
            and other.part.leans == thin.part.leans
            and any(one.axis == thin.part.through for one in contacts(thin.part, other.part))
        ]
        if not found:
            raise PlanError(
                "it lies against nothing that it could be pinned to.",
                where=thin.name,
                remedy="Give one of its faces the face of what it covers, for instance  front=side.back",
            )
        return found


def _edge(edge: str, name: str) -> Face:
    known_face(edge, name)
    return edge  # type: ignore[return-value]
