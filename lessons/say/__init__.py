"""How a fact is put: words, units, the JSON contract, blocks of a page, plain text.

May import: layout.
Start reading at `words`.
"""
