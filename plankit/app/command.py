"""The `plankit` command. Exit codes: 0 done, 1 it failed, 2 it was asked wrongly."""

import errno
import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from plankit.errors import AskedWrongly, PlanError, PlankitError

NOTEBOOK = click.argument("notebook", type=click.Path(path_type=Path))
SETTINGS = click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME=VALUE",
    help="Give a parameter another value. May be repeated.",
)
KERNEL = click.option("--kernel", is_flag=True, help="Run the notebook in a Jupyter kernel.")
QUIET = click.option("--quiet", is_flag=True, help="Print only what is wrong.")
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")


def _shared(command: Callable[..., Any]) -> Callable[..., Any]:
    return KERNEL(QUIET(AS_JSON(command)))


@click.group(context_settings={"help_option_names": ["--help", "-h"], "max_content_width": 100})
@click.version_option(package_name="plankit", message="plankit %(version)s")
def plankit() -> None:
    """Furniture build plans from notebooks: pages, PDFs, cutting drawings and a site."""


@plankit.command()
@NOTEBOOK
@SETTINGS
@click.option(
    "--to",
    "kinds",
    multiple=True,
    metavar="html|pdf|json",
    help="What to make. May be repeated. [default: all]",
)
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where its folder goes. [default: built/ beside it]",
)
@_shared
def make(
    notebook: Path, settings: tuple[str, ...], kinds: tuple[str, ...], into: Path | None, **shown: bool
) -> None:
    """Make the plan of a NOTEBOOK: its page, its PDF, its data and its drawings."""
    from plankit.app.work import make_plan

    _finish(lambda: make_plan(notebook, settings, kinds, into, **shown), as_json=shown["as_json"])


@plankit.command()
@NOTEBOOK
@SETTINGS
@_shared
def check(notebook: Path, settings: tuple[str, ...], **shown: bool) -> None:
    """Say what the checks find in the plan of a NOTEBOOK."""
    from plankit.app.work import check_plan

    _finish(lambda: check_plan(notebook, settings, **shown), as_json=shown["as_json"])


@plankit.command()
@NOTEBOOK
@SETTINGS
@_shared
def built(notebook: Path, settings: tuple[str, ...], **shown: bool) -> None:
    """Say that the plan of a NOTEBOOK was built: bring the offcuts in its shop file up to date.

    The offcuts that the plan used are taken out of the file, those it leaves are put in, and the file notes that this
    version was built; nothing else in it changes. The same version is not built twice.
    """
    from plankit.app.built import plan_built

    _finish(lambda: plan_built(notebook, settings, **shown), as_json=shown["as_json"])


@plankit.command()
@click.argument("job", type=click.Path(path_type=Path, allow_dash=True))
@click.option("--seconds", type=click.FloatRange(min=0, min_open=True), help="Look for better for so long.")
@click.option(
    "--into", type=click.Path(path_type=Path, dir_okay=False), help="Write the result to this file."
)
@QUIET
def cut(job: Path, seconds: float | None, into: Path | None, quiet: bool) -> None:
    """Lay the pieces of a JOB (a JSON file; - for standard input) out on boards and sheets."""
    from plankit.app.cutting import cut_job

    _finish(lambda: cut_job(job, seconds, into, quiet=quiet), as_json=False)


@plankit.command()
@click.argument("folder", default="site", type=click.Path(path_type=Path), metavar="[SITE_FOLDER]")
@_shared
def site(folder: Path, **shown: bool) -> None:
    """Build the site in SITE_FOLDER (default: site) into its folder public/."""
    from plankit.app.work import make_site

    _finish(lambda: make_site(folder, **shown), as_json=shown["as_json"])


def _finish(work: Callable[[], int], *, as_json: bool) -> None:
    """Do the work and end the process with its exit code, or with the words of what went wrong."""
    try:
        code = _done(work, as_json=as_json)
    except OSError as error:
        if error.errno == errno.EPIPE:
            raise  # whoever read the output has stopped; click ends quietly
        code = 1
        _let_go_of_output()
        _say(_cannot(error), code, as_json=False)
    sys.exit(code)


def _done(work: Callable[[], int], *, as_json: bool) -> int:
    try:
        return work()
    except PlankitError as error:
        code = 2 if isinstance(error, AskedWrongly) else 1
        _say(error, code, as_json=as_json)
    except KeyboardInterrupt:
        code = 1
        _say(PlanError("stopped before it was done; nothing was changed"), code, as_json=as_json)
    return code


def _cannot(error: OSError) -> PlanError:
    """Return what to say of a file, or of the output itself, that cannot be read or written."""
    where = str(error.filename) if error.filename else "the output"
    return PlanError(f"this cannot be read or written: {error.strerror or error}", where=where)


def _let_go_of_output() -> None:
    """Send what is still waiting for standard output nowhere, so that the process ends in peace."""
    import os

    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        return  # it is no file: nothing waits


def _say(error: PlankitError, code: int, *, as_json: bool) -> None:
    if as_json:
        import json

        fields = {"what": error.what, "where": error.where, "given": error.given, "remedy": error.remedy}
        click.echo(json.dumps({"exit": code, "error": fields}, ensure_ascii=False, indent=1))
        return
    click.echo(f"plankit: {error.text()}", err=True)


def main() -> None:
    """Run the command; what the terminal cannot show of a text is written as its code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")
    plankit.main(prog_name="plankit")
