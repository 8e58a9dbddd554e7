"""Marking-out drawings: all can be marked from one corner, waste is hatched, hands are drawn as a pair."""

import math
from dataclasses import replace
from itertools import combinations

import pytest
from bench_like import CLEAT, PLY, bench, box, inch
from figure_set import (
    INCH,
    bevelled,
    compound,
    four_tapers,
    grooved,
    mitred,
    notched,
    odd_parts,
    part_figures,
    pinned,
    rail,
    short_taper,
)
from reading import area, filled, of_kind, texts, words_on_lines, words_on_words

from plankit.drawing.figures_glue_up import glue_up_drawing
from plankit.drawing.figures_part import part_drawing
from plankit.drawing.hatch import hatch
from plankit.drawing.mirror_image import turn_to
from plankit.drawing.part_faces import datum_of, face_view, faces_shown
from plankit.drawing.part_notes import face_words
from plankit.drawing.primitives import Text
from plankit.errors import PlanError
from plankit.parts import FACES, Bore, LeftOn, Part, PocketHoles
from plankit.units import L


def drawn(part: Part):
    return part_drawing(part, "X", "1 piece", INCH)


def scale_of(figure) -> int:
    return int(
        next(text for text in texts(figure) if text.startswith("Scale 1:"))
        .split(".")[0]
        .removeprefix("Scale 1:")
    )


def test_a_foot_is_drawn_on_two_faces_and_its_narrow_end():
    """The left face tapers, so its line is marked on front or back; the front tapers too, so on the back."""
    assert [view.face for view in faces_shown(bench().part("foot"))] == ["right", "back", "bottom"]


def test_measures_start_at_edges_that_nothing_is_sawn_off():
    assert datum_of(bench().part("foot")).faces == ("right", "back", "top")  # left, front and bottom are sawn
    assert datum_of(bench().part("foot-4")).faces == ("left", "front", "top")
    assert datum_of(bench().part("floor")).faces == ("left", "front", "bottom")


def test_a_foot_has_every_number_a_saw_needs():
    foot = bench().part("foot")
    said = texts(part_drawing(foot, "A", "4 pieces", INCH))
    assert said.count("4") == 1  # its length
    assert said.count("3 1/2") == 2  # a 4x4 is 3 1/2 both ways
    assert said.count("1") == said.count("1/2") == 1  # taken off at the narrow end
    assert said.count("2 1/2") == said.count("3") == 1  # what is left there: 3 1/2 − 1, 3 1/2 − 1/2
    assert "Taper 14.0° off the left edge" in said  # arctan(1 / 4) = 14.04°
    assert "Taper 7.1° off the front edge" in said  # arctan(1/2 / 4) = 7.13°


def test_the_waste_of_a_taper_has_its_area_and_is_hatched_on_the_sawn_side():
    figure = drawn(short_taper())
    (waste,) = filled(figure, "waste")
    scale = scale_of(figure)
    # half of 3/4 × 10 in
    assert area(waste.rings[0]) * scale**2 == pytest.approx(0.5 * 0.75 * 10 * 25.4**2, rel=1e-6)
    strokes = of_kind(figure, "hatch")
    assert len(strokes) == pytest.approx(len(hatch([waste.rings[0]], -45.0, 1.6)), abs=2)
    top = min(y for _, y in waste.rings[0]) - 0.01
    low = max(y for _, y in waste.rings[0]) + 0.01
    assert all(top <= y <= low for line in strokes for _, y in line.points)


def test_a_taper_that_starts_part_way_down_says_where():
    said = texts(drawn(short_taper()))
    assert said.count("4") == said.count("14") == said.count("3/4") == 1  # 14 − 10 = 4 from the square end


