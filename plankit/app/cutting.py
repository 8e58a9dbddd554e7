"""`plankit cut`: a job file in, a result out."""

import sys
from pathlib import Path

import click

from plankit.errors import AskedWrongly


def cut_job(job: Path, seconds: float | None, into: Path | None, *, quiet: bool) -> int:
    """Cut the job in a file ("-" for standard input), write or print the result, and return the exit code.

    raises  AskedWrongly for a job that cannot be read; PlanError for one that cannot be cut, or a full disk
    """
    from plankit.cutting import cut, read_job, result_json

    result = cut(read_job(_text(job)), seconds)
    text = result_json(result)
    if into is None:
        click.echo(text, nl=False)
    else:
        from plankit.publish.keep import place

        place(into.resolve().parent, {into.name: text.encode()})
    if not quiet:
        click.echo(result.in_words(), err=True)
    for name, count in result.missing:
        click.echo(f"plankit: not cut: {count} of {name}", err=True)
    return 0 if result.complete else 1


def _text(job: Path) -> str:
    if str(job) == "-":
        return sys.stdin.read()
    try:
        return job.read_text(encoding="utf-8")
    except FileNotFoundError as error:
        raise AskedWrongly("there is no such job file", given=str(job)) from error
    except (OSError, UnicodeDecodeError) as error:
        raise AskedWrongly(
            "this job file cannot be read", given=str(job), remedy="Give a JSON file."
        ) from error
