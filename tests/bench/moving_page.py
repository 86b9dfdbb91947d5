"""What the moving page costs a phone: counts of work, and times on a slowed processor.

    python tests/bench/moving_page.py

Counts say the same on every machine: elements on the page, letters unpacked before it can be used,
and nodes that a frame changes while a slider moves (`MOST_CHANGED` in
tests/lessons/bench/test_bench_page.py holds the last). Times are read by people: first paint and
frames a second, with the processor slowed six times, and beside them the first paint of an empty
page in the same browser.
"""

import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))
SLOWED = 6
SLIDING = """
async () => {
  const pitch = document.getElementById('pitch');
  let most = 0, frames = 0;
  const watch = new MutationObserver(all => {
    most = Math.max(most, new Set(all.map(one => one.target)).size);
  });
  watch.observe(document.getElementById('pictures'),
    {subtree: true, attributes: true, childList: true});
  const began = performance.now();
  for (let at = 0; performance.now() - began < 3000; at += 1) {
    pitch.value = String(at % (Number(pitch.max) + 1));
    pitch.dispatchEvent(new Event('input', {bubbles: true}));
    await new Promise(requestAnimationFrame);
    frames += 1;
  }
  return [most, frames / ((performance.now() - began) / 1000)];
}
"""
PAINTED = "performance.getEntriesByType('paint').map(one => one.startTime)[0] ?? null"


def slowed(browser, address: str):  # type: ignore[no-untyped-def]
    """A page in a browser whose processor is slowed, and when it was first painted [ms]."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    page.goto(address)
    page.wait_for_timeout(500)
    return page, page.evaluate(PAINTED)


def main() -> None:
    """Measure the page of all cuts once."""
    from lessons.cli.main import run
    from tests.in_browser import WHOLE, chromium

    with tempfile.TemporaryDirectory() as folder, chromium(WHOLE) as browser:
        bench, empty = Path(folder) / "bench.html", Path(folder) / "empty.html"
        empty.write_text("<!DOCTYPE html><title>empty</title><p>empty")
        run(["bench", *sys.argv[1:], "-o", str(bench)])
        _, floor = slowed(browser, empty.as_uri())
        page, painted = slowed(browser, bench.as_uri())
        page.wait_for_selector("html[data-ready]", timeout=120_000)
        elements = page.evaluate("document.querySelectorAll('*').length")
        most, rate = page.evaluate(SLIDING)
        print(f"file                       {bench.stat().st_size / 1e6:.2f} MB")
        print(f"elements on the page       {elements}")
        print(f"nodes changed in a frame   at most {most}")
        print(f"first paint, {SLOWED} x slower    {painted:.0f} ms (an empty page {floor:.0f} ms)")
        print(f"frames while sliding       {rate:.0f} a second, {SLOWED} x slower")


if __name__ == "__main__":
    main()
