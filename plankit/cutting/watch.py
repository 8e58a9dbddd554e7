"""Somebody who looks on while a job is cut, and may have had enough."""


class Watch:
    """Looks on and does nothing; a class derived from it shows what it is told."""

    def begin(self, group: int, groups: int) -> None:
        """Hear that one group of pieces and stock that concern each other is begun, counted from 1."""

    def better(self, used: int, least: int | None) -> None:
        """Hear how much stock the best answer to the group needs now, and how much is needed at least."""

    def stopped(self) -> None:
        """Hear that the search was stopped from outside: the best answer so far is taken."""
