"""The job folder behind the live page: saved when told, whole or not at all, and nothing else."""

import errno
import os
import re
import signal
import subprocess
import sys
import time
import tomllib
from pathlib import Path
from urllib.parse import urlencode

import pytest

from layout.cuts import catalogue
from layout.job.job import SECTIONS
from lessons.bench.drills import packed_drills
from lessons.bench.page import listed, page_of
from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.drill.progress import ProgressFile
from lessons.jobs.job_starter import starter
from lessons.live.folder import ChangedError, FolderError, JobFolder
from lessons.live.job_text import FIELDS, fault_in, values_of, with_values
from lessons.live.kept import with_store
from tests.counts import LONG, count
from tests.in_browser import needs_chromium
from tests.lessons.live.test_live_days import NO_PICTURE

ROOT = Path(__file__).parents[3]


def test_a_form_changes_its_lines_and_leaves_the_rest():
    text = starter("porch")
    assert with_values(text, values_of(text)) == text
    changed = with_values(text, {"pitch": "9 in 12", "wing": "10' x 12'", "ridge": ""})
    assert tomllib.loads(changed)["roof"]["pitch"] == "9 in 12"
    assert tomllib.loads(changed)["roof"]["wing"] == "10' x 12'"
    assert "ridge" not in tomllib.loads(changed)["stock"]
    remarks = [line for line in text.splitlines() if line.startswith("# ") and "=" not in line]
    assert [line for line in remarks if line not in changed] == []
    bare = with_values('name = "x"\n', {"rafter": '2x6"\n[roof]\nevil = "1'})
    assert tomllib.loads(bare)["stock"]["rafter"] == '2x6"\n[roof]\nevil = "1'
    assert "roof" not in tomllib.loads(bare)


@pytest.mark.parametrize("key", FIELDS)
def test_every_field_can_be_set_and_taken_out(key):
    section = next(name for name, keys in SECTIONS.items() if key in keys)
    text = with_values(starter("yard"), {key: "7 ½"})
    assert tomllib.loads(text)[section][key] == "7 ½"
    assert key not in tomllib.loads(with_values(text, {key: ""})).get(section, {})


def test_a_fault_is_said_beside_its_field():
    text = with_values(starter("porch"), {"pitch": "steep"})
    number = next(i for i, line in enumerate(text.splitlines(), 1) if line.startswith("pitch ="))
    fault = fault_in(text, f"job.toml, line {number}: 'steep' is not a pitch")
    assert (fault.field, fault.text) == ("pitch", "'steep' is not a pitch")
    assert fault_in(text, "something else").field == ""
    loose = with_values(starter("porch"), {"size": "24 x 16"})
    assert fault_in(loose, "'24' may be feet or inches").field == "size"
    assert fault_in(loose, "'8 in 12' and '24' do not go together").field == ""
    assert fault_in(text, "job.toml, line 900: far off").field == ""


@pytest.mark.parametrize(
    ("key", "value", "told"),
    [
        ("pitch", "steep", "'steep' is not a pitch"),
        ("ends", "gabel,hip", "an end is hip, gable or bay, not 'gabel'"),
        ("hip", "2x6", "a hip of 2x6 measures"),
        ("rake-overhang", "1/2", "a rake overhang of 1/2 in"),
        ("hip-way", "bent", "hip-way is backed"),
    ],
)
def test_what_a_jobs_check_says_stands_beside_the_field_it_names(
    tmp_path, capsys, key, value, told
):
    """The check's own words, with the file, the line and the name before them taken off."""
    path = tmp_path / "porch.toml"
    text = with_values(starter("porch"), {key: value})
    path.write_text(text)
    assert run(["job", "check", str(path)]) == 2
    fault = fault_in(text, capsys.readouterr().err.strip())
    assert fault.field == key
    assert fault.text.startswith(told)


@pytest.mark.parametrize(
    "name",
    ["../x.toml", "/etc/passwd", "a/b.toml", ".hidden.toml", "x.txt", "", "x.toml\n", "c:\\x.toml",
     "é.toml", "a" * 80 + ".toml", "..toml", "x\x00.toml"],
)  # fmt: skip
def test_only_plain_names_are_files_of_the_folder(tmp_path, name):
    folder = JobFolder(tmp_path)
    with pytest.raises(FolderError):
        folder.place(name)
    with pytest.raises(FolderError):
        folder.save(name, "x", "")
    assert list(tmp_path.iterdir()) == []


def test_a_link_to_elsewhere_is_not_followed(tmp_path):
    (tmp_path / "jobs").mkdir()
    outside = tmp_path / "outside.toml"
    outside.write_text("name = 'mine'\n")
    (tmp_path / "jobs" / "link.toml").symlink_to(outside)
    folder = JobFolder(tmp_path / "jobs")
    assert folder.names() == []
    with pytest.raises(FolderError):
        folder.read("link.toml")
    with pytest.raises(FolderError):
        folder.save("link.toml", "gone", "")
    assert outside.read_text() == "name = 'mine'\n"


