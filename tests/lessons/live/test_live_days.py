"""An apprentice's, a foreman's and an instructor's day on the live page, in a real browser."""

import re
from urllib.parse import urlencode

import pypdfium2
import pytest

from layout.cuts import catalogue
from lessons.cli.main import run
from lessons.live.asking import families
from tests.counts import LONG
from tests.in_browser import PATIENCE_MS, needs_axe, needs_chromium, serious

pytestmark = needs_chromium

WAYS = [(360, False), (1280, True), (360, True), (1280, False)][: 4 if LONG else 2]
"""Widths, and whether scripts run."""
BOARD = "2x8" if LONG else "2x6"
"""A 2x8's sheet is laid out in two ways before one is chosen."""
PRESSED = """
which => {
  const link = document.querySelector(which);
  link.addEventListener('click', event => event.preventDefault(), {once: true});
  link.click();
  return document.getElementById('working').textContent;
}
"""
NO_PICTURE = {"content_type": "image/svg+xml", "body": '<svg xmlns="http://www.w3.org/2000/svg"/>'}


@pytest.fixture
def visit(served, watched):
    """Opens the page with its key; nothing may be said on the console or asked elsewhere."""
    opened = []

    def begin(width=1280, script=True, scheme="light", **more):
        one = watched((width, 800), script, scheme, **more)
        opened.append(one)
        if not LONG:  # what the pictures show has tests of its own
            one.page.route("**/drawing/*.svg*", lambda route: route.fulfill(**NO_PICTURE))
        one.page.goto(served.address)
        return one.page

    yield begin
    for one in opened:
        # Chromium remarks by itself on a form that is wrong (422), and on a page that is not there;
        # its own viewer of PDFs is an extension.
        remarks = ("status of 422", "status of 404")
        assert [line for line in one.said if not any(each in line for each in remarks)] == []
        here = (served.base, "data:", "blob:", "chrome-extension:", "chrome:")
        assert [url for url in one.asked if not url.startswith(here)] == []


def printed(served, page, name):
    """The words of the PDF that a link or button leads to.

    The browser waits for the file and shows it in the long run alone: both take longer than the
    drawing does.
    """
    if not LONG:
        pressed = []

        def keep(route):
            pressed.append(route.request)
            route.fulfill(status=204)

        page.route("**/*.pdf*", keep)
        with page.expect_response(lambda answer: ".pdf" in answer.url):
            name.click()
        page.unroute("**/*.pdf*")
        (one,) = pressed
        assert one.method == "GET"
        status, headers, body = served.ask(one.url.removeprefix(served.base))
        assert (status, headers["Content-Type"]) == (200, "application/pdf")
        return words_of(body)
    from playwright.sync_api import Error

    with page.expect_response(lambda answer: ".pdf" in answer.url, timeout=PATIENCE_MS) as answer:
        name.click()
    assert answer.value.status == 200
    assert answer.value.headers["content-type"] == "application/pdf"
    status, _, body = served.ask(answer.value.url.removeprefix(served.base))
    assert status == 200
    try:
        page.go_back()
    except Error:  # the viewer of PDFs was still taking the page's place
        page.wait_for_load_state()
        page.go_back()
    return words_of(body)


def words_of(body):
    with pypdfium2.PdfDocument(body) as document:
        return " ".join(one.get_textpage().get_text_bounded() for one in document)


def words(text):
    return " ".join(text.split())


def shown(page):
    return words(page.locator("#found .words-list").inner_text())


def told(capsys, *arguments):
    capsys.readouterr()
    assert run(list(arguments)) == 0
    return words(capsys.readouterr().out)


