"""Two examples for each command, printed at the end of its help; a test runs every one."""

EXAMPLES: dict[str, tuple[str, ...]] = {
    "mark": (
        "squaresaw mark hip-jack --pitch 9 --stock 2x8",
        "squaresaw mark purlin-square --pitch 7 --hand right --json",
    ),
    "template": (
        "squaresaw template hip-jack --pitch 9 -o jack.pdf",
        "squaresaw template valley-jack --paper A4 --stock '38mm x 140mm' -o jack.pdf",
    ),
    "picture": (
        "squaresaw picture hip-jack --pitch 9 --view saw -o saw.svg",
        "squaresaw picture framing-square --pitch 9 -o square.pdf",
    ),
    "read": (
        "squaresaw read hip-jack --pitch 8 --edge '8 3/8 on 12'",
        "squaresaw read hip-jack --pitch 8 --edge '51 1/2 from square' --json",
    ),
    "live": ("squaresaw live", "squaresaw live --no-open"),
    "cuts": ("squaresaw cuts", "squaresaw cuts --json"),
    "settle": (
        "squaresaw settle hip-jack --pitch 9 --claim 'plumb 9 in 12, saw 45'",
        "squaresaw settle hip-jack --pitch 9 --claim 'saw 45' --claim 'bevel 38 3/4'",
    ),
    "lesson": ("squaresaw lesson", "squaresaw lesson hip-jack --pitch 9"),
    "book": (
        "squaresaw book hip-jack valley-jack --pitch 9 -o jacks.pdf",
        "squaresaw book hip-jack -o jacks.html",
    ),
    "bench": (
        "squaresaw bench valley-jack -o bench.html",
        "squaresaw bench common-seat -o seat.html",
    ),
    "drill": (
        "squaresaw drill hip-jack --problems 1 --seed 7 --no-save",
        "squaresaw drill --progress",
    ),
    "worksheet": (
        "squaresaw worksheet hip-jack --seed 7 -o sheet.pdf",
        "squaresaw worksheet hip-jack --sheets 3 -o class.pdf --answers class.csv",
    ),
    "class": (
        "squaresaw class new names.txt -o roll.csv",
        "squaresaw class read ann.csv bo.csv -o table.pdf",
    ),
    "yard-check": (
        "squaresaw yard-check -o yard.pdf",
        "squaresaw yard-check --stock 2x8 -o yard.pdf",
    ),
    "check": ("squaresaw check hip-jack", "squaresaw check hip-jack --json"),
    "table": ("squaresaw table 4 6 9 12", "squaresaw table 9 --spacing 24in --csv"),
    "length": (
        'squaresaw length hip --run "12\'" --pitch 9',
        'squaresaw length common --run "7\' 6" --pitch 5 --json',
    ),
    "jacks": (
        'squaresaw jacks --pitch 9 --eave "10\'"',
        "squaresaw jacks --pitch 9 --count 4 --csv",
    ),
    "roof": (
        "squaresaw roof --size \"24' x 16'\" --pitch 9",
        "squaresaw roof --size \"24' x 16'\" --pitch 9 -o roof.pdf",
    ),
    "job": ("squaresaw job new porch.toml", "squaresaw job check porch.toml"),
    "packet": (
        "squaresaw packet --job porch.toml -o porch.pdf",
        "squaresaw packet --job porch.toml --json",
    ),
}


def examples_of(command: str) -> str:
    """The examples as they stand in the help, kept line by line."""
    lines = EXAMPLES.get(command)
    return "\b\nExamples:\n" + "\n".join(f"  {line}" for line in lines) if lines else ""
