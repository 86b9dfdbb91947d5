"""What a template of a framed stick is called: the cut, its hand, and the pieces it is for."""

from layout.answer.answer import Answer

PLACE_TITLES = {
    "head": "Head",
    "seat": "Bird's mouth",
    "high-seat": "Upper bird's mouth",
    "foot": "Tail",
    "rip": "Backing",
    "bevel": "Bevel",
}


def title_of_stick(answer: Answer) -> str:
    """What is cut, its hand, and the pieces or the stick it is for."""
    asked = answer.question
    assert asked.stands is not None
    place = asked.entry.name.partition(":")[2]
    hands = {one.hand for one in (answer, *answer.others) if one.hand is not None}
    hand = ""
    if len(hands) > 1 and not answer.is_rip:
        hand = ", both cheeks"
    elif asked.entry.two_hands:
        hand = f", {asked.hand.value} hand"
    told = PLACE_TITLES.get(place, place)
    names = [use.name for use in asked.stands.uses]
    alone = asked.entry.name if names == [asked.entry.name.partition(":")[0]] else ""
    return f"{told}{hand}: {alone or _piece_names(names)}"


def _piece_names(names: list[str]) -> str:
    """Names in a title: more than two of one prefix as first to last."""
    kinds: dict[str, list[str]] = {}
    for name in names:
        kinds.setdefault(name.partition("-")[0], []).append(name)
    return ", ".join(
        f"{those[0]} to {those[-1]}" if len(those) > 2 else ", ".join(those)
        for those in kinds.values()
    )