def test_every_bore_has_both_distances_from_the_corner():
    for label in "BF":
        part = next(p for p in bench().parts if p.name == {"B": "Bottom", "F": "Cleat"}[label])
        datum = datum_of(part)
        said = texts(part_figures()[label])
        for view in faces_shown(part):
            for bore in (f for f in part.features if isinstance(f, Bore) and f.face == view.face):
                for axis in (view.across, view.upright):
                    at = datum.distance(part, axis, bore.at["xyz".index(axis)])
                    assert INCH.bare(at) in said


def test_the_bottoms_holes_stand_where_the_feet_are():
    said = texts(part_figures()["B"])
    # a foot 3 1/2 wide, 1/2 in from the edge: middle at 1/2 + 1 3/4 = 2 1/4; the far ones 44 and 15 less that
    assert [said.count(number) for number in ("2 1/4", "41 3/4", "12 3/4", "44", "15")] == [2, 1, 1, 1, 1]
    assert "4 × ø11/64 through, countersink ø11/32" in said  # #8 shank 0.164 in: 11/64 = 0.172


def test_slots_say_how_far_apart_their_end_holes_are():
    said = texts(part_figures()["F"])
    # two slots in each hand; words above a face in one line, at its right in two
    assert sum(1 for text in said if text.startswith("slot ø11/64, end holes")) == 4


def test_pocket_holes_say_which_end_their_screws_leave():
    assert "3 × pocket holes, screws out of the bottom end" in texts(part_figures()["C"])
    assert "pocket hole, screw out of the left end" in texts(drawn(rail()))


def test_both_hands_of_a_pair_have_all_their_sizes():
    figure = part_figures()["A"]
    said = texts(figure)
    assert {"As drawn", "Mirrored: the other hand, same sizes"} <= set(said)
    # twice 4 long, 3 1/2 both ways, 1/2 and 1 off, 2 1/2 and 3 left
    assert [said.count(number) for number in ("4", "3 1/2", "1/2", "1", "2 1/2", "3")] == [2, 4, 2, 2, 2, 2]
    wastes = sorted(round(area(waste.rings[0]), 3) for waste in filled(figure, "waste"))
    assert len(wastes) == 8  # two triangles and two strips, twice
    assert wastes[::2] == pytest.approx(wastes[1::2], abs=0.002)


def test_the_other_hand_leans_the_other_way_and_stands_as_upright():
    triangles = [waste.rings[0] for waste in filled(part_figures()["A"], "waste") if len(waste.rings[0]) == 3]

    def shape(ring, sign):
        x, y = ring[0]
        return [(round(sign * (a - x), 6), round(b - y, 6)) for a, b in ring]

    half = len(triangles) // 2
    assert [shape(ring, 1) for ring in triangles[:half]] == [shape(ring, -1) for ring in triangles[half:]]
    for ring in triangles:  # the foot is narrow at its lower end
        widest = max(y for _, y in ring)
        assert sum(math.isclose(y, widest) for _, y in ring) == 2


UP_AND_LEFT = {
    "front": ("top", "left"),
    "back": ("top", "right"),
    "left": ("top", "back"),
    "right": ("top", "front"),
    "top": ("back", "left"),
    "bottom": ("front", "left"),
}
"""What is up and what is at the left on the six views of ISO 128-3 in the third angle."""


@pytest.mark.parametrize("face", FACES)
def test_every_face_is_drawn_the_way_up_it_has_in_the_finished_piece(face):
    """A panel that stands is drawn standing, whichever of its faces is worked on."""
    for grain in "xz":
        panel = Part("p", "Panel", "panel", PLY, box("0", "20", "0", "3/4", "0", "30"), grain, "y")
        view = face_view(panel, face)
        assert (view.above, view.left) == UP_AND_LEFT[face]


def test_a_part_that_runs_from_front_to_back_lies_along_the_page_from_above_and_from_below():
    cleat = Part("c", "Cleat", "board", CLEAT, box("0", "1 1/2", "0", "13", "0", "3/4"), "y", "z")
    for face in ("top", "bottom"):
        assert face_view(cleat, face).left == "front"
    assert (face_view(cleat, "top").above, face_view(cleat, "bottom").above) == ("left", "right")


