"""Which parts are held to one another, by whatever links them: joints, hinges, what they run or hang on."""

from collections.abc import Iterable


def held_together(parts: Iterable[str], links: Iterable[Iterable[str]]) -> list[set[str]]:
    """Return the parts, by their ids, in groups that links hold together; a part that nothing links is alone.

    links    ids of parts that are held to one another; an id that is not among the parts does not count
    returns  the groups in the order in which the first part of each is named
    """
    group_of = {part: {part} for part in parts}
    for link in links:
        on = [group_of[part] for part in link if part in group_of]
        whole = max(on, key=len, default=set())
        for group in on:
            if group is not whole:
                whole |= group
                group_of |= dict.fromkeys(group, whole)
    return list({id(group): group for group in group_of.values()}.values())
