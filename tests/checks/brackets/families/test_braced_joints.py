"""A braced bracket of three pieces: its joints have values, each piece stands with a check along it, it sinks.

Check values: reference on brackets that carry, section 5 (own frame solver and closed form, derived), typed here.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.job import check_job
from beamcheck.formulas.brackets import brace as br
from beamcheck.model.reading.reader import read_job_text

JOB = (Path(__file__).parents[4] / "worked_examples/shelf_on_three_piece_brackets.toml").read_text(encoding="utf-8")


def of(*changes: tuple[str, str]) -> PieceResult:
    text = JOB
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    return check_job(read_job_text(text)).pieces[0]


def found(piece: PieceResult, *words: str) -> list[str]:
    """Verdicts of the checks whose name has these words."""
    return [check.verdict for check in piece.checks if all(word in check.what for word in words)]


@pytest.mark.parametrize(
    ("F", "x_L", "x_b", "y_b", "N", "T", "sunk"),
    [(100.0, 18.0, 15.0, 15.0, 169.706, 120.0, 0.021885), (150.0, 12.0, 12.0, 14.0, 197.562, 128.571, 0.0174997)],
)  # BC070 to BC075
def test_against_a_frame_solver(F: float, x_L: float, x_b: float, y_b: float, N: float, T: float, sunk: float) -> None:
    EI, EA, k_T, k_V, k_end = 3906250.0, 7.5e6, 3e4, 2e4, 4e4
    beta = math.degrees(math.atan2(y_b, x_b))
    assert float(br.brace_force(F, x_L, x_b, beta)) == pytest.approx(N, rel=0.005)
    assert float(br.top_tie(N, beta)) == pytest.approx(T, rel=0.005)
    n, t = N / F, T / F
    bent = br.bent_outside_brace(F, x_L, x_b, EI, 1.0)
    v = 1.0 - n * math.sin(math.radians(beta))
    c_b, c_t = math.hypot(x_b, y_b) / EA + 2.0 / k_end, 1.0 / k_T + x_b / EA
    assert float(br.braced_sinking(F, n, t, v, c_b, c_t, k_V, bent, 0.0)) == pytest.approx(sunk, rel=0.02)


@pytest.mark.parametrize(("d", "C_P"), [(2.5, 0.964997), (1.25, 0.820621)])  # BC076, BC077
def test_a_check_halves_the_depth_of_the_brace(d: float, C_P: float) -> None:
    F_cE = 0.822 * 620000.0 / (18.38 / d) ** 2
    alpha, c = F_cE / 1500.0, 0.8
    by_hand = (1 + alpha) / (2 * c) - math.sqrt(((1 + alpha) / (2 * c)) ** 2 - alpha / c)
    assert by_hand == pytest.approx(C_P, rel=0.005)


def test_a_knee_brace() -> None:
    """BC095, BC096: 30 by 30 in under a 156 in beam at 30 lb/in, post 96 in hinged at both ends; own frame solver."""
    L, w, x, y, h = 156.0, 30.0, 30.0, 30.0, 96.0
    E, G, b, d = 942000.0, 58875.0, 5.5, 11.5
    EI, GA = E * b * d**3 / 12, G * b * d * 5 / 6
    drop = w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI) + w * x * (L - x) / (2 * GA)
    f_xx = x**2 * (L - x) ** 2 / (3 * EI * L) + x * (L - x) / (L * GA)
    f_h = y**2 * (h - y) ** 2 / (3 * 91506250.0 * h)
    c_b = math.hypot(x, y) / 26950000.0 + 1.0 / 20000.0  # both joints together
    N = float(br.knee_force(drop, 45.0, f_xx, f_h, c_b))
    assert pytest.approx(1016.74, rel=0.01) == N
    thrust = float(br.knee_thrust(N * math.sin(math.radians(45.0)), 45.0))
    assert thrust == pytest.approx(718.947, rel=0.01)
    assert float(br.knee_post_moment(thrust, h, y)) == pytest.approx(14828.3, rel=0.01)  # BC097


def test_an_ordinary_three_piece_bracket_carries() -> None:
    piece = of()
    assert (piece.verdict, piece.finding) == ("passes", "carries")
    assert len(found(piece, "joint of the legs", "lateral")) == 2  # one on either side of a level check


def test_the_tie_must_hold_on_both_sides_of_a_check() -> None:
    assert found(of(('{ down = "3 in", count = 1 }', '{ down = "2 in", count = 1 }')), "below a level check") == [
        "fails"
    ]
    assert found(of(('{ down = "1 in", count = 1 }, ', "")), "above that check") == ["fails"]


def test_words_are_no_value_and_the_answer_that_is_offered_closes_it() -> None:
    start = JOB.index("[bracket.shape.legs_joint]")
    joint = JOB[start : JOB.index("[bracket.fixings]")]
    piece = of((joint, 'legs_joined = "halved and bolted"\n'))
    asked = [question for check in piece.checks for question in check.questions]
    assert [question.field for question in asked] == ["bracket.left bracket.shape.legs_joint"]
    lap = asked[0].answers[0].sets[0][1]
    assert lap["end"] == "1.75 in" and [row["count"] for row in lap["rows"]] == [1, 1]
    answered = (
        '[bracket.shape.legs_joint]\nmanner = "lap"\nend = "1.75 in"\n'
        'fastener = { kind = "bolt", size = "1/4 in", steel = "A307", length = "4 in" }\n'
        f'rows = [{{ down = "{lap["rows"][0]["down"]}", count = 1 }}, '
        f'{{ down = "{lap["rows"][1]["down"]}", count = 1 }}]\n'
    )
    assert of((joint, answered)).verdict == "passes"


def test_steel_by_its_report() -> None:
    start = JOB.index("[bracket.shape.legs_joint]")
    joint = JOB[start : JOB.index("[bracket.fixings]")]
    steel = '[bracket.shape.legs_joint]\nmanner = "steel"\ntakes = "400 lb"\nreport = "report TR-0, 2025"\n'
    assert of((joint, steel)).verdict == "refer"
    assert of((joint, steel + "both_sides = true\n")).verdict == "passes"
    assert of((joint, steel + "both_sides = false\n")).verdict == "fails"
    assert of((joint, steel.replace("400", "10") + "both_sides = true\n")).verdict == "fails"


def test_a_butted_brace_needs_its_screws() -> None:
    housed = 'joints = "housed"\nhousing = "1/2 in"\nbehind_housing = "2 in"'
    screws = (
        'end_screws = { fastener = { kind = "wood screw", size = "No. 14", length = "6 in", bored_ahead = true }, '
        'count = 2, through = "3 1/2 in" }'
    )
    assert of((housed, 'joints = "butted"')).verdict != "passes"
    assert of((housed, f'joints = "butted"\n{screws}')).verdict == "passes"


def test_heads_behind_the_housing_drop_the_brace() -> None:
    assert found(of(('through = "3 1/2 in"', 'through = "2 1/2 in"')), "wall leg with a check") == ["fails"]


def test_no_head_stands_where_the_brace_ends() -> None:
    """2 1/2 in at 45 degrees cover 3.54 in of the wall leg, 12.2 to 15.8 in down; half a washer is 1/2 in."""
    for down, verdicts in (("11 5/8 in", []), ("11 7/8 in", ["fails"]), ("14 in", ["fails"]), ("16 1/8 in", ["fails"])):
        assert found(of(('below_top = "11 in"', f'below_top = "{down}"')), "heads clear of the brace") == verdicts


def test_the_upper_row_stands_by_the_joint() -> None:
    assert found(of(('below_top = "5 in"', 'below_top = "9 in"')), "upper row near the joint") == ["refer"]


def test_more_room_to_sink_and_less() -> None:
    assert found(of(('deflects = "1/4 in"', 'deflects = "1/16 in"')), "sinking") == ["fails"]


def test_brace_above_every_row_tips_off_its_wall() -> None:
    """The rows stand 5 and 11 in down: a brace that meets the wall leg above them leaves nothing to hold the top."""
    piece = of(('brace_down = "14 in"', 'brace_down = "4 in"'))
    assert found(piece, "rows above the brace") == ["fails"]
    said = " ".join(note for check in piece.checks for note in check.notes)
    assert "no row of fasteners stands above that" in said and "cannot be shown" not in said
