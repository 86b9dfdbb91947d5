"""Run the command line as `python -m lessons`."""

from lessons.cli import main

main()
