"""Notebooks written by tests, a cell a word."""

from pathlib import Path
from typing import Any

import nbformat


def code(source: str, *tags: str) -> Any:
    return nbformat.v4.new_code_cell(source, metadata={"tags": list(tags)} if tags else {})


def prose(source: str) -> Any:
    return nbformat.v4.new_markdown_cell(source)


def notebook(*cells: Any) -> Any:
    book = nbformat.v4.new_notebook(cells=list(cells))
    for number, cell in enumerate(book.cells):
        cell["id"] = f"cell-{number}"
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
    return book


def saved(path: Path, *cells: Any) -> Path:
    nbformat.write(notebook(*cells), path)
    return path