def test_a_rail_pocketed_at_the_back_keeps_its_top_edge_up_and_says_that_it_is_turned():
    figure = drawn(rail())
    words = {item.text: item for item in figure.items if isinstance(item, Text)}
    assert "Back face, top edge up" in words
    assert "turned round: its right end is at the left" in words
    assert words["top edge"].at[1] < words["bottom edge"].at[1]  # y runs down the page
    left, right = words["pocket hole, screw out of the left end"], words["pocket hole, screw out of the right end"]
    assert right.at[0] < left.at[0]


def test_the_black_corner_is_where_the_zeros_are():
    """A rail seen from behind, measured from its left end: the corner is at the right of the page."""
    part = replace(rail(), features=(Bore("back", (inch("3"), inch("3/4"), inch("3/4")), inch("1/4")),))
    figure = drawn(part)
    (hole,) = (item for item in figure.items if isinstance(item, Text) and item.text == "3")
    (whole,) = (item for item in figure.items if isinstance(item, Text) and item.text == "24")
    corner = [x for line in of_kind(figure, "outline") for x, _ in line.points]
    assert whole.at[0] < hole.at[0]
    assert max(corner) - hole.at[0] < hole.at[0] - whole.at[0]


def test_nothing_is_measured_from_an_end_that_is_trimmed_later():
    """Left long at the bottom: the top end is where a tape hooks on from first to last."""
    panel = Part("p", "Panel", "panel", PLY, box("0", "20", "0", "3/4", "0", "30"), "z", "y")
    assert datum_of(panel).face("z") == "bottom"
    assert datum_of(replace(panel, features=(LeftOn("bottom", inch("1/2")),))).face("z") == "top"


def test_leaders_of_two_kinds_of_holes_in_line_do_not_run_into_one():
    """Pocket holes out of both long edges stand above one another: each kind has a leader of its own."""
    places = tuple(inch(at) for at in ("3", "10", "17", "24"))
    pockets = tuple(PocketHoles("top", edge, places) for edge in ("front", "back"))
    panel = Part("p", "Panel", "panel", PLY, box("0", "27", "0", "14", "0", "3/4"), "x", "z", pockets)
    tips = [line.points[0][0] for line in of_kind(drawn(panel), "leader")]
    assert len(tips) == 2
    assert abs(tips[0] - tips[1]) > 2


def test_long_sentences_are_no_wider_than_the_drawing():
    part = replace(rowed("2 in", 4), box=box("0", "3/4", "0", "12", "0", "16"), grain="z", through="x", features=())
    long = "the opening of the frame you made; take off 1/32 in each way"
    plain, told = drawn(part), drawn(replace(part, fit_to=long))
    assert told.width == plain.width
    assert told.height > plain.height


def test_two_standing_panels_fit_side_by_side_on_a_printed_page():
    """Letter less 13 mm on each side is 190 mm wide; drawings are printed at 0.88 of their size."""
    assert 2 * 0.88 * drawn(notched()).width < 190


def test_edges_and_ends_at_the_black_corner_are_named():
    """A side's grain runs up it, so bottom and top are its ends; a brace's long way is x."""
    assert {"bottom end", "top end", "front edge", "back edge"} <= set(texts(part_figures()["C"]))
    assert {"left end", "back edge"} <= set(texts(drawn(mitred())))


def test_a_mirror_image_names_its_own_faces():
    foot, other = bench().part("foot"), bench().part("foot-2")
    turn = turn_to(foot, other)
    assert turn is not None
    assert turn.is_mirror
    said = texts(part_drawing(foot, "A", "2 pieces", INCH, other))
    for view in faces_shown(foot):
        own = turn.face(view.face)
        assert any(text.startswith(f"{face_words(other, own)}, ") for text in said)
    assert "Taper 14.0° off the right edge" in said  # the foot's own is off its left edge


def test_a_part_has_no_turn_to_one_of_another_size():
    assert turn_to(bench().part("foot"), bench().part("side")) is None


