"""The plan as schema.org data, for machines that read pages (schema.org/HowTo)."""

import json
import re
from collections.abc import Mapping
from typing import Any

from plankit.publish.document import Document

_TIME = re.compile(r"^[≈~]?\s*(?:(\d+)\s*h)?\s*(?:(\d+)\s*min)?$")


def how_to(plan: Document) -> dict[str, Any]:
    """Return a plan as a schema.org HowTo: `supply` is used up, `tool` is not."""
    data = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": plan["title"],
        "description": plan["summary"],
        "inLanguage": plan["language"],
        "author": {"@type": "Person", "name": plan["author"]},
        "publisher": {"@type": "Organization", "name": plan["organisation"]},
        "version": plan["version"],
        "datePublished": plan["published"],
        "dateModified": plan["updated"],
        "license": plan["licence"]["address"],
        "totalTime": _total_time(plan),
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


def _total_time(plan: Document) -> str:
    if plan.get("minutes"):
        hours, minutes = divmod(int(plan["minutes"]), 60)
        return "PT" + (f"{hours}H" if hours else "") + (f"{minutes}M" if minutes else "")
    for entry in plan["glance"]:
        duration = iso_duration(entry["value"])
        if duration:
            return duration
    return ""


def iso_duration(words: str) -> str:
    """Return a time such as "2 h 30 min" as ISO 8601 has it, "PT2H30M"; "" for what is not a time."""
    found = _TIME.match(words.replace("\u00a0", " ").strip())
    if not found or not any(found.groups()):
        return ""
    hours, minutes = found.groups()
    return "PT" + (f"{int(hours)}H" if hours else "") + (f"{int(minutes)}M" if minutes else "")


def as_script(data: Mapping[str, Any]) -> str:
    """Return structured data as JSON that can stand inside a script element."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")
