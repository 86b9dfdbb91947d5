"""Claims: heard, judged, answered; rules, lengths, statements, and sawn ends read back.

May import: layout, figures, say, mistakes.
Start reading at `claim`, then `settle`.
"""
