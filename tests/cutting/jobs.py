"""Jobs made in few words, in whole millimetres, and jobs that hypothesis makes up."""

from fractions import Fraction

from hypothesis import strategies as st

from plankit.cutting import Job, Piece, StockKind
from plankit.cutting.saws import Saw

SHEET = StockKind("sheet", Fraction(100), Fraction(50))


def sheet(length: int, width: int, **more: object) -> StockKind:
    return StockKind(str(more.pop("name", "sheet")), Fraction(length), Fraction(width), **more)  # type: ignore[arg-type]


def board(length: int, name: str = "board", **more: object) -> StockKind:
    return StockKind(name, Fraction(length), **more)  # type: ignore[arg-type]


def job(stock: list[StockKind], pieces: list[tuple], kerf: object = 0, **more: object) -> Job:
    """Pieces: name, length, width (0 on a board), quantity, and True where it may turn."""
    wanted = tuple(
        Piece(name, Fraction(a), Fraction(b) if b else None, count, bool(turns and turns[0]))
        for name, a, b, count, *turns in pieces
    )
    keep = {"keep_length": Fraction(20), "keep_width": Fraction(10)}
    return Job(tuple(stock), wanted, Fraction(kerf), "mm", **{**keep, **more})  # type: ignore[arg-type]


def sheet_jobs(most_stages: bool = True) -> st.SearchStrategy[Job]:
    """Jobs of one or two kinds of sheet, kerf from nothing up, tiny pieces and pieces as large as the sheet."""
    size = st.one_of(st.integers(1, 60), st.sampled_from([100, 50, 49, 33, 25]))
    part = st.builds(Fraction, size, st.sampled_from([1, 1, 2, 3]))
    pieces = st.lists(st.tuples(part, part, st.integers(0, 4), st.booleans()), max_size=7)
    stages = st.sampled_from([None, None, 1, 2, 3]) if most_stages else st.none()
    kerfs = st.sampled_from([Fraction(0), Fraction(1, 3), Fraction(3), Fraction(25, 8)])
    small = st.booleans()
    return st.builds(_made, pieces, kerfs, stages, small)


def _made(
    pieces: list[tuple[Fraction, Fraction, int, bool]], kerf: Fraction, stages: int | None, small: bool
) -> Job:
    stock = [SHEET] if not small else [SHEET, StockKind("small", Fraction(60), Fraction(40), 2)]
    wanted = tuple(
        Piece(f"p{n}", min(a, Fraction(100)), min(b, Fraction(50)), count, turns)
        for n, (a, b, count, turns) in enumerate(pieces)
    )
    return Job(tuple(stock), wanted, kerf, "mm", stages, Fraction(20), Fraction(10))


_IN = Fraction(254, 10)
_SHOP = (
    Saw("Guided circular saw", "guide", Fraction(3, 32) * _IN, longest=100 * _IN, deepest=2 * _IN),
    Saw("Table saw", "fence", Fraction(1, 8) * _IN, widest=30 * _IN, deepest=3 * _IN, shortest=12 * _IN),
    Saw("Miter saw", "stop", Fraction(1, 8) * _IN, widest=12 * _IN, deepest=4 * _IN, shortest=8 * _IN),
)
_HAND = Saw("Hand saw", "hand", Fraction(1, 16) * _IN)
_SOLD = (
    StockKind("4 × 8", 96 * _IN, 48 * _IN, None, Fraction(62), _IN / 4, _IN / 4, _IN * 3 / 4, Fraction(28)),
    StockKind("4 × 4", 48 * _IN, 48 * _IN, None, Fraction(35), _IN / 4, _IN / 4, _IN * 3 / 4, Fraction(14)),
    StockKind(
        "1x2", 96 * _IN, None, None, Fraction(3), _IN / 2, thickness=_IN * 3 / 4, mass=Fraction(1), breadth=_IN * 3 / 2
    ),
)


def shop_jobs() -> st.SearchStrategy[Job]:
    """Jobs of a small shop, in inches: sheets and sticks, some of its saws and always one led by hand."""
    size = st.builds(lambda n: Fraction(n, 16) * _IN, st.integers(2 * 16, 44 * 16))
    narrow = st.builds(lambda n: Fraction(n, 16) * _IN, st.integers(2 * 16, 30 * 16))
    flat = st.tuples(size, narrow, st.integers(1, 4), st.booleans())
    stick = st.tuples(size, st.none(), st.integers(1, 5), st.just(False))
    pieces = st.lists(st.one_of(flat, flat, stick), min_size=1, max_size=7)
    saws = st.permutations(_SHOP).flatmap(lambda all_: st.integers(0, 3).map(lambda n: (*all_[:n], _HAND)))
    kerf = st.sampled_from([Fraction(1, 16), Fraction(3, 32), Fraction(1, 8)])
    limit = st.sampled_from([None, Fraction(9), Fraction(18)])
    return st.builds(_in_a_shop, pieces, saws, kerf, limit)


def _in_a_shop(
    pieces: list[tuple[Fraction, Fraction | None, int, bool]],
    saws: tuple[Saw, ...],
    kerf: Fraction,
    limit: Fraction | None,
) -> Job:
    wanted = tuple(Piece(f"p{n}", *one) for n, one in enumerate(pieces))
    return Job(_SOLD, wanted, kerf * _IN, "in", saws=saws, lifting_limit=limit)


def wild_jobs() -> st.SearchStrategy[Job]:
    """Jobs that nobody plans for: parts of a hair and of the whole sheet, hundreds alike, any kerf, some with saws."""
    tiny = st.builds(Fraction, st.integers(1, 40), st.sampled_from([1, 7, 64]))
    common = st.builds(Fraction, st.integers(40, 900))
    long = st.one_of(tiny, common, st.just(Fraction(2400)), st.just(Fraction(1200)))
    wide = st.one_of(tiny, common, st.just(Fraction(1200)), st.just(Fraction(2400)))
    few = st.tuples(long, wide, st.integers(0, 6), st.booleans())
    many = st.tuples(st.builds(Fraction, st.integers(90, 130)), st.just(Fraction(100)), st.sampled_from([120, 200]),
                     st.booleans())  # fmt: skip
    pieces = st.tuples(st.lists(few, max_size=5), st.lists(many, max_size=1)).map(lambda both: [*both[0], *both[1]])
    kerfs = st.sampled_from([Fraction(0), Fraction(1, 64), Fraction(3), Fraction(25, 8), Fraction(40)])
    saws = st.sampled_from([(), (*_SHOP, _HAND), (_HAND,)])
    stages = st.sampled_from([None, None, None, 2, 3])
    return st.builds(_wild, pieces, kerfs, saws, stages)


def _wild(
    pieces: list[tuple[Fraction, Fraction, int, bool]], kerf: Fraction, saws: tuple[Saw, ...], stages: int | None
) -> Job:
    stock = (
        StockKind("sheet", Fraction(2400), Fraction(1200), thickness=Fraction(18), mass=Fraction(30)),
        StockKind("rest", Fraction(900), Fraction(600), 2, thickness=Fraction(18), mass=Fraction(6)),
    )
    wanted = tuple(
        Piece(f"p{n}", min(a, Fraction(2400)) if not turns or b <= 1200 else min(a, Fraction(1200)),
              min(b, Fraction(1200)), count, turns)
        for n, (a, b, count, turns) in enumerate(pieces)
    )  # fmt: skip
    usable = saws if kerf >= Fraction(3) else ()  # a saw does not cut narrower than its blade
    return Job(stock, wanted, kerf, "mm", stages, saws=usable, lifting_limit=Fraction(18))