def test_a_group_may_have_a_name_of_its_own():
    figure = part_drawing(rail(), "R", "2 pieces", INCH, name="Rail / Stile")
    assert "R\u00a0 Rail / Stile" in texts(figure)
    assert "Rail / Stile" in figure.title
    assert "part R, Rail / Stile" in figure.description


def test_a_part_without_hands_is_drawn_alone():
    assert "Mirrored: the other hand, same sizes" not in texts(part_figures()["B"])


def test_a_notch_is_hatched_and_given_from_the_corner():
    figure = drawn(notched())
    said = texts(figure)
    assert said.count("10 1/2") == said.count("13 1/4") == 1  # 12 − 1 1/2; 14 − 3/4
    assert "for the rail, 3/4 × 1 1/2" in said
    (waste,) = filled(figure, "waste")
    assert area(waste.rings[0]) * scale_of(figure) ** 2 == pytest.approx(0.75 * 1.5 * 25.4**2)


def test_mitred_ends_give_setback_and_angle():
    said = texts(drawn(mitred()))
    assert said.count("20") == 1
    # arctan(1 1/2 / 1 1/2), across the wide face
    assert sum(1 for text in said if text.endswith("end mitered: saw turned 45.0° off square")) == 2
    assert "Length: 20 to the long points, 17 to the short points." in said  # 20 − 2 × 1 1/2
    assert datum_of(mitred()).face("y") == "back"  # the long edge


def test_a_groove_gives_both_its_edges_and_its_depth():
    said = texts(drawn(grooved()))
    assert said.count("1/2") == said.count("3/4") == 1
    assert "1/4 deep, for the bottom" in said
    assert "2 × ø1/4, 3/8 deep" in said


def test_banded_edges_have_a_chain_line_outside():
    assert (
        len(of_kind(part_figures()["B"], "centre")) == 3 + 2 * 4
    )  # three edges; two strokes for each of four holes
    assert "Chain line: banding, optional." in texts(part_figures()["B"])


def test_the_drawing_has_the_scale_it_states():
    figure = part_figures()["B"]
    across = [x for line in of_kind(figure, "outline") for x, _ in line.points]
    assert (max(across) - min(across)) * scale_of(figure) == pytest.approx(44 * 25.4)


def test_sizes_a_view_does_not_show_are_said_in_words():
    assert "4 pieces. 3/4 in plywood, 3/4 thick" in texts(part_figures()["C"])


def test_a_glue_up_gives_blank_boards_and_the_trimmed_size():
    figure = glue_up_drawing(bench().part("top"), INCH, "E")
    said = texts(figure)
    # two boards of 8 1/2 make 17; 46 long is 45 and 1/2 off each end
    assert [said.count(number) for number in ("46", "17", "8 1/2", "45", "15 1/2")] == [1] * 5
    assert {"grain, board 1", "grain, board 2"} <= set(said)
    assert of_kind(figure, "hatch")
    with pytest.raises(PlanError, match="of one piece"):
        glue_up_drawing(bench().part("back"), INCH)


def test_words_say_what_is_done_for_those_who_do_not_see():
    said = part_figures()["A"].description
    assert "left face tapers by 1\u00a0in (25\u00a0mm)" in said
    assert "towards the bottom end, 14.0° off" in said
    assert "banding on the front, left, right edges" in part_figures()["B"].description
    assert inch("1") == bench().part("foot").features[0].amount


def test_only_holes_with_a_countersink_speak_of_one():
    at = (inch("10"), inch("3/4"), inch("3/4"))
    slot = Bore("front", at, inch("11/64"), travel=inch("1/4"))
    part = Part("s", "Strip", "board", CLEAT, box("0", "20", "0", "3/4", "0", "1 1/2"), "x", "y", (slot,))
    said = texts(drawn(part))
    assert "slot ø11/64, end holes 1/4 apart" in said
    assert not any("countersink" in text for text in said)


