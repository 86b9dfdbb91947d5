"""The two methods and their tools: square and handsaw, saw, settings, and the fit of what they cut.

May import: plane, and the root of layout.
Start reading at `setting`, then `hand` and `saw`, which do not know each other.
"""
