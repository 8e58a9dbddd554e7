"""Small orders of cuts written by hand, in inches, right in every field; and orders that hypothesis makes up.

Every stock weighs 1 kg for 100 square inches (a board: for 10 inches), so weights can be read off the sizes.
"""

from dataclasses import replace
from fractions import Fraction as F  # noqa: N817 - many stand in these lines

from hypothesis import strategies as st

from plankit.cutting.job import Job, Piece, StockKind
from plankit.cutting.layout import Cut, Layout, Offcut, Placed
from plankit.cutting.saws import Saw

IN = F(254, 10)
GUIDED = Saw("guided saw", "guide", F("1/8") * IN, longest=100 * IN, deepest=2 * IN)
TABLE = Saw("table saw", "fence", F("1/8") * IN, widest=24 * IN, deepest=3 * IN, shortest=10 * IN)
MITER = Saw("miter saw", "stop", F("1/8") * IN, widest=12 * IN, deepest=3 * IN, shortest=8 * IN)
HAND = Saw("handsaw", "hand", F("1/8") * IN)

type Order = tuple[Job, tuple[Layout, ...], tuple[tuple[int, int], ...]]


def inch(text: str | int) -> F:
    """Read "34 7/8" as millimetres."""
    return sum(F(word) for word in str(text).split()) * IN


def sheet(name: str, long: int, wide: int, trim: str = "0") -> StockKind:
    return StockKind(name, inch(long), inch(wide), trim_ends=inch(trim), trim_edges=inch(trim),
                     thickness=inch("3/4"), mass=F(long * wide, 100))  # fmt: skip


def placed(part: str, x: str, y: str, long: str, wide: str | None = None, *, turned: bool = False) -> Placed:
    return Placed(part, inch(x), inch(y), inch(long), None if wide is None else inch(wide), turned)


def cuts(text: str) -> tuple[Cut, ...]:
    """One cut a line: kind, edge, setting, piece > first rest, parts freed, group, kg, support, saw's name."""
    made = []
    for order, line in enumerate(text.strip().splitlines(), start=1):
        kind, edge, setting, of, gives, frees, group, mass, support, saw = (w.strip() for w in line.split("|"))
        first, _, rest = gives.partition(" ")
        part, _, other = frees.partition(" ")
        rail = "first" if saw == "guided saw" else ""
        made.append(Cut(order, kind, saw, edge, inch(setting), of, (first, rest or None), part or None,  # type: ignore[arg-type]
                        other or None, int(group), F(mass), 1, support, rail))  # type: ignore[arg-type]
    return tuple(made)


def of_a_sheet() -> Order:
    """A sheet, 96 × 48 in, trimmed 1/2 in all round, two strips of 12 in, three sides of 40 in and a shelf of 30 in.

    Inside the trim 95 × 47 in are left. 47 - 12 1/8 = 34 7/8; 34 7/8 - 12 1/8 = 22 3/4. 95 - 40 1/8 = 54 7/8;
    54 7/8 - 40 1/8 = 14 3/4; 54 7/8 - 30 1/8 = 24 3/4.
    """
    kind = sheet("ply", 96, 48, "1/2")
    made = cuts("""
        trim      | edge 0 | 47 1/2 | s  | a b |            | 1 | 46.08     | bearers   | guided saw
        trim      | edge 1 | 47     | a  | c d |            | 2 | 45.6      | bearers   | guided saw
        trim      | end 0  | 95 1/2 | c  | e f |            | 3 | 45.12     | bearers   | guided saw
        trim      | end 1  | 95     | e  | g h |            | 4 | 44.885    | bearers   | guided saw
        rip       | edge 0 | 12     | g  | i j |            | 5 | 44.65     | bearers   | guided saw
        rip       | edge 0 | 12     | j  | k l |            | 5 | 33.13125  | bearers   | guided saw
        crosscut  | end 0  | 40     | i  | m n | side       | 6 | 11.4      | stands    | miter saw
        crosscut  | end 0  | 40     | n  | o p | side       | 6 | 6.585     | stands    | miter saw
        crosscut  | end 0  | 40     | k  | q r | side       | 6 | 11.4      | stands    | miter saw
        crosscut  | end 0  | 30     | r  | t u | shelf      | 7 | 6.585     | stands    | miter saw
    """)
    pieces = (
        placed("side", "1/2", "1/2", "40", "12"),
        placed("side", "40 5/8", "1/2", "40", "12"),  # 1/2 + 40 1/8
        placed("side", "1/2", "12 5/8", "40", "12"),  # 1/2 + 12 1/8
        placed("shelf", "40 5/8", "12 5/8", "30", "12"),
    )
    offcuts = (
        Offcut(inch("1/2"), inch("24 3/4"), inch("95"), inch("22 3/4")),  # 1/2 + 2 × 12 1/8
        Offcut(inch("70 3/4"), inch("12 5/8"), inch("24 3/4"), inch("12")),  # 40 5/8 + 30 1/8
    )
    job = Job((kind,), (Piece("side", inch(40), inch(12), 3), Piece("shelf", inch(30), inch(12))),
              F("1/8") * IN, saws=(GUIDED, TABLE, MITER), lifting_limit=F(25))  # fmt: skip
    return job, (Layout(kind, 1, pieces, offcuts, made, 2, "s"),), tuple((0, n) for n in range(1, 11))