@pytest.mark.parametrize(("width", "script"), WAYS)
def test_an_apprentices_day(visit, served, capsys, width, script):
    page = visit(width, script)
    page.get_by_role("link", name="Marks").first.click()
    page.get_by_label("Search by a trade word").fill("jack hip")
    page.get_by_role("button", name="Search").click()
    page.locator(".cards a", has_text="hip-jack").click()
    page.wait_for_url("**hip-jack**")  # and for its script, which follows what is typed
    page.get_by_label("Pitch of this roof").fill("7 1/2 in 12")
    page.get_by_label("Pitch of the other roof").fill("4")
    page.get_by_label("Board", exact=True).fill(BOARD)
    if script:  # it follows as one types
        page.locator("#found .words-list", has_text=f"board {BOARD}").wait_for()
        page.locator("#found .words-list", has_text="7 1/2 in 12").wait_for()
        assert page.get_by_role("button", name="Copy the words").is_visible()
        pressed = page.evaluate(PRESSED, "a[data-slow]")
        assert "leave this page open" in pressed, "what takes time says so at the press"
    else:
        page.get_by_role("button", name="Show the marks").click()
        assert not page.get_by_role("button", name="Copy the words").is_visible()
    asked = ("--pitch", "7 1/2 in 12", "--other-pitch", "4", "--stock", BOARD)
    assert shown(page) == told(capsys, "mark", "hip-jack", *asked)
    page.goto(page.url)  # its address holds the question
    assert shown(page) == told(capsys, "mark", "hip-jack", *asked)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    sheet = printed(served, page, page.get_by_role("link", name="Full-size sheet"))
    assert "FULL SIZE" in sheet
    page.get_by_label("What the check bars measure").fill("5 31/32 x 8")
    assert "FULL SIZE" in printed(
        served, page, page.get_by_role("button", name="Make the full-size sheet")
    )


@pytest.mark.parametrize(("width", "script"), WAYS if LONG else WAYS[:1])
def test_a_foremans_day(visit, served, capsys, width, script):
    page = visit(width, script)
    page.get_by_role("link", name="Settle").first.click()
    page.get_by_label("One says").fill("plumb 8 in 12, saw 45")
    page.get_by_label("The other says").fill("plumb 8 in 12, saw 50")
    page.get_by_role("button", name="Who is right?").click()
    claims = ("--claim", "plumb 8 in 12, saw 45", "--claim", "plumb 8 in 12, saw 50")
    assert shown(page) == told(capsys, "settle", "hip-jack", *claims)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page_text = printed(
        served, page, page.get_by_role("link", name=re.compile("Page for the wall"))
    )
    assert "RIGHT" in page_text
    assert "WRONG" in page_text
    page.get_by_label("One says").fill("it was a nice day")
    page.get_by_role("button", name="Who is right?").click()
    assert page.locator("#fault").inner_text() or page.locator("#found").inner_text()


@pytest.mark.parametrize(("width", "script"), WAYS if LONG else WAYS[1:2])
def test_an_instructors_day(visit, served, width, script):
    page = visit(width, script)
    page.get_by_role("link", name="Learn").first.click()
    page.get_by_label("Your pitch").fill("7 in 12")
    page.get_by_role("button", name="Use these").click()
    page.get_by_role("link", name="Following two lines with a handsaw").click()
    assert "7 in 12" in page.content()
    assert page.get_by_role("link", name=re.compile("^Next: ")).count() == 1
    drills = page.get_by_role("link", name="Bench and drills").get_attribute("href")
    assert "pitch=7+in+12" in drills
    page.get_by_role("link", name="Class").first.click()
    assert page.get_by_text("squaresaw live --share").is_visible()
    page.locator("#lesson").select_option("two-runs")
    page.get_by_label("How many sheets").fill("2")
    page.locator("#seed").fill("7")
    sheets = printed(served, page, page.get_by_role("button", name="Make the worksheets"))
    assert "Sheet 2" in sheets or "sheet 2" in sheets
    rows = "learner,lesson,right,mistakes\nAnn,two-runs,no,span-for-run\nBo,two-runs,yes,\n"
    page.get_by_label("Results, as saved").fill(rows)
    page.get_by_role("button", name="Read the results").click()
    table = page.get_by_role("region", name="Who can do what").inner_text()
    assert "Ann" in table
    assert "The rise is laid on the whole span" in table
    page.get_by_label("Results, as saved").fill("nothing,of,use\n1,2,3\n")
    page.get_by_role("button", name="Read the results").click()
    assert "no column" in page.locator("#fault").inner_text()
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@needs_axe
def test_axe_finds_nothing_serious(visit, served):
    page = visit(360, bypass_csp=True)
    claims = urlencode({"cut": "hip-jack", "one": "plumb 8 in 12, saw 45"})
    for path in ("/", "/marks?find=seat", "/marks/hip-jack", f"/settle?{claims}", "/learn",
                 "/class", "/progress", "/roof", "/nowhere"):  # fmt: skip
        page.goto(served.base + path)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            assert serious(page) == [], (path, scheme)
    page.goto(served.base + "/")


