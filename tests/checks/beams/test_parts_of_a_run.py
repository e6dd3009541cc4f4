"""The small parts of which a solved beam is made: seats, places that count, what the beam below does. By hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.analysis.beams.load_cases import Applied
from beamcheck.analysis.beams.solved_beam import GIVES, SolvedBeam
from beamcheck.checks.beams import beam_run
from beamcheck.checks.beams.beam_run import _begins, _cuts, _pressed_below, _stands, beam_length
from beamcheck.checks.beams.load_entry import _total, largest_force
from beamcheck.checks.beams.moving_supports import _Landing, _landing
from beamcheck.checks.beams.result import _transferred, _ways
from beamcheck.checks.beams.seats import seats_of
from beamcheck.model.beams import Beam
from beamcheck.model.sticks import Cut, Support

from .beams import seat


def support(at: float, bearing: float | None = None, **more: Any) -> Support:
    length = {} if bearing is None else {"bearing": f"{bearing} in"}
    return Support.model_validate({"at": f"{at} in", "on": "wall", **length, **more})


@pytest.mark.parametrize(("at", "bearing", "lies", "near"), [
    (0.0, None, (0.0, 0.0), True), (2.99, None, (2.99, 2.99), True), (3.0, None, (3.0, 3.0), False),
    (97.0, None, (97.0, 97.0), False), (97.01, None, (97.01, 97.01), True), (4.5, 3.0, (3.0, 6.0), False),
    (4.49, 3.0, (2.99, 5.99), True), (0.0, 4.0, (-2.0, 2.0), True),
])  # fmt: skip
def test_where_a_seat_lies(at: float, bearing: float | None, lies: tuple[float, float], near: bool) -> None:
    """Half of its length to either side; without a length it is a place. 3 in clear of an end of 100 in it is away."""
    (found,) = seats_of([support(at, bearing)], 100.0)
    assert (found.start, found.end) == pytest.approx(lies) and found.near_end is near and found.x == at


def test_the_places_where_a_load_that_walks_does_most() -> None:
    """A hundredth beside each support, a depth from either face of each seat, both edges of each cut."""
    seats = seats_of([support(0.0, 4.0), support(100.0)], 100.0)
    cut: Any = SimpleNamespace(start=30.0, end=33.0)
    assert sorted(_stands(seats, [cut], 10.0)) == pytest.approx(
        [-12.0, -0.01, 0.01, 12.0, 30.0, 33.0, 90.0, 99.99, 100.01, 110.0])  # fmt: skip


@pytest.mark.parametrize(("kind", "length", "depth", "begins"), [
    ("hole", None, 2.0, 39.0), ("hole", 6.0, 2.0, 37.0), ("hole", 1.0, 2.0, 39.0), ("notch", 6.0, 2.0, 37.0),
])  # fmt: skip
def test_where_a_cut_begins(
    kind: str, length: float | None, depth: float, begins: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A hole is round or longer than high; all else has a length. What begins beyond the beam is cut off it."""
    long = {} if length is None else {"length": f"{length} in"}
    face = {"face": "top"} if kind == "notch" else {"from_bottom": "5 in"}
    cut = Cut.model_validate({"kind": kind, "at": "40 in", "depth": f"{depth} in", **long, **face})
    assert _begins(cut) == begins
    monkeypatch.setattr(beam_run, "losses_of", lambda stock: ())
    surveyed: Any = SimpleNamespace(survey=SimpleNamespace(cuts=[cut]))
    for length_, kept in ((begins + 0.02, 1), (begins + 0.005, 0), (begins - 1.0, 0)):
        assert len(_cuts(SimpleNamespace(cuts=()), surveyed, length_)) == kept  # type: ignore[arg-type]


@pytest.mark.parametrize(("length", "over_all"), [(None, 100.0), ("100.5 in", 100.5), ("99.999 in", 100.0)])
def test_how_long_a_beam_is(length: str | None, over_all: float) -> None:
    supports = [seat("0 in"), seat("100 in"), seat("50 in")]
    made = Beam.model_construct(supports=[support(float(one["at"].split()[0])) for one in supports],
                                length=None if length is None else float(length.split()[0]))  # fmt: skip
    assert beam_length(made) == over_all


