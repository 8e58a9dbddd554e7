"""How heartwood stands up to decay: every wood that is known has a row, and it agrees with another printing."""

from plankit.reference import rows
from plankit.reference.decay import decay_of
from tests.published import published


def test_every_wood_has_its_resistance_with_a_source() -> None:
    for row in rows("wood_species"):
        known = decay_of(row["species"])
        assert known is not None, row["species"]
        assert known.resistance in {"resistant", "moderate", "slight"}
        assert known.source


def test_the_groups_are_those_that_the_forest_products_laboratory_printed() -> None:
    for row in published("heartwood_decay"):
        for name in row["species"].split("|"):
            known = decay_of(name)
            assert known is not None
            assert known.resistance == row["resistance"], name


def test_what_nobody_looked_up_says_so() -> None:
    teak = decay_of("Teak")
    assert teak is not None
    assert teak.status == "from memory"
    assert decay_of("no such wood") is None
