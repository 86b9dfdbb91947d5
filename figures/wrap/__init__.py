"""Full-size templates that wrap the board.

May import: layout, ink, place, wood, page.
Start reading at `template`.
"""