def bent(law: Any) -> Any:
    """A solution whose least moment along the beam is this."""
    places = np.linspace(0.0, 120.0, 2401)
    return SimpleNamespace(
        moments=lambda start, end: (np.array([law(places).min()]),) * 4,
        least_moments_at=lambda xs: np.stack([law(np.asarray(xs)), 1e6 + 0.0 * np.asarray(xs)]),
    )


@pytest.mark.parametrize(("law", "reach"), [
    (lambda x: 10.0 * x - 99.0, (10.0, 0.0)), (lambda x: 1101.0 - 10.0 * x, (0.0, 10.0)),
    (lambda x: np.abs(x - 60.0) * -10.0 + 300.0, (30.0, 30.0)), (lambda x: 0.0 * x - 0.99, (0.0, 0.0)),
    (lambda x: 0.0 * x - 1.05, (120.0, 120.0)), (lambda x: 10.0 * np.abs(x - 60.0) - 100.0, (120.0, 120.0)),
    (lambda x: 0.0 * x + 5.0, (0.0, 0.0)),
])  # fmt: skip
def test_how_far_the_bottom_edge_is_pressed(law: Any, reach: tuple[float, float]) -> None:
    """Looked at every sixtieth of the span, 2 in; below 1 lb in nothing presses, and what presses in the middle of a
    span counts as if it did so all along."""
    assert _pressed_below(bent(law), (0.0, 120.0)) == pytest.approx(reach)


# ---- loads -----------------------------------------------------------------------------------------------------------


def solved() -> Any:
    """Two combinations, D + L and 0.6 D + 0.6 W; a case of each kind."""
    cases = [SimpleNamespace(kind=kind) for kind in ("D", "L", "W")]
    return SimpleNamespace(cases=cases, combinations=(1, 2), factors=np.array([[1.0, 1.0, 0.0], [0.6, 0.0, 0.6]]))


def test_the_whole_force_of_several_loads() -> None:
    """What lifts eases nothing: 100 + 200 of D, 300 of L, no W; spread loads by their length."""
    points = [Applied("D", 5.0, 5.0, P=100.0), Applied("D", 5.0, 5.0, P=200.0), Applied("L", 5.0, 5.0, P=300.0),
              Applied("W", 5.0, 5.0, P=-500.0), Applied("L", 5.0, 5.0, P=-50.0)]  # fmt: skip
    assert SolvedBeam.whole_force(solved(), points).tolist() == pytest.approx([600.0, 180.0])
    spread = [Applied("D", 0.0, 10.0, w_start=3.0, w_end=3.0), Applied("W", 0.0, 10.0, w_start=-4.0, w_end=-4.0)]
    assert _total(solved(), [*points[:1], *spread]).tolist() == pytest.approx([130.0, 78.0])


@pytest.mark.parametrize(("forces", "most"), [
    ({"D": (100.0, 80.0)}, 100.0), ({"D": (100.0, 100.0), "L": (200.0, 0.0)}, 300.0), ({}, 0.0),
    ({"D": (100.0, 100.0), "L": (200.0, 0.0), "S": (400.0, 0.0)}, 100.0 + 0.75 * 600.0),
    ({"D": (100.0, 50.0), "W": (0.0, -1000.0)}, 0.6 * 1000.0 - 0.6 * 50.0),
])  # fmt: skip
def test_the_most_that_forces_come_to_up_or_down(forces: dict[str, tuple[float, float]], most: float) -> None:
    """ASCE 7-16 2.4.1: D + L, D + S, D + 0.75 L + 0.75 S, 0.6 D + 0.6 W; each kind by its largest or its least."""
    assert largest_force(forces) == pytest.approx(most)


# ---- the beam below --------------------------------------------------------------------------------------------------


def below(*supports: float, length: float = 120.0) -> Any:
    made = Beam.model_construct(supports=[support(at) for at in supports], length=length)
    return SimpleNamespace(beam=made, solved=SimpleNamespace(supports=[SimpleNamespace(x=at) for at in supports]))


