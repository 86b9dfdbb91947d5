"""`squaresaw cuts`: the catalogue, family by family."""

import json
from itertools import groupby

import typer

from layout.cuts import Entry, catalogue
from lessons.cli.commands import options


def cuts(as_json: options.JsonOption = False) -> None:
    """List every cut, family by family."""
    entries = list(catalogue().values())
    if as_json:
        typer.echo(json.dumps([_row(entry) for entry in entries], indent=1))
        return
    width = max(len(entry.name) for entry in entries)
    for family, members in groupby(entries, key=lambda entry: entry.family):
        typer.echo(family)
        for entry in members:
            typer.echo(f"  {entry.name:{width}}  {entry.says} ({_ends(entry)})")


def _ends(entry: Entry) -> str:
    hands = ", left and right" if entry.two_hands else ""
    return " and ".join(entry.ends) + hands


def _row(entry: Entry) -> dict[str, object]:
    return {
        "name": entry.name,
        "family": entry.family,
        "says": entry.says,
        "ends": list(entry.ends),
        "two_hands": entry.two_hands,
        "meets": entry.meets,
        "stock": entry.stock,
    }
