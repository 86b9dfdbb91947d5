"""The live page: a server of this machine's own, with the commands behind it.

May import: layout, figures, say, mistakes, values, course, settle, drill, pages, bench.
Start reading at `server`, then `guard`, then `pages`; what answers is handed in by the command.
"""
