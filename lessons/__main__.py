"""Where the program starts: `squaresaw`, or `python -m lessons`."""

import gc


def start() -> None:
    """Run the command line.

    What is imported is never freed, and at the end all is: looking through every object for
    cycles, as the interpreter does while it imports and before it ends, takes longer than what
    `mark` does. So the collector rests until a command runs.
    """
    gc.disable()
    from lessons.cli.main import main

    main()


if __name__ == "__main__":
    start()
