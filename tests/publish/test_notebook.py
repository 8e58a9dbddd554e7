"""Parameters from the command line, cells by name, files that are no notebooks."""

import ast
from pathlib import Path

import pytest

from plankit.errors import AskedWrongly, PlanError
from plankit.publish.notebook import INJECTED, cell_names, parameters, read, tags, with_parameters
from tests.publish.cells import code, notebook, prose

BENCH = 'width, depth = "44", "15"\ncubbies = 3\nscale = 1.5\nbanded = True\nnames = ["R. T."]\nfree = width + "x"'


def bench() -> object:
    return notebook(prose("# Bench"), code(BENCH, "parameters"), code("print(width)"))


def injected(settings: dict[str, str]) -> str:
    cells = with_parameters(bench(), settings).cells
    return next(cell.source for cell in cells if INJECTED in tags(cell))


def test_the_new_values_stand_in_a_cell_of_their_own_after_the_parameters():
    cells = with_parameters(bench(), {"width": "50"}).cells
    assert [tags(cell) for cell in cells] == [(), ("parameters",), (INJECTED,), ()]
    assert cells[2].source == "width = '50'"


def test_the_notebook_given_is_left_as_it_was():
    book = bench()
    before = [cell.source for cell in book.cells]
    with_parameters(book, {"width": "50"})
    assert [cell.source for cell in book.cells] == before


@pytest.mark.parametrize(
    ("name", "typed", "written"),
    [
        ("width", "50", "'50'"),  # text stays text: lengths are written as people write them
        ("width", "23 1/4", "'23 1/4'"),
        ("width", "it's", '"it\'s"'),
        ("cubbies", "4", "4"),
        ("scale", "2", "2"),
        ("scale", "0.75", "0.75"),
        ("banded", "False", "False"),
        ("names", '["M. K."]', "['M. K.']"),
        ("free", "50 in", "'50 in'"),
    ],
)
def test_a_value_keeps_the_kind_it_has_in_the_notebook(name: str, typed: str, written: str):
    assert injected({name: typed}) == f"{name} = {written}"


@pytest.mark.parametrize(
    ("name", "typed", "words"),
    [
        ("cubbies", "3.5", "a whole number"),
        ("cubbies", "True", "a whole number"),
        ("cubbies", "three", "a whole number"),
        ("scale", "wide", "a number"),
        ("banded", "yes", "True or False"),
        ("banded", "1", "True or False"),
    ],
)
def test_a_value_of_another_kind_is_refused_with_the_kind_it_takes(name: str, typed: str, words: str):
    with pytest.raises(AskedWrongly, match=f"the parameter {name} takes {words}") as caught:
        injected({name: typed})
    assert caught.value.given == f"{name}={typed}"


def test_a_misspelt_parameter_is_answered_with_near_ones_and_all_known_ones():
    with pytest.raises(AskedWrongly) as caught:
        injected({"widht": "50"})
    assert "Did you mean width?" in caught.value.remedy
    assert "width, depth, cubbies, scale, banded, names, free" in caught.value.remedy


def test_a_notebook_without_parameters_says_how_to_have_some():
    with pytest.raises(AskedWrongly, match="tag that cell `parameters`"):
        with_parameters(notebook(code("x = 1")), {"x": "2"})


def test_parameters_are_found_in_a_row_and_one_a_line():
    assert {name: ast.unparse(value) for name, value in parameters(bench()).items()} == {
        "width": "'44'", "depth": "'15'", "cubbies": "3", "scale": "1.5", "banded": "True",
        "names": "['R. T.']", "free": "width + 'x'",
    }  # fmt: skip


def test_values_set_once_are_not_set_twice_when_an_output_is_run_again():
    once = with_parameters(bench(), {"width": "50"})
    assert len(with_parameters(once, {"width": "60"}).cells) == len(once.cells)


def test_cells_bear_the_numbers_that_jupyter_shows():
    cells = [prose("a"), code("x"), code("y", INJECTED), code(" "), prose("b"), code("z")]
    assert cell_names(cells) == (
        "Markdown cell before cell [1]", "cell [1]", "cell of set parameters", "empty cell after cell [1]",
        "Markdown cell after cell [1]", "cell [2]",
    )  # fmt: skip


@pytest.mark.parametrize(
    "text", ["", "not json", "[]", "{}", '{"cells": 3, "nbformat": 4, "nbformat_minor": 5}']
)
def test_a_file_that_is_no_notebook_is_refused_by_name(tmp_path: Path, text: str):
    path = tmp_path / "list.ipynb"
    path.write_text(text)
    with pytest.raises(PlanError, match=r"list\.ipynb: this file is not a Jupyter notebook"):
        read(path)


def test_a_notebook_that_is_not_there_is_asked_for_wrongly(tmp_path: Path):
    with pytest.raises(AskedWrongly, match="there is no such notebook"):
        read(tmp_path / "none.ipynb")
