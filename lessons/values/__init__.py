"""The values that a lesson's text may name in braces.

May import: layout, say, mistakes.
Start reading at `value`.
"""