def of_a_board() -> Order:
    """A board of 100 in, trimmed 2 in at both ends: rails of 30 in, a leg of 20 in.

    96 - 30 1/8 = 65 7/8; 65 7/8 - 30 1/8 = 35 3/4; 35 3/4 - 20 1/8 = 15 5/8.
    """
    kind = StockKind("board", inch(100), trim_ends=inch(2), thickness=inch("3/4"), mass=F(10), breadth=inch("7 1/4"))
    made = cuts("""
        trim      | end 0  | 98     | b  | c d |            | 1 | 10        | stands    | miter saw
        trim      | end 1  | 96     | c  | e f |            | 2 | 9.8       | stands    | miter saw
        crosscut  | end 0  | 30     | e  | g h | rail       | 3 | 9.6       | stands    | miter saw
        crosscut  | end 0  | 30     | h  | i j | rail       | 3 | 6.5875    | stands    | miter saw
        crosscut  | end 0  | 20     | j  | k l | leg        | 4 | 3.575     | bench     | miter saw
    """)
    pieces = (placed("rail", "2", "0", "30"), placed("rail", "32 1/8", "0", "30"), placed("leg", "62 1/4", "0", "20"))
    offcuts = (Offcut(inch("82 3/8"), F(0), inch("15 5/8"), None),)
    job = Job((kind,), (Piece("rail", inch(30), None, 2), Piece("leg", inch(20))), F("1/8") * IN,
              saws=(MITER,), lifting_limit=F(12))  # fmt: skip
    return job, (Layout(kind, 1, pieces, offcuts, made, 1, "b"),), tuple((0, n) for n in range(1, 6))


def of_two_sheets() -> Order:
    """Two sorts of plywood, 40 × 20 in, the first twice, at the table saw; strips of 8 in and blocks share settings.

    20 - 8 1/8 = 11 7/8; 40 - 16 1/8 = 23 7/8. The block lies turned: its length of 20 in runs across the sheet.
    """
    one, two = sheet("birch", 40, 20), sheet("oak", 40, 20)
    first = cuts("""
        rip       | edge 0 | 8      | s1  | s1a s1b | door  | 1 | 8         | outfeed   | table saw
        rip       | edge 1 | 6      | s1b | s1c s1d | panel | 2 | 4.75      | outfeed   | table saw
    """)
    second = cuts("""
        rip       | edge 0 | 8      | s2  | s2a s2b | door oak  | 1 | 8     | outfeed   | table saw
    """)
    blocks = cuts("""
        crosscut  | end 0  | 16     | s3  | s3a s3b | block | 3 | 8         | sawhorses | guided saw
    """)
    door = placed("door", "0", "0", "40", "8")
    layouts = (
        Layout(one, 2, (door, placed("panel", "0", "14", "40", "6")), (), first, 1, "s1"),
        Layout(two, 1, (door, placed("oak", "0", "8 1/8", "40", "11 7/8")), (), second, 1, "s2"),
        Layout(one, 1, (placed("block", "0", "0", "16", "20", turned=True),), (
            Offcut(inch("16 1/8"), F(0), inch("23 7/8"), inch(20)),), blocks, 1, "s3"),
    )  # fmt: skip
    wanted = (Piece("door", inch(40), inch(8), 3), Piece("panel", inch(40), inch(6), 2),
              Piece("oak", inch(40), inch("11 7/8")), Piece("block", inch(20), inch(16), 1, True))  # fmt: skip
    job = Job((one, two), wanted, F("1/8") * IN, saws=(TABLE, GUIDED), lifting_limit=F(20))
    return job, layouts, ((0, 1), (1, 1), (0, 2), (2, 1))


def all_right() -> tuple[Order, ...]:
    return of_a_sheet(), of_a_board(), of_two_sheets()


@st.composite
def made_up(draw: st.DrawFn) -> Order:
    """A sheet cut at random with a handsaw, every piece that is left a part of its own name where it lies."""
    kind = StockKind("sheet", F(draw(st.integers(30, 300))), F(draw(st.integers(30, 300))), mass=F(7))
    kerf = draw(st.sampled_from([F(0), F(1, 3), F(3)]))
    saw = Saw("handsaw", "hand", kerf)
    loose = {"s": (F(0), F(0), kind.length, kind.width or F(1))}
    made: list[Cut] = []
    for order in range(1, draw(st.integers(1, 8)) + 1):
        of = draw(st.sampled_from(sorted(loose)))
        x, y, long, wide = loose[of]
        edge = draw(st.sampled_from(["end 0", "end 1", "edge 0", "edge 1"]))
        size = long if edge.startswith("end") else wide
        setting = size * F(draw(st.integers(1, 15)), 16)
        rest = size - setting - kerf
        near, far = (F(0), setting + kerf) if edge.endswith("0") else (size - setting, F(0))
        del loose[of]
        names = (f"p{order}a", f"p{order}b" if rest > 0 else None)
        for name, off, extent in ((names[0], near, setting), (names[1], far, rest)):
            if name:
                loose[name] = (x + off, y, extent, wide) if edge.startswith("end") else (x, y + off, long, extent)
        mass = F(7) * long * wide / kind.length / (kind.width or 1)
        made.append(Cut(order, "crosscut" if edge.startswith("end") else "rip", saw.name, edge, setting, of, names,  # type: ignore[arg-type]
                        None, None, order, mass, 1, "bench"))  # fmt: skip
    freeing = [_freeing(cut, loose) for cut in made]
    pieces = tuple(Placed(name, *where) for name, where in loose.items())
    job = Job((kind,), tuple(Piece(p.part, p.length, p.width) for p in pieces), kerf, "mm", saws=(saw,))
    return job, (Layout(kind, 1, pieces, (), tuple(freeing), 9, "s"),), tuple((0, cut.order) for cut in made)


def _freeing(cut: Cut, loose: dict[str, tuple[F, F, F, F]]) -> Cut:
    freed = [name for name in cut.gives if name in loose]
    return replace(cut, frees=freed[0] if freed else None, also_frees=freed[1] if len(freed) > 1 else None)