def test_a_compound_mitre_is_marked_on_the_two_faces_where_its_lines_start_at_the_corner():
    part = compound()
    assert [view.face for view in faces_shown(part)] == ["back", "top"]
    figure = drawn(part)
    said = texts(figure)
    assert said.count("1") == said.count("1/4") == 1  # along the front edge, along the bottom face
    # atan(1 / 1 1/2) = 33.69°; atan(1/4 ÷ 3/4 × cos 33.69°) = 15.50°: trigonometry
    assert "Right end mitered: saw turned 33.7°, blade tilted 15.5°, both off square" in said
    assert "Length: 20 to the long points, 18 3/4 to the short points." in said
    scale = scale_of(figure)
    wastes = sorted(area(waste.rings[0]) * scale**2 / 25.4**2 for waste in filled(figure, "waste"))
    assert wastes == pytest.approx([0.5 * 0.25 * 0.75, 0.5 * 1 * 1.5])


def test_a_bevel_is_marked_on_the_end_and_eased_edges_are_told():
    part = bevelled()
    assert [view.face for view in faces_shown(part)] == ["right"]
    said = texts(drawn(part))
    assert "Back edge beveled: blade tilted 45.0°" in said  # 3/4 over 3/4
    assert said.count("1 1/2") == 1
    assert said.count("3/4") == 2  # its thickness, and what the bevel takes
    assert "1 piece. 1x2 Douglas-fir, 20 long" in said or any(text.endswith(", 20 long") for text in said)
    assert "Chamfer 1/8 × 45°: the front top edge." in said
    assert "Round over, radius 1/8: the front bottom edge." in said


def test_a_row_of_holes_is_counted_from_one_corner():
    said = texts(drawn(pinned()))
    # 6, 7 1/4 … 14 3/4 from the bottom; the rows 2 and 12 from the front
    for number in ("6", "14 3/4", "2", "12"):
        assert said.count(number) == 1
    # those between are stepped off: (14 3/4 − 6) ÷ 7 is 1 1/4
    assert said.count("then 7 × 1 1/4") == 1
    assert not {"7 1/4", "8 1/2", "9 3/4", "11", "12 1/4", "13 1/2"} & set(said)
    assert {"16 × ø1/4", "3/8 deep"} <= set(said)


def test_a_dado_and_a_rabbet_have_their_names_places_and_depths():
    said = texts(drawn(pinned()))
    assert {"dado 1/4 deep", "for the bottom", "rabbet 3/8 deep", "for the back"} <= set(said)
    # from 3 to 3 3/4 up; it stops 1/2 from the front; the rabbet starts at 13 3/4
    assert said.count("3") == said.count("3 3/4") == said.count("1/2") == said.count("13 3/4") == 1


def test_what_is_cut_first_and_measured_first_is_told():
    said = [text.replace("\u00a0", " ") for text in texts(drawn(pinned()))]
    assert "Cut it 24 1/2 × 14 in first; trim 1/2 off the top later." in said
    assert "Cut to fit: measure between the rails first. The sizes here are nominal." in said


def test_a_notch_at_the_right_has_its_words_and_its_size_level_with_it():
    """Seen from the left, its front edge is at the right."""
    hole = Bore("left", (inch("0"), inch("7"), inch("6")), inch("1/4"))
    part = replace(notched(), features=(*notched().features, hole))
    figure = drawn(part)
    words = [item for item in figure.items if isinstance(item, Text) and item.text == "for the rail"]
    sizes = [item for item in figure.items if isinstance(item, Text) and item.text == "3/4 × 1 1/2"]
    assert len(words) == len(sizes) > 0
    for one, size in zip(words, sizes, strict=True):
        assert one.at[0] == size.at[0]
        assert size.at[1] - one.at[1] == pytest.approx(3.6)


