"""Lengths and what comes off them: shortening, bird's mouths, drops, seats, tails, tables.

May import: plane, cuts, tools, answer.
Start reading at `run_length`.
"""
