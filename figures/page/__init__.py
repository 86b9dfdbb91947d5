"""Sheets: rows, cautions, check bars, scale, tiles.

May import: layout, ink, place.
Start reading at `sheet`.
"""
