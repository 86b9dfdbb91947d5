"""The known mistakes as functions of the same inputs.

May import: layout.
Start reading at `mistake`.
"""
