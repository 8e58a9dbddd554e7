"""The command: words in, exit codes out. 0 done, 1 it failed, 2 it was asked wrongly."""

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from plankit.app import cutting
from plankit.app.command import plankit
from tests.publish.cells import code, saved
from tests.publish.conftest import SAMPLE

ROOT = Path(__file__).parents[2]
JOB: dict[str, Any] = {
    "unit": "in", "kerf": "1/8",
    "stock": [{"name": "sheet", "length": "96", "width": "48", "available": 2, "price": "62.00", "trim": "1/4"}],
    "parts": [{"name": "side", "length": "30", "width": "15 1/4", "quantity": 2, "grain": "length"}],
}  # fmt: skip


def ask(*words: str | Path, given: str | None = None) -> Result:
    return CliRunner().invoke(plankit, [str(word) for word in words], input=given)


@pytest.fixture
def notebook(tmp_path: Path) -> Path:
    shutil.copytree(SAMPLE, tmp_path / "notebooks")
    return tmp_path / "notebooks" / "shoe-rack.ipynb"


def names(folder: Path) -> set[str]:
    return {p.relative_to(folder).as_posix() for p in folder.rglob("*") if p.is_file()}


DRAWINGS = {
    f"figures/{name}.svg" for name in ("whole", "front", "step-1", "step-2", "step-3", "part-a", "cut-1")
}


def test_make_puts_page_pdf_data_and_drawings_into_a_folder_of_the_plan(notebook: Path, tmp_path: Path):
    done = ask("make", notebook, "--into", tmp_path / "out")
    assert (done.exit_code, done.stderr) == (0, "")
    assert names(tmp_path / "out" / "shoe-rack") == {"index.html", "plan.pdf", "plan.json"} | DRAWINGS
    assert str(tmp_path / "out" / "shoe-rack" / "index.html") in done.stdout


def test_without_a_place_the_plan_goes_into_built_beside_its_notebook(notebook: Path):
    assert ask("make", notebook, "--to", "json").exit_code == 0
    assert names(notebook.parent / "built") == {f"shoe-rack/{name}" for name in {"plan.json"} | DRAWINGS}


@pytest.mark.parametrize("words", [["--to", "html", "--to", "json"], ["--to", "json,html"]])
def test_only_what_is_asked_for_is_made(notebook: Path, tmp_path: Path, words: list[str]):
    assert ask("make", notebook, *words, "--into", tmp_path / "out").exit_code == 0
    assert names(tmp_path / "out" / "shoe-rack") == {"index.html", "plan.json"} | DRAWINGS


def test_another_width_reaches_the_page(notebook: Path, tmp_path: Path):
    ask("make", notebook, "--to", "html", "--into", tmp_path / "out", "--set", "width=36")
    page = (tmp_path / "out" / "shoe-rack" / "index.html").read_text(encoding="utf-8")
    assert "36 × 12 × 20 in" in page.replace("\u00a0", " ")
    assert "30 × 12 × 20 in" not in page


def test_two_runs_give_the_same_bytes(notebook: Path, tmp_path: Path):
    """In processes of their own: neither the order of sets nor the time of day leaves a trace."""
    for place in ("one", "two"):
        command = [sys.executable, "-m", "plankit", "make", str(notebook), "--into", str(tmp_path / place)]
        subprocess.run(command, check=True, capture_output=True, cwd=ROOT)
    first, second = tmp_path / "one", tmp_path / "two"
    assert names(first) == names(second)
    for name in names(first):
        assert (first / name).read_bytes() == (second / name).read_bytes(), name


def test_a_result_as_json_says_all_there_is(notebook: Path, tmp_path: Path):
    done = ask("make", notebook, "--to", "json", "--into", tmp_path / "out", "--json")
    said = json.loads(done.stdout)
    assert (said["exit"], said["slug"], said["files"][0]) == (0, "shoe-rack", "plan.json")
    assert [finding["level"] for finding in said["findings"]] == ["look at", "for information"]


def test_quiet_says_nothing_when_all_is_well(notebook: Path, tmp_path: Path):
    done = ask("make", notebook, "--to", "json", "--into", tmp_path / "out", "--quiet")
    assert (done.exit_code, done.output) == (0, "")


def test_check_lists_findings_and_is_content(notebook: Path):
    done = ask("check", notebook)
    assert done.exit_code == 0
    assert "look at · shelf sag: Shelf: The shelf bends 1/32 in under 40 lb.\n    Here: 1/32 in.\n" in done.stdout
    assert [f["check"] for f in json.loads(ask("check", notebook, "--json").stdout)["findings"]] == [
        "shelf sag",
        "screws",
    ]


@pytest.fixture
def unfinished(notebook: Path) -> Path:
    plan = notebook.with_name("plan.json")
    text = (
        plan.read_text(encoding="utf-8").replace("Shoes weigh less.", "").replace('"look at"', '"must fix"')
    )
    plan.write_text(text, encoding="utf-8")
    return notebook


