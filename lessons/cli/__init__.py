"""The command line: parse, one call, print.

May import: everything.
Start reading at `main`, then a file of `commands`.
"""
