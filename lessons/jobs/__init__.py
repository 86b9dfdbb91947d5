"""Job files: read, checked, and a starter to fill in.

May import: say, and all of layout.
Start reading at `job_file`.
"""
