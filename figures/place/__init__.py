"""Where words and dimensions go, so that nothing lies on anything.

May import: ink.
Start reading at `placing`.
"""
