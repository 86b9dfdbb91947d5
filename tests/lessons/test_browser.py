"""The page for the browser in a real one: on a phone and a desk, light, dark and printed."""

import re

import pytest

from lessons.cli.main import run
from tests.in_browser import Watched, needs_chromium
from tests.small_lessons import NAMES, small_catalog

PHONE, DESK = (360, 740), (1200, 900)
LEAST_TEXT_CONTRAST = 4.5
"""WCAG 2.2 (W3C), success criterion 1.4.3, level AA, text of any size."""
LEAST_LINE_CONTRAST = 3.0
"""WCAG 2.2 (W3C), success criterion 1.4.11, level AA, parts of graphics."""
LEAST_LETTER_PX = 9.0

pytestmark = needs_chromium


@pytest.fixture(scope="module")
def file(tmp_path_factory):
    folder = small_catalog(tmp_path_factory.mktemp("browser"))
    path = folder / "lessons.html"
    assert run(["book", *NAMES, "--catalog", str(folder), "-o", str(path)]) == 0
    return path


@pytest.fixture(scope="module")
def plain_page(a_browser):
    """One offline page for all tests, each of which opens the file anew in it."""
    one = Watched(a_browser, motion="no-preference")
    one.context.set_offline(True)
    yield one
    one.context.close()


@pytest.fixture
def opened(plain_page, file):
    """Opens the page at a size in a scheme, and holds it to silence on console and network."""

    def open_page(size, scheme="light"):
        plain_page.again(size, scheme).page.goto(file.as_uri())
        return plain_page.page

    yield open_page
    assert plain_page.said == [], "nothing on the console"
    assert set(plain_page.asked) == {file.as_uri()}, "nothing is asked of any network"


def unfold(page):
    page.evaluate("document.querySelectorAll('details').forEach(fold => { fold.open = true })")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_drawings_are_seen_and_nothing_runs_out_sideways(opened, size, scheme):
    page = opened(size, scheme)
    unfold(page)
    boxes = page.eval_on_selector_all(
        "svg", "all => all.map(one => { const b = one.getBoundingClientRect();"
        " return [b.left, b.right, b.width, b.height] })",
    )  # fmt: skip
    assert len(boxes) > 5
    for left, right, width, height in boxes:
        assert width > 100
        assert height > 60
        assert left >= 0
        assert right <= size[0]
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
    beyond = page.eval_on_selector_all(
        "body *:not(.skip)",
        "(all, wide) => all.filter(one => one.getBoundingClientRect().right > wide + 0.5)"
        ".map(one => one.outerHTML.slice(0, 80))",
        size[0],
    )
    assert beyond == []


def test_letters_in_drawings_can_be_read_on_a_phone(opened):
    page = opened(PHONE)
    unfold(page)
    sizes = page.eval_on_selector_all(
        "svg text",
        "all => all.map(one => parseFloat(one.getAttribute('font-size'))"
        " * one.ownerSVGElement.getBoundingClientRect().width"
        " / one.ownerSVGElement.viewBox.baseVal.width)",
    )
    assert len(sizes) > 30
    assert min(sizes) >= LEAST_LETTER_PX


def test_words_in_drawings_are_as_wide_as_they_were_placed(opened):
    page = opened(DESK)
    unfold(page)
    pairs = page.eval_on_selector_all(
        "svg text",
        "all => all.map(one => [one.getComputedTextLength(),"
        " parseFloat(one.getAttribute('textLength'))])",
    )
    for found, placed in pairs:
        assert found == pytest.approx(placed, abs=0.3)


def test_answers_open_and_close_by_keyboard_alone(opened):
    page = opened(PHONE)
    answer = page.locator("details", has_text="Answer to drill 1").first
    fold = page.locator("summary", has_text="Answer to drill 1").first
    inside = page.get_by_text("The edge runs up the slope.").first
    assert not inside.is_visible()
    for _ in range(60):
        page.keyboard.press("Tab")
        if fold.evaluate("one => one === document.activeElement"):
            break
    else:
        pytest.fail("Tab never comes to the answer")
    outline = fold.evaluate("one => getComputedStyle(one).outlineStyle")
    assert outline != "none", "the place of the keyboard is seen"
    page.keyboard.press("Enter")
    assert inside.is_visible()
    page.keyboard.press("Space")
    assert not inside.is_visible()
    assert answer.get_attribute("open") is None


def test_the_first_tab_skips_to_the_lessons(opened):
    page = opened(DESK)
    page.keyboard.press("Tab")
    focused = "document.activeElement.className"
    assert page.evaluate(focused) == "skip"
    assert page.locator(".skip").bounding_box()["y"] >= 0
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "lessons"


def test_a_screen_reader_finds_its_way(opened):
    page = opened(DESK)
    assert page.get_by_role("banner").count() == 1
    assert page.get_by_role("main").count() == 1
    assert page.get_by_role("contentinfo").count() == 1
    assert page.get_by_role("navigation", name="Contents").get_by_role("link").count() == 2
    assert page.get_by_role("article", name="101. A cheek for the yard").count() == 1
    assert page.get_by_role("region", name="By hand").count() == 2
    drawings = page.get_by_role("img")
    names = [drawings.nth(i).get_attribute("aria-labelledby") for i in range(drawings.count())]
    assert len(names) > 4
    assert all(names)
    assert page.get_by_role("img", name=re.compile("the square laid on the face")).count() == 1


