"""What each kind of piece is taken for, read back in a sentence and in labels: of worked examples as they stand."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from beamcheck.calc.pad import Pad
from beamcheck.checks.core import understood as words
from beamcheck.checks.core.tables import LOAD_FIELDS, roof_loads_table
from beamcheck.checks.core.wood.section import Section
from beamcheck.checks.core.wood.strength import column_values
from beamcheck.model.job import Job
from beamcheck.model.posts import Post
from beamcheck.model.reading.reader import read_job
from beamcheck.model.stock import Stock

from ..anchors.anchors import made, stock

EXAMPLES = Path(__file__).parents[3] / "worked_examples"
# a sentence a paragraph
SENTENCES = {
    "net_loft": """
        gallery beam is a floor beam of 6x12 dressed Douglas Fir-Larch No.1, dry; 10 ft long, 9 ft 7 1/2 in from
        middle to middle of its supports; it hangs on steel in the north wall and rests on east wall (6 in of
        seat); its top edge is held all along; it carries boards and joists, 10 psf dead and 40 psf live over 5
        ft; landing beam stands or hangs on it.

        old beam in the gable is a floor beam of 7 1/4 in x 9 3/4 in, wood that nobody has graded, dry; 10 ft
        long, 10 ft from middle to middle of its supports; it rests on west wall (6 in of seat) and rests on
        east wall (6 in of seat); its top edge is held all along; it carries attic, limited storage, 6 psf dead
        and 20 psf live over 4 ft.

        plaster beam west is a floor beam of 6x12 dressed Douglas Fir-Larch No.1, green; 12 ft long, 12 ft from
        middle to middle of its supports; it rests on west wall (6 in of seat) and rests on post (3 3/4 in of
        seat); with plaster that cracks when it bends too far; its top edge is held all along; it carries floor,
        joists, plaster ceiling, 22 psf dead over 7 ft; and living room, 40 psf live over 7 ft.

        ledger is a floor beam of 6x12 dressed Douglas Fir-Larch No.1, dry; 2 ft 6 in long, 20 in from middle to
        middle of its supports; it hangs on timber wall; its top edge is held all along; no load of its own is
        given; landing beam stands or hangs on it. Meant so: place, a short ledger, two lines of lag screws 20 in
        apart.

        rafters is a pair of rafters of 2x10 Hem-Fir No.2, dry, every 2 ft; 10 ft on plan at 8:12; its foot
        rests on wall plate (3 1/2 in of seat), its head leans on the opposite rafter, tied by ties; it carries
        roof of the loft, −18 psf wind.

        ties is a level tie of 2x8 Hem-Fir No.2, dry; 0 in above the wall supports; it carries walkway boards, 3
        psf dead over 2 ft.

        post is a post of 8x8 dressed Douglas Fir-Larch No.1, green; 8 ft high, on footing, pinned at the top
        and pinned at the foot; no load of its own is given; plaster beam west and plaster beam east stand or
        hang on it.

        rod is a fastening, hanger rod with bolts 5/8 in into gallery beam; it holds landing beam.

        ledger lags is a fastening, ledger with lag screws 5/8 in into timber wall; it holds ledger.
    """,
    "chart_room": """
        shelf A is a floor beam of 1 1/2" x 11 1/4" Douglas Fir-Larch No.1, dry laid flat; 5 ft long, 4 ft from
        middle to middle of its supports; it rests on K1 (1 1/2 in of seat) and rests on K2 (1 1/2 in of seat);
        its top edge is held all along; it carries books and pots, 30 plf live.

        K3 is a steel core bracket on wall studs, meant to carry; no load of its own is given; shelf B stands or
        hangs on it.

        K5 is a solid bracket of 1 1/2" x 11 1/4" Douglas Fir-Larch No.1, dry on wall studs, meant to bear
        nothing; under B1, 0 in clear; no load of its own is given.

        K7 is a solid bracket of 5 1/2" x 11 1/2" Douglas Fir-Larch No.1, dry on P1, a cover over hardware; no
        load of its own is given.

        boxed seam is three boards around a ceiling seam, no core, for looks only; 24 lb on wall plate.
    """,
    "boat_shed": """
        truss is a king post frame of 6 members, 24 ft from foot to foot; its left heel stands on west wall (8
        in of seat); its right heel stands on east wall (8 in of seat).
    """,
    "shelf_on_three_piece_brackets": """
        left bracket is a braced bracket of 3 1/2" x 3 1/2" Douglas Fir-Larch No.1, dry on wall post, meant to
        carry; it carries half of the shelf with what stands on it, 20 lb dead and 60 lb live.
    """,
}


@cache
def job(name: str) -> Job:
    return read_job(EXAMPLES / f"{name}.toml")


CASES = [(of, " ".join(one.split())) for of, text in SENTENCES.items() for one in text.strip().split("\n\n")]


@pytest.mark.parametrize(("of", "sentence"), CASES)
def test_the_sentence_of_each_kind_of_piece(of: str, sentence: str) -> None:
    assert words.understood(job(of))(sentence.partition(" is ")[0]) == sentence


def test_what_is_no_piece_has_no_sentence() -> None:
    assert words.understood(job("net_loft"))("nothing") == ""


def named(of: str, kind: str, name: str) -> Any:
    return next(one for one in getattr(job(of), kind) if one.name == name)


def test_what_a_beam_says_of_itself() -> None:
    gallery, ledger = (named("net_loft", "beam", name) for name in ("gallery beam", "ledger"))
    assert words.beam_inputs(gallery) == [
        ("length", "10 ft"), ("service", "floor"),
        ("support 1", "hung on steel in the north wall at 4 1/2 in, seat not given, held upright"),
        ("support 2", "rests on east wall at 10 ft, seat 6 in, held upright"),
    ]  # fmt: skip
    assert words.stick_inputs(gallery) == [
        ("plies", "1"), ("laid", "on edge"), ("top edge held", "full length"), ("bottom edge held", "ends only"),
        ("finish that cracks", "none"),
    ]  # fmt: skip
    assert words.stick_inputs(ledger)[-1] == ("place is meant", "a short ledger, two lines of lag screws 20 in apart")


def test_what_a_roof_and_its_tie_say_of_themselves() -> None:
    rafter, tie = job("net_loft").rafter[0], job("net_loft").tie[0]
    assert words.rafter_inputs(rafter) == [
        ("run", "10 ft"), ("slope", "8:12"), ("spacing", "2 ft"), ("ridge", "board"),
        ("upper end on", "the opposite rafter"), ("other side", "a rafter leans on the ridge there too"),
        ("wall", "rests on wall plate"), ("tail beyond the wall", "12 in"), ("tie", "ties"), ("seat cut", "1 1/2 in"),
        ("level seat", "3 1/2 in"),
    ]  # fmt: skip
    assert words.stick_inputs(rafter)[-1] == ("shares load", "9 members at 2 ft: 1 in boards nailed to every rafter")
    assert words.tie_inputs(tie) == [("height above the wall", "0 in"), ("joints at its ends", "unchecked")]


def test_what_a_post_says_of_itself() -> None:
    post = named("net_loft", "post", "post")
    rows = dict(words.post_inputs(post))
    assert (rows["height"], rows["stands on"], rows["top"], rows["foot"]) == ("8 ft", "footing", "pinned", "pinned")
    assert rows["load off center the deep way"] == "2 in" and rows["load off center the thin way"] == "0 in"
    assert rows["braced the deep way"] == "none, whole height" and rows["metal plate at the ends"] == "no"
    data = {
        "name": "P", "stock": "wood", "height": "8 ft", "on": "slab", "top_restraint": "pinned", "plies": 3,
        "plies_joined": "nailed", "braced_weak": "4 ft", "eccentricity": "1 in", "bearing_plate": True,
    }  # fmt: skip
    built = dict(words.post_inputs(Post.model_validate(data)))
    assert built["plies"] == "3, joined: nailed" and built["braced the thin way"] == "4 ft"
    assert built["load off center the deep way"] == "1 in" and built["load off center the thin way"] == "not given"
    assert built["metal plate at the ends"] == "yes"


def test_what_a_frame_and_its_member_say_of_themselves() -> None:
    frame = job("boat_shed").frame[0]
    rows = words.frame_inputs(frame)
    assert rows[:4] == [("form", "king post"), ("span", "24 ft"), ("rise", "8 ft"), ("from frame to frame", "8 ft")]
    assert rows[4] == ("left heel", "on west wall, seat 8 in") and rows[5][1].startswith(
        "on east wall, seat 8 in, slides: "
    )
    assert dict(rows)["softest joint"] == "not said"
    member = dict(words.member_inputs(frame.sticks[0]))
    assert (member["member of"], member["length"], member["slope"]) == ("truss", "14 ft 5 1/16 in", "33.7 deg")
    assert (member["upper edge held"], member["lower edge held"]) == ("every 2 ft", "ends only")


def test_what_is_known_of_the_wood() -> None:
    assert words.stock_inputs(stock("6x12 dressed", moisture="dry", measured_moisture="14 %")) == [
        ("stock", "wood"), ("size as named", "6x12 dressed"), ("size counted", "5 1/2 in x 11 1/2 in"),
        ("size class", "beams and stringers"), ("species", "Douglas Fir-Larch"), ("grade", "No.1"),
        ("grade comes from", "stamp"), ("evidence", "invented stamp: agency mark, mill 12"),
        ("moisture", "dry, metered at 14 %"), ("treatment", "none"),
    ]  # fmt: skip
    rows = dict(words.stock_inputs(stock("10 in round", measured_moisture=None, treated=True, incised=True)))
    assert rows["size counted"] == "10 in diameter" and rows["moisture"] == "dry"
    assert rows["treatment"] == "treated, incised"
    glued = stock("5 1/8 in x 12 in", made="glulam", species="Douglas Fir-Larch", grade="24F-V4")
    rows = dict(words.stock_inputs(glued))
    assert rows["made"] == "glued laminated timber" and "size class" not in rows
    assert words.wood_words(glued) == "5 1/8 in x 12 in glulam, Douglas Fir-Larch 24F-V4"


@pytest.mark.parametrize(
    ("each", "said"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c"),
                       (["a", "a", "b"], "a and b"), (["a", "a"], "a")],
)  # fmt: skip
def test_words_in_a_row(each: list[str], said: str) -> None:
    assert words._listed(each) == said


def test_steel_is_called_by_its_shape_or_else_by_its_size() -> None:
    made = {"name": "girder", "made": "steel", "grade": "A992", "grade_from": "certificate", "evidence": "invented"}
    assert words.wood_words(Stock.model_validate({**made, "steel": {"shape": "W8x18"}})) == "steel W8x18 of A992"
    bare = Stock.model_construct(made="steel", grade="A36", size="8 in x 4 in", steel=None)
    assert words.wood_words(bare) == "steel 8 in x 4 in of A36"


@pytest.mark.parametrize("by", ["", "the sheathed end wall"])
def test_what_holds_a_frame_from_swaying_is_read_back_where_it_is_said(by: str) -> None:
    frame = job("boat_shed").frame[0].model_copy(update={"sway_held_by": by})
    assert dict(words.frame_inputs(frame)).get("held from swaying by", "") == by
    assert [row[0] for row in words.frame_inputs(frame)].count("held from swaying by") == bool(by)


@pytest.mark.parametrize(("l_e1", "l_e2", "held"), [
    (0.0, 96.0, {"C_P1"}), (96.0, 0.0, {"C_P2"}), (0.0, 0.0, {"C_P1", "C_P2"}), (96.0, 96.0, set()),
])  # fmt: skip
def test_a_column_held_along_its_length_one_way_does_not_buckle_that_way(
    l_e1: float, l_e2: float, held: set[str]
) -> None:
    """C_P = 1 that way (NDS 2018 3.7.1.1, read) and no critical stress; the other way it is below one."""
    pad, section = Pad(), Section(3.5, 5.5, 3.5)
    F_c, F_cE1, F_cE2, F_c_star = column_values(pad, made(stock("4x6 dressed")), section, l_e1=l_e1, l_e2=l_e2, C_D=1.0)
    values = {step.symbol: step.value for step in pad.steps}
    for symbol, F_cE in (("C_P1", F_cE1), ("C_P2", F_cE2)):
        assert (values[symbol] == 1.0 and math.isinf(float(F_cE))) is (symbol in held)
    assert values["C_P"] == min(values["C_P1"], values["C_P2"]) == pytest.approx(float(F_c) / float(F_c_star))


@pytest.mark.parametrize(("kind", "measured", "slope"), [
    ("dead", None, "along the slope"), ("dead", "plan", "on plan"), ("dead", "slope", "along the slope"),
    ("snow", None, "on plan"), ("roof_live", None, "on plan"), ("wind", None, "square to the slope"),
])  # fmt: skip
def test_how_a_load_of_a_roof_is_measured_is_read_back(kind: str, measured: str | None, slope: str) -> None:
    load: Any = SimpleNamespace(what="roof", width=None, measured=measured, **dict.fromkeys(LOAD_FIELDS))
    setattr(load, kind, (0.1, "area"))
    rafter: Any = SimpleNamespace(spacing=24.0)
    for level, words_ in ((False, slope), (True, "level")):
        table = roof_loads_table(rafter, [load], level=level)
        assert ("a dead load not said to be on plan counts along the slope" in table.note) is not level
        (row,) = table.rows
        assert row == ("roof", kind.replace("_", " "), "14.4 psf", words_, "2 ft")
