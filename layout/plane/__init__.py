"""A cut as a plane: the corner of two roofs, a board's pose, the plane in board axes, the joint.

May import: vector, quantity, stock and errors.
Start reading at `corner`, then `cut`.
"""
