"""Characters that no page, PDF or feed can hold, taken out of what authors print and write."""

import re
from typing import Any

_NEVER = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
"""What XML 1.0 (5th edition, section 2.2) allows nowhere, and the control character DEL."""


def printable(text: str) -> str:
    """Return a text without control characters; half letters stand as the sign for an unknown one."""
    return _NEVER.sub(lambda found: "\ufffd" if found[0] >= "\ud800" else "", text)


def printable_data(value: Any) -> Any:
    """Return plain data (lists, dictionaries, texts …) with every text in it printable."""
    if isinstance(value, str):
        return printable(value) if _NEVER.search(value) else value
    if isinstance(value, dict):
        return {printable(str(name)): printable_data(one) for name, one in value.items()}
    if isinstance(value, list | tuple):
        return [printable_data(one) for one in value]
    return value
