"""What holds a base down: prying by statics of the bent plate, not by the manual's formulas."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.anchors.steel.prying import PriedLeg
from beamcheck.checks.job import check_job
from beamcheck.errors import JobError
from beamcheck.model.reading.reader import job_from_data

from ..jobs import checked, joint, member, step_value, the, wood
from .test_tenon_and_base import BASE, BOLTS, PLATE, POST, RODS

TRIALS = Path(__file__).parents[3] / "trials"
HOLES = {"columns": 2, "spacing": "4 in", "end": "5 1/4 in", "edge": "3 3/4 in"}


def lifted(lift: float, rods: dict[str, Any] | None = None, *stocks: Any, **base: Any) -> Any:
    one = member("post", "post", 90.0, lift, load="wind") | {"plate": PLATE, "holes": HOLES}
    given = {**BASE, "stands_off": "1 in", **base} | ({} if rods is None else {"rods": rods})
    return checked(joint("post base", one, base=given, stands_on="the slab", **BOLTS), POST, *stocks)


def test_pull_with_prying_by_the_worked_row() -> None:
    """T_allow 4,741 lb (frames/checks.csv F248): b 1.5, a 1.25, p 3, 5/8 in rod in 11/16, t 3/8, A36, B 6,000."""
    check = the(lifted(4000.0, RODS), "anchor.pried")
    assert check.capacity == pytest.approx(4741.09, rel=2e-5)
    assert check.demand == pytest.approx(0.6 * 4000 / 4)  # 0.6 W
    assert check.verdict == "passes"


def test_by_statics_of_the_plate() -> None:
    """At the limit the plate yields at the face, M = p t^2/4 F_u/1.67; the rest of T b' is Q a', and T + Q = B."""
    b, a, p, t, F_u, B = 1.1875, 1.5625, 3.0, 0.375, 58000.0, 6000.0
    M = p * t**2 / 4 * F_u / 1.67
    T = (B * a + M) / (a + b)  # from T b - M = Q a and Q = B - T
    leg = PriedLeg("A36", t, 0.625, 0.6875, 1.25, 1.5, 3.0)
    assert leg.allowed(SilentPad(), B) == pytest.approx(T, rel=1e-3)  # 1.67 x 4 against 6.68: the same


@given(st.floats(0.2, 1.5), st.floats(500, 9000), st.floats(0.7, 3.0), st.floats(0.5, 3.0))
def test_never_more_than_the_rod_and_thicker_never_less(t: float, B: float, b: float, a: float) -> None:
    def allowed(t: float, b: float = b, a: float = a) -> float:
        return float(PriedLeg("A36", t, 0.5, 0.5625, a, b, 3.0).allowed(SilentPad(), B))

    assert 0.0 < allowed(t) <= B * (1 + 1e-12)
    assert allowed(1.1 * t) >= allowed(t) * (1 - 1e-12)
    assert allowed(t, a=1.2 * a) >= allowed(t) * (1 - 1e-12)  # a longer lever pries less
    wood = PriedLeg("A36", t, 0.5, 0.5625, a, b, 3.0)
    assert allowed(t) >= float(PriedLeg("A36", t, 0.5, 0.5625, min(a, 0.5), b, 3.0).allowed(SilentPad(), B)) - 1e-9
    assert wood.wood is None


def test_uplift_asks_for_rods_and_its_answer_closes() -> None:
    piece = lifted(4000.0)
    check = the(piece, "joint.base_rods")
    assert check.verdict == "refer" and check.questions[0].field == "joint.J.base.rods"
    ((_, rods),) = check.questions[0].answers[0].sets
    answered = lifted(4000.0, rods)
    assert the(answered, "anchor.pried").verdict == "passes"
    assert the(answered, "joint.base_rods").verdict == "passes"
    assert not [one for one in lifted(-4000.0).checks if one.id.startswith(("joint.base_rods", "anchor.pried"))]


def test_a_thin_plate_fails_where_its_rods_would_hold() -> None:
    """1/8 in: T_allow = p t^2/4 F_u/1.67 (1 + delta)/b' = 608 lb, four rods of 6,000 lb each."""
    thin = the(lifted(6000.0, {**RODS, "plate": "1/8 in"}), "anchor.pried")
    assert thin.capacity == pytest.approx(3 * 0.125**2 / 4 * 58000 / 1.67 * (1 + (1 - 0.6875 / 3)) / 1.1875, rel=1e-3)
    assert thin.verdict == "fails"


