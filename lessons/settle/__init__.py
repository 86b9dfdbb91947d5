"""Claims: read, judged, answered.

May import: layout, figures, say, mistakes.
Start reading at `claim`, then `settle`.
"""
