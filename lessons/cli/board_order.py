"""A board given thicker than deep: taken as it is said, with a line that says so.

Some sticks do lie on their flat, so it is not refused; but a builder who says the depth first has
turned his board by mistake, and each number of its cuts with it.
"""

import typer

from layout.errors import LayoutError
from layout.stock import read_stock


def say_order(said: str | None) -> str | None:
    """The board as it was said, with a line on standard error where it lies on its flat.

    What cannot be read is left to the command, which refuses it.
    """
    try:
        board = read_stock(said) if said else None
    except LayoutError:
        return said
    if board is not None and board.thickness_in > board.depth_in:
        first, second = board.name.split(" x ")
        typer.echo(
            f"squaresaw: a board {first} thick and {second} deep lies on its flat; the order is"
            f" thickness x depth, so a board on its edge is {second} x {first}",
            err=True,
        )
    return said