@pytest.mark.parametrize("wrong", ["[" * 3000, "9" * 5000, "]"])
def test_a_text_that_is_no_job_has_no_values(wrong):
    assert values_of(f"[roof]\nsize = {wrong}") == {}


def test_a_file_that_changed_meanwhile_is_not_written_over(tmp_path):
    folder = JobFolder(tmp_path)
    first = folder.save("porch.toml", "one\n", "")
    (tmp_path / "porch.toml").write_text("two\n")
    with pytest.raises(ChangedError):
        folder.save("porch.toml", "three\n", first.mark)
    with pytest.raises(ChangedError):
        folder.save("porch.toml", "three\n", "")
    assert (tmp_path / "porch.toml").read_text() == "two\n"


def test_a_full_disk_leaves_the_old_file(tmp_path, monkeypatch):
    folder = JobFolder(tmp_path)
    before = folder.save("porch.toml", "one\n", "")

    def full(*_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("figures.files.whole.os.replace", full)
    with pytest.raises(Exception, match="No space left"):
        folder.save("porch.toml", "two\n", before.mark)
    monkeypatch.undo()
    assert (tmp_path / "porch.toml").read_text() == "one\n"
    assert [path.name for path in tmp_path.iterdir()] == ["porch.toml"]


def test_a_killed_save_leaves_a_whole_file(tmp_path):
    code = """
import sys
from pathlib import Path
from lessons.live.folder import JobFolder
folder = JobFolder(Path(sys.argv[1]))
mark = ""
for turn in range(10**9):
    mark = folder.save("porch.toml", f"{turn % 10}" * 90_000, mark).mark
    if turn == 0:
        print("on", flush=True)
"""
    for turn in range(count(20, 3)):
        place = tmp_path / str(turn)
        place.mkdir()
        process = subprocess.Popen(
            [sys.executable, "-c", code, str(place)], cwd=ROOT, stdout=subprocess.PIPE
        )
        process.stdout.readline()
        time.sleep(0.01 + 0.013 * turn)
        os.kill(process.pid, signal.SIGKILL)
        process.wait()
        process.stdout.close()
        text = JobFolder(place).read("porch.toml").text
        assert len(text) == 90_000
        assert len(set(text)) == 1


def test_jobs_over_the_wire(served):
    form = urlencode({"name": "porch"}).encode()
    post = {"Content_Type": "application/x-www-form-urlencoded", "Origin": served.base}
    status, headers, _ = served.ask("/roof/new", "POST", form, **post)
    assert (status, headers["Location"]) == (303, "/roof/porch.toml")
    status, page = served.text("/roof/porch.toml")
    assert (status, "This is an example" in page, "packet.pdf" in page) == (200, True, False)
    assert served.ask("/roof/new", "POST", form, **post)[0] == 422
    bad = urlencode({"name": "../porch"}).encode()
    assert served.ask("/roof/new", "POST", bad, **post)[0] == 422
    assert served.ask("/roof/new", "POST", form, Origin="http://evil.example")[0] == 403
    file = served.folder / "porch.toml"
    before = file.read_text()
    page = served.text("/roof/porch.toml?pitch=steep")
    assert page[0] == 422
    assert re.search(r'id="pitch-wrong" role="alert">[^<]*steep', page[1])
    assert file.read_text() == before, "what is tried is not saved"
    mark = re.search(r'name="mark" value="(\w+)"', page[1])[1]
    saved = urlencode({"pitch": "9 in 12", "mark": mark}).encode()
    status, headers, _ = served.ask("/roof/porch.toml/save", "POST", saved, **post)
    assert status == 303
    assert "saved" in headers["Location"]
    assert 'pitch = "9 in 12"' in file.read_text()
    status, _, body = served.ask("/roof/porch.toml/save", "POST", saved, **post)
    assert status == 409, "it is another file by now"
    assert b"changed elsewhere" in body
    file.write_text("not [ a job")
    assert served.ask("/roof/porch.toml")[0] == 422
    file.unlink()
    assert served.ask("/roof/porch.toml")[0] == 404
    assert served.ask("/roof/..%2f..%2fetc%2fpasswd")[0] == 404
    assert list(served.folder.iterdir()) == []


DRAWN = ("plan", "pictorial")


@needs_chromium
@pytest.mark.parametrize(
    ("width", "script"), [(360, True), (1280, False), (1280, True), (360, False)][: count(4, 1)]
)
def test_a_foremans_roof_from_the_first_page_to_the_packet(served, watched, width, script):
    one = watched((width, 800), script)
    page = one.page
    if not LONG:  # a small roof, and its pictures in the long run alone
        (served.folder / "porch.toml").write_text(starter("porch").replace("24' x 16'", "8' x 6'"))
        page.route("**/roof/*/*.svg*", lambda route: route.fulfill(**NO_PICTURE))
    page.goto(served.address)
    page.get_by_role("link", name="Roof").first.click()
    if LONG:
        page.get_by_label("Begin a new job").fill("porch")
        page.get_by_role("button", name="Begin").click()
    else:
        page.get_by_role("link", name="porch.toml").click()
    page.locator("#size").fill("7' x 6'")
    page.locator("#pitch").fill("9 in 12")
    if not script:
        page.get_by_role("button", name="Try it").click()
    page.get_by_text("Not saved yet").wait_for()
    page.locator("#found", has_text="9 in 12").wait_for()
    for picture in page.locator("#plan-title ~ div img").all():
        assert "9+in+12" in picture.get_attribute("src"), "the pictures follow the form"
    assert 'pitch = "8 in 12"' in (served.folder / "porch.toml").read_text()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.get_by_role("button", name="Save to porch.toml").click()
    page.get_by_text("Saved to porch.toml").wait_for()
    page.locator("#found", has_text="Cut list").wait_for()
    told = tomllib.loads((served.folder / "porch.toml").read_text())
    assert (told["roof"]["pitch"], told["roof"]["size"]) == ("9 in 12", "7' x 6'")
    status, headers, body = served.ask("/roof/porch.toml/cuts.csv")
    assert (status, headers["Content-Type"].split(";")[0]) == (200, "text/csv")
    assert b"hip-ridge" in body
    if LONG:  # a packet takes its time
        status, headers, body = served.ask("/roof/porch.toml/packet.pdf")
        assert (status, headers["Content-Type"]) == (200, "application/pdf")
        assert body.startswith(b"%PDF")
    for view in DRAWN if LONG else ():
        status, headers, body = served.ask(f"/roof/porch.toml/{view}.svg")
        assert (status, headers["Content-Type"]) == (200, "image/svg+xml")
        assert b"H1" in body
    assert served.ask("/roof/porch.toml/gap.svg")[0] == 404
    (served.folder / "porch.toml").unlink()
    assert [line for line in one.said if "422" not in line] == []


def small_bench():
    """A bench of one cut at one pitch, and one problem, as the live page hands it out."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("lessons.bench.steps.RISES", (8.0,))
        cut = listed(catalogue()["common-seat"], "foot")
    page = page_of([cut], packed_drills([catalog()["birds-mouth"]], 5, 1), seed=5)
    return {"content_type": "text/html", "body": with_store(page)}


@needs_chromium
def test_drills_on_the_page_are_kept_with_the_terminals(served, watched, monkeypatch, capsys):
    one = watched((360, 800))
    page = one.page
    page.goto(served.address)
    if not LONG:  # a page of one step and one lesson, made here
        page.route("**/bench/*", lambda route: route.fulfill(**small_bench()))
    page.goto(f"{served.base}/bench/common-seat?seed=5&stock=2x8&lesson=birds-mouth")
    page.wait_for_selector("html[data-ready]")
    assert page.locator("#drill-seed").inner_text() == "5"
    assert page.locator("#stock option:checked").inner_text() == "2x8"
    page.fill("#learner", "Ann")
    with page.expect_response("**/progress/answered") as kept:
        page.click("#drill-show")
    assert kept.value.status == 201
    page.locator("#kept-here").wait_for()
    monkeypatch.setenv("SQUARESAW_DATA", str(served.data))
    for learner, right in (("Ann", True), ("Bo", False), ("", True)):
        capsys.readouterr()
        assert run(["drill", "--progress", *([f"--learner={learner}"] if learner else [])]) == 0
        terminal = capsys.readouterr().out
        assert ("0 right of 1" in terminal) == right
        page.goto(f"{served.base}/progress?learner={learner}")
        assert page.locator("pre").inner_text().split() == terminal.split()
    assert one.said == []


def test_what_no_page_sends_is_not_kept(served):
    before = ProgressFile(served.data).read().attempts
    post = {"Content_Type": "application/x-www-form-urlencoded", "Origin": served.base}
    good = {"lesson": "two-runs", "kind": "number", "tries": "1", "hints": "0", "right": "True"}
    for bad in ({"lesson": "x"}, {"kind": "x"}, {"tries": "-1"}, {"hints": "9" * 400}):
        form = urlencode({**good, **bad}).encode()
        assert served.ask("/progress/answered", "POST", form, **post)[0] == 422
    assert served.ask("/progress/answered", "POST", b"\xff=1", **post)[0] == 400
    assert ProgressFile(served.data).read().attempts == before
    form = urlencode({**good, "learner": "x" * 500, "given": "pitch 8 in 12; stock 2x6"}).encode()
    assert served.ask("/progress/answered", "POST", form, **post)[0] == 201
    assert served.ask("/progress/answered", "POST", form, Origin="http://evil.example")[0] == 403
    *others, attempt = ProgressFile(served.data).read().attempts
    assert tuple(others) == before
    assert attempt.given == {"pitch": "8 in 12", "stock": "2x6"}
    assert len(attempt.learner) == 60
    assert attempt.right
