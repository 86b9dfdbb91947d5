"""Lessons on paper and in the browser: books, worksheets, the yard check.

May import: figures, and every room of lessons but cli.
Start reading at `paged`.
"""
