"""The pages in a real browser: its console is quiet, axe finds nothing, nothing scrolls sideways."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from plankit.publish.settings import read_settings
from plankit.publish.site import publish
from tests.publish.conftest import BENCH, SAMPLE
from tests.publish.test_site import SETTINGS

PAGES = ("index.html", "about/index.html", "shoe-rack/index.html", "boot-bench/index.html")
WIDTHS = (320, 360, 390, 1280)  # WCAG 1.4.10 asks for 320


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if path is None:
        if os.environ.get("CI") == "true":
            pytest.fail("chromium is not installed, and the tests in a browser must run here")
        pytest.skip("chromium is not installed")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        one = play.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield one
        one.close()


@pytest.fixture(scope="module")
def public(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("tern-lane")
    shutil.copytree(SAMPLE, root / "notebooks")
    for part in BENCH.parent.iterdir():
        if part.suffix in {".ipynb", ".toml"}:
            shutil.copy(part, root / "notebooks")
    (root / "site").mkdir()
    (root / "site" / "site.toml").write_text(SETTINGS)
    (root / "site" / "about.md").write_text("# About us\n\nAn *invented* library.\n\n## How\n\nBy notebook.")
    return publish(read_settings(root / "site"), lambda name: lambda done, of: None).folder


@pytest.fixture
def opened(browser: Any) -> Iterator[Any]:
    """Open a page at a width; complaints of the console and failed requests are gathered on the way."""
    pages = []

    def look(path: Path, width: int) -> Any:
        page = browser.new_page(viewport={"width": width, "height": 800})
        page.complaints = []
        page.on("console", lambda message: page.complaints.append(message.text))
        page.on("pageerror", lambda error: page.complaints.append(str(error)))
        page.on("requestfailed", lambda request: page.complaints.append(request.url))
        page.goto(path.as_uri())
        pages.append(page)
        return page

    yield look
    for page in pages:
        page.close()


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", PAGES)
def test_no_page_scrolls_sideways_and_no_console_complains(opened: Any, public: Path, name: str, width: int):
    page = opened(public / name, width)
    assert page.complaints == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("name", PAGES)
def test_axe_finds_nothing(opened: Any, public: Path, name: str, width: int):
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(opened(public / name, width))
    assert found.violations_count == 0, found.generate_report()


def test_tables_keep_their_meaning_when_they_reflow(opened: Any, public: Path):
    page = opened(public / "shoe-rack" / "index.html", 360)
    table = page.get_by_role("table", name="What to buy")
    assert table.get_by_role("row").count() == 4  # a head and three things to buy
    assert table.get_by_role("columnheader").count() == 6
    assert table.get_by_role("rowheader").count() == 3


def test_a_wide_drawing_moves_in_its_own_frame_on_a_phone(opened: Any, public: Path):
    page = opened(public / "boot-bench" / "index.html", 390)
    measured = "fs => fs.map(f => [f.scrollWidth, f.clientWidth])"
    sizes = page.eval_on_selector_all(".figure:not(.whole) .figure-drawing", measured)
    assert max(inside for inside, _ in sizes) == 560
    assert max(frame for _, frame in sizes) < 390


@pytest.mark.parametrize("name", ["shoe-rack", "boot-bench"])
def test_the_first_drawing_is_seen_whole_on_a_phone(opened: Any, public: Path, name: str):
    page = opened(public / name / "index.html", 390)
    inside, frame = page.eval_on_selector(".whole .figure-drawing", "f => [f.scrollWidth, f.clientWidth]")
    assert inside == frame < 390


def test_every_link_is_large_enough_to_touch(opened: Any, public: Path):
    # WCAG 2.5.8: 24 by 24 CSS pixels, but for links in a sentence
    page = opened(public / "shoe-rack" / "index.html", 360)
    heights = page.eval_on_selector_all(
        "nav a, .house a", "links => links.map(l => l.getBoundingClientRect().height)"
    )
    assert heights
    assert min(heights) >= 24


def test_the_keyboard_can_skip_to_the_plan(opened: Any, public: Path):
    page = opened(public / "shoe-rack" / "index.html", 1280)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the plan"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "plan"


def test_the_font_of_the_page_is_its_own(opened: Any, public: Path):
    page = opened(public / "shoe-rack" / "index.html", 1280)
    page.evaluate("document.fonts.ready")
    loaded = page.evaluate("[...document.fonts].filter(f => f.status === 'loaded').map(f => f.weight)")
    assert sorted(loaded) == ["400", "700"]


def test_figures_do_not_break_across_printed_pages(opened: Any, public: Path):
    page = opened(public / "shoe-rack" / "index.html", 1280)
    page.emulate_media(media="print")
    assert page.eval_on_selector("figure", "f => getComputedStyle(f).breakInside") == "avoid"
    assert page.eval_on_selector(".contents", "n => getComputedStyle(n).display") == "none"
