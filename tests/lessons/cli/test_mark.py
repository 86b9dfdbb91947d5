"""`squaresaw mark` as it is read: senses, reach, miter saw, and what is nonsense on real stock."""

import json

import pytest

from lessons.cli.main import run


def said(capsys, *arguments):
    assert run(["mark", *arguments]) == 0
    return capsys.readouterr().out


def in_json(capsys, *arguments):
    return json.loads(said(capsys, *arguments, "--json"))


def part(text, start, *, before):
    """The lines from the one that begins with `start` to the one that begins with `before`."""
    lines = text.splitlines()
    first = next(i for i, line in enumerate(lines) if line.startswith(start))
    last = next(i for i, line in enumerate(lines) if i > first and line.startswith(before))
    return "\n".join(lines[first:last])


def test_below_the_shoe_the_blade_runs_under_one_wood_on_each_face(capsys):
    """A left-hand jack is longer on its right face: from there the blade undercuts it."""
    saw = part(said(capsys, "hip-jack"), "SAW", before="MITER")
    assert "right face below the shoe the blade runs in under the kept wood, toward the foot" in saw
    assert "left face  below the shoe the blade runs in under the waste, toward the head" in saw
    assert saw.index("right face") < saw.index("left face"), "the steadier face comes first"
    assert "leans out" not in saw


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("blade-left", "start at the top edge"),
        ("blade-right", "start at the bottom edge"),
        (
            "tilts-both-ways",
            "start at the end of the line that puts the wide side on the kept wood",
        ),
    ],
)
def test_one_saw_is_told_one_way(capsys, kind, words):
    saw = part(said(capsys, "hip-jack", "--saw", kind), "SAW", before="MITER")
    assert saw.count(words) == 2
    assert saw.count("start at") == 2


def test_a_square_cut_says_no_lean(capsys):
    text = said(capsys, "common-ridge")
    assert "the blade stands square to its shoe" in text
    assert "runs in" not in text
    assert "leans over" not in text


def test_a_tilt_past_the_saw_is_out_of_reach_in_the_verdict_too(capsys):
    """Octagon: 67.5 of tilt. The edge would take 5 5/8 in of blade: no cure."""
    text = said(capsys, "hip-jack", "--corner", "135")
    assert "BY SAW       out of reach: a tilt of 67.5° is past the 50° this saw tilts" in text
    assert "remains    saw along the face mark and the edge mark with a handsaw" in text
    assert "shoe on the top edge" not in text
    answer = in_json(capsys, "hip-jack", "--corner", "135")
    assert answer["methods"]["saw"]["sound"] is True
    assert answer["methods"]["saw"]["within_reach"] is False
    assert answer["saw"]["way"] == "handsaw"


def test_a_hollow_tail_says_how_deep_the_blade_stands_square_to_the_shoe(capsys):
    """Two cheeks at 45 meet on the middle of 1 1/2 in: 3/4 in square to the face under the shoe.
    Along the tilted blade that is 3/4 root 2, near 1 1/16, a depth at which the saw overcuts."""
    text = said(capsys, "valley-tail", "--pitch", "12 in 12")
    deep = "set the saw blade 3/4 in below the shoe, measured square to the shoe with the blade"
    assert text.count(f"{deep} tilted") == 2
    assert "1 1/16" not in text


def test_a_thick_board_is_sawn_half_from_each_face(capsys):
    """A 4x at 45 takes 3.5 / (2 cos 45) = 2.475 in from each face, of 2 1/2: a thin margin."""
    text = said(capsys, "hip-jack", "--stock", "4x6")
    assert "it takes 5 in of saw blade below the shoe, this saw has 2 1/2 in" in text
    assert "mark both faces and saw half from each, tilt 45°" in text
    # 3 1/2 in of thickness, by the tangent of the edge mark, 12 / 9.985: 4.206.
    assert "the left face's mark lies 4 3/16 in nearer the foot than the right face's mark" in text
    assert "only just" in text
    answer = in_json(capsys, "hip-jack", "--stock", "4x6", "--blade-depth", "2 7/16")
    assert answer["saw"]["way"] == "handsaw"
    assert in_json(capsys, "hip-jack", "--stock", "4x6", "--blade-depth", "5")["saw"]["way"] == (
        "face"
    )


def test_half_from_each_face_is_no_cure_for_too_much_tilt(capsys):
    answer = in_json(capsys, "hip-jack", "--stock", "4x6", "--corner", "135")
    assert answer["saw"]["way"] == "handsaw"


