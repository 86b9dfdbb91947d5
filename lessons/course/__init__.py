"""The lessons: their files, their checks and what runs them.

May import: layout, figures, say, mistakes, values.
Start reading at `lesson`, then `runner`.
"""
