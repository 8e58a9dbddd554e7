"""A search by the clock shows how it goes to a person who looks on, and to nobody else."""

import io
import json
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from plankit.app.command import plankit
from plankit.app.progress import shown_search
from plankit.cutting import Watch

JOB = {
    "unit": "in", "kerf": "1/8",
    "stock": [{"name": "sheet", "length": "96", "width": "48"}],
    "parts": [{"name": "side", "length": "30", "width": "15 1/4", "quantity": 2}],
}  # fmt: skip


class Screen(io.StringIO):
    """An error stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def test_a_person_sees_what_the_best_answer_needs_and_that_it_was_stopped(monkeypatch: pytest.MonkeyPatch):
    screen = Screen()
    monkeypatch.setattr(sys, "stderr", screen)
    with shown_search(30, hidden=False) as watch:
        watch.begin(2, 3)
        watch.better(7, 6)
        watch.stopped()
    assert "stopped: this is the best answer so far" in screen.getvalue()
    assert "group 2 of 3: 7 pieces of stock, at least 6" in screen.getvalue()


@pytest.mark.parametrize(("seconds", "hidden", "stream"), [
    (30, True, Screen), (None, False, Screen), (30, False, io.StringIO),
])  # fmt: skip
def test_nobody_else_does(
    seconds: float | None, hidden: bool, stream: type[io.StringIO], monkeypatch: pytest.MonkeyPatch
):
    screen = stream()
    monkeypatch.setattr(sys, "stderr", screen)
    with shown_search(seconds, hidden=hidden) as watch:
        watch.begin(1, 1)
        watch.better(7, 6)
        watch.stopped()
    assert (type(watch), screen.getvalue()) == (Watch, "")


def test_a_job_cut_by_the_clock_into_a_pipe_gives_json_and_one_line(tmp_path: Path):
    path = tmp_path / "job.json"
    path.write_text(json.dumps(JOB))
    done = CliRunner().invoke(plankit, ["cut", str(path), "--seconds", "5"])
    assert json.loads(done.stdout)["complete"] is True
    assert done.stderr.splitlines() == ["1 piece of stock; fewer is impossible (proven)."]
    quiet = CliRunner().invoke(plankit, ["cut", str(path), "--seconds", "5", "--quiet"])
    assert (quiet.exit_code, quiet.stderr) == (0, "")
