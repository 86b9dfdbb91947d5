"""Sticks put in their places in a roof: every rafter, hip, valley, ridge and plate as a solid.

World: X, Y level, Z up, inches; Z = 0 is the top of the plates. A roof plane passes over the
building line (the outside of the wall) at the height above plate that all its sticks share.
"""
