"""So many of a thing, in words."""


def how_many(count: int, thing: str) -> str:
    """A number and its thing, one or more.

    >>> how_many(1, "lesson"), how_many(12, "lesson")
    ('1 lesson', '12 lessons')
    """
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"
