"""Reading a notebook, naming its cells, and giving its parameters other values."""

import ast
import warnings
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from plankit.errors import AskedWrongly, PlanError
from plankit.reference.tables import meant

type Notebook = Any
"""A notebook as `nbformat` reads it (version 4): cells, outputs and metadata."""

PARAMETERS = "parameters"
INJECTED = "injected-parameters"


def read(path: Path) -> Notebook:
    """Return the notebook in a file.

    raises  AskedWrongly where there is no such file; PlanError where the file is no notebook
    """
    import nbformat

    if not path.is_file():
        raise AskedWrongly(
            "there is no such notebook", given=str(path), remedy="Give the path of an .ipynb file."
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # cells without ids are given some; pages do not show them
            return nbformat.reads(path.read_text(encoding="utf-8-sig"), as_version=4)
    except OSError as error:
        what = f"this notebook cannot be read: {error.strerror or error}"
        raise PlanError(what, where=path.name) from error
    except (nbformat.reader.NotJSONError, nbformat.ValidationError, UnicodeDecodeError) as error:
        raise _not_a_notebook(path, str(error)) from error
    except (AttributeError, KeyError, TypeError, ValueError) as error:
        raise _not_a_notebook(path, "its cells are not where a notebook has them") from error


def _not_a_notebook(path: Path, why: str) -> PlanError:
    first = why.strip().splitlines()[0][:120] if why.strip() else "nothing in it can be read"
    return PlanError(
        "this file is not a Jupyter notebook",
        where=path.name,
        given=first,
        remedy="Save it from Jupyter as a notebook (.ipynb), or give another file.",
    )


def tags(cell: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the tags of a cell."""
    return tuple(cell.get("metadata", {}).get("tags", ()))


def is_blank(cell: Mapping[str, Any]) -> bool:
    """Say whether a cell has nothing in it."""
    return not str(cell.get("source", "")).strip()


def cell_names(cells: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Return what to call each cell, so that its author finds it.

    A code cell bears the number Jupyter shows beside it after all cells were run once from the top; a
    Markdown cell is named by the code cell before it. Cells that plankit put in are not counted.
    """
    names: list[str] = []
    count = 0
    for cell in cells:
        if cell.get("cell_type") != "code":
            names.append(f"Markdown cell after cell [{count}]" if count else "Markdown cell before cell [1]")
        elif INJECTED in tags(cell):
            names.append("cell of set parameters")
        elif is_blank(cell):
            names.append(f"empty cell after cell [{count}]")
        else:
            count += 1
            names.append(f"cell [{count}]")
    return tuple(names)


def quoted(source: str, line: int | None) -> str:
    """Return what a message quotes of a cell: the line that something happened on, or its first lines."""
    rows = source.splitlines()
    if line and line <= len(rows):
        return f"Line {line} of the cell:\n    {rows[line - 1].strip()}"
    return f"The cell begins:\n{beginning(source)}"


def beginning(source: str, lines: int = 3) -> str:
    """Return the first lines of a cell, indented, for quoting in a message."""
    rows = source.strip("\n").splitlines()
    more = ["    …"] if len(rows) > lines else []
    return "\n".join([f"    {row}" for row in rows[:lines]] + more)


def parameters(notebook: Notebook) -> dict[str, ast.expr]:
    """Return the names set in the cell tagged `parameters`, with the expression each is given."""
    known: dict[str, ast.expr] = {}
    for cell in notebook.cells:
        if cell.cell_type == "code" and PARAMETERS in tags(cell):
            known |= _assigned(cell.source)
    return known


def _assigned(source: str) -> dict[str, ast.expr]:
    try:
        tree = ast.parse(source)
    except SyntaxError:
        return {}  # running the cell says what is wrong with it, in its place
    known: dict[str, ast.expr] = {}
    for statement in tree.body:
        if isinstance(statement, ast.Assign):
            for target in statement.targets:
                known |= _pairs(target, statement.value)
        elif isinstance(statement, ast.AnnAssign) and statement.value is not None:
            known |= _pairs(statement.target, statement.value)
    return known


def _pairs(target: ast.expr, value: ast.expr) -> dict[str, ast.expr]:
    if isinstance(target, ast.Name):
        return {target.id: value}
    if isinstance(target, ast.Tuple | ast.List):
        values = value.elts if isinstance(value, ast.Tuple | ast.List) else [value] * len(target.elts)
        found: dict[str, ast.expr] = {}
        for one, its in zip(target.elts, values, strict=False):
            found |= _pairs(one, its)
        return found
    return {}


def with_parameters(notebook: Notebook, settings: Mapping[str, str]) -> Notebook:
    """Return a copy of a notebook with a cell after its `parameters` cell that sets other values.

    settings  name and new value, as typed; a name whose own value is a number stays a number, text stays text
    raises    AskedWrongly for a name that is not a parameter, or a value of the wrong kind
    """
    import copy

    import nbformat

    changed = copy.deepcopy(notebook)
    changed.cells = [cell for cell in changed.cells if INJECTED not in tags(cell)]
    if not settings:
        return changed
    known = parameters(changed)
    lines = [f"{name} = {_literal(name, text, known)}" for name, text in settings.items()]
    cell = nbformat.v4.new_code_cell("\n".join(lines), metadata={"tags": [INJECTED]})
    cell["id"] = INJECTED
    places = [i for i, one in enumerate(changed.cells) if PARAMETERS in tags(one)]
    changed.cells.insert(places[-1] + 1, cell)
    return changed


def _literal(name: str, text: str, known: Mapping[str, ast.expr]) -> str:
    if name not in known:
        raise _unknown(name, known)
    was = known[name]
    kind = type(was.value) if isinstance(was, ast.Constant) else None
    if kind is str:
        return repr(text)
    if kind is bool:
        return _of_kind(name, text, bool, "True or False")
    if kind is int:
        return _of_kind(name, text, int, "a whole number")
    if kind is float:
        return _of_kind(name, text, (int, float), "a number")
    try:
        return repr(ast.literal_eval(text.strip()))
    except (ValueError, SyntaxError):
        return repr(text)


def _of_kind(name: str, text: str, kind: type | tuple[type, ...], words: str) -> str:
    try:
        value = ast.literal_eval(text.strip())
    except (ValueError, SyntaxError):
        value = None
    wrong_bool = isinstance(value, bool) and kind is not bool
    if wrong_bool or not isinstance(value, kind):
        raise AskedWrongly(f"the parameter {name} takes {words}", given=f"{name}={text}")
    return repr(value)


def _unknown(name: str, known: Mapping[str, ast.expr]) -> AskedWrongly:
    if not known:
        return AskedWrongly(
            f"this notebook has no parameter {name}; it has none at all",
            given=name,
            remedy="Put what readers may change in a cell of its own and tag that cell `parameters`.",
        )
    return AskedWrongly(
        f"this notebook has no parameter {name}",
        given=name,
        remedy=f"{meant(name, known)} Its parameters are: {', '.join(known)}.".strip(),
    )