def test_an_edge_is_offered_only_where_the_blade_comes_through(capsys):
    """A 2x2 is 1 1/2 deep; a 2x6 takes 5 1/2 / cos 23.09 = 5.98 in of blade from its edge."""
    small = said(capsys, "hip-jack", "--corner", "135", "--stock", "2x2")
    assert "run the shoe on the" in small
    assert "edge, along the edge mark" in small
    assert "shoe on the top edge" not in said(capsys, "hip-jack")


def test_the_miter_saw_is_told_in_full(capsys):
    saw = part(said(capsys, "hip-jack"), "MITER SAW", before="LONG POINT")
    for words in ("down", "against the fence", "head to your", "waste at your right"):
        assert words in saw
    assert "table 33.69° to your right; tilt 45°, blade leaning to your left" in saw


@pytest.mark.parametrize("cut", ["common-seat", "common-heel", "hip-backing", "valley-tail"])
def test_no_miter_saw_for_notches_rips_and_hollow_ends(capsys, cut):
    assert "MITER" not in said(capsys, cut)


def test_a_second_position_where_the_first_is_past_the_saw(capsys):
    """A jack's head at 24 in 12: a table of 63.43 flat; on edge 12 on 12 cos 63.43: 65.9, 39.2."""
    text = said(capsys, "purlin-square", "--pitch", "24", "--corner", "60")
    saw = part(text, "MITER SAW", before="LONG POINT")
    assert "out of reach" in saw


def test_a_heel_is_not_at_the_head(capsys):
    assert "at the head" not in said(capsys, "common-heel").splitlines()[0]


def test_two_cheeks_have_their_long_point_between_the_faces(capsys):
    """It stands half the thickness from either face: 0.75 tan 45 / cos 25.24 = 0.829."""
    text = said(capsys, "hip-ridge")
    assert "between the faces, on the middle of the thickness, 13/16 in strong (0.829) past" in text
    point = in_json(capsys, "hip-ridge")["long_point"]
    assert point["from_right_face_in"] == pytest.approx(0.75)
    assert point["by_in"] == pytest.approx(0.829, abs=5e-4)


def test_a_valley_s_hollow_does_not_read_like_a_hip_s_crown(capsys):
    hollow, crown = said(capsys, "valley-backing"), said(capsys, "hip-backing")
    assert "hollow is 5/16 in (0.320) deep" in hollow
    assert "starts     at the arris (sharp edge) of the top edge and right face" in hollow
    assert "a line on the left face, 5/16 in (0.320) from the top edge" in crown
    for text in (hollow, crown):
        assert "LEFT-HAND rip" in text
        assert "the bevel faces left" in text
        assert "cheek" not in text
    assert "runs in under the kept wood, toward the bottom edge" in hollow
    assert "runs in under the waste, toward the top edge" in crown
    for text in (hollow, crown):
        assert "toward the head" not in text.split("LOOK")[0].replace("look toward the head", "")


def test_a_joint_whose_second_cheek_alone_has_a_side_has_two_hands(capsys):
    """7 and 14 in 12 at 240: the valley runs square to this roof's eave, the other cheek at 60."""
    roof = ("valley-tail", "--pitch", "7", "--other-pitch", "14", "--corner", "240")
    left, right = (in_json(capsys, *roof, "--hand", hand) for hand in ("left", "right"))
    sides = [answer["other_planes"][0]["normal"][1] for answer in (left, right)]
    assert sides[0] > 0.8
    assert sides[1] == pytest.approx(-sides[0])
    text = said(capsys, *roof, "--hand", "right")
    assert "RIGHT-HAND cut" in text
    assert "No hand" not in text
    assert "a tilt of 60° is past the 50° this saw tilts" in text
    assert "BOTH FIT" not in text


def test_a_backed_valley_s_marks_stand_on_their_own_halves(capsys):
    """A hip's left half falls to the left, a valley's to the right: the same marks, exchanged.

    On a valley-ridge of 8 in 12 the left half lies in the roof that it stands square to.
    """
    hip = in_json(capsys, "hip-ridge-single")["edge_mark"]["on_backed_edge"]
    valley = in_json(capsys, "valley-ridge")["edge_mark"]["on_backed_edge"]
    assert hip["left"] == pytest.approx(valley["right"])
    assert valley["left"] == pytest.approx(39.76, abs=0.005)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("hip-jack", "--corner", "179"), "NOTE: this cut runs"),
        (("hip-jack", "--corner", "179"), "too near the heel to hold"),
    ],
)
def test_what_no_board_has_room_for_is_said(capsys, arguments, words):
    assert words in said(capsys, *arguments)
    assert "NOTE" not in said(capsys, "hip-jack")


