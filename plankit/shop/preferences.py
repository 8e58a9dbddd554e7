"""What a shop may prefer among ways of cutting that take equal stock."""

PREFERENCES = {
    "large offcut": "what is left over in one large piece",
    "few settings": "few different settings of a fence or stop",
    "whole strips": "whole strips first, then crosscuts: few stages of cuts",
}
"""Each preference with what it means, in the usual order."""
