"""`jupyter nbconvert` makes the same pages: exporters and template are found through the package."""

import subprocess
import sys
import zipfile
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any

import nbformat
import pytest
from nbconvert.exporters import get_exporter
from nbconvert.utils.exceptions import ConversionException
from traitlets.config import Config

from plankit.publish import templates
from plankit.publish.exporters import PlanHTMLExporter, PlanJSONExporter, PlanPDFExporter
from plankit.publish.making import as_json

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(
    ("name", "exporter"),
    [
        ("plankit_html", PlanHTMLExporter),
        ("plankit_pdf", PlanPDFExporter),
        ("plankit_json", PlanJSONExporter),
    ],
)
def test_nbconvert_finds_the_exporters_by_name(name: str, exporter: Any):
    assert get_exporter(name) is exporter
    assert name in entry_points(group="nbconvert.exporters").names


@pytest.fixture(scope="module")
def executing() -> Config:
    return Config({"PlanExecutePreprocessor": {"enabled": True}})


def test_executing_on_the_way_gives_the_page_that_make_gives(page: str, bench_folder: Path):
    # what `jupyter nbconvert --execute` sets; the kernel evaluates the values in prose too
    exporter = PlanHTMLExporter(config=Config({"ExecutePreprocessor": {"enabled": True}}))
    text, resources = exporter.from_filename(str(bench_folder / "shoe-rack.ipynb"))
    assert text == page
    assert resources["output_extension"] == ".html"


def test_the_command_itself_makes_page_and_pdf(tmp_path: Path, bench_folder: Path, page: str, pdf: bytes):
    for kind in ("html", "pdf"):
        command = [
            sys.executable,
            "-m",
            "nbconvert",
            "--execute",
            "--to",
            f"plankit_{kind}",
            "--output-dir",
            str(tmp_path),
        ]
        done = subprocess.run(
            [*command, str(bench_folder / "shoe-rack.ipynb")], capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr
    assert (tmp_path / "shoe-rack.html").read_text(encoding="utf-8") == page
    assert (tmp_path / "shoe-rack.pdf").read_bytes() == pdf


def test_a_notebook_that_has_not_run_is_refused_with_the_remedy(bench_folder: Path):
    with pytest.raises(ConversionException, match=r"has not been run(.|\n)*--execute"):
        PlanHTMLExporter().from_filename(str(bench_folder / "shoe-rack.ipynb"))


@pytest.mark.parametrize("exporter", [PlanHTMLExporter, PlanPDFExporter, PlanJSONExporter])
def test_a_notebook_that_is_no_plan_is_refused(exporter: Any):
    cell = nbformat.v4.new_code_cell("1", execution_count=1)
    with pytest.raises(ConversionException, match="not a plan"):
        exporter().from_notebook_node(nbformat.v4.new_notebook(cells=[cell]))


def test_the_data_exporter_writes_the_plan_document(ran: Any, document: Any):
    text, resources = PlanJSONExporter().from_notebook_node(ran)
    assert text == as_json(document)
    assert resources["output_extension"] == ".json"


def test_a_checkout_uses_its_own_templates():
    assert templates.folders()[0] == ROOT / "templates"


def test_a_built_package_carries_the_templates_where_jupyter_looks(tmp_path: Path):
    build = [sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory", str(tmp_path)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = tmp_path.glob("*.whl")
    names = zipfile.ZipFile(wheel).namelist()
    tail = "data/share/jupyter/nbconvert/templates/plankit/"
    shipped = {name.split(tail)[1] for name in names if tail in name}
    assert shipped == {path.name for path in (ROOT / "templates" / "plankit").iterdir()}


def test_a_reader_may_put_a_template_of_her_own_over_it(tmp_path: Path, ran: Any):
    own = tmp_path / "own.html.j2"
    own.write_text(
        '{% extends "plankit/index.html.j2" %}{% block bottom %}<footer>my shop</footer>{% endblock %}'
    )
    page, _ = PlanHTMLExporter(template_file=str(own)).from_notebook_node(ran)
    assert "<footer>my shop</footer>" in page