@pytest.mark.parametrize(
    ("arguments", "error"),
    [
        (("mark", "hip-jack", "--stock", "50x150"), "50mm x 150mm"),
        (("mark", "hip-backing", "--stock", "12in x 1 1/2in"), "it runs out of the board"),
        (("mark", "hip-jack", "--blade-depth", "20"), "no circular saw's"),
        (("mark", "hip-jack", "--saw", "worm"), "blade-left"),
        (("length", "common", "--run", "15"), "write 15' for feet or 15in for inches"),
        (("roof", "--size", "24x16"), "write 24' for feet or 24in for inches"),
        (("jacks", "--eave", "8"), "write 8' for feet or 8in for inches"),
        (("roof", "--equal", "8 x 6"), "write 6' for feet or 6in for inches"),
        (
            ("roof", "--walls", "24, 90, 8 in 12; 16', 90, gable"),
            "write 24' for feet or 24in for inches",
        ),
        (
            ("roof", "--wing", "10' x 12'", "--wing-at", "6"),
            "write 6' for feet or 6in for inches",
        ),
        (
            ("settle", "hip-jack", "--run", "15", "--claim", "length 18"),
            "write 15' for feet or 15in for inches",
        ),
    ],
)
def test_what_can_be_taken_two_ways_is_refused(capsys, arguments, error):
    assert run(list(arguments)) == 2
    assert error in capsys.readouterr().err


def test_a_job_with_a_bare_size_is_refused_by_every_command(capsys, tmp_path):
    job = tmp_path / "porch.toml"
    assert run(["job", "new", str(job)]) == 0
    job.write_text(job.read_text("utf-8").replace("24' x 16'", "24 x 16"), "utf-8")
    capsys.readouterr()
    drawn = ["picture", "roof", "-o", str(tmp_path / "a.pdf")]
    for command in (["length", "common"], ["jacks"], ["roof"], drawn):
        assert run([*command, "--job", str(job)]) == 2
        assert "for feet or" in capsys.readouterr().err


def test_what_names_its_unit_is_read(capsys):
    for run_text in ("15'", "15'6", "15' 6", "180in", "4500mm"):
        assert run(["length", "common", "--run", run_text]) == 0
    capsys.readouterr()


def test_the_json_keeps_its_keys_and_says_every_sense(capsys):
    """What checks outside the project read: old keys stand, the senses stand beside them."""
    saw = in_json(capsys, "hip-jack")["saw"]
    assert saw["on_face"]["on_right_face_leans_over"] == "kept wood"
    assert saw["on_face"]["on_left_face_leans_over"] == "waste"
    assert saw["on_edge"]["tilt_deg"] == pytest.approx(23.09, abs=0.005)
    right, top = saw["on_face"]["right"], saw["on_edge"]["top"]
    assert (right["below_shoe"], right["toward"], right["wide_side_on"]) == (
        "under_kept",
        "foot",
        "kept",
    )
    assert right["start_from"]["blade-left"] == "top"
    assert right["start_from"]["blade-right"] == "bottom"
    assert right["within_reach"] is True
    assert top["within_reach"] is False
    assert set(top["start_from"].values()) == {"left", "right", None}
    square = in_json(capsys, "common-ridge")["saw"]["on_face"]["left"]
    assert (square["below_shoe"], square["toward"]) == ("square", None)
    rip = in_json(capsys, "hip-backing")["saw"]["on_face"]["left"]
    assert (rip["toward"], rip["toward_side"]) == (None, "top")
    assert set(rip["start_from"].values()) == {"head", "foot", None}


def test_a_notch_s_tilted_heel_can_be_started_by_one_kind_of_saw(capsys):
    """It is sawn from the bottom edge to the inside corner; the other saw would start in there."""
    text = said(capsys, "hip-seat")
    assert "start at the bottom edge with a blade-right saw; a blade-left saw would start" in text
    assert "start at the bottom edge with a blade-left saw; a blade-right saw would start" in text


NOTCHES = ("common-seat", "common-heel", "hip-seat", "valley-seat")


@pytest.mark.parametrize("name", NOTCHES)
def test_a_notch_asked_for_alone_says_that_its_depth_is_an_example(capsys, name):
    """Once, right under the length that goes with that depth."""
    lines = said(capsys, name).splitlines()
    (at,) = [i for i, line in enumerate(lines) if "is an example" in line]
    assert "the mark is" in lines[at - 1]
    assert lines[at].endswith(
        "your roof's own are on the stick's sheet: squaresaw roof --stick NAME"
    )


def test_no_other_cut_and_no_stick_of_a_roof_says_so(capsys):
    assert "is an example" not in said(capsys, "hip-jack")
    assert run(["roof", "--size", "24' x 16'", "--stick", "H1"]) == 0
    sheet = capsys.readouterr().out
    assert "the mark is" in sheet
    assert "is an example" not in sheet
