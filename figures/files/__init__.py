"""Files: a drawing printed whole or not at all, books bound, drawings put into HTML.

May import: ink.
Start reading at `press`.
"""
