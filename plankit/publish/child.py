"""The process a notebook runs in: it takes a notebook, runs it, and tells what became of it, line by line.

Each line of the answer is a JSON object: `done` (cells done so far), then `cells` (the cells as they are
after the run) or `error` (what went wrong, as the fields of a `PlanError`).
"""

import json
import os
import sys
from pathlib import Path
from typing import Any, TextIO

from plankit.errors import PlanError, PlankitError


def serve(cells: list[dict[str, Any]], folder: str, answer: TextIO) -> None:
    """Run cells with `folder` as the working folder and write what became of them to `answer`."""
    from plankit.publish.pictures import take_displayed_along
    from plankit.publish.shell import run_cells

    def tell(**fields: Any) -> None:
        answer.write(json.dumps(fields, default=str) + "\n")
        answer.flush()

    try:
        os.chdir(folder)
        sys.path.insert(0, "")
        run_cells(cells, lambda count: tell(done=count))
        take_displayed_along(cells, Path(folder))
    except PlankitError as error:
        tell(error=as_fields(error))
    except Exception as error:
        tell(error=as_fields(PlanError(f"the notebook could not be run: {type(error).__name__}: {error}")))
    else:
        tell(cells=cells)


def as_fields(error: PlankitError) -> dict[str, str]:
    """Return an error as plain text fields, to send it to another process."""
    return {"what": error.what, "where": error.where, "given": error.given, "remedy": error.remedy}


def main() -> None:
    """Serve one request read from standard input; the answer goes to standard output."""
    with os.fdopen(os.dup(1), "w", encoding="utf-8") as answer:
        request = json.loads(sys.stdin.read())
        serve(request["cells"], str(Path(request["folder"])), answer)


if __name__ == "__main__":
    main()
