"""The author's shop: tools and what they can do, lifting limit, prices, offcuts on hand, and cautions."""

from plankit.shop.cautions import Knowledge, cautions_for, general_cautions, known_tools, tool_knowledge
from plankit.shop.prices import Pack, PriceList, StockPrice
from plankit.shop.reading import read, usual
from plankit.shop.shop import Built, Shop
from plankit.shop.tool import Caution, Tool

__all__ = [
    "Built", "Caution", "Knowledge", "Pack", "PriceList", "Shop", "StockPrice", "Tool", "cautions_for",
    "general_cautions", "known_tools", "read", "tool_knowledge", "usual",
]  # fmt: skip
