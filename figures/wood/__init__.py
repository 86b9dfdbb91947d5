"""Boards as solids, projected and unrolled.

May import: layout, ink.
Start reading at `solid`.
"""
