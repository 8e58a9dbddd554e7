"""From a packing to how each sheet is cut apart, exactly, with the biggest offcut in one piece."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil

from plankit.cutting.job import Job
from plankit.cutting.layout import Frame, Layout, layout_of
from plankit.cutting.pack import Pack, Sheet
from plankit.cutting.saws import HELD, LEDGE
from plankit.cutting.slicing import Cell, Shape, Spot, laid_out, shapes_of
from plankit.cutting.solver import Work, squeeze
from plankit.cutting.strips import missing_parts, parts_of
from plankit.cutting.verify import verify
from plankit.cutting.whole_job import Group, Want, Way

_MOST_SQUEEZED = 12
_ALIKE = Fraction(1, 10)
"""Offcuts that differ by less than a tenth of the sheet are alike to a shop that weighs them against settings."""
_WORTH = Fraction(1, 20)


def settled(pack: Pack, group: Group, job: Job) -> Pack | None:
    """Return the packing cut apart exactly and verified against the job; None where anything is wrong with it."""
    sheets = tuple(_cut_apart(sheet, group, job) for sheet in pack.sheets)
    if any(sheet is None for sheet in sheets):
        return None
    found = replace(pack, sheets=_merged(tuple(sheet for sheet in sheets if sheet is not None)))
    return None if wrong(found, group, job) else found


def wrong(pack: Pack, group: Group, job: Job) -> bool:
    """Whether the verifier finds anything against the packing, as the answer to the group's part of the job."""
    names = {name for want in group.wants for name in parts_of(job, want.name)}
    missing = missing_parts(job, ((want.name, n) for want, n in zip(group.wants, pack.missing(group), strict=True)))
    part = replace(job, pieces=tuple(piece for piece in job.pieces if piece.name in names))
    return bool(verify(part, layouts(pack, group, job), missing))


def layouts(pack: Pack, group: Group, job: Job, first: int = 1) -> tuple[Layout, ...]:
    """Return the layouts of a settled packing, numbered from `first`."""
    found = []
    for number, sheet in enumerate(pack.sheets, start=first):
        if sheet.cell is not None:
            frame = Frame(group, job.kind(group.rooms[sheet.kind].name), job)
            name = f"{'b' if group.board else 's'}{number}"
            found.append(replace(layout_of(sheet.cell, frame, name), copies=sheet.copies))
    return tuple(found)


def squeezed(pack: Pack, group: Group, job: Job) -> Pack:
    """Return the packing with every sheet that has room pushed together where that leaves a bigger offcut."""
    if group.board or group.stages == 1:
        return pack
    sheets = []
    for number, sheet in enumerate(sorted(pack.sheets, key=lambda s: -_free(s, group))):
        worth = number < _MOST_SQUEEZED and _free(sheet, group) > _WORTH
        sheets.append(_squeezed(sheet, group, job) if worth else sheet)
    found = replace(pack, sheets=_merged(tuple(sheets)))
    return pack if wrong(found, group, job) else found


def _squeezed(sheet: Sheet, group: Group, job: Job) -> Sheet:
    counts = Counter(spot.want for spot in sheet.spots)
    places = sorted(counts)
    part = replace(group, wants=tuple(replace(group.wants[n], quantity=counts[n]) for n in places))
    best = sheet
    for pack in _other_ways(part, sheet.kind):
        if pack is None or any(pack.missing(part)) or len(pack.sheets) != 1:
            continue
        spots = tuple(replace(spot, want=places[spot.want]) for spot in pack.sheets[0].spots)
        new = _cut_apart(Sheet(sheet.kind, sheet.copies, spots), group, job)
        if new is not None and _rank(new.cell, sheet.kind, group, job) < _rank(
            best.cell, sheet.kind, group, job
        ):
            best = new
    return best


def _other_ways(part: Group, kind: int) -> Iterator[Pack | None]:
    """Give other packings of the same pieces on one sheet: pushed together along and across it, and in strips."""
    for stages in (3, 2):
        if part.stages is None or stages <= part.stages:
            for along in (True, False):
                yield squeeze(part, kind, Work(stages, 64), along=along)


