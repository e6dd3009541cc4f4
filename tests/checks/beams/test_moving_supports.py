"""Beams that stand on beams: forces against closed forms with a spring under the middle, and what stays as it was."""

from __future__ import annotations

import pytest

from beamcheck.analysis.site.pieces import areas_of
from beamcheck.checks.core.result import PieceResult
from beamcheck.checks.pieces import _run, run_pieces
from beamcheck.model.reading.reader import job_from_data

from .beams import Data, beam, checked, find, floor, job, known, result_of, seat, step

L, E, I_X = 120.0, 1.4e6, 6 * 12**3 / 12  # half of the upper beam; 6x12
GA = E / 16 * 5 / 6 * 72
E_SF = 1.03 * E
W = 400 / 12 + 5 / 1728 * 72  # lbf/in on it, own weight included
WOOD = known("6 in x 12 in", F_b=4000, F_v=800, F_c_perp=2000)
SOFT = known("4 in x 8 in", F_b=9000, F_v=2000, F_c_perp=2000) | {"name": "soft"}
K_CR = 1.5


def upper(**more: object) -> Data:
    middle = seat("10 ft", on="G", lands_at="5 ft", bearing="4 in", **more)
    return beam(name="A", supports=[seat("0 ft"), middle, seat("20 ft")], carries=[floor(dead="400 plf")])


def lower(**more: object) -> Data:
    return beam(name="G", stock="soft", supports=[seat("0 ft"), seat("10 ft")], carries=[], **more)


def both(one: Data, two: Data) -> dict[str, PieceResult]:
    return {piece.name: piece for piece in checked(one, two, wood=WOOD, stocks=[SOFT]).pieces}


def give() -> float:
    """Of the girder at midspan, in/lbf, with creep: K_cr (P l^3/(48 E I) + P l/(4 G A_s))."""
    b, d, span = 4.0, 8.0, 120.0
    return K_CR * (span**3 / (48 * E_SF * b * d**3 / 12) + span / (4 * (E / 16) * (5 / 6) * b * d))


def middle_force(f: float, sag: float = 0.0) -> float:
    """What the middle of two spans takes when it comes down by f a pound and by `sag` besides (closed form)."""
    whole = 2 * L
    down = 5 * W * whole**4 / (384 * E_SF * I_X) + W * whole**2 / (8 * GA)
    softness = whole**3 / (48 * E_SF * I_X) + whole / (4 * GA)
    return (down - sag) / (softness + f)


def test_a_girder_that_gives_bends_the_beam_above_more() -> None:
    """R of the middle by superposition; the largest moment is R_1^2/(2 w), R_1 = w L - R/2, at an outer support."""
    found = both(upper(), lower())
    own = 5 / 1728 * 32  # of the girder itself: it sags under that too, creep included
    sag = K_CR * (5 * own * 120.0**4 / (384 * E_SF * 4 * 8**3 / 12) + own * 120.0**2 / (8 * (E / 16) * (5 / 6) * 32))
    R = middle_force(give(), sag)
    end = W * L - R / 2
    bending = find(found["A"], "bending")
    assert step(bending, "M") == pytest.approx(end**2 / (2 * W), rel=1e-9)
    assert bending.combination == "D, supports settled"
    # what presses on the girder is what a rigid support would take, which is more
    rigid = 1.25 * W * L
    assert step(find(found["A"], "bearing at support 2 on G"), "R") == pytest.approx(rigid, rel=1e-9)
    assert any("stands on beams that come down" in text for text in found["A"].assumptions)
    assert any("0.15 in" in text or "for each 1,000 lb" in text for text in found["A"].assumptions)


def test_over_the_support_it_still_bends_as_on_a_wall() -> None:
    """The girder may be stiffer than it is counted: w L^2/8 over a middle that stands still, no shear deflection."""
    hogging = find(both(upper(), lower())["A"], "bending with the bottom edge pressed")
    assert step(hogging, "M") == pytest.approx(W * L**2 / 8, rel=1e-9)


def test_what_stands_on_that_comes_down_with_it() -> None:
    """The girder's own supports on two beams: half of what each gives under half a pound comes on top."""
    third = {**lower(), "name": "H", "supports": [seat("0 ft"), seat("8 ft")]}
    ends = [
        seat("0 ft", on="H", lands_at="4 ft", bearing="4 in"),
        seat("10 ft", on="H2", lands_at="4 ft", bearing="4 in"),
    ]
    girder = {**lower(), "supports": ends}
    pieces = checked(upper(), girder, third, {**third, "name": "H2"}, wood=WOOD, stocks=[SOFT]).pieces
    softer = step(find(pieces[0], "bending"), "M")
    assert softer > step(find(both(upper(), lower())["A"], "bending"), "M") * 1.001


def sag(w: float, span: float = 120.0) -> float:
    """Of a girder of the soft stock under an even load, lbf/in, without creep."""
    return 5 * w * span**4 / (384 * E_SF * 4 * 8**3 / 12) + w * span**2 / (8 * (E / 16) * (5 / 6) * 32)


OWN = 5 / 1728 * 32  # lbf/in of the soft stock


def bends(found: dict[str, PieceResult], f: float, sag: float) -> None:
    """The upper beam bends as on a middle that gives by f a pound and sags besides."""
    end = W * L - middle_force(f, sag) / 2
    assert step(find(found["A"], "bending"), "M") == pytest.approx(end**2 / (2 * W), rel=1e-9)


