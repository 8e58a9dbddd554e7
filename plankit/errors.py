"""What plankit raises when an author's plan, or a command's words, cannot be used."""


class PlankitError(Exception):
    """Anything plankit says to its user instead of doing what was asked.

    what     what is wrong, in a maker's words
    where    the part, cell, file or field it is wrong in; "" where it is everywhere
    given    what was given, quoted
    remedy   what to type instead
    """

    def __init__(self, what: str, *, where: str = "", given: str = "", remedy: str = "") -> None:
        self.what = what
        self.where = where
        self.given = given
        self.remedy = remedy
        super().__init__(self.text())

    def text(self) -> str:
        """Return the whole message, one fact a line."""
        first = f"{self.where}: {self.what}" if self.where else self.what
        lines = [first]
        if self.given:
            lines.append(f"You gave: {self.given}")
        if self.remedy:
            lines.append(self.remedy)
        return "\n".join(lines)

    def __str__(self) -> str:
        return self.text()


class PlanError(PlankitError, ValueError):
    """The plan, the job or the stock list says something that cannot be made (exit code 1)."""


class AskedWrongly(PlankitError, ValueError):  # noqa: N818 - it reads as a sentence
    """The command was asked for something it does not know or cannot read (exit code 2)."""
