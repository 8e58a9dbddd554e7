"""`plankit cut`: a job file in, a result out."""

import math
import sys
from pathlib import Path

import click

from plankit.app.progress import shown_search
from plankit.errors import AskedWrongly


def cut_job(job: Path, seconds: float | None, into: Path | None, *, quiet: bool) -> int:
    """Cut the job in a file ("-" for standard input), write or print the result, and return the exit code.

    raises  AskedWrongly for a job that cannot be read; PlanError for one that cannot be cut, or a full disk
    """
    from plankit.cutting import cut, list_of_cuts, read_job, result_json

    if seconds is not None and not math.isfinite(seconds):
        remedy = "For instance  --seconds 30"
        raise AskedWrongly("--seconds takes a number of seconds", given=str(seconds), remedy=remedy)
    asked = read_job(_text(job))
    with shown_search(seconds, hidden=quiet) as watch:
        result = cut(asked, seconds, watch)
    text = result_json(result)
    if into is None:
        click.echo(text, nl=False)
    else:
        from plankit.publish.keep import place_file

        place_file(into, text.encode())
    if not quiet:
        if _seen():
            click.echo(list_of_cuts(result), err=True)
        click.echo(result.in_words(), err=True)
    for trouble in result.troubles:
        number = f" ({trouble.number})" if trouble.number else ""
        click.echo(f"plankit: not for one person with these saws: {trouble.place}: {trouble.what}{number}", err=True)
    for name, count in result.missing:
        click.echo(f"plankit: not cut: {count} of {name}", err=True)
    return 0 if result.complete else 1


def _seen() -> bool:
    """Whether somebody reads along: the list of cuts is for a person, the result for programs."""
    return sys.stderr.isatty()


def _text(job: Path) -> str:
    try:
        given = sys.stdin.buffer.read() if str(job) == "-" else job.read_bytes()
        return given.decode("utf-8-sig")
    except FileNotFoundError as error:
        raise AskedWrongly("there is no such job file", given=str(job)) from error
    except (OSError, UnicodeDecodeError) as error:
        raise AskedWrongly(
            "this job file cannot be read", given=str(job), remedy="Give a JSON file."
        ) from error
