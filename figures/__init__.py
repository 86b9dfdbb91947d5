"""Drawings of cuts at true size; knows layout, knows no lesson.

A figure is a `drawing.Drawing` in inches. `tiling.pages` puts it on paper, `press.write` makes
the file. Import the modules by name: this package itself loads neither shapely nor matplotlib,
and matplotlib is loaded only when something is measured for lettering or drawn.

    from figures.ink.paper import read_paper
    from figures.files.press import write
    from figures.page.tiling import PrintSetup, pages

    sheets = pages(drawing, PrintSetup(read_paper("Letter")), title="Hip jack, head")
    write(sheets, "hip-jack.pdf", title="Hip jack")
"""