def test_a_hole_of_another_kind_level_with_a_row_is_measured_by_itself():
    """Five holes 2 in apart from 3 on; a larger one 7 in along, as far as the row's third, is measured too."""
    row = [Bore("top", (inch(at), inch("2"), inch("3/4")), inch("1/4")) for at in ("3", "5", "7", "9", "11")]
    other = Bore("top", (inch("7"), inch("5"), inch("3/4")), inch("1/2"))
    board = Part("b", "Board", "board", PLY, box("0", "14", "0", "8", "0", "3/4"), "x", "y", tuple(row))
    assert texts(drawn(board)).count("7") == 0
    assert texts(drawn(replace(board, features=(*row, other)))).count("7") == 1


def test_a_notch_that_is_traced_says_so():
    part = notched()
    cut = replace(part.features[0], trace=True)
    said = texts(drawn(replace(part, features=(cut,))))
    assert any(text.startswith("for the rail, trace it from the piece: sizes are nominal") for text in said)


def test_four_tapers_have_all_four_amounts_and_angles_and_no_numbers_on_one_another():
    figure = drawn(four_tapers())
    said = texts(figure)
    assert sum(text.startswith("Taper 2.9° off the ") for text in said) == 2  # arctan(1 / 20) = 2.86°
    assert sum(text.startswith("Taper 1.4° off the ") for text in said) == 2  # arctan(1/2 / 20) = 1.43°
    written = [item for item in figure.items if isinstance(item, Text)]
    assert not [
        (one.text, other.text)
        for one, other in combinations(written, 2)
        if one.text in {"1/2", "1"} and other.text == one.text and math.dist(one.at, other.at) < 3.0
    ]


def test_every_face_of_a_shaped_part_has_its_outline_and_a_description():
    for part in odd_parts():
        figure = drawn(part)
        assert of_kind(figure, "outline")
        assert "Faces drawn" in figure.description


def rowed(pitch: str, count: int):
    """A part 60 in long with a row of holes from 4 in up."""
    holes = tuple(
        Bore("front", (L("4 in") + L(pitch) * n, L("0 in"), L("2 in")), L("1/4 in"), L("3/8 in"), "shelf pin")
        for n in range(count)
    )
    return Part("rail", "Rail", "panel", PLY, box("0", "60", "0", "3/4", "0", "4"), "x", "y", holes)


def test_a_row_on_a_metric_grid_is_measured_once_and_stepped_off_in_millimeters():
    said = texts(drawn(rowed("32 mm", 18)))
    assert said.count("then 17 × 32 mm") == 1
    assert sum(text.startswith("≈") for text in said) == 1  # the last: 4 in and 17 × 32 mm are 25.417 in


def test_a_distance_that_is_on_no_tape_is_measured_hole_by_hole_from_one_corner():
    said = texts(drawn(rowed("11/13 in", 8)))  # stepped off, 7 roundings would add up
    assert not any(text.startswith("then") for text in said)
    assert sum(text.startswith("≈") for text in said) == 7


def test_so_many_holes_that_no_page_holds_their_numbers_are_stepped_off_to_the_last():
    said = texts(drawn(rowed("11/13 in", 40)))
    assert "then 39 equal spaces" in said


def test_what_is_said_of_a_row_stands_beyond_the_numbers_where_other_places_lie_between_its_ends():
    """Eight holes 4 in apart from 4 in on, and one hole at 14 in between them: the words keep clear of its number."""
    other = Bore("front", (inch("14"), inch("0"), inch("1")), inch("1/2"))
    part = rowed("4 in", 8)
    figure = drawn(replace(part, features=(*part.features, other)))
    words = {item.text: item for item in figure.items if isinstance(item, Text)}
    assert {"4", "14", "32", "60", "then 7 × 4"} <= set(words)
    assert words["then 7 × 4"].at[1] > words["14"].at[1]  # farther from the face, which is above
    assert words_on_words(figure) == words_on_lines(figure) == []


def test_four_holes_are_measured_one_by_one():
    said = texts(drawn(rowed("2 in", 4)))
    assert all(said.count(number) == 1 for number in ("6", "8", "10"))
