"""A whole job on paper: cover, lists, stick sheets, templates, layout along the carriers.

May import: every other room of figures.
Start reading at `packet`.
"""
