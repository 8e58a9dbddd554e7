"""The plan these tests publish: an invented shoe rack, its document written by hand in `sample_plan/`."""

import shutil
from pathlib import Path
from typing import Any

import pytest

from plankit.publish.document import Document, find_document
from plankit.publish.making import html_exporter, pdf_exporter
from plankit.publish.run import run

SAMPLE = Path(__file__).parent / "sample_plan"
BENCH = Path(__file__).parents[2] / "notebooks" / "boot_bench.ipynb"


@pytest.fixture(scope="session")
def ran() -> Any:
    return run(SAMPLE / "shoe-rack.ipynb")


@pytest.fixture(scope="session")
def bench() -> Any:
    """The demo's notebook, run: the longest plan there is."""
    return run(BENCH)


@pytest.fixture(scope="session")
def document(ran: Any) -> Document:
    return find_document(ran)


@pytest.fixture(scope="session")
def page(ran: Any) -> str:
    return html_exporter().page(ran)


@pytest.fixture(scope="session")
def pdf(ran: Any) -> bytes:
    return pdf_exporter().pdf(ran)


@pytest.fixture
def bench_folder(tmp_path: Path) -> Path:
    """A folder of the test's own with the sample notebook and what it reads."""
    folder = tmp_path / "notebooks"
    shutil.copytree(SAMPLE, folder)
    return folder