def luminance(colour):
    """Relative luminance of an sRGB colour, as WCAG 2.2 (W3C) defines it; 0 to 1."""
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in (channel / 255 for channel in colour)
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    """Contrast ratio of two colours, as WCAG 2.2 (W3C) defines it; 1 to 21."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_contrast_formula_gives_its_published_ends():
    # Black on white is 21 : 1, a colour on itself 1 : 1 (WCAG 2.2); #767676 on white is the
    # lightest grey that passes 4.5 : 1 (common practice, from memory).
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((9, 8, 7), (9, 8, 7)) == 1
    assert contrast((0x76,) * 3, (255,) * 3) > 4.5 > contrast((0x77,) * 3, (255,) * 3)


WORDS_AND_GROUNDS = """
() => {
  const ground = one => {
    for (; one; one = one.parentElement) {
      const colour = getComputedStyle(one).backgroundColor;
      if (!/, 0\\)$|transparent/.test(colour)) return colour;
    }
    return 'rgb(255, 255, 255)';
  };
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node; (node = walker.nextNode());) {
    const one = node.parentElement;
    if (!node.textContent.trim() || /title|desc/.test(one.tagName)) continue;
    const style = getComputedStyle(one);
    const colour = one.closest('svg') ? style.fill : style.color;
    found.push([node.textContent.trim(), colour, ground(one)]);
    const before = getComputedStyle(one, '::before');
    if (before.content !== 'none') found.push(['before', before.color, ground(one)]);
  }
  return found;
}
"""


def rgb(text):
    match = re.fullmatch(r"rgb\((\d+), (\d+), (\d+)\)", text)
    assert match, text
    return tuple(int(part) for part in match.groups())


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_all_words_stand_out_from_their_ground(opened, scheme):
    page = opened(DESK, scheme)
    unfold(page)
    found = page.evaluate(WORDS_AND_GROUNDS)
    assert len(found) > 100
    grounds = {ground for _, _, ground in found}
    assert len(grounds) >= 2, "page and boxes"
    for words, colour, ground in found:
        assert contrast(rgb(colour), rgb(ground)) >= LEAST_TEXT_CONTRAST, (words, colour, ground)
    dark = luminance(rgb(page.evaluate("getComputedStyle(document.body).backgroundColor"))) < 0.1
    assert dark == (scheme == "dark")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_lines_and_steel_stand_out_from_page_and_boxes(opened, scheme):
    page = opened(DESK, scheme)
    unfold(page)
    grounds = [
        rgb(page.eval_on_selector(one, "it => getComputedStyle(it).backgroundColor"))
        for one in ("body", ".mistake")
    ]
    strokes = set(
        page.eval_on_selector_all(
            "svg [class^=pen-]", "all => all.map(one => getComputedStyle(one).stroke)"
        )
    )
    steel = set(
        page.eval_on_selector_all(
            "svg .fill-steel", "all => all.map(one => getComputedStyle(one).fill)"
        )
    )
    words = set(
        page.eval_on_selector_all("svg text", "all => all.map(one => getComputedStyle(one).fill)")
    )
    assert strokes
    assert steel
    for stroke in strokes:
        for ground in (*grounds, *(rgb(one) for one in steel)):
            assert contrast(rgb(stroke), ground) >= LEAST_LINE_CONTRAST
    for word in words:
        for one in steel:
            assert contrast(rgb(word), rgb(one)) >= LEAST_TEXT_CONTRAST


def test_large_print_is_the_browsers_own(opened):
    page = opened(DESK)
    wide = "document.querySelector('.drawn svg').getBoundingClientRect().width"
    tall = "parseFloat(getComputedStyle(document.querySelector('article p')).fontSize)"
    before = page.evaluate(wide), page.evaluate(tall)
    page.add_style_tag(content="html { font-size: 150% }")
    assert page.evaluate(tall) == pytest.approx(1.5 * before[1])
    assert page.evaluate(wide) > 1.05 * before[0]
    assert page.evaluate("document.documentElement.scrollWidth") <= DESK[0]


def test_it_prints_with_its_answers_folded_and_room_to_work(opened, tmp_path):
    import pypdfium2

    page = opened(DESK, "dark")
    path = tmp_path / "printed.pdf"
    page.pdf(path=str(path), format="Letter", prefer_css_page_size=True)
    with pypdfium2.PdfDocument(path) as document:
        pages = [one.get_textpage().get_text_bounded() for one in document]
        corner = document[0].render(scale=0.2).to_pil().getpixel((2, 2))
    text = " ".join(" ".join(pages).split())
    assert "which number stands across from 12?" in text
    assert "Answer to drill" not in text
    assert "The edge runs up the slope." not in text
    assert "Skip to" not in text
    assert sum(corner[:3]) > 3 * 250, "paper stays white, whatever the screen was"
    begins = [one for one in pages if re.match(r"\s*10\d\. A ", one)]
    assert len(begins) == 2, "each lesson begins on a page"
    page.emulate_media(media="print")
    assert page.locator(".work").first.bounding_box()["height"] > 60