@pytest.mark.parametrize("live", [0.0, 30.0])
def test_a_girder_on_two_girders_by_hand(live: float) -> None:
    """Each takes half a pound of a pound in the middle, and half of its way counts there: f + f_H/2; so of sags.

    A kind of load that only the lower two carry brings the upper one down as well.
    """
    third = {**lower(), "name": "H", "supports": [seat("0 ft"), seat("8 ft")]}
    if live:
        third["carries"] = [floor(live=f"{live} plf")]
    ends = [seat(at, on=on, lands_at="4 ft", bearing="4 in") for at, on in (("0 ft", "H"), ("10 ft", "H2"))]
    made = checked(upper(), {**lower(), "supports": ends}, third, {**third, "name": "H2"}, wood=WOOD, stocks=[SOFT])
    f_H = K_CR * (96.0**3 / (48 * E_SF * 4 * 8**3 / 12) + 96.0 / (4 * (E / 16) * (5 / 6) * 32))
    bends({piece.name: piece for piece in made.pieces}, give() + f_H / 2,
          K_CR * sag(OWN) + f_H * OWN * 60 + K_CR * sag(OWN, 96.0) + sag(live / 12, 96.0))  # fmt: skip


@pytest.mark.parametrize(("loads", "more"), [
    ([floor(dead="20 plf", live="30 plf")], K_CR * 20 + 30), ([floor(live="30 plf", snow="40 plf")], 0.75 * 70),
    ([floor(live="30 plf", snow="4 plf")], 30), ([floor(live="30 plf", wind="-40 plf")], 30),
    ([floor(live="30 plf", wind="60 plf")], 0.75 * 30 + 0.45 * 60), ([floor(wind="60 plf")], 0.6 * 60),
])  # fmt: skip
def test_a_girder_sags_under_what_else_it_carries(loads: list[Data], more: float) -> None:
    """The worst combination (ASCE 7-16 2.4.1, memory), dead load with creep; what lifts takes nothing off."""
    bends(both(upper(), {**lower(), "carries": loads}), give(), K_CR * sag(OWN) + sag(more / 12))


def test_a_row_presses_where_it_lands() -> None:
    """From 3 to 7 ft and half a spacing beyond: w c (8 l^3 - 4 l c^2 + c^3)/(384 E I) with c = 64 in, and shear."""
    joists = {**upper(), "spacing": "16 in", "members": 4, "shared_by": "deck"}
    joists["supports"][1] = {key: value for key, value in joists["supports"][1].items() if key != "lands_at"} | {
        "lands_from": "3 ft", "lands_to": "7 ft"}  # fmt: skip
    c, span, w = 64.0, 120.0, 1 / 16
    f = w * c * (8 * span**3 - 4 * span * c**2 + c**3) / (384 * E_SF * 4 * 8**3 / 12)
    f += w * c * (2 * span - c) / 8 / ((E / 16) * (5 / 6) * 32)
    bends(both(joists, lower()), K_CR * f, K_CR * sag(OWN))


def test_two_supports_are_not_touched() -> None:
    """Statics alone gives the forces: nothing is said of supports that give."""
    one = beam(name="A", supports=[seat("0 ft", on="G", lands_at="5 ft", bearing="4 in"), seat("20 ft")])
    found = both(one, lower())
    assert not any("come down" in text for text in found["A"].assumptions)
    alone = result_of({**one, "supports": [seat("0 ft", bearing="4 in"), seat("20 ft")]}, wood=WOOD)
    assert step(find(found["A"], "bending"), "M") == pytest.approx(step(find(alone, "bending"), "M"))


def test_the_order_of_the_file_does_not_matter() -> None:
    one, two = both(upper(), lower()), both(lower(), upper())
    assert step(find(one["A"], "bending"), "M") == step(find(two["A"], "bending"), "M")
    assert find(one["G"], "bending").ratio == find(two["G"], "bending").ratio


def test_a_row_presses_all_along_the_girder() -> None:
    """Joists over a girder: all of them together bend it, by 5 w l^4/(384 E I) with w = 1 lb a spacing, and shear."""
    joists = {**upper(), "spacing": "16 in", "members": 12, "shared_by": "deck"}
    b, d, span, w = 4.0, 8.0, 120.0, 1 / 16
    f = K_CR * (5 * w * span**4 / (384 * E_SF * b * d**3 / 12) + w * span**2 / (8 * (E / 16) * (5 / 6) * b * d))
    own = 5 / 1728 * 32
    sag = K_CR * (5 * own * span**4 / (384 * E_SF * b * d**3 / 12) + own * span**2 / (8 * (E / 16) * (5 / 6) * b * d))
    end = W * L - middle_force(f, sag) / 2
    assert step(find(both(joists, lower())["A"], "bending"), "M") == pytest.approx(end**2 / (2 * W), rel=1e-9)


def test_each_check_is_the_worse_of_supports_that_stand_still_and_that_give() -> None:
    """What is handed on is one end of a range; no check is milder than on supports that stand still."""
    read = job_from_data(job(
        beam(name="upper", supports=[
            seat("0 ft", on="lower", lands_at="10 ft"), seat("8 ft"), seat("16 ft", on="end", lands_at="6 ft"),
        ]),
        beam(name="end", supports=[seat("0 ft"), seat("12 ft")]),
        beam(name="lower", supports=[seat("0 ft"), seat("20 ft")]),
    ))  # fmt: skip
    whole, still = run_pieces(read), _run(read, areas_of(read.site, read.roof, read.floor), None, {}, frozenset())
    assert whole.results != still.results, "the supports give"
    for both, one in zip(whole.results, still.results, strict=True):
        found = {(check.id, check.what, check.where): check for check in both.checks}
        for check in one.checks:
            if check.ratio is not None:
                assert (found[check.id, check.what, check.where].ratio or 0.0) >= check.ratio * (1.0 - 1e-12)
