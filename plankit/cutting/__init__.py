"""Which piece comes out of which board or sheet, in which order of cuts, and how close to the least possible it is."""

from plankit.cutting.cut import cut
from plankit.cutting.in_words import list_of_cuts
from plankit.cutting.job import Job, Piece, StockKind, piece, stock_kind
from plankit.cutting.job_file import job_from, read_job
from plankit.cutting.layout import Cut, Layout, Offcut, Placed
from plankit.cutting.result import Result, exact, result_json, result_object
from plankit.cutting.verify import verify
from plankit.cutting.watch import Watch

__all__ = [
    "Cut", "Job", "Layout", "Offcut", "Piece", "Placed", "Result", "StockKind", "Watch", "cut", "exact", "job_from",
    "list_of_cuts", "piece", "read_job", "result_json", "result_object", "stock_kind", "verify",
]  # fmt: skip
