"""Study views, each one drawing in inches of wood.

May import: layout, ink, place, wood, page.
Start reading at `views`.
"""