@pytest.mark.parametrize(("more", "spacing", "x", "row"), [
    ({"lands_at": "30 in"}, None, 30.0, None), ({}, None, 60.0, None), ({"lands_at": "130 in"}, None, 120.0, None),
    ({"lands_at": "30 in"}, 16.0, 55.0, (0.0, 120.0)),
    ({"lands_from": "40 in", "lands_to": "88 in", "lands_at": "64 in"}, 16.0, 55.0, (32.0, 96.0)),
    ({"lands_from": "4 in", "lands_to": "36 in", "lands_at": "20 in"}, 16.0, 20.0, (0.0, 44.0)),
    ({"lands_from": "84 in", "lands_to": "116 in", "lands_at": "100 in"}, 16.0, 100.0, (76.0, 120.0)),
    ({"lands_from": "63 in", "lands_to": "87 in", "lands_at": "75 in"}, 16.0, 55.0, (55.0, 95.0)),
    ({"lands_from": "15 in", "lands_to": "47 in", "lands_at": "31 in"}, 16.0, 55.0, (7.0, 55.0)),
])  # fmt: skip
def test_where_a_beam_or_a_row_presses(more: Any, spacing: float | None, x: float, row: Any) -> None:
    """Alone at its place; a row over half a spacing more at either end, its worst piece midway between the supports."""
    made = Beam.model_construct(spacing=spacing)
    found = _landing(made, support(0.0, **more), below(0.0, 110.0))
    assert (found.x, found.row) == (x, row)


def test_a_pound_of_one_or_of_each_of_a_row() -> None:
    one, row = _Landing(30.0).unit(), _Landing(30.0, (10.0, 50.0), 16.0).unit()
    assert (one.start, one.end, one.P, one.kind) == (30.0, 30.0, 1.0, "D")
    assert (row.start, row.end, row.w_start, row.w_end) == (10.0, 50.0, 1 / 16, 1 / 16)


# ---- what is handed on and told --------------------------------------------------------------------------------------


def way(*supports: tuple[float, float], determinate: bool = False, words: str = GIVES) -> list[str]:
    held = [SimpleNamespace(gives=gives, sags=sags) for gives, sags in supports]
    solved_ = SimpleNamespace(determinate=determinate, others=[SimpleNamespace(words=words)], supports=held)
    named = SimpleNamespace(name="A", supports=[SimpleNamespace(on=f"U{i}") for i in range(len(held))])
    return _ways(SimpleNamespace(solved=solved_, beam=named))  # type: ignore[arg-type]


def test_how_a_piece_was_solved_is_told() -> None:
    """Only what gives or sags is named, with its number and 1,000 times what it gives under a pound."""
    told = way((0.0, 0.0), (2e-4, 0.0), (0.0, 0.05))
    assert len(told) == 2 and "U0" not in told[1]
    assert "U1 under support 2 gives 0.2 in for each 1,000 lb and 0 in under" in told[1]
    assert "U2 under support 3 gives 0 in for each 1,000 lb and 0.05 in under" in told[1]
    assert len(way((0.0, 0.0), words="another")) == 1 and way((0.0, 0.0), determinate=True, words="another") == []


@pytest.mark.parametrize(("holds", "anchor", "applied", "bearing", "fastened"), [
    ("rests", None, "top", 5.5, None), ("hung", None, "side", None, None), ("fixed", None, "side", None, None),
    ("hung", (False, None), "side", None, None), ("hung", (False, (2.0, 9.0)), "side", None, (2.0, 9.0)),
    ("hung", (True, None), "rod", None, None), ("rests", (False, (1.0, 3.0)), "top", 5.5, (1.0, 3.0)),
])  # fmt: skip
def test_how_an_end_comes_onto_the_piece_below(
    holds: str, anchor: Any, applied: str, bearing: float | None, fastened: Any
) -> None:
    """A seat as broad as the beam; in the side with the heights of its group; on a rod, whose nut is on the top."""
    held = None
    if anchor is not None:
        heights = anchor[1] and SimpleNamespace(highest=anchor[1][0], lowest=anchor[1][1])
        held = SimpleNamespace(made=SimpleNamespace(upright=anchor[0]), on_girder=heights)
    end = support(0.0, holds=holds, lands_at="30 in", lands_from="4 in", lands_to="36 in", lands_on="ridge")
    run: Any = SimpleNamespace(beam=SimpleNamespace(name="A", spacing=16.0, members=3), section=SimpleNamespace(b=5.5))
    context: Any = SimpleNamespace(anchor=lambda name: held)
    found = _transferred(run, end, {"D": (2.0, 1.0)}, context)
    assert (found.from_piece, found.forces, found.by, found.at) == ("A", {"D": (2.0, 1.0)}, "beam", 30.0)
    assert (found.spread, found.members, found.row, found.point) == (16.0, 3, (4.0, 36.0), "ridge")
    assert (found.applied, found.bearing, found.fastened) == (applied, bearing, fastened)
