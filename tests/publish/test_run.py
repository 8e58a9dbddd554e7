"""A notebook runs in a process of its own: forked, new, or a Jupyter kernel, all to the same effect."""

import os
import signal
import sys
import threading
from pathlib import Path
from typing import Any

import pytest

from plankit.errors import PlanError
from plankit.publish import run as running
from plankit.publish.run import InFork, InKernel, InNewProcess, run, start
from tests.publish.cells import code, prose, saved

LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="only Linux forks here")

EVERY_KIND = [
    code("width = '44'\ncubbies = 3", "parameters"),
    prose("A bench {eval}`width` in wide with {eval}`cubbies` cubbies and {eval}`later`."),
    code(
        "from IPython.display import HTML, Markdown, display, update_display\nprint('cut', cubbies)\nprint('glue')"
    ),
    code("later = 'a top'\ndisplay(Markdown('**oak**'))\nHTML('<b>pine</b>')"),
    code(
        "display({'application/vnd.plankit.fragment+json': {'plankit': 'step', 'number': 1}}, raw=True)\n1 + 1;"
    ),
    code("display('first', display_id='sheet')\nupdate_display('second', display_id='sheet')"),
    code("import sys\nprint('careful', file=sys.stderr)\nPath = None"),
    code(""),
    code("{'b': 1, 'a': (2, 3)}"),
]


