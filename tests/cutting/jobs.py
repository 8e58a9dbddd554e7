"""Jobs made in few words, in whole millimetres, and jobs that hypothesis makes up."""

from fractions import Fraction

from hypothesis import strategies as st

from plankit.cutting import Job, Piece, StockKind

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
