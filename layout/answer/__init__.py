"""One question about one cut and its whole answer, in numbers and in the trade's words.

May import: plane, cuts, tools.
Start reading at `question`.
"""
