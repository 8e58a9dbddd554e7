"""Reading one table of a shop file, with messages that name file, table, key and value."""

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Any, NoReturn

from plankit.errors import PlanError
from plankit.reference.tables import did_you_mean, near
from plankit.units import L, Length, Mass, Money, read_number

MISSING: Any = object()


class Table:
    """One table of a TOML file; every key is to be asked for once, and `close` refuses the rest."""

    def __init__(self, file: str, name: str, contents: object, unit: str = "in") -> None:
        self.file, self.name, self.unit = file, name, unit
        self.asked: list[str] = []
        if not isinstance(contents, dict):
            self.refuse("", "a table was expected here.", contents, f"Write {name or 'the file'} as a table.")
        self.contents: dict[str, Any] = contents

    def refuse(self, key: str, what: str, value: object, remedy: str) -> NoReturn:
        """Say what is wrong at one key."""
        where = ", ".join(piece for piece in (self.file, self.name, key) if piece)
        given = "" if value is MISSING else repr(value)
        raise PlanError(what, where=where, given=given, remedy=remedy)

    def raw(self, key: str, default: Any = MISSING) -> Any:
        """Return a value as it stands in the file."""
        self.asked.append(key)
        if key in self.contents:
            return self.contents[key]
        if default is MISSING:
            meant = near(key, [other for other in self.contents if other not in self.asked])
            other = f'There is "{meant[0]}": if that is it, call it {key}.' if meant else ""
            remedy = other or f"Add a line that begins with {key} = …"
            self.refuse(key, f'"{key}" is missing.', MISSING, remedy)
        return default

    def text(self, key: str, default: str = MISSING) -> str:
        """Return a text that is not empty."""
        value = self.raw(key, default)
        if not isinstance(value, str) or not (value.strip() or value is default):
            self.refuse(key, "a text was expected.", value, f'Write it in quotes: {key} = "…".')
        return value.strip()

    def texts(self, key: str, allowed: Iterable[str], default: tuple[str, ...]) -> tuple[str, ...]:
        """Return a list of words, each of which must be an allowed one."""
        value = self.raw(key, list(default))
        known = tuple(allowed)
        if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
            example = ", ".join(f'"{one}"' for one in ([value] if value in known else known[:2]))
            self.refuse(key, "a list of texts was expected.", value, f"Write it like {key} = [{example}].")
        for one in value:
            if one not in known:
                self.refuse(key, "this word is not known here.", one, did_you_mean(one, known))
        return tuple(value)

    def words(self, key: str) -> tuple[str, ...]:
        """Return a list of texts that may be any; none where the key is missing."""
        value = self.raw(key, [])
        if not isinstance(value, list) or not all(isinstance(one, str) and one.strip() for one in value):
            self.refuse(key, "a list of texts was expected.", value, f'Write it like {key} = ["…", "…"].')
        return tuple(one.strip() for one in value)

    def length(self, key: str, default: Length | None = MISSING) -> Length:
        """Return a length of more than nothing; a number without a unit is in the file's unit."""
        return self._read(key, default, self._length)

    def reach(self, key: str, default: Length = MISSING) -> Length:
        """Return a length that may be nothing, such as a trim."""
        return self._read(key, default, self._not_below_zero)

    def money(self, key: str, currency: str) -> Money:
        """Return a price."""
        return self._read(key, MISSING, lambda value: Money.read(value, currency))

    def mass(self, key: str, default: Mass = MISSING) -> Mass:
        """Return a weight with its unit."""
        return self._read(key, default, read_mass)

    def percent(self, key: str, default: Fraction) -> Fraction:
        """Return a share of one from a number of per cent: "10 %" or 10."""
        return self._read(key, default, read_percent)

    def count(self, key: str) -> Fraction:
        """Return an amount of more than nothing."""
        return self._read(key, MISSING, _amount)

    def tables(self, key: str) -> tuple["Table", ...]:
        """Return the tables of a list [[key]], each named by its place in the list."""
        value = self.raw(key, [])
        outer = self.name.removeprefix("[[").partition("]]")[0]
        name = f"{outer}.{key}" if outer else key
        if not isinstance(value, list):
            self.refuse(key, "a list of tables was expected.", value, f"Head each with [[{name}]].")
        return tuple(
            Table(self.file, self._inside(f"[[{name}]] {place}"), one, self.unit)
            for place, one in enumerate(value, 1)
        )

    def table(self, key: str) -> "Table":
        """Return the table [key]; an empty one where the file has none."""
        return Table(self.file, f"[{key}]", self.raw(key, {}), self.unit)

    def _inside(self, name: str) -> str:
        return f"{self.name}, {name}" if self.name else name

    def close(self) -> None:
        """Refuse whatever was not asked for."""
        for key in self.contents:
            if key not in self.asked:
                self.refuse(key, "this key is not known here.", MISSING, did_you_mean(key, self.asked))

    def _length(self, value: object) -> Length:
        length = self._not_below_zero(value)
        if not length:
            raise PlanError("the length is nothing.", remedy="Give a length of more than nothing.")
        return length

    def _not_below_zero(self, value: object) -> Length:
        length = L(value, self.unit)  # type: ignore[arg-type]  # what it cannot read it refuses in words
        if length.mm < 0:
            raise PlanError("the length is below nothing.", remedy="Leave the minus sign out.")
        return length

    def _read[T](self, key: str, default: Any, read: Callable[[Any], T]) -> T:
        value = self.raw(key, default)
        if value is default and default is not MISSING:
            return value  # type: ignore[no-any-return]
        try:
            return read(value)
        except PlanError as wrong:
            self.refuse(key, wrong.what, value, wrong.remedy)


def read_mass(value: object) -> Mass:
    """Return a weight as people write it: "40 lb" or "18 kg"."""
    remedy = 'Write it like "40 lb" or "18 kg".'
    number, _, unit = value.strip().rpartition(" ") if isinstance(value, str) else ("", "", "")
    if unit not in {"lb", "kg"}:
        raise PlanError("a weight with its unit was expected.", remedy=remedy)
    try:
        amount = read_number(number)
    except PlanError:
        raise PlanError("the weight cannot be read.", remedy=remedy) from None
    if amount <= 0:
        raise PlanError("the weight is nothing.", remedy=remedy)
    return Mass.of_pounds(amount) if unit == "lb" else Mass(amount)


def read_percent(value: object) -> Fraction:
    """Return a share of one from "10 %", "12.5 %" or 10."""
    remedy = 'Write it like "10 %"; from 0 to 100 is possible.'
    text = str(value).strip().removesuffix("%").strip()
    try:
        share = read_number(text) / 100
    except PlanError:
        raise PlanError("a percentage was expected.", remedy=remedy) from None
    if share > 1 or isinstance(value, bool):
        raise PlanError("a percentage from 0 to 100 was expected.", remedy=remedy)
    return share


def _amount(value: object) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, int | str):
        raise PlanError("a number was expected.", remedy="Write how many there are in one pack, such as 100.")
    try:
        amount = read_number(str(value))
    except PlanError:
        amount = Fraction(0)
    if amount <= 0:
        raise PlanError(
            "a number above nothing was expected.", remedy="Write how many there are, such as 100."
        )
    return amount
