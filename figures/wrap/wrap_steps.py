"""How a paper goes on its board, in words: one wrap, one of two papers, or one of a set."""

from figures.wrap.wrap_words import distance

SAW_SIDE = "Saw on the hatched side of the heavy line."
HATCHED = "Saw on the hatched side."
ROUND_CORNERS = "Where a line goes round a corner, its letters meet."


def steps_of_all(*, few: bool = False) -> str:
    """How every paper of a set goes on its board; each says the rest beside it."""
    if few:
        return (
            "For each paper: square a line round the board where its start line is to lie. Cut"
            " out, any notch too. Lay the start line and the edge or fold in place; fold, tape."
            f" Letters meet. {HATCHED} If a board differs by over 1/16 in (1.5 mm), print for its"
            " size."
        )
    return (
        "For each paper: square a line round the board where its start line is to lie. Cut the"
        " paper out, and any notch at its folds. Lay its start line on that line and its edge or"
        f" its fold on the arris that is named; fold at the arrises, tape. {ROUND_CORNERS}"
        f" {SAW_SIDE} If your board differs by more than 1/16 in (1.5 mm) from the size a paper is"
        " made for, enter its size and print again."
    )


def steps(
    kind: str,
    start: str,
    arris: str,
    *,
    laid_by: str = "edge",
    few: bool = False,
    shared: bool = False,
) -> str:
    """How the paper goes on the board; in `few` words where paper is short.

    It is `laid_by` its "edge" or its "fold" on the arris.
    On a `shared` sheet only what is its own: the first sheet of the set says the rest.
    """
    if shared and kind != "rip":
        return f"Start line {start}; {laid_by} on the {arris}."
    if few and kind == "rip":
        return (
            f"Cut out. Hang over the end, align the {arris}, fold, tape. Prick the heavy lines,"
            f" move along, prick again, join with a straightedge. {HATCHED}"
        )
    if few:
        return (
            f"Square a line round the board, {start}. Cut out, any notch too. Lay the start line on"
            f" it and the {laid_by} on the {arris}; fold, tape. Letters meet. {HATCHED}"
        )
    if kind == "rip":
        return (
            f"Cut the paper out. Hang it over the end of the board, align the {arris}, fold, tape."
            " Prick the heavy lines, move the paper along and prick again; join with a"
            f" straightedge. {SAW_SIDE}"
        )
    return (
        f"Square a line round the board, {start}. Cut the paper out, and any notch at its folds."
        f" Lay its start line on that line and its {laid_by} on the {arris}; fold at the arrises,"
        f" tape. {ROUND_CORNERS} {SAW_SIDE}"
    )


def ends_steps(start: str, arris: str, *, few: bool = False) -> str:
    """How the first of two papers goes on the board."""
    if few:
        return (
            f"Square a line round the board, {start}: start line 1 lies on it, the fold on the"
            f" {arris}. Cut out, any notch too; fold, tape. Letters meet."
        )
    return (
        f"Square a line round the board, {start}. Cut both papers out, and any notch at their"
        f" folds. Lay start line 1 on that line and the fold on the {arris}; fold, tape."
        f" {ROUND_CORNERS}"
    )


def join_steps(
    apart_in: float, toward: str, arris: str, *, metric: bool = False, few: bool = False
) -> str:
    """How the second of two papers goes on, and how the marks on both are joined."""
    far = (
        "on start line 1"
        if abs(apart_in) < 1e-9
        else f"{distance(abs(apart_in), metric=metric)} from start line 1 toward the {toward}"
    )
    if few:
        return (
            f"Start line 2 stands {far}; the fold lies on the {arris}. On each face join the two"
            f" marks with a straightedge. {HATCHED}"
        )
    return (
        f"Start line 2 stands {far}: square it round the board. Lay this paper's start line on it"
        f" and the fold on the {arris}; fold, tape. On each face join the two marks with a"
        f" straightedge. {SAW_SIDE}"
    )
