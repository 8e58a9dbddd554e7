"""What the commands do: call one function of the publisher and say what came of it."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any

import click

from plankit.app.progress import shown_progress
from plankit.errors import AskedWrongly
from plankit.publish import making
from plankit.publish.document import find_document, stopping, told_lines
from plankit.publish.findings import told
from plankit.publish.run import run


def settings_of(given: Iterable[str]) -> dict[str, str]:
    """Return `NAME=VALUE` words as names and values.

    raises  AskedWrongly for a word without "=" or without a name, or a name given twice
    """
    settings: dict[str, str] = {}
    for word in given:
        name, equals, value = word.partition("=")
        if not equals or not name.strip():
            raise AskedWrongly(
                "--set takes a parameter and its new value", given=word, remedy="For instance  --set width=50"
            )
        if name.strip() in settings:
            raise AskedWrongly(
                f"--set gives {name.strip()} twice",
                given=f"{settings[name.strip()]} and {value.strip()}",
                remedy="Give each parameter one value.",
            )
        settings[name.strip()] = value.strip()
    return settings


def make_plan(
    notebook: Path,
    given: Iterable[str],
    kinds: Iterable[str],
    into: Path | None,
    *,
    kernel: bool,
    quiet: bool,
    as_json: bool,
) -> int:
    """Make a plan and print where it is; return the exit code."""
    settings, wanted = settings_of(given), making.known_kinds(kinds)
    place = notebook.parent / "built" if into is None else into
    with shown_progress(hidden=quiet or as_json) as telling:
        made = making.make(notebook, settings, wanted, place, kernel=kernel, progress=telling(notebook.name))
    if as_json:
        fields = {"exit": 0, "title": made.title, "slug": made.slug, "folder": str(made.folder),
                  "files": list(made.files), "findings": list(made.findings)}  # fmt: skip
        print_json(fields)
    elif not quiet:
        click.echo(f"{made.title} is in {made.folder}")
        for name in made.files:
            if not name.startswith("figures/"):
                click.echo(f"  {made.folder / name}")
        click.echo(counted(made.findings))
    return 0


def counted(findings: Iterable[Mapping[str, Any]]) -> str:
    """Return how many findings of each level there are, counted as the page tells them."""
    lines = told(findings)
    levels = [one.level for one in lines]
    if not levels:
        return "The checks have nothing to say."
    accepted = [one.level for one in lines if one.accepted]
    return "Findings: " + ", ".join(
        f"{levels.count(level)} {level}" + (f" ({accepted.count(level)} accepted)" if level in accepted else "")
        for level in dict.fromkeys(levels)
    )


def check_plan(notebook: Path, given: Iterable[str], *, kernel: bool, quiet: bool, as_json: bool) -> int:
    """Print what the checks find in a plan; return the exit code."""
    settings = settings_of(given)
    with shown_progress(hidden=quiet or as_json) as telling:
        document = find_document(run(notebook, settings, kernel=kernel, progress=telling(notebook.name)))
    stops, findings = stopping(document), document["findings"]
    code = 1 if stops else 0
    if as_json:
        print_json({"exit": code, "title": document["title"], "findings": findings})
        return code
    for line in told_lines(stops if quiet else findings):
        click.echo(line)
    if not quiet and not findings:
        click.echo("The checks have nothing to say.")
    return code


def make_site(folder: Path, *, kernel: bool, quiet: bool, as_json: bool) -> int:
    """Build a site and print where to open it; return the exit code."""
    from plankit.publish.settings import read_settings
    from plankit.publish.site import publish

    settings = read_settings(folder)
    with shown_progress(hidden=quiet or as_json) as telling:
        published = publish(settings, telling, kernel=kernel)
    code = 1 if published.failed else 0
    front = published.folder / "index.html"
    if as_json:
        plans = [asdict(outcome) for outcome in published.outcomes]
        print_json({"exit": code, "open": str(front), "plans": plans, "notes": list(published.notes)})
        return code
    for outcome in published.outcomes:
        if outcome.error:
            stays = "; its last good page stays" if outcome.state == "kept" else ""
            click.echo(f"plankit: {outcome.notebook} failed{stays}:\n{outcome.error}", err=True)
        elif not quiet:
            click.echo(f"{outcome.title}: {outcome.state}")
    for note in published.notes:
        click.echo(f"plankit: {note}", err=True)
    if not quiet:
        click.echo(f"Open {front}")
    return code


def print_json(fields: Mapping[str, Any]) -> None:
    """Print a result as JSON on standard output."""
    click.echo(json.dumps(fields, ensure_ascii=False, indent=1))
