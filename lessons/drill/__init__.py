"""Problems, dealing them, grading them, keeping progress, worksheets.

May import: layout, say, mistakes, values, course, settle.
Start reading at `problem`.
"""