def test_on_wood_its_edge_crushes() -> None:
    """Q = (T b' - M)/a' with a' = 1/2 + D/2, on 1/2 in of wood: against F_c_perp 625 psi."""
    sill = wood("sill", "6x6 dressed")
    piece = lifted(5000.0, {**RODS, "on": "wood", "stock": "sill"}, sill)
    T, M, a = 0.6 * 5000 / 4, 3 * 0.375**2 / 4 * 58000 / 1.67, 0.8125
    pressed = the(piece, "anchor.pried_wood")
    assert pressed.demand == pytest.approx(max(T * 1.1875 - M, 0.0) / a / (3 * 0.5), abs=1e-6)
    thin = the(lifted(5000.0, {**RODS, "plate": "1/8 in", "on": "wood", "stock": "sill"}, sill), "anchor.pried_wood")
    M = 3 * 0.125**2 / 4 * 58000 / 1.67
    assert thin.demand == pytest.approx((T * 1.1875 - M) / a / (3 * 0.5), rel=1e-3)
    assert thin.capacity == pytest.approx(625.0)


def test_level_force_with_uplift() -> None:
    """Shares of pull and level force added up; without a figure for it the report is asked.

    800 lb on 1 in of base tip it: across, 2 x 1.5 + 1/2 + 1.25 in by 0.9 on two rods; along, 6 - 1.5 in by 0.9 on two.
    """
    base = {"sideways": "800 lbf"}
    asked = the(lifted(2000.0, RODS, **base), "joint.base_rods_both")
    assert asked.verdict == "refer" and asked.questions[0].field == "joint.J.base.rods.sideways"
    both = the(lifted(2000.0, {**RODS, "sideways": "1,000 lbf"}, **base), "joint.base_rods_both")
    T = 0.6 * 2000 / 4 + 800 * 1.0 / (0.9 * 4.5) / 2
    assert both.ratio == pytest.approx(T / 4741.09 + 800 / 4 / 1000, rel=1e-4)


def test_a_foot_that_is_pushed_sideways_needs_rods_though_nothing_lifts_it() -> None:
    """A base that only stands on the floor slides; its best answer holds what is asked."""
    asked = the(lifted(-4000.0, sideways="800 lbf"), "joint.base_rods")
    assert asked.verdict == "refer" and asked.questions[0].field == "joint.J.base.rods"
    ((_, rods),) = asked.questions[0].answers[0].sets
    piece = lifted(-4000.0, rods, sideways="800 lbf")
    for id in ("joint.base_rods", "anchor.pried", "joint.base_rods_both"):
        assert the(piece, id).verdict == "passes"


def test_a_tall_base_is_tipped() -> None:
    """800 lb at 12 in: 9,600 lb*in by 0.9 x 4.5 in on two rods."""
    base = {"sideways": "800 lbf", "stands_off": "12 in", "stem_thickness": "2 in", "stem_width": "6 in"}
    tipped = the(lifted(2000.0, RODS, **base), "anchor.pried")
    assert tipped.demand == pytest.approx(0.6 * 2000 / 4 + 9600 / (0.9 * 4.5) / 2)


def test_rods_beyond_what_stands_on_the_plate() -> None:
    """Two on a side of 6 in stand 3 in apart, as the stem is wide; of 7 in, 3 1/2 in apart."""
    assert the(lifted(2000.0, RODS), "joint.base_rods").verdict == "passes"
    found = [one for one in lifted(2000.0, {**RODS, "along": "7 in"}).checks if one.id == "joint.base_rods"]
    (wide,) = [one for one in found if one.verdict == "fails"]
    assert "along = 6 in at most" in wide.notes[0]


def test_beside_a_narrow_stem_one_rod_on_a_side_is_proposed() -> None:
    base = {"stem_width": "1 in", "stem_thickness": "1 in"}
    ((_, rods),) = the(lifted(2000.0, **base), "joint.base_rods").questions[0].answers[0].sets
    answered = lifted(2000.0, rods, **base)
    assert {one.verdict for one in answered.checks if one.id in ("joint.base_rods", "anchor.pried")} == {"passes"}


def test_the_stem_is_pulled_as_it_is_pushed() -> None:
    """0.6 x 8,000 lb up in a bar of 3 by 1/2 in: 36,000 x 1.5/1.67 lb."""
    assert the(lifted(8000.0, RODS), "joint.base_stem").ratio == pytest.approx(4800 / (36000 * 1.5 / 1.67))


def test_nobody_answers_for_the_rods() -> None:
    assert the(lifted(2000.0, {**RODS, "takes_by": ""}), "joint.base_rods").verdict == "refer"
    assert the(lifted(2000.0, {**RODS, "takes_by": "I think so"}), "joint.base_rods").verdict == "refer"
    assert step_value(the(lifted(2000.0, RODS), "anchor.pried"), "B") == 6000.0


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"count": 3}, "even"), ({"off": "1/4 in"}, "runs into"), ({"hole": "1/2 in"}, "does not go into"),
        ({"hole": "1 1/4 in"}, "pull through"),
        ({"along": "1 in"}, "leave nothing"), ({"edge": "1/4 in"}, "runs out"), ({"on": "wood"}, "which wood"),
        ({"stock": "post"}, "is no [[stock]]"), ({"on": "wood", "stock": "sil"}, "no [[stock]] named"),
    ],
)  # fmt: skip
def test_slips(wrong: dict[str, Any], says: str) -> None:
    with pytest.raises(JobError) as error:
        lifted(2000.0, {**RODS, **wrong})
    assert says in str(error.value)