def test_nothing_runs_out_sideways(visit, served):
    page = visit(320)
    for path in ("/", "/marks", "/marks/hip-ridge", "/settle", "/learn", "/class"):
        page.goto(served.base + path)
        for width in (320, 768):
            page.set_viewport_size({"width": width, "height": 800})
            assert page.evaluate("document.documentElement.scrollWidth") <= width, (path, width)


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("seat cut", {"common-seat", "hip-seat", "valley-seat"}),
        ("Bird's mouth", {"common-seat", "common-heel"}),
        ("creeper on a hip", {"hip-jack"}),
        ("cheek of a hip jack", {"hip-jack"}),
        ("rafter", set(catalogue())),
        ("nothing of the kind", set()),
    ],
)
def test_a_trade_word_finds_its_cuts(words, found):
    names = {cut.name for _, cuts in families(words) for cut in cuts}
    assert found <= names if found else not names
    assert len(names) < 12 or words == "rafter"


def test_what_is_out_of_reach_stands_by_the_number(served, capsys):
    capsys.readouterr()
    assert run(["mark", "hip-jack", "--pitch=8", "--other-pitch=12"]) == 0
    told = next(line for line in capsys.readouterr().out.splitlines() if "  reach " in line)
    _, text = served.text("/marks/hip-jack?pitch=8&other_pitch=12")
    beside = re.search(r'<p id="reach" class="refused">(.*?)</p>', text)[1]
    assert words(beside) == words(told).removeprefix("reach ")
    assert "No pitch was given" not in text
    _, text = served.text("/marks/hip-jack")
    assert 'id="reach"' not in text
    assert "No pitch was given: these are the marks for 8 in 12." in text


def test_a_wrong_question_is_said_where_it_is_asked(visit):
    page = visit(360)
    page.goto(page.url + "marks/hip-jack")
    page.get_by_label("Pitch of this roof").fill("steep")
    page.locator("#fault", has_text="steep").wait_for()
    assert (
        "such as 8 in 12" in page.locator("#fault").inner_text()
        or page.locator("#fault").inner_text()
    )
    assert page.locator("#found").inner_text().strip() == ""


def test_what_is_typed_before_the_script_comes_is_followed_too(visit):
    page = visit()
    waiting = []
    page.route("**/look/live.js", lambda route: waiting.append(route))
    page.goto(page.url + "marks/hip-jack", wait_until="commit")
    page.get_by_label("Pitch of this roof").fill("7 1/2 in 12")
    (script,) = waiting
    assert "7 1/2 in 12" not in shown(page)
    script.continue_()
    page.locator("#found .words-list", has_text="7 1/2 in 12").wait_for()


def test_all_of_it_by_keyboard(visit):
    page = visit()
    page.goto(page.url + "marks/hip-jack")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    seen = []
    for _ in range(25):
        page.keyboard.press("Tab")
        seen.append(page.evaluate("document.activeElement.id || document.activeElement.innerText"))
    for name in ("pitch", "other_pitch", "corner", "stock", "hand", "Show the marks"):
        assert name in seen