def test_check_fails_on_what_must_be_fixed(unfinished: Path):
    done = ask("check", unfinished, "--quiet")
    assert done.exit_code == 1
    assert done.stdout.startswith("must fix · shelf sag")
    assert "screws" not in done.stdout  # quiet: only what is wrong


def test_a_plan_with_something_to_fix_is_not_made(unfinished: Path, tmp_path: Path):
    done = ask("make", unfinished, "--into", tmp_path / "out")
    assert done.exit_code == 1
    assert "1 finding must be fixed before this plan is made" in done.stderr
    assert not (tmp_path / "out").exists()


def test_a_cell_that_raises_is_quoted_without_a_traceback(tmp_path: Path):
    done = ask("make", saved(tmp_path / "bench.ipynb", code("width = '44'"), code("widht + 'x'")))
    assert done.exit_code == 1
    assert done.stderr.splitlines() == [
        "plankit: cell [2]: NameError: name 'widht' is not defined", "Line 1 of the cell:", "    widht + 'x'",
    ]  # fmt: skip
    assert not (tmp_path / "built").exists()


def test_a_failure_as_json_stays_json(tmp_path: Path):
    done = ask("make", saved(tmp_path / "bench.ipynb", code("1 / 0")), "--json")
    said = json.loads(done.stdout)
    assert (done.exit_code, said["exit"], said["error"]["where"]) == (1, 1, "cell [1]")


def test_a_notebook_that_is_no_plan_is_told_how_to_be_one(tmp_path: Path):
    done = ask("make", saved(tmp_path / "notes.ipynb", code("1 + 1")))
    assert done.exit_code == 1
    assert "this notebook is not a plan" in done.stderr


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["make"], "Missing argument 'NOTEBOOK'"),
        (["make", "none.ipynb"], "there is no such notebook"),
        (["make", "NOTEBOOK", "--set", "width"], "--set takes a parameter and its new value"),
        (["make", "NOTEBOOK", "--set", "widht=50"], "Did you mean width?"),
        (["make", "NOTEBOOK", "--set", "width=40", "--set", "width=41"], "--set gives width twice"),
        (["make", "NOTEBOOK", "--set", "shelves=many"], "the parameter shelves takes a whole number"),
        (["make", "NOTEBOOK", "--to", "docx"], "a plan is made as html, pdf or json"),
        (["make", "NOTEBOOK", "--colour"], "No such option"),
        (["bake"], "No such command"),
        (["site", "nowhere"], "this folder holds no site"),
        (["cut", "none.json"], "there is no such job file"),
        (["cut", "NOTEBOOK", "--seconds", "-1"], "--seconds"),
    ],
)
def test_what_is_asked_wrongly_ends_with_2(notebook: Path, words: list[str], said: str):
    done = ask(*(str(notebook) if word == "NOTEBOOK" else word for word in words))
    assert done.exit_code == 2
    assert said in done.stderr
    assert done.stdout == ""


def test_a_site_is_built_and_its_address_printed(notebook: Path):
    site = notebook.parent.parent / "site"
    site.mkdir()
    (site / "site.toml").write_text('title = "T"\naddress = "https://example.org/"\nauthor = "R. T."\n')
    done = ask("site", site)
    assert done.exit_code == 0
    assert done.stdout.splitlines() == ["Shoe rack: made", f"Open {site / 'public' / 'index.html'}"]
    saved(notebook.parent / "zz.ipynb", code("1 / 0"))
    again = ask("site", site)
    assert again.exit_code == 1
    assert "Shoe rack: unchanged" in again.stdout
    assert "plankit: zz.ipynb failed:\ncell [1]: ZeroDivisionError" in again.stderr


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.json"
    path.write_text(json.dumps(JOB))
    return path


def test_a_job_is_cut_to_standard_output(job: Path):
    done = ask("cut", job)
    said = json.loads(done.stdout)
    # both sides fit one sheet: 2 × 15 1/4 and a kerf of 1/8 are 30 5/8, less than 48 - 2 × 1/4
    assert (done.exit_code, said["complete"], said["totals"]) == (0, True, [{"stock": "sheet", "count": 1}])


def test_a_job_may_come_from_standard_input_and_go_to_a_file(job: Path, tmp_path: Path):
    done = ask("cut", "-", "--into", tmp_path / "result.json", given=job.read_text())
    assert (done.exit_code, done.stdout) == (0, "")
    assert json.loads((tmp_path / "result.json").read_text())["complete"] is True


def test_someone_at_a_terminal_gets_the_cuts_to_read_and_a_program_gets_json(
    job: Path, monkeypatch: pytest.MonkeyPatch
):
    assert "1. trim" not in ask("cut", job).stderr
    monkeypatch.setattr(cutting, "_seen", lambda: True)
    done = ask("cut", job)
    assert json.loads(done.stdout)["complete"] is True
    said = done.stderr.splitlines()
    assert said[0] == "sheet, 96 × 48 in:"
    # two sides of 30 × 15 1/4 in: some cut leaves each of them
    assert sum(line.count("→ side") + line.count("and side") for line in said) == 2
    assert said[-1].startswith("1 piece of stock")


