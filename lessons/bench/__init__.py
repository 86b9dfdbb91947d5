"""The bench: everything the offline page shows, computed beforehand, and the page itself.

May import: layout, figures, say, mistakes, values, course, settle, drill, pages.
Start reading at `steps`, then `pack`, then `page`; the scripts that draw stand beside them.
"""
