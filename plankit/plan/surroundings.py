"""What stands round a piece, as its author writes it: its niche, the doorways and stairs on its way there."""

from plankit.build.surroundings import Niche, Passage, Surrounding
from plankit.plan.asked import more_than_nothing, not_below_nothing, three_sizes
from plankit.plan.bench import Bench
from plankit.plan.placing import Given
from plankit.units import Length


class Surroundings(Bench):
    """The part of a plan that says where the finished piece goes."""

    def niche(
        self, size: tuple[Given, Given, Given], *, name: str = "its niche", clearance: Given = "1/4 in"
    ) -> Niche:
        """Say into which place between walls the piece goes; the checks tell whether it does.

        size       the place's width, depth and height
        clearance  what is to stay free at each side and above
        """
        wide, deep, high = (self._opening(name, "size", one) for one in three_sizes(name, size))
        made = Niche(name, (wide, deep, high), self._free(name, clearance))
        self._surroundings.append(made)
        return made

    def doorway(
        self, width: Given, height: Given, *, name: str = "the doorway", clearance: Given = "1 in"
    ) -> Passage:
        """Say through which opening the finished piece is carried: turned as it must be, but straight on.

        clearance  what hands and hinges need, in width and in height (an inch; common practice)
        """
        made = Passage(
            name,
            self._opening(name, "width", width),
            self._opening(name, "height", height),
            self._free(name, clearance),
        )
        self._surroundings.append(made)
        return made

    def stairs(
        self, width: Given, headroom: Given, *, name: str = "the stairs", clearance: Given = "2 in"
    ) -> Passage:
        """Say between which walls and under which ceiling the piece is carried up; turns on landings are not looked at.

        headroom  measured square to the slope of the stairs
        """
        return self.doorway(width, headroom, name=name, clearance=clearance)

    @property
    def surroundings(self) -> tuple[Surrounding, ...]:
        """All that stands round the piece, in the order in which it was named."""
        return tuple(self._surroundings)

    def _opening(self, name: str, what: str, given: Given) -> Length:
        return more_than_nothing(self._read(name, what, given), what, name)

    def _free(self, name: str, given: Given) -> Length:
        return not_below_nothing(self._read(name, "clearance", given), "clearance", name)
