"""Sticks put in their places in a roof: every rafter, hip, valley, ridge and plate as a solid.

World: X, Y level, Z up, inches; Z = 0 is the top of the plates. A roof plane passes over the
building line (the outside of the wall) at the height above plate that all its sticks share.
From walls to sticks: `walls` (the outline as it is walked), `level_line` and `roof_lines` (its
planes and the lines in which they meet), `roof_frame` (carriers, their `meeting`s, plates),
`rail` and `fill` (rafters on every face), `contact` (which cut lies against what); lists in
`cutlist`, `facts` and `trim`.
May import: everything in layout, and shapely.
Start reading at `walls`, then `roof_lines`, then `roof`.
"""