@pytest.fixture
def lone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Forking is tried even where the test runner has threads."""
    monkeypatch.setattr(running, "_threads", lambda: 1)


def essence(cells: Any) -> list[Any]:
    """What a page could show of each cell: no times, no message numbers, streams joined."""
    shown = []
    for cell in cells:
        outputs = [
            (o.output_type, o.get("name"), o.get("text"), dict(o.get("data", {})), o.get("execution_count"))
            for o in cell.get("outputs", ())
        ]
        shown.append(
            (cell.cell_type, cell.get("execution_count"), outputs, cell.metadata.get("user_expressions"))
        )
    return shown


@LINUX
def test_fork_new_process_and_kernel_give_the_same_notebook(tmp_path: Path):
    path = saved(tmp_path / "bench.ipynb", *EVERY_KIND)
    by_process = essence(run_as(InNewProcess, path))
    by_kernel = essence(run_as(InKernel, path))
    assert by_process == by_kernel


def run_as(kind: Any, path: Path) -> Any:
    with kind(running.with_parameters(running.read(path), {}), path.parent) as one:
        return one.notebook().cells


@LINUX
@pytest.mark.usefixtures("lone")
@pytest.mark.filterwarnings("ignore:This process .* is multi-threaded:DeprecationWarning")
def test_a_fork_gives_what_a_new_process_gives(tmp_path: Path):
    path = saved(tmp_path / "bench.ipynb", *EVERY_KIND)
    with start(path) as one:
        assert isinstance(one, InFork)
    assert essence(run_as(InFork, path)) == essence(run_as(InNewProcess, path))


def test_each_kind_of_output_is_kept_as_notebooks_keep_it(tmp_path: Path):
    cells = run(saved(tmp_path / "bench.ipynb", *EVERY_KIND)).cells
    assert cells[2].outputs == [{"output_type": "stream", "name": "stdout", "text": "cut 3\nglue\n"}]
    assert [o.output_type for o in cells[3].outputs] == ["display_data", "execute_result"]
    assert cells[3].outputs[1].data["text/html"] == "<b>pine</b>"
    assert cells[4].outputs[0].data["application/vnd.plankit.fragment+json"] == {
        "plankit": "step",
        "number": 1,
    }
    assert len(cells[4].outputs) == 1  # a semicolon silences the result
    assert cells[5].outputs[0].data["text/plain"] == "'second'"
    assert cells[6].outputs[0].name == "stderr"
    assert [cell.get("execution_count") for cell in cells] == [1, None, 2, 3, 4, 5, 6, None, 7]


def test_charts_and_tables_of_other_libraries_are_kept(tmp_path: Path):
    path = saved(
        tmp_path / "bench.ipynb",
        code("import pandas as pd\npd.DataFrame({'part': ['side'], 'count': [2]})"),
        code("import matplotlib.pyplot as plt\nplt.plot([1, 2, 3]);"),
    )
    cells = run(path).cells
    assert "<table" in cells[0].outputs[0].data["text/html"]
    assert cells[1].outputs[0].data["image/png"].startswith("iVBORw0KGgo")  # a PNG file, in base64
    assert run(path).cells == cells  # the same bytes again


def test_what_commands_and_solvers_print_is_kept_too(tmp_path: Path):
    cells = run(saved(tmp_path / "bench.ipynb", code("!echo sawdust"))).cells
    assert cells[0].outputs == [{"output_type": "stream", "name": "stdout", "text": "sawdust\n"}]


def test_an_introduction_may_quote_what_is_made_below_it(tmp_path: Path):
    cells = run(saved(tmp_path / "bench.ipynb", *EVERY_KIND)).cells
    values = {
        one["expression"]: one["result"]["data"]["text/plain"]
        for one in cells[1].metadata["user_expressions"]
    }
    assert values == {"width": "'44'", "cubbies": "3", "later": "'a top'"}


def test_set_parameters_change_everything_below_them(tmp_path: Path):
    cells = run(saved(tmp_path / "bench.ipynb", *EVERY_KIND), {"cubbies": "5"}).cells
    assert cells[3].outputs[0].text == "cut 5\nglue\n"
    assert cells[3].execution_count == 2  # the cell put in is not counted: numbers stay the author's


def test_a_notebook_runs_in_its_own_folder_and_leaves_ours_alone(tmp_path: Path):
    (tmp_path / "shop.txt").write_text("kerf 1/8")
    here = Path.cwd()
    cells = run(saved(tmp_path / "bench.ipynb", code("print(open('shop.txt').read())"))).cells
    assert cells[0].outputs[0].text == "kerf 1/8\n"
    assert Path.cwd() == here


def test_pictures_beside_a_notebook_are_taken_along(tmp_path: Path):
    (tmp_path / "jigs").mkdir()
    (tmp_path / "jigs" / "a jig.png").write_bytes(b"ABC")
    (tmp_path.parent / "secret.png").write_bytes(b"not below the notebook")
    cells = run(
        saved(tmp_path / "bench.ipynb", prose("![jig](jigs/a%20jig.png) ![other](../secret.png)"))
    ).cells
    assert cells[0].attachments == {"jigs/a%20jig.png": {"image/png": "QUJD"}}  # "ABC" in base64


def test_nothing_of_one_run_is_left_for_the_next(tmp_path: Path):
    run(saved(tmp_path / "one.ipynb", code("import builtins\nbuiltins.left_over = 1\nleft = 1")))
    with pytest.raises(PlanError, match="NameError: name 'left_over' is not defined"):
        run(saved(tmp_path / "two.ipynb", code("left_over")))


@pytest.fixture(params=["process", "kernel"])
def kernel(request: pytest.FixtureRequest) -> bool:
    return request.param == "kernel"


def failure(tmp_path: Path, *cells: Any, kernel: bool = False) -> PlanError:
    with pytest.raises(PlanError) as caught:
        run(saved(tmp_path / "bench.ipynb", *cells), kernel=kernel)
    return caught.value


def test_a_cell_that_raises_is_named_with_its_line(tmp_path: Path, kernel: bool):
    source = (
        "from plankit.errors import PlanError\n\nraise PlanError('the right face is missing.', where='Shelf')"
    )
    error = failure(tmp_path, code("1"), prose("x"), code(source), code("print('never')"), kernel=kernel)
    assert error.text().splitlines() == [
        "cell [2]: Shelf: the right face is missing.",
        "Line 3 of the cell:",
        "    raise PlanError('the right face is missing.', where='Shelf')",
    ]


def test_an_error_of_python_is_told_with_its_line_and_no_traceback(tmp_path: Path):
    error = failure(tmp_path, code("width = 44\n\ndef halve(n):\n    return n / 0\n\nhalve(width)"))
    assert error.text().splitlines() == [
        "cell [1]: ZeroDivisionError: division by zero", "Line 4 of the cell:", "    return n / 0",
    ]  # fmt: skip


def test_a_face_given_twice_is_told_in_a_maker_s_words(tmp_path: Path):
    error = failure(tmp_path, code('dict(left=0, left="1")'))
    assert error.text().splitlines() == [
        "cell [1]: left= is given twice.", "Keep one of the two.", "Line 1 of the cell:", '    dict(left=0, left="1")',
    ]  # fmt: skip


def test_a_slip_of_the_pen_is_told_with_its_line(tmp_path: Path):
    error = failure(tmp_path, code("x = 1\nwidth = = 44"))
    assert error.text().splitlines() == [
        "cell [1]: SyntaxError: invalid syntax", "Line 2 of the cell:", "    width = = 44",
    ]  # fmt: skip


def test_a_value_in_prose_that_cannot_be_had_names_cell_and_expression(tmp_path: Path, kernel: bool):
    error = failure(tmp_path, code("side = 3"), prose("{eval}`side.widht` wide"), kernel=kernel)
    assert error.text().startswith(
        "Markdown cell after cell [1]: {eval}`side.widht` has no value: AttributeError: "
    )


def test_a_name_that_nothing_makes_is_told_after_the_whole_run(tmp_path: Path, kernel: bool):
    error = failure(tmp_path, prose("{eval}`sied`"), code("side = 3"), kernel=kernel)
    assert error.where == "Markdown cell before cell [1]"
    assert "NameError: name 'sied' is not defined" in error.what


def test_a_display_that_raises_is_an_error_of_its_cell(tmp_path: Path):
    source = "class Step:\n    def _repr_html_(self):\n        raise ValueError('no such face')\nStep()"
    assert failure(tmp_path, code(source)).text().startswith("cell [1]: ValueError: no such face\nLine 3")


def test_a_process_that_ends_under_its_notebook_is_told(tmp_path: Path):
    error = failure(tmp_path, code("import os\nos._exit(3)"))
    assert "ended before its last cell (exit code 3)" in error.what


def test_sys_exit_in_a_cell_is_an_error_of_that_cell(tmp_path: Path):
    assert failure(tmp_path, code("import sys\nsys.exit(4)")).text().startswith("cell [1]: SystemExit: 4")


@LINUX
@pytest.mark.usefixtures("lone")
@pytest.mark.filterwarnings("ignore:This process .* is multi-threaded:DeprecationWarning")
def test_leaving_a_run_ends_its_process(tmp_path: Path):
    path = saved(tmp_path / "bench.ipynb", code("import time\nprint('begun')\ntime.sleep(600)"))
    children = []

    def interrupted() -> None:
        with start(path) as one:
            children.append(one._child)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    with pytest.raises(ProcessLookupError):
        os.kill(children[0], signal.SIG_DFL)


def test_progress_is_told_cell_by_cell(tmp_path: Path, kernel: bool):
    told: list[tuple[int, int]] = []
    path = saved(tmp_path / "bench.ipynb", code("1"), prose("x"), code("2"))
    run(path, kernel=kernel, progress=lambda done, of: told.append((done, of)))
    assert told[-1] == (3, 3)
    assert told == sorted(told)


def test_a_process_with_threads_is_not_forked(tmp_path: Path):
    path = saved(tmp_path / "bench.ipynb", code("1"))
    done = threading.Event()
    waiting = threading.Thread(target=done.wait)
    waiting.start()
    try:
        with start(path) as one:
            assert not isinstance(one, InFork)
            assert one.notebook().cells[0].outputs[0].data["text/plain"] == "1"
    finally:
        done.set()
        waiting.join()
