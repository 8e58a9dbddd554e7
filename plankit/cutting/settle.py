"""From a packing to how each sheet is cut apart, exactly, with the biggest offcut in one piece."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction

from plankit.cutting.job import Job
from plankit.cutting.layout import Frame, Layout, layout_of
from plankit.cutting.pack import Pack, Sheet
from plankit.cutting.slicing import Cell, Shape, Spot, laid_out, shapes_of
from plankit.cutting.solver import Work, squeeze
from plankit.cutting.verify import verify
from plankit.cutting.whole_job import Group, Want, Way

_MOST_SQUEEZED = 12
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
    names = {want.name for want in group.wants}
    missing = [(want.name, n) for want, n in zip(group.wants, pack.missing(group), strict=True) if n]
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
    work = Work(3 if group.stages is None else min(group.stages, 3), 64)
    for along in (True, False):
        pack = squeeze(part, sheet.kind, work, along=along)
        if pack is None or any(pack.missing(part)) or len(pack.sheets) != 1:
            continue
        spots = tuple(replace(spot, want=places[spot.want]) for spot in pack.sheets[0].spots)
        new = _cut_apart(Sheet(sheet.kind, sheet.copies, spots), group, job)
        if new is not None and _rank(new.cell, sheet.kind, group, job) < _rank(
            best.cell, sheet.kind, group, job
        ):
            best = new
    return best


def _free(sheet: Sheet, group: Group) -> Fraction:
    used = sum(spot.along * spot.across for spot in sheet.spots)
    return 1 - Fraction(used, group.rooms[sheet.kind].area)


def _cut_apart(sheet: Sheet, group: Group, job: Job) -> Sheet | None:
    """Return the sheet with its best tree of cuts, and its pieces where that tree puts them."""
    room = group.rooms[sheet.kind]
    spots = tuple(_told(spot, group.wants[spot.want]) for spot in sheet.spots)
    cells = [
        cell
        for shape in shapes_of(spots)
        for axis in ("x", "y")
        if (cell := laid_out(_exact(shape, group), room.along, room.across, axis)) is not None
        and (group.stages is None or cell.stages() <= group.stages)
    ]
    if not cells:
        return None
    cell = min(cells, key=lambda c: _rank(c, sheet.kind, group, job))
    return Sheet(sheet.kind, sheet.copies, _spots(cell, 0, 0), cell)


def _rank(cell: Cell | None, kind: int, group: Group, job: Job) -> tuple[int, int, int]:
    """Compare ways to cut one sheet apart, best first: the biggest offcut kept, few stages, few cuts."""
    if cell is None:
        return (1, 0, 0)
    frame = Frame(group, job.kind(group.rooms[kind].name), job)
    kept = [waste.along * waste.across for waste in cell.wastes() if frame.keeps(waste)]
    return (-max(kept, default=0), cell.stages(), cell.cuts())


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
