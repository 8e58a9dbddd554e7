"""How long a plan takes to publish, beside `jupyter nbconvert --execute` of the same notebook.

    python tests/bench/publish.py [NOTEBOOK] [--times 5]

Every figure is the median of so many goes in one run. Nothing here is a test: times depend on the machine, so the
ratios to nbconvert's own time are what to compare between machines.
"""

import argparse
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).parents[2]


def median(work: Callable[[], object], times: int) -> float:
    """Return the median time of some work, in seconds."""
    spent = []
    for _ in range(times):
        begun = time.perf_counter()
        work()
        spent.append(time.perf_counter() - begun)
    return statistics.median(spent)


def command(*words: str | Path) -> Callable[[], object]:
    """Return the work of a command in a new process."""
    line = [str(word) for word in words]
    return lambda: subprocess.run(line, check=True, capture_output=True, cwd=ROOT)


def warm_work(notebook: Path, kinds: tuple[str, ...], into: Path) -> Callable[[], object]:
    """Return the work of making a plan again in this process, one parameter changed each time."""
    from plankit.publish import making
    from plankit.publish.notebook import parameters, read
    from plankit.publish.run import warm

    warm()
    making.get_ready(making.KINDS)
    name = next(iter(parameters(read(notebook))), None)
    values = iter(range(44, 10_000))

    def work() -> object:
        settings = {name: str(next(values))} if name else {}
        return making.make(notebook, settings, kinds, into, kernel=False, progress=lambda done, of: None)

    work()
    return work


def main() -> None:
    """Measure and print."""
    words = argparse.ArgumentParser(description="How long a plan takes to publish.")
    words.add_argument("notebook", nargs="?", type=Path, default=ROOT / "notebooks" / "boot_bench.ipynb")
    words.add_argument("--times", type=int, default=5)
    asked = words.parse_args()
    notebook = asked.notebook.resolve()
    with tempfile.TemporaryDirectory() as folder:
        into = Path(folder)
        python = sys.executable
        rows = {
            "plankit --help": command(python, "-m", "plankit", "--help"),
            "plankit make, cold": command(python, "-m", "plankit", "make", notebook, "--into", into),
            "warm: HTML again": warm_work(notebook, ("html",), into),
            "warm: HTML and PDF again": warm_work(notebook, ("html", "pdf"), into),
            "jupyter nbconvert --execute --to html": command(
                python, "-m", "nbconvert", "--execute", "--to", "html", "--output-dir", into, notebook
            ),
        }
        spent = {name: median(work, asked.times) for name, work in rows.items()}
    against = spent["jupyter nbconvert --execute --to html"]
    print(f"{notebook.name}, median of {asked.times}; share of nbconvert's time")
    for name, seconds in spent.items():
        print(f"{name:40} {seconds:7.3f} s  {seconds / against:6.2f}")


if __name__ == "__main__":
    main()
