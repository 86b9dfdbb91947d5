"""What a drawing is made of: strokes and words in inches, pens, lettering, hatch, paper.

May import: layout.
Start reading at `drawing`.
"""
