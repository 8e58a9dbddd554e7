"""The plan as schema.org data, for machines that read pages (schema.org/HowTo)."""

import json
from collections.abc import Mapping
from typing import Any

from plankit.publish.document import Document


def how_to(plan: Document) -> dict[str, Any]:
    """Return a plan as a schema.org HowTo: `supply` is used up, `tool` is not."""
    data = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": plan["title"],
        "description": plan["summary"],
        "inLanguage": plan["language"],
        "author": {"@type": "Person", "name": plan["author"]},
        "publisher": {"@type": "Organization", "name": plan["organisation"]} if plan["organisation"] else None,
        "version": plan["version"],
        "datePublished": plan["published"],
        "dateModified": plan["updated"],
        "license": plan["licence"]["address"],
        "totalTime": iso_duration(plan["minutes"]),
        "estimatedCost": plan["shopping_total"],
        "tool": [{"@type": "HowToTool", "name": tool["name"]} for tool in plan["tools"]],
        "supply": [_supply(row) for row in plan["shopping"]],
        "step": [_step(step) for step in plan["steps"]],
    }
    return {key: value for key, value in data.items() if value}


def _supply(row: Mapping[str, Any]) -> dict[str, str]:
    quantity = f"{row['count']} {row['unit']}".strip()
    return {"@type": "HowToSupply", "name": row["item"], "requiredQuantity": quantity}


def _step(step: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "@type": "HowToStep",
        "position": step["number"],
        "name": step["title"],
        "text": step["note"] or step["title"],
        "url": f"#{step['anchor']}",
    }


def iso_duration(minutes: int) -> str:
    """Return a time in minutes as ISO 8601 has it: 150 is "PT2H30M"; "" for no time at all."""
    hours, rest = divmod(minutes, 60)
    told = (f"{hours}H" if hours else "") + (f"{rest}M" if rest else "")
    return f"PT{told}" if told else ""


def as_script(data: Mapping[str, Any]) -> str:
    """Return structured data as JSON that can stand inside a script element."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")
