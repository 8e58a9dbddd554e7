"""The README keeps its word: what it shows runs, and what a plan may say stands in it."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from plankit.app.command import plankit
from plankit.plan import Plan
from plankit.plan.handles import PartHandle
from plankit.plan.spoken import verbs_of
from tests.publish.cells import code, saved

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
NOT_FOR_AUTHORS = {"build", "draft", "part", "work_on", "join_work", "without_joints"}
"""What the rooms below ask of a plan."""


def shown(language: str) -> str:
    """The one block of a language in the README."""
    (block,) = re.findall(rf"^```{language}\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    return str(block)


def test_the_smallest_plan_is_made(tmp_path: Path):
    source = shown("python")
    assert len([line for line in source.splitlines() if line]) <= 12
    path = saved(tmp_path / "trough.ipynb", code(source))
    done = CliRunner().invoke(plankit, ["make", str(path)])
    assert (done.exit_code, done.stderr) == (0, "")
    page = (tmp_path / "built" / "book-trough" / "index.html").read_text(encoding="utf-8")
    assert page.index('id="step-1"') < page.index('id="step-2"')
    assert "by R. T. No licence is given with it" in page


def test_the_job_is_cut(tmp_path: Path):
    (tmp_path / "job.json").write_text(shown("json"), encoding="utf-8")
    done = CliRunner().invoke(plankit, ["cut", str(tmp_path / "job.json")])
    said = json.loads(done.stdout)
    # six rails of 22 1/2 and a kerf each, four to a board of 96: 4 × 22 1/2 + 3 × 1/8 = 90 3/8
    assert said["totals"] == [{"stock": "sheet", "count": 1}, {"stock": "board", "count": 2}]
    assert done.exit_code == 0


@pytest.mark.parametrize("verb", sorted({*verbs_of(Plan)} - NOT_FOR_AUTHORS))
def test_every_verb_of_a_plan_stands_in_the_readme(verb: str):
    assert f"`plan.{verb}`" in README


@pytest.mark.parametrize("verb", verbs_of(PartHandle))
def test_every_verb_of_a_part_stands_in_the_readme(verb: str):
    assert f"`part.{verb}`" in README


def test_the_readme_names_no_verb_that_is_not_there():
    section = README.partition("## What a plan may say")[2].partition("\n## ")[0]
    spoken = set(re.findall(r"`plan\.(\w+)`", section))
    assert spoken - {*verbs_of(Plan), "parts"} == set()
    assert set(re.findall(r"`part\.(\w+)`", README)) - {*verbs_of(PartHandle)} == set()


def test_every_command_stands_in_the_readme():
    assert all(f"`plankit {name}" in README for name in plankit.commands)
