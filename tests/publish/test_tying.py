"""Numbers that no line may break, on a page."""

import pytest

from plankit.publish.tying import tied, tied_data


@pytest.mark.parametrize(
    ("plain", "kept"),
    [
        ("≈16 21/32 in", "≈16~21/32~in"),
        ("#8 × 1 1/4 in wood screw", "#8~×~1~1/4~in wood screw"),
        ("cut it 47 1/2 × 23 in", "cut it 47~1/2~×~23~in"),
        ("screws 1 in long, 25 mm", "screws 1~in long, 25~mm"),
        ("steps 1, 2 and 3", "steps 1, 2 and 3"),
        ("5 inner faces and 2 mmm", "5 inner faces and 2 mmm"),
        ("3 in-between", "3 in-between"),
    ],
)
def test_a_number_stays_whole(plain: str, kept: str) -> None:
    assert tied(plain) == kept.replace("~", "\u00a0")


def test_all_that_is_told_is_tied_and_what_is_drawn_stays() -> None:
    data = {"note": ["1 1/2 in"], "figures": {"whole": {"svg": "M1 1/2"}}}
    assert tied_data(data) == {"note": ["1\u00a01/2\u00a0in"], "figures": {"whole": {"svg": "M1 1/2"}}}
