"""A site is built beside the old one and put in place at once; what fails leaves its last good page."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

from plankit.errors import AskedWrongly, PlanError
from plankit.publish import site as building
from plankit.publish.settings import read_settings
from plankit.publish.site import RECORD, Published, publish
from tests.publish.cells import code, saved
from tests.publish.conftest import SAMPLE

SETTINGS = """
title = "Tern Lane Tool Library"
subtitle = "Plans for our shop, or yours; all invented."
address = "https://example.org/plans"
author = "Tern Lane (invented)"
notebooks = ["../notebooks/*.ipynb"]
card = ["Outside size", "Time", "Cost"]
"""


def rewrite(path: Path, old: str, new: str) -> None:
    """Change words in a file as an editor does: a new file in place of the old."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shutil.copytree(SAMPLE, tmp_path / "notebooks")
    (tmp_path / "notebooks" / "note.md").write_text("glue")
    site = tmp_path / "site"
    site.mkdir()
    (site / "site.toml").write_text(SETTINGS)
    (site / "about.md").write_text("# About us\n\nAn *invented* library.\n\n## How\n\nBy notebook.")
    return site


def built(folder: Path) -> Published:
    return publish(read_settings(folder), lambda name: lambda done, of: None)


def tree(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()
    }


def test_a_site_has_a_front_page_a_page_for_each_plan_its_own_pages_and_a_feed(folder: Path):
    done = built(folder)
    assert [(o.notebook, o.slug, o.state) for o in done.outcomes] == [
        ("shoe-rack.ipynb", "shoe-rack", "made")
    ]
    drawings = {
        f"shoe-rack/figures/{n}.svg"
        for n in ("whole", "front", "step-1", "step-2", "step-3", "part-a", "cut-1")
    }
    assert set(tree(folder / "public")) == drawings | {
        "index.html", "about/index.html", "feed.xml", RECORD,
        "shoe-rack/index.html", "shoe-rack/plan.pdf", "shoe-rack/plan.json",
    }  # fmt: skip


def test_every_link_and_picture_of_the_site_is_there(folder: Path):
    built(folder)
    public = folder / "public"
    for page in public.rglob("*.html"):
        soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
        targets = [tag.get("href") or tag.get("src") for tag in soup.find_all(["a", "img", "link"])]
        for target in targets:
            if target and not target.startswith(("http", "#", "data:")):
                assert (page.parent / target).resolve().is_file(), (page, target)


def test_the_front_page_shows_each_plan_with_picture_size_time_and_cost(folder: Path):
    built(folder)
    soup = BeautifulSoup((folder / "public" / "index.html").read_text(encoding="utf-8"), "html.parser")
    card = soup.find("article")
    assert card.find("img")["src"] == "shoe-rack/figures/whole.svg"
    facts = {dt.text: dd.text for dt, dd in zip(card.find_all("dt"), card.find_all("dd"), strict=True)}
    assert facts == {"Outside size": "30 × 12 × 20 in", "Time": "2 h 30 min", "Cost": "$71.40"}


def test_a_second_run_makes_nothing_again_and_changes_no_byte(folder: Path):
    built(folder)
    before = tree(folder / "public")
    again = built(folder)
    assert [o.state for o in again.outcomes] == ["unchanged"]
    assert tree(folder / "public") == before


def test_the_same_sources_give_the_same_bytes_in_another_place(folder: Path, tmp_path: Path):
    built(folder)
    other = tmp_path / "elsewhere" / "deeper"
    shutil.copytree(tmp_path / "notebooks", other / "notebooks")
    shutil.copytree(folder, other / "site", ignore=shutil.ignore_patterns("public"))
    built(other / "site")
    assert tree(other / "site" / "public") == tree(folder / "public")


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("notebooks/shoe-rack.ipynb", "shelves = 3", "shelves = 4"),  # a parameter
        ("notebooks/shoe-rack.ipynb", "lie on the bench", "lie on the floor"),  # prose
        ("notebooks/plan.json", "A three-shelf rack", "A rack"),  # a file the notebook reads
        ("notebooks/note.md", "glue", "screws"),  # a text it may read
        ("site/site.toml", "example.org/plans", "example.org/other"),  # where it will be read
        ("site/site.toml", "Tern Lane Tool Library", "Tern Lane Tools"),  # what its pages are called by
        ("site/about.md", "# About us", "# Who we are"),  # what its links say
    ],
)
def test_a_change_in_what_a_plan_depends_on_makes_it_again(folder: Path, file: str, old: str, new: str):
    built(folder)
    rewrite(folder.parent / file, old, new)
    assert [o.state for o in built(folder).outcomes] == ["made"]


def test_a_change_in_plankit_itself_makes_plans_again(folder: Path, monkeypatch: pytest.MonkeyPatch):
    built(folder)
    monkeypatch.setattr(building.freshness, "own_files", lambda: ("publish/page.py other",))
    assert [o.state for o in built(folder).outcomes] == ["made"]