def _free(sheet: Sheet, group: Group) -> Fraction:
    used = sum(spot.along * spot.across for spot in sheet.spots)
    return 1 - Fraction(used, group.rooms[sheet.kind].area)


def _cut_apart(sheet: Sheet, group: Group, job: Job) -> Sheet | None:
    """Return the sheet with its best tree of cuts, and its pieces where that tree puts them."""
    room, small = group.rooms[sheet.kind], _small(group, job)
    spots = tuple(_told(spot, group.wants[spot.want]) for spot in sheet.spots)
    cells = [
        cell
        for shape in shapes_of(spots)
        for axis in ("x", "y")
        if (cell := laid_out(_exact(shape, group), room.along, room.across, axis, small)) is not None
        and (group.stages is None or cell.stages() <= group.stages)
    ]
    if not cells:
        return None
    cell = min(cells, key=lambda c: _rank(c, sheet.kind, group, job))
    return Sheet(sheet.kind, sheet.copies, _spots(cell, 0, 0), cell)


def _small(group: Group, job: Job) -> tuple[int, int]:
    """Extents along and across below which a piece is hard to hold at the end of a row, in whole numbers."""
    held = max((saw.held for saw in job.saws if saw.way == "stop"), default=HELD)
    return (ceil(held / group.measure) + group.kerf, 0 if group.board else ceil(LEDGE / group.measure) + group.kerf)


type _Rank = tuple[int | Fraction, ...]


def _rank(cell: Cell | None, kind: int, group: Group, job: Job) -> _Rank:
    """Compare ways to cut one sheet apart, best first: as the shop prefers, then the largest offcut and few cuts."""
    if cell is None:
        return (1,)
    frame = Frame(group, job.kind(group.rooms[kind].name), job)
    largest = max((waste.along * waste.across for waste in cell.wastes() if frame.keeps(waste)), default=0)
    alike = group.rooms[kind].area * _ALIKE
    measures: dict[str, int] = {
        "large offcut": -int(largest / alike),
        "few settings": cell.settings(),
        "whole strips": cell.stages(),
    }
    return (0, *(measures[name] for name in job.prefer), -largest, cell.stages(), cell.cuts())


def _told(spot: Spot, want: Want) -> Spot:
    """Say whether a piece is turned, which a solver's rectangle only shows by its shape."""
    return replace(spot, turned=_way(spot, want).turned)


def _way(spot: Spot, want: Want) -> Way:
    for way in want.ways:
        if (way.along >= way.across) == (spot.along >= spot.across):
            return way
    return want.ways[0]


def _exact(shape: Shape, group: Group) -> Shape:
    """Give a tree's pieces their exact sizes."""
    if shape.axis is not None:
        return replace(shape, parts=tuple(_exact(part, group) for part in shape.parts))
    way = next(way for way in group.wants[shape.want].ways if way.turned == shape.turned)
    return replace(shape, along=way.along, across=way.across)


def _spots(cell: Cell, x: int, y: int) -> tuple[Spot, ...]:
    if cell.want >= 0:
        return (Spot(cell.want, cell.turned, x, y, cell.along, cell.across),)
    found: tuple[Spot, ...] = ()
    for part in cell.parts:
        found += _spots(part, x, y)
        x, y = (x + part.along, y) if cell.axis == "x" else (x, y + part.across)
    return found


def _merged(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """Count sheets cut the same as copies; fullest first within a kind."""
    copies: dict[tuple[int, Cell | None], Sheet] = {}
    for sheet in sheets:
        key = (sheet.kind, sheet.cell)
        known = copies.get(key)
        copies[key] = sheet if known is None else replace(known, copies=known.copies + sheet.copies)
    return tuple(sorted(copies.values(), key=_fullest_first))


def _fullest_first(sheet: Sheet) -> tuple[int, int, int, tuple[tuple[int, int, int], ...]]:
    used = sum(spot.along * spot.across for spot in sheet.spots)
    return (sheet.kind, -used, -sheet.copies, tuple((spot.want, spot.x, spot.y) for spot in sheet.spots))
