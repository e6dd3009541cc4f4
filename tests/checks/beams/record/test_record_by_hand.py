"""What a sheet draws of a beam, what can be done again by hand, how a floor feels, what would make it pass: by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.checks.beams.record import remedies
from beamcheck.checks.beams.record.felt import frequency
from beamcheck.checks.beams.record.figure import _figure, section_parts
from beamcheck.checks.beams.record.statics import _whole, stations
from beamcheck.checks.core.pictures.beams import Figure
from beamcheck.checks.core.result import PieceResult

from ..beams import SAWN, Data, beam, floor, known, result_of, seat, stock
from ..made.test_flitch import WOOD as PLIES
from ..made.test_flitch import flitch
from ..made.test_steel_beams import girder as steel_girder
from ..made.test_steel_beams import steel

L, E, I_X = 144.0, 1.4e6, 6 * 12**3 / 12
OWN, GA = 5 / 1728 * 72, E / 16 * 5 / 6 * 72
WOOD = known("6 in x 12 in", F_b=4000, F_v=800)


def figure(**more: Any) -> Figure:
    found = result_of(beam(meant=SAWN, **more), wood=WOOD).figure
    assert found is not None
    return found


# ---- the drawing -----------------------------------------------------------------------------------------------------


def test_envelopes_of_a_simple_beam() -> None:
    """D alone: V = w (L/2 - x), M = w x (L - x)/2, K_cr 1.5 times its sag; marks at the extremes."""
    drawn = figure(carries=[floor(dead="240 plf")])
    w = 20 + OWN
    for x, V, V_low, M, M_low, sag in zip(drawn.x, drawn.V_high, drawn.V_low, drawn.M_high, drawn.M_low, drawn.sag,
                                          strict=True):  # fmt: skip
        at = w * (L / 2 - x)
        assert (V, V_low) == pytest.approx((max(at, 0.0), min(at, 0.0)), abs=1e-6)
        assert pytest.approx(w * x * (L - x) / 2, abs=1e-4) == M and M_low == pytest.approx(0.0, abs=1e-4)
        bent = w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * 1.03 * E * I_X) + w * x * (L - x) / (2 * GA)
        assert sag == pytest.approx(1.5 * bent, abs=1e-6)
    marked = {(one.curve, round(one.at, 3)) for one in drawn.marks}
    assert marked == {("V_high", 0.0), ("V_low", L), ("M_high", L / 2)}
    assert (drawn.length, drawn.depth, drawn.slope) == (L, 12.0, 0.0)
    assert {round(i * L / 60, 6) for i in range(61)} <= {round(x, 6) for x in drawn.x}
    assert {one.text for one in drawn.marks} == {"D"}


def test_wind_bends_nothing_in_the_long_run() -> None:
    calm = figure(service="roof", carries=[floor(dead="20 plf")])
    windy = figure(service="roof", carries=[floor(dead="20 plf", wind="400 plf")])
    assert max(windy.sag) == pytest.approx(max(calm.sag)) and max(windy.M_high) > 2 * max(calm.M_high)
    snowy = figure(service="roof", carries=[floor(dead="20 plf", snow="400 plf")])
    assert max(snowy.sag) > 2 * max(calm.sag)


def test_loads_supports_and_cuts_as_they_lie() -> None:
    hole = {"kind": "hole", "at": "30 in", "depth": "2 in", "from_bottom": "5 in"}
    notches = [{"kind": "notch", "at": at, "depth": "1 in", "length": "3 in", "face": face}
               for at, face in (("100 in", "top"), ("120 in", "bottom"))]  # fmt: skip
    loads = [floor(dead="10 plf", **{"from": "1 ft", "to": "3 ft"}),
             {"what": "post", "wind": "-90 lb", "at": "5 ft", "bearing": "2 in"}]  # fmt: skip
    ends = [seat("0 ft"), {"at": "12 ft", "on": "wall", "holds": "hung"}]
    drawn = figure(carries=loads, supports=ends, cuts=[hole, *notches])
    assert [(one.start, one.end, one.text, one.kind, one.shape) for one in drawn.loads if one.text[:4] != "self"] == [
        (12.0, 36.0, "floor, 10 plf", "dead", "line"), (60.0, 60.0, "post, −90 lb", "wind up", "point")]  # fmt: skip
    assert [(one.at, one.holds, one.seat) for one in drawn.supports] == [(0.0, "rests", 5.5), (L, "hung", 0.0)]
    assert [(one.start, one.end, one.from_bottom, one.depth) for one in drawn.cuts] == [
        (29.0, 31.0, 4.0, 2.0), (98.5, 101.5, 11.0, 1.0), (118.5, 121.5, 0.0, 1.0)]  # fmt: skip


def shape(**more: Any) -> Any:
    return SimpleNamespace(**{"b": 5.0, "d": 10.0, "breadth_alone": 5.0, "round": False, **more})


def test_the_section_in_parts() -> None:
    """Plies beside each other, and a rolled shape: two flanges and the web between them."""
    assert [(p.x, p.width) for p in section_parts(shape(b=4.5, breadth_alone=1.5))] == [(0, 1.5), (1.5, 1.5), (3, 1.5)]
    assert [(p.x, p.y, p.width, p.height) for p in section_parts(shape())] == [(0, 0, 5, 10)]
    assert [(p.width, p.what) for p in section_parts(shape(round=True))] == [(10, "round")]
    rolled = section_parts(shape(shape=SimpleNamespace(t_f=0.5, t_web=0.25)))
    assert [(p.x, p.y, p.width, p.height) for p in rolled] == [
        (0, 0, 5, 0.5), (2.375, 0.5, 0.25, 9), (0, 9.5, 5, 0.5)]  # fmt: skip


def test_the_sag_of_a_rafter_is_drawn_from_the_line_between_its_supports() -> None:
    """Supports at 20 and 80 in of 100, which come down by 1 in and 2.2 in: 1/1000 (x - 20)(80 - x) between them."""

    def v(x: Any) -> np.ndarray:
        return np.array([-0.6 - 0.02 * np.asarray(x) - (np.asarray(x) - 20.0) * (80.0 - np.asarray(x)) / 1000.0])

    bent: Any = SimpleNamespace(at=lambda name, s: v(s), sample=lambda name, xs: (np.array(xs), v(xs)))
    nothing = np.zeros(1)
    line: Any = SimpleNamespace(extremes=lambda name: (nothing,) * 4,
                                sample=lambda name, xs: (np.array(xs), np.zeros((1, len(xs)))))  # fmt: skip
    for chord in ((20.0, 80.0), None):
        drawn = _figure(100.0, 8.0, 30.0, (), (), (), line, bent, ["D"], chord)
        for x, sag in zip(drawn.x, drawn.sag, strict=True):
            assert sag == pytest.approx((x - 20) * (80 - x) / 1000 + (0.0 if chord else 0.6 + 0.02 * x))
    assert not drawn.marks and (drawn.depth, drawn.slope) == (8.0, 30.0)


def test_stations_are_the_supports_and_the_extremes() -> None:
    """Two spans of 6 ft under w: 5/4 w l over the middle, w l^2/8 there, 9/128 w l^2 at 3/8 of a span."""
    drawn = figure(supports=[seat("0 ft"), seat("6 ft"), seat("12 ft")], carries=[floor(dead="240 plf")])
    table = stations(drawn)
    assert [row[0] for row in table.rows if row[1] == "wall"] == ["0 in", "6 ft", "12 ft"]
    w, span = (20 + OWN) * 12, 6.0  # lb/ft
    middle = next(row for row in table.rows if row[0] == "6 ft")
    eased = w * span**2 / 8 + _pounds(middle[5])  # by shear, in spans of 6 depths
    assert 0.0 < eased < 0.15 * w * span**2 / 8
    assert (_pounds(middle[2]), _pounds(middle[3])) == pytest.approx((0.625 * w * span, -0.625 * w * span), rel=0.03)
    peak = next(row for row in table.rows if row[1].startswith("largest M"))
    assert _pounds(peak[4]) == pytest.approx(9 / 128 * w * span**2, rel=0.15)  # shear eases the middle
    assert table.heads == ("at", "place", "V max", "V min", "M max", "M min")


def _pounds(text: str) -> float:
    return float(text.split()[0].replace(",", "").replace("−", "-"))


@pytest.mark.parametrize(("load", "whole"), [
    (Applied("L", 0.0, L, w_start=1.0, w_end=1.0), True), (Applied("L", 0.0, L, w_start=1.0, w_end=1.1), False),
    (Applied("L", 0.005, L - 0.005, w_start=1.0, w_end=1.0), True),
    (Applied("L", 0.05, L, w_start=1.0, w_end=1.0), False),
    (Applied("L", 0.0, L - 0.05, w_start=1.0, w_end=1.0), False),
    (Applied("L", 60.0, 60.0, P=9.0), False),
])  # fmt: skip
def test_an_even_load_over_the_whole_span(load: Applied, whole: bool) -> None:
    assert _whole(load, L) is whole


def test_the_words_of_the_lines() -> None:
    """w in lb/ft with its terms, R and M from it, and the sag of each kind with what it is made of."""
    found = result_of(beam(meant=SAWN, carries=[floor(dead="60 plf", live="240 plf")]), wood=WOOD).statics
    assert found is not None and found.how == "by hand"
    lines = {one.symbol: one for one in found.lines}
    assert lines["w"].numbers == "60 + 2.5 + 240" or lines["w"].numbers == "60 + 240 + 2.5"
    assert lines["w"].text == "302.5 plf" and lines["R"].numbers == "302.5 × 12 / 2" and lines["R"].text == "1,815 lb"
    assert lines["M"].numbers == "302.5 × 12² / 8" and lines["M"].text == "5,445 lb-ft"
    assert lines["Delta_D"].formula == "5 w L⁴ / (384 × 1.03 E′ I) + w L² / (8 GA)" and lines["Delta_L"].formula == ""
    assert "GA = E′/16 × 5/6 × 72 in²: 5,250,000 lb" in lines["Delta_D"].note and "GA" not in lines["Delta_L"].note
    assert "L = 144 in, E′ = 1,400,000 psi, I = 864 in⁴" in lines["Delta_D"].note
    ends = [seat("0 ft"), seat("30 ft")]
    long = result_of(beam(meant=SAWN, supports=ends, carries=[floor(live="60 plf")]), wood=WOOD)
    assert long.statics is not None
    sags = [one for one in long.statics.lines if one.symbol.startswith("Delta")]
    assert [one.formula for one in sags] == ["5 w L⁴ / (384 E′ I)", ""]
    assert sags[1].value == pytest.approx(5 * 5 * 360**4 / (384 * E * I_X))


def test_what_stiffens_steel_and_a_flitch_beam_in_shear() -> None:
    """The web of a W8x18, 8.14 x 0.23 in, at G = E/2.6; of a flitch beam the wood alone, 5/6 of 3 x 11 1/4 in."""
    made = {"W8x18": result_of(steel_girder(), wood=steel()), "flitch": result_of(flitch(), wood=PLIES)}
    notes = {name: " ".join(one.note for one in found.statics.lines) for name, found in made.items() if found.statics}
    assert f"GA = E / 2.6 times the web: {29e6 / 2.6 * 8.14 * 0.23:,.0f} lb" in notes["W8x18"]
    assert f"GA = E′/16 × 5/6 of the wood: {1.6e6 / 16 * 5 / 6 * 33.75:,.0f} lb; I counts" in notes["flitch"]


# ---- a floor ---------------------------------------------------------------------------------------------------------


def felt(**more: Any) -> str:
    load = floor(dead="10 psf", live="40 psf", width=more.get("spacing", "16 in"), dead_includes_own_weight=True)
    wood = stock("2x10", species="Hem-Fir", grade="No.2", evidence="stamp: mill 12, No.2, HEM-FIR, S-DRY")
    piece = beam(**{"carries": [load], "spacing": "16 in", "supports": [seat("0 ft"), seat("12 ft")], **more})
    return " ".join(one for one in result_of(piece, wood=wood).assumptions if one.startswith("For information"))


@pytest.mark.parametrize(("more", "feels", "allows"), [
    ({}, True, True), ({"service": "roof"}, False, False),
    ({"supports": [seat("0 ft"), seat("6 ft"), seat("12 ft")]}, False, False), ({"plies": 2}, True, False),
    ({"carries": [floor(dead="10 psf", live="40 psf", width="16 in"), floor(what="b", dead="1 plf")]}, True, False),
    ({"carries": [floor(dead="10 psf", live="40 psf", width="17 in")]}, True, False),
    ({"carries": [floor(dead="10 psf", live="40 psf", width="16.1 in")]}, True, True),
    ({"carries": [floor(live="40 psf", width="16.159 in")]}, True, True),
    ({"carries": [floor(dead="10 psf", live="40 psf", width="16.161 in")]}, True, False),
    ({"carries": [floor(dead="10 psf", width="16 in")]}, True, False), ({"spacing": None}, True, False),
])  # fmt: skip
def test_when_something_is_said_of_a_floor(more: Data, feels: bool, allows: bool) -> None:
    given = {key: value for key, value in more.items() if value is not None}
    words = felt(**given) if more.get("spacing", "") is not None else _without_spacing()
    assert ("swings with" in words) is feels and ("the code's table allows" in words) is allows
    assert ("225 lb in its middle" in words) is (feels and "spacing" not in more)


def _without_spacing() -> str:
    load = floor(dead="10 psf", live="40 psf", width="16 in")
    wood = stock("2x10", species="Hem-Fir", grade="No.2", evidence="stamp: mill 12, No.2, HEM-FIR, S-DRY")
    piece = beam(carries=[load], in_a_row=False)
    return " ".join(one for one in result_of(piece, wood=wood).assumptions if one.startswith("For information"))


def test_nothing_is_said_of_a_floor_of_wood_that_nobody_knows() -> None:
    """How it swings hangs on a modulus that each of its candidates has otherwise; of a known one it is told."""
    old = {"name": "wood", "species": "unknown", "candidates": ["Eastern White Pine", "Eastern Hemlock-Tamarack"],
           "grade": "unstamped", "size": '7 1/2" x 9 1/2"', "moisture": "dry"}  # fmt: skip
    for wood, told in ((old, False), (WOOD, True)):
        found = result_of(beam(carries=[floor(dead="20 plf", live="40 plf")]), wood=wood)
        assert any("swings with" in one for one in found.assumptions) is told


@pytest.mark.parametrize(("span", "within"), [("15 ft 7 1/2 in", True), ("15 ft 8 in", False)])
def test_within_the_table_of_the_code_or_beyond_it(span: str, within: bool) -> None:
    """15 ft 2 in clear (IRC Table R502.3.1(2), memory, reproduced); seats of 5 1/2 in whose middles are given."""
    words = felt(supports=[seat("0 ft"), seat(span)])
    assert ("within it" in words) is within and ("beyond it" in words) is not within


@pytest.mark.parametrize(("loads", "modulus", "W"), [
    ([("D", 0.5)], 1.4e6, 0.5), ([("D", 100.0), ("D", 60.0), ("L", 900.0)], 1.4e6, 160.0),
    ([("D", 160.0), ("D", -100.0), ("W", -50.0)], 1.4e6, 160.0), ([("L", 900.0)], 1.4e6, None), ([], 1.4e6, None),
    ([("D", -5.0)], 1.4e6, None), ([("D", 160.0)], math.inf, None),
])  # fmt: skip
def test_what_a_floor_swings_with(loads: list[tuple[str, float]], modulus: float, W: float | None) -> None:
    """(pi/2) sqrt(g E I/(W L^3)) of what lies on it for good; what lifts takes nothing off, nothing swings not."""
    lying = [SimpleNamespace(kind=kind, total=total) for kind, total in loads]
    run: Any = SimpleNamespace(solved=SimpleNamespace(loads=lying), E=modulus, spans=[SimpleNamespace(length=L)],
                               section=SimpleNamespace(inertia=lambda pad: I_X))  # fmt: skip
    expected = W and math.pi / 2 * math.sqrt(386.1 * modulus * I_X / (W * L**3))
    assert frequency(run) == (expected and pytest.approx(expected))


def test_a_girder_swings_with_its_joists() -> None:
    """1/f^2 of both together (Dunkerley, memory): the softest joist counts."""
    end = seat("0 ft", "U", bearing="3 in", lands_from="0 ft", lands_to="12 ft")
    joist = beam(name="J", stock="joist", spacing="16 in", carries=[floor(dead="10 psf", live="40 psf", width="16 in")],
                 supports=[end, seat("10 ft")])  # fmt: skip
    slow = {**joist, "name": "K", "supports": [joist["supports"][0], seat("14 ft")]}
    girder = beam(name="U", carries=[floor(dead="200 plf")], meant=SAWN)
    wood = [known("2x10") | {"name": "joist"}]
    texts = [next(one for one in result_of(girder, *more, wood=WOOD, stocks=wood).assumptions if "swings with" in one)
             for more in ((joist,), (joist, slow))]  # fmt: skip
    for text in texts:
        alone, both = (float(part.split(" Hz")[0].split()[-1]) for part in (text, text.split("on it with")[1]))
        assert both < alone
    both = [float(text.split("on it with ")[1].split()[0]) for text in texts]
    assert both[1] < both[0]


# ---- what would make it pass -----------------------------------------------------------------------------------------


def remedy(**more: Any) -> PieceResult:
    return result_of(beam(**more), wood=stock("6x12 dressed", meant=SAWN))


def test_a_shorter_span_holds_and_a_little_more_does_not() -> None:
    """The length that is told, in whole inches and short by an inch at most; three inches more are too long."""
    found = remedy(carries=[floor(dead="100 plf", live="900 plf")])
    (text,) = [one for one in found.remedies if "shortened" in one]
    feet, _, inches = text.split("up to ")[1].split(" over")[0].partition(" ft")
    long = 12 * int(feet) + int((inches or " 0 in").split()[0])
    for more, verdict in ((0, "passes"), (3, "fails")):
        ends = [seat("0 ft"), seat(f"{long + more} in")]
        again = remedy(supports=ends, carries=[floor(dead="100 plf", live="900 plf")])
        failing = [one for one in again.checks if one.verdict == "fails"]
        assert bool(failing) is (verdict == "fails"), long + more


def test_a_closer_spacing_holds_and_a_little_more_does_not() -> None:
    """In whole inches, and short by a hundredth of 10 ft at most."""
    load = floor(dead="15 psf", live="90 psf", width="10 ft", meant={"live": "by the plan"})
    (text,) = [one for one in remedy(carries=[load]).remedies if "Closer spacing" in one]
    feet, _, inches = text.split("width of ")[1].split(" instead")[0].partition(" ft")
    wide = 12 * int(feet) + int((inches or " 0 in").split()[0])
    for more, fails in ((0, False), (3, True)):
        again = remedy(carries=[{**load, "width": f"{wide + more} in"}])
        assert bool([one for one in again.checks if one.verdict == "fails"]) is fails, wide + more


def test_what_passes_and_what_breaks_a_rule_alone_has_no_remedy() -> None:
    assert remedy().remedies == ()
    ends = [seat("0 ft", restrained=False), seat("12 ft")]
    loose = result_of(beam(carries=[floor(live="10 plf")], supports=ends), wood=stock("2x12"))
    assert loose.verdict == "fails" and loose.remedies == ()


@pytest.mark.parametrize(("power", "limit", "step"), [(1.0, 0.6, 0.01), (2.0, 0.7, 0.005), (3.0, 0.26, 0.01)])
def test_the_largest_part_that_holds(power: float, limit: float, step: float) -> None:
    """Of a ratio that grows as a power: found from below, no more than a step short of it."""
    found = remedies._largest_scale(lambda part: (part / limit) ** power, limit**-power, step)
    assert found is not None and limit - step <= found <= limit
    assert remedies._largest_scale(lambda part: 1.01, 1.01, step) is None
    broken = remedies._largest_scale(lambda part: 0.5 if part < limit else math.inf, math.inf, step)
    assert broken is not None and limit - 2 * step <= broken < limit


def test_loads_that_others_bring_are_not_made_less() -> None:
    ends = [seat("0 ft", "B", lands_at="6 ft"), seat("12 ft")]
    above = beam(name="A", supports=ends, carries=[floor(live="3000 plf")])
    found = result_of(beam(carries=[]), above, wood=stock("6x12 dressed"))
    assert found.verdict == "fails" and not [one for one in found.remedies if "Less load" in one or "Closer" in one]