def test_another_version_of_a_package_makes_plans_again(folder: Path, monkeypatch: pytest.MonkeyPatch):
    built(folder)
    monkeypatch.setattr(building.freshness, "packages", lambda: ("weasyprint-0.1.dist-info",))
    assert [o.state for o in built(folder).outcomes] == ["made"]


def broken_by_cell(folder: Path) -> None:
    rewrite(folder.parent / "notebooks" / "shoe-rack.ipynb", "step(2)", "step(2) / 0")


def broken_by_finding(folder: Path) -> None:
    rewrite(folder.parent / "notebooks" / "plan.json", '"accepted": "Shoes weigh less."', '"accepted": ""')
    rewrite(folder.parent / "notebooks" / "plan.json", '"level": "look at"', '"level": "must fix"')


def broken_beyond_reading(folder: Path) -> None:
    (folder.parent / "notebooks" / "shoe-rack.ipynb").write_text("{")


@pytest.mark.parametrize("break_it", [broken_by_cell, broken_by_finding, broken_beyond_reading])
def test_a_plan_that_fails_leaves_its_last_good_page(folder: Path, break_it: Callable[[Path], None]):
    built(folder)
    before = tree(folder / "public")
    break_it(folder)
    done = built(folder)
    assert [o.state for o in done.failed] == ["kept"]
    assert tree(folder / "public") == before


def test_a_plan_that_never_worked_is_missing_and_the_others_are_published(folder: Path):
    saved(folder.parent / "notebooks" / "another.ipynb", code("1 / 0"))
    done = built(folder)
    assert [(o.notebook, o.state) for o in done.outcomes] == [
        ("another.ipynb", "missing"),
        ("shoe-rack.ipynb", "made"),
    ]
    assert "cell [1]: ZeroDivisionError" in done.failed[0].error


def test_a_plan_that_is_no_longer_among_the_notebooks_leaves_the_site(folder: Path):
    another = folder.parent / "notebooks" / "zz-cart.ipynb"
    shutil.copy(folder.parent / "notebooks" / "shoe-rack.ipynb", another)
    rewrite(another, "inside = Fraction", "plan['slug'] = 'cart'\\ninside = Fraction")
    built(folder)
    assert (folder / "public" / "cart" / "index.html").is_file()
    another.unlink()
    built(folder)
    assert not (folder / "public" / "cart").exists()
    assert "cart" not in (folder / "public" / "feed.xml").read_text()


def test_two_plans_of_one_address_are_told_apart(folder: Path):
    shutil.copy(
        folder.parent / "notebooks" / "shoe-rack.ipynb", folder.parent / "notebooks" / "zz-copy.ipynb"
    )
    done = built(folder)
    assert [o.state for o in done.outcomes] == ["made", "missing"]
    assert "another page of this address" in done.failed[0].error


def test_files_that_are_not_the_sites_are_never_taken_away(folder: Path):
    (folder / "public").mkdir()
    (folder / "public" / "thesis.doc").write_text("mine")
    with pytest.raises(AskedWrongly, match="did not build"):
        built(folder)
    assert tree(folder / "public") == {"thesis.doc": b"mine"}


def test_a_failure_in_the_sites_own_pages_leaves_the_site_as_it_was(folder: Path):
    built(folder)
    before = tree(folder / "public")
    (folder / "about.md").write_text("# About\n\n![gone](gone.png)")
    with pytest.raises(PlanError, match=r"about\.md"):
        built(folder)
    assert tree(folder / "public") == before
    assert [p.name for p in folder.iterdir() if p.name.startswith(".")] == []


def test_stored_pages_are_those_the_record_names(folder: Path):
    built(folder)
    record: dict[str, Any] = json.loads((folder / "public" / RECORD).read_text())
    assert list(record["plans"]) == ["../notebooks/shoe-rack.ipynb"]
    assert record["plans"]["../notebooks/shoe-rack.ipynb"]["slug"] == "shoe-rack"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("title = ", "cannot be read"),
        ('title = "T"\nauthor = "R. T."', "the site has no address"),
        (SETTINGS + "colour = 'red'", "there is no setting called colour"),
        (SETTINGS.replace("title =", "titel =", 1), "Did you mean title"),
        (SETTINGS.replace('["Outside size", "Time", "Cost"]', '"Time"'), "card takes a list of texts"),
        (SETTINGS.replace("*.ipynb", "none.ipynb"), "no notebook is found there"),
    ],
)
def test_settings_that_cannot_be_used_are_named(folder: Path, text: str, words: str):
    (folder / "site.toml").write_text(text)
    with pytest.raises(PlanError, match=words):
        read_settings(folder)


def test_a_folder_without_settings_holds_no_site(tmp_path: Path):
    with pytest.raises(AskedWrongly, match="holds no site"):
        read_settings(tmp_path)


def links(page: Path) -> dict[str, str]:
    soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
    return {str(a["href"]): a.text.strip() for a in soup.find_all("a", href=True)}


