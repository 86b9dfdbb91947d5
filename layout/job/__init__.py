"""A job: one roof, its stock, saw and paper, said once for every command.

May import: everything else of layout.
Start reading at `job`, then `roof`.
"""
