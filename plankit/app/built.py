"""`plankit built`: the offcuts a plan took leave the shop file, those it left come into it."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from plankit.app.progress import shown_progress
from plankit.app.work import print_json, settings_of
from plankit.errors import PlanError
from plankit.plan.rack import note_of
from plankit.publish.document import Document, find_document, refuse_unfinished
from plankit.publish.keep import place_file
from plankit.publish.run import run
from plankit.shop import Built, Shop
from plankit.shop.reading import shop_of
from plankit.shop.writing import with_built
from plankit.stock import Offcut
from plankit.units import Length, exactly


def plan_built(notebook: Path, given: Iterable[str], *, kernel: bool, quiet: bool, as_json: bool) -> int:
    """Bring the shop file of a plan up to date, print what was changed in it, and return the exit code.

    raises  PlanError where a finding must be fixed, the plan names no shop file, or `with_built` refuses to change it;
            the file is as it was then
    """
    settings = settings_of(given)
    with shown_progress(hidden=quiet or as_json) as telling:
        document = find_document(run(notebook, settings, kernel=kernel, progress=telling(notebook.name)))
    refuse_unfinished(document)
    file = _shop_file(notebook, document)
    text = _text(file)
    before = shop_of(text, file.name)
    kept = [_offcut(one, document) for one in document["rack"]["kept"]]
    labels = tuple(one.label for one in kept)
    built = Built(document["slug"], document["version"], tuple(document["rack"]["used"]), labels)
    mark = Fraction(document["mark"] if before.unit == "in" else document["metric_mark"])
    changed = with_built(text, file.name, built, kept, mark)
    place_file(file, changed.encode())
    _tell(document, file, (before, shop_of(changed, file.name)), built, quiet=quiet, as_json=as_json)
    return 0


def _shop_file(notebook: Path, document: Document) -> Path:
    named = document.get("rack", {}).get("file")
    if not named:
        raise PlanError(
            "this plan names no shop file, so there is no list of offcuts to bring up to date",
            where=document["title"],
            remedy='Name it where the plan begins: Plan("…", shop="shop.toml")',
        )
    return notebook.resolve().parent / str(named)


def _text(file: Path) -> str:
    try:
        return file.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise PlanError("the shop file cannot be read; it is as it was", where=file.name) from error


def _offcut(kept: Mapping[str, Any], document: Document) -> Offcut:
    length, *width = (Length.of_mm(Fraction(size)) for size in kept["mm"])
    plan = f"{document['title']} {document['version']}".strip()
    note = note_of(f"{plan}, {kept['left_of']}", kept.get("note", ""))
    return Offcut(kept["stock"], length, width[0] if width else None, kept["label"], note)


def _tell(
    document: Document, file: Path, shops: tuple[Shop, Shop], built: Built, *, quiet: bool, as_json: bool
) -> None:
    taken = [_said(shops[0], label) for label in built.used]
    added = [_said(shops[1], label) for label in built.kept]
    if as_json:
        print_json({"exit": 0, "plan": built.plan, "version": built.version, "file": str(file), "used": taken,
                    "kept": added})  # fmt: skip
    elif not quiet:
        click.echo(f"{document['title']} {built.version} is built; {file} is brought up to date.")
        for words, offcuts in (("taken out", taken), ("put in", added)):
            for one in offcuts:
                size = " × ".join(str(one[name]) for name in ("length", "width") if name in one)
                click.echo(f"  {words}: {one['label']}, {one['stock']}, {size}")


def _said(shop: Shop, label: str) -> dict[str, str]:
    """One offcut as the file tells it, lengths with their unit."""
    one = next(offcut for offcut in shop.offcuts if offcut.label == label)
    fields = {"label": one.label, "stock": one.stock, "length": exactly(one.length, shop.unit)}
    return fields if one.width is None else fields | {"width": exactly(one.width, shop.unit)}
