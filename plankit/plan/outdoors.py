"""What is looked at in a piece that stands in the weather."""

from plankit.checks.weather import weather
from plankit.checks.wording import PRACTICE, named
from plankit.finding import Finding
from plankit.plan.facts import Draft
from plankit.stock import Sheet

_FOR_WEATHER = ("exterior", "marine")
_INDOOR_FINISH = ("water-based varnish", "shellac", "lacquer", "wax")


def outdoor_findings(draft: Draft) -> tuple[Finding, ...]:
    """Return what to look at where the author says that the piece stands outdoors; nothing where she does not."""
    if not draft.facts.outdoors:
        return ()
    sheets = dict.fromkeys(
        part.stock.name
        for part in draft.build.parts
        if isinstance(part.stock, Sheet) and not any(word in part.stock.name.casefold() for word in _FOR_WEATHER)
    )
    found = []
    if sheets:
        found.append(_found("look at", f"{named(sheets)} may be glued for indoors, and then comes apart when wet.",
                            "Ask for sheets with exterior glue, seal their edges, or use boards."))  # fmt: skip
    product = draft.coating.product if draft.coating else ""
    if not product:
        wanted = 'Say what does: plan.finish("exterior oil", …), or what wood it is that needs none.'
        found.append(_found("look at", "Nothing protects it from the weather.", wanted))
    elif any(word in product.casefold() for word in _INDOOR_FINISH) and "exterior" not in product.casefold():
        found.append(_found("look at", f"{product} is commonly made for indoors.",
                            "Take a finish whose label says that it is for outdoors."))  # fmt: skip
    found += [*weather(draft.build, draft.notation), _moves(draft)]
    return tuple(found)


def _found(level: str, what: str, remedy: str) -> Finding:
    return Finding(level, "outdoors", "", what, source=PRACTICE, remedy=remedy)  # type: ignore[arg-type]


def _moves(draft: Draft) -> Finding:
    write, (dry, damp) = draft.notation, draft.shop.humidities
    return _found(
        "for information",
        f"It stands outdoors; how wood moves is worked out for air between {write.percent(dry)} and "
        f"{write.percent(damp)} relative humidity, and wood that gets wet swells more.",
        "Leave more room than the plan asks for where wood must move, and keep end grain off the ground.",
    )