def test_a_new_page_of_the_sites_own_is_linked_from_plans_that_did_not_change(folder: Path):
    built(folder)
    (folder / "visit.md").write_text("# Where we are")
    built(folder)
    assert links(folder / "public" / "shoe-rack" / "index.html")["../visit/index.html"] == "Where we are"


def test_a_page_of_the_sites_own_never_takes_the_place_of_a_plan(folder: Path):
    built(folder)
    before = tree(folder / "public")
    (folder / "shoe-rack.md").write_text("# Shoe racks in general")
    with pytest.raises(PlanError, match=r"shoe-rack\.md: this page would take the place of the last good page"):
        built(folder)
    assert tree(folder / "public") == before


def test_a_new_plan_with_the_address_of_a_page_is_told_so(folder: Path):
    (folder / "shoe-rack.md").write_text("# Shoe racks in general")
    done = built(folder)
    assert [o.state for o in done.outcomes] == ["missing"]
    assert "another page of this address" in done.failed[0].error
    assert "in general" in (folder / "public" / "shoe-rack" / "index.html").read_text(encoding="utf-8")


def test_names_of_own_pages_become_addresses(folder: Path):
    (folder / "Über uns #1.md").write_text("# Wer wir sind", encoding="utf-8")
    built(folder)
    assert (folder / "public" / "uber-uns-1" / "index.html").is_file()
    assert "uber-uns-1/index.html" in links(folder / "public" / "index.html")
    (folder / "über-uns-1.md").write_text("Again", encoding="utf-8")
    with pytest.raises(PlanError, match="the address of"):
        built(folder)


def test_a_page_whose_name_gives_no_address_is_refused(folder: Path):
    (folder / "工具.md").write_text("# Tools", encoding="utf-8")
    with pytest.raises(PlanError, match="no address can be made"):
        built(folder)


def test_own_pages_carry_their_pictures(folder: Path):
    (folder / "shop.png").write_bytes(b"ABC")
    (folder / "about.md").write_text("# About\n\n![The shop](shop.png)")
    built(folder)
    page = BeautifulSoup((folder / "public" / "about" / "index.html").read_text(encoding="utf-8"), "html.parser")
    assert page.find("img")["src"] == "data:image/png;base64,QUJD"  # "ABC" in base64


def test_links_of_own_pages_that_lead_nowhere_are_noted(folder: Path):
    (folder / "about.md").write_text(
        "[rack](../shoe-rack/) [data](../shoe-rack/plan.json) [far](https://example.org/) [here](#how)\n\n## How\n\n"
        "[gone](../stool/index.html) [typo](nope.html) [up](#nope)"
    )
    assert built(folder).notes == (
        "about.md: the link to “../stool/index.html” leads nowhere on the site",
        "about.md: the link to “nope.html” leads nowhere on the site",
        "about.md: the link to “#nope” leads nowhere on the site",
    )


def test_links_out_of_a_plan_that_lead_nowhere_are_noted(folder: Path):
    rewrite(
        folder.parent / "notebooks" / "shoe-rack.ipynb", "for the hall", "for the [hall](../hall/) or [us](../about/)"
    )
    assert built(folder).notes == ("shoe-rack: the link to “../hall/” leads nowhere on the site",)


def a_folder(folder: Path) -> None:
    (folder / "a.ipynb").mkdir()


def half_a_letter(folder: Path) -> None:
    """Not text that UTF-8 can hold, in a title that the whole site shows."""
    shutil.copy(folder / "shoe-rack.ipynb", folder / "a.ipynb")
    rewrite(folder / "a.ipynb", "inside = Fraction", "print('\\\\ud800'); plan['slug'] = 'a'\\ninside = Fraction")


def a_strange_document(folder: Path) -> None:
    """A plan document without its steps: no page can be made of it."""
    shutil.copy(folder / "shoe-rack.ipynb", folder / "a.ipynb")
    rewrite(folder / "a.ipynb", "inside = Fraction", "del plan['steps']\\ninside = Fraction")


@pytest.mark.parametrize(
    ("spoil", "state", "said"),
    [
        (a_folder, "missing", "there is no such notebook"),
        (half_a_letter, "made", ""),
        (a_strange_document, "missing", "this plan cannot be made: KeyError: 'steps'"),
    ],
)
def test_one_notebook_does_not_keep_the_others_back(
    folder: Path, spoil: Callable[[Path], None], state: str, said: str
):
    spoil(folder.parent / "notebooks")
    done = built(folder)
    assert [(o.notebook, o.state) for o in done.outcomes] == [("a.ipynb", state), ("shoe-rack.ipynb", "made")]
    assert said in done.outcomes[0].error


def test_an_own_page_that_is_not_utf_8_is_named(folder: Path):
    (folder / "about.md").write_bytes("# Über uns".encode("latin-1"))
    with pytest.raises(PlanError, match=r"about\.md: this page is not written in UTF-8"):
        built(folder)
