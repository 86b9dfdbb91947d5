"""Run the command line as `python -m lessons`."""

from lessons.cli.main import main

main()