@pytest.mark.parametrize(("N", "T"), [
    (-4000.0, 0.0), (-200.0, -0.45 * 200 / 4 + 800 / (0.9 * 4.5) / 2), (100.0, 0.6 * 100 / 4 + 800 / (0.9 * 4.5) / 2),
])  # fmt: skip
def test_the_rods_take_the_level_force_of_a_foot_that_is_pressed_down(N: float, T: float) -> None:
    """800 lb on four rods of 1,000 lb, friction left out; 0.45 of what the wind presses down helps against tipping."""
    both = the(lifted(N, {**RODS, "sideways": "1,000 lbf"}, sideways="800 lbf"), "joint.base_rods_both")
    assert both.ratio == pytest.approx(T / 4741.09 + 800 / 4 / 1000, rel=1e-4)


def on_its_footing(changed: Any) -> Any:
    """The base of the trial job whose post is lifted, on another footing."""
    data = tomllib.loads((TRIALS / "joined_members" / "post_base_held_down.toml").read_text())
    changed(data)
    result = check_job(job_from_data(data))
    return next(piece for piece in result.pieces if piece.name == "base of P1"), data


@pytest.mark.parametrize(
    ("material", "field", "answer"),
    [
        ("masonry", "joint.base of P1.base.rods.on", "masonry"),
        ("ground", "existing.porch footing.material", "concrete"),
    ],
)
def test_rods_go_into_what_the_post_stands_on(material: str, field: str, answer: str) -> None:
    """What a report says of a rod in concrete says nothing of one in brick."""
    piece, data = on_its_footing(lambda data: data["existing"][0].update(material=material))
    check = the(piece, "joint.base_rods", what="go into")
    assert check.verdict == "refer" and check.questions[0].field == field
    ((at, value),) = check.questions[0].answers[0].sets
    assert (at, value) == (field, answer)
    either = data["existing"][0] if at.startswith("existing") else data["joint"][0]["base"]["rods"]
    either[at.rsplit(".", 1)[1]] = value
    again = next(one for one in check_job(job_from_data(data)).pieces if one.name == piece.name)
    assert not [one for one in again.checks if one.what == check.what]


def test_a_footing_of_which_nobody_says_what_it_is_made_of_is_not_said_to_be_anything() -> None:
    piece, _ = on_its_footing(lambda data: data["existing"][0].pop("material"))
    check = the(piece, "joint.base_rods", what="go into")
    assert check.verdict == "refer" and "other" not in check.notes[0] and "not said" in check.notes[0]


def test_wood_under_the_base_of_a_post_is_pressed() -> None:
    """The stick that the plate lies on is looked for in the job, of a post as of stated forces."""

    def sill(data: Any) -> None:
        data["existing"][0].update(material="wood", F_c_perp="625 psi")
        data["stock"].append(wood("sill", "6x6 dressed"))
        data["joint"][0]["base"]["rods"].update(on="wood", stock="sill")

    piece, _ = on_its_footing(sill)
    assert the(piece, "anchor.pried_wood").capacity == pytest.approx(625.0)


def test_rods_in_the_beam_that_a_post_stands_on() -> None:
    def girder(data: Any) -> None:
        footing = {"on": "porch footing", "bearing": "5 1/2 in", "restrained": True}
        data["stock"].append(wood("girder", "6x10 dressed"))
        data["beam"] = [{
            "name": "G", "stock": "girder", "service": "floor", "finish": "none", "top_held": "full length",
            "supports": [{"at": "0 ft", **footing}, {"at": "8 ft", **footing}],
        }]  # fmt: skip
        data["post"][0].update(on="G", lands_at="4 ft")

    piece, data = on_its_footing(girder)
    check = the(piece, "joint.base_rods", what="go into")
    for at, value in check.questions[0].answers[0].sets:
        data["joint"][0]["base"]["rods"][at.rsplit(".", 1)[1]] = value
    again = next(one for one in check_job(job_from_data(data)).pieces if one.name == piece.name)
    assert data["joint"][0]["base"]["rods"]["stock"] == "girder"
    assert not [one for one in again.checks if one.what == check.what]


@pytest.mark.parametrize(
    ("base", "plate", "words"),
    [
        ({"stem_width": "50 in"}, {}, "a stem of 50 in under a plate of 7 x 7 in"),
        ({}, {"width": "50 in"}, "at most 7.5 in"),
    ],
)
def test_steel_of_a_base_lies_within_the_plate_and_the_post(base: Any, plate: Any, words: str) -> None:
    """A size ten times too large would count for its pull and its buckling."""

    def change(data: Any) -> None:
        data["joint"][0]["base"].update(base)
        data["joint"][0]["members"][0]["plate"].update(plate)

    with pytest.raises(JobError, match=words):
        on_its_footing(change)