def test_a_result_goes_through_a_link_to_the_file_it_names(job: Path, tmp_path: Path):
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "link.json").symlink_to(tmp_path / "elsewhere" / "real.json")
    assert ask("cut", job, "--into", tmp_path / "link.json").exit_code == 0
    assert (tmp_path / "link.json").is_symlink()
    assert names(tmp_path / "elsewhere") == {"real.json"}
    assert json.loads((tmp_path / "link.json").read_text())["complete"] is True


def test_a_job_file_may_begin_with_a_byte_order_mark(job: Path):
    job.write_bytes(b"\xef\xbb\xbf" + job.read_bytes())
    assert ask("cut", job).exit_code == 0
    assert CliRunner().invoke(plankit, ["cut", "-"], input=job.read_bytes()).exit_code == 0


def test_a_job_that_is_no_text_is_refused(job: Path):
    done = CliRunner().invoke(plankit, ["cut", "-"], input=b"\xff\xfe")
    assert (done.exit_code, done.stderr.splitlines()[0]) == (2, "plankit: this job file cannot be read")


@pytest.mark.parametrize("seconds", ["nan", "inf"])
def test_a_time_without_an_end_is_refused(job: Path, seconds: str):
    done = ask("cut", job, "--seconds", seconds)
    assert (done.exit_code, done.stdout) == (2, "")
    assert "--seconds takes a number of seconds" in done.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a device that is always full")
@pytest.mark.parametrize("words", [["cut", "JOB"], ["make", "none.ipynb", "--json"]])
def test_output_that_cannot_be_written_is_told_in_a_sentence(job: Path, words: list[str]):
    command = [sys.executable, "-m", "plankit", *(str(job) if word == "JOB" else word for word in words)]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False, cwd=ROOT)
    assert done.returncode == 1
    assert done.stderr.splitlines()[-1] == (
        "plankit: the output: this cannot be read or written: No space left on device"
    )
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr


def test_a_job_that_does_not_suffice_lists_what_is_missing(job: Path):
    job.write_text(json.dumps(JOB | {"parts": [JOB["parts"][0] | {"quantity": 40}]}))
    done = ask("cut", job)
    assert done.exit_code == 1
    assert json.loads(done.stdout)["complete"] is False
    assert "of side" in done.stderr


def test_a_part_that_fits_no_stock_writes_nothing(job: Path, tmp_path: Path):
    job.write_text(json.dumps(JOB | {"parts": [JOB["parts"][0] | {"length": "97"}]}))
    done = ask("cut", job, "--into", tmp_path / "result.json")
    assert done.exit_code == 1
    assert "side" in done.stderr
    assert not (tmp_path / "result.json").exists()


def test_a_job_that_cannot_be_read_names_the_field(job: Path):
    job.write_text(json.dumps(JOB | {"kerf": "thin"}))
    done = ask("cut", job)
    assert done.exit_code == 2
    assert "kerf" in done.stderr
    assert "thin" in done.stderr


def test_help_loads_nothing_heavy():
    """What makes `--help` slow is what it imports; the time itself is measured in tests/bench."""
    script = "import sys; import plankit.app.command; print(*sorted(m.split('.')[0] for m in sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=ROOT
    )
    loaded = set(done.stdout.split())
    assert "click" in loaded
    assert not loaded & {
        "numpy", "IPython", "nbconvert", "nbformat", "weasyprint", "pikepdf", "shapely", "manifold3d", "rich",
        "packingsolver", "jinja2", "matplotlib", "pandas", "markdown_it", "fontTools",
    }  # fmt: skip


def test_the_installed_command_and_the_module_both_answer():
    script = Path(sys.executable).with_name("plankit")
    for command in ([str(script)], [sys.executable, "-m", "plankit"]):
        done = subprocess.run([*command, "--help"], capture_output=True, text=True, check=True, cwd=ROOT)
        assert "make" in done.stdout
        assert "\x1b" not in done.stdout  # no colour where there is no terminal


def test_an_older_python_gets_one_sentence():
    """The file is read with an old grammar; a stand-in for `sys` plays the old Python."""
    import ast

    source = (ROOT / "plankit" / "__main__.py").read_text()
    ast.parse(source, feature_version=(3, 7))
    old = "import sys as real, types\n"
    script = f"""{old}
fake = types.ModuleType("sys")
fake.version_info = (3, 11, 2)
fake.exit = real.exit
real.modules["sys"] = fake
exec(compile(open({str(ROOT / "plankit" / "__main__.py")!r}).read(), "main", "exec"))
"""
    done = subprocess.run([sys.executable, "-S", "-c", script], capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "plankit needs Python 3.12 or newer; this is Python 3.11." in done.stderr
