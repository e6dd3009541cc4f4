"""Pull along the fasteners: withdrawal and washers by hand, end grain refused, pull with lateral load."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from beamcheck.errors import OutOfRange

from .anchors import A36, HALF, PLATE, Data, axial, find, group, lateral, layout, said, stock

PULL = "pull on the most loaded"
LAG: Data = {"kind": "lag screw", "size": "3/8 in", "length": "4 in"}
INTO: Data = {"stock": "wood", "thickness": "5 1/2 in", "grain": "across", "end": "6 in", "edge": "5 in"}


def test_a_lag_through_a_plate() -> None:
    """1800 G^1.5 D^0.75 (read) on the thread without tip: T 2.5 in, E 7/32 in; no head in wood."""
    made = group([200.0], held=stock("6x12 dressed"), fastener=LAG, plate=PLATE, manner="plate one side", other=None)
    W = 1800 * 0.5**1.5 * 0.375**0.75
    check = find(axial(made, [100.0]), PULL)
    assert check.capacity == pytest.approx(W * (2.5 - 0.21875))
    Z = find(lateral(made), "lateral").capacity
    assert Z is not None
    load, alpha = math.hypot(200.0, 100.0), math.atan2(100.0, 200.0)
    Z_a = W * 2.28125 * Z / (W * 2.28125 * math.cos(alpha) ** 2 + Z * math.sin(alpha) ** 2)  # eq. 12.4-1 (read)
    assert find(axial(made, [100.0]), "pull and lateral").ratio == pytest.approx(load / Z_a)
    # root of a 3/8 in lag 0.265 in (NDS 2018 Table L2, read): 6,000 psi are 331 lb; more asks for its maker's word
    assert "little for any steel" in said(axial(made, [320.0]), "passes")
    assert "no grade" in said(axial(made, [340.0]), "refer")


def test_the_wood_under_a_lag_s_washer() -> None:
    """Side member of wood: F_c_perp 625 psi on a 1 in washer less the 3/8 in hole."""
    made = group([50.0], fastener={**LAG, "length": "6 in"}, other=INTO, into=stock("6x12 dressed"))
    assert find(axial(made, [100.0]), PULL).capacity == pytest.approx(625 * math.pi / 4 * (1 - 0.375**2))


def test_nail_in_withdrawal() -> None:
    """1380 G^2.5 D (read) over 2 in; head 690 pi D_H G^2 t (memory) holds more."""
    made = group([20.0], fastener={"kind": "nail", "size": "16d common"}, other={**INTO, "thickness": "3 1/2 in"})
    W_p = 1380 * 0.5**2.5 * 0.162 * 2.0
    check = find(axial(made, [30.0]), PULL)
    assert check.capacity == pytest.approx(W_p)
    Z = find(lateral(made), "lateral").capacity
    assert Z is not None
    assert find(axial(made, [30.0]), "pull and lateral").ratio == pytest.approx(20 / Z + 30 / W_p)


def test_screws_and_nails_in_end_grain_hold_nothing() -> None:
    """12.2.2, 12.2.3 (read): not allowed; a lag screw keeps 0.75 (12.2.1)."""
    end = {"stock": "wood", "thickness": "5 1/2 in", "grain": "end", "edge": "5 in"}
    for fastener in (
        {"kind": "wood screw", "size": "No. 10", "length": "4 in"},
        {"kind": "nail", "size": "16d common"},
    ):
        check = find(axial(group([20.0], fastener=fastener, other=end), [30.0]), PULL)
        assert check.verdict == "fails"
        assert check.clause.startswith("NDS 2018 12.2")
        assert "not allowed" in check.notes[0]
    thick = group([20.0], fastener=LAG, other=end, into=stock("6x12 dressed"))
    steps = find(axial(thick, [30.0]), PULL).steps
    assert [each.value for each in steps if each.symbol == "C_eg"] == [0.75]


def test_toe_nails_in_withdrawal() -> None:
    """12.5.4 (read): 0.67."""
    holes = {"rows": 2, "columns": 1, "end": "1 1/8 in", "edge": "2 in", "row_spacing": "2 in"}
    made = group([20.0], manner="toe-nails", fastener={"kind": "nail", "size": "16d common"}, other=INTO, holes=holes)
    p = 3.5 * math.cos(math.radians(30)) - 3.5 / 3
    assert find(axial(made, [30.0]), PULL).capacity == pytest.approx(0.67 * 1380 * 0.5**2.5 * 0.162 * p)


def test_washers_under_a_bolt() -> None:
    """625 psi on 1-3/8 in less a 9/16 in hole; 3 in clear of the end with C_b = (1.375 + 0.375)/1.375."""
    area = math.pi / 4 * (1.375**2 - 0.5625**2)
    checks = axial(group([20.0]), [100.0])
    assert find(checks, "washer on the held").capacity == pytest.approx(625 * area * 1.75 / 1.375)
    assert find(checks, "washer on the post").capacity == pytest.approx(625 * area)
    near = group([20.0], holes={"rows": 1, "columns": 1, "end": "3 1/2 in", "edge": "6 in"})
    assert find(axial(near, [100.0]), "washer on the held").capacity == pytest.approx(625 * area)


def test_no_pull_no_check_and_what_cannot_hold() -> None:
    assert axial(group([20.0]), [0.0]) == []
    assert axial(group([20.0]), [-50.0]) == []
    pins = axial(group([20.0], fastener={"kind": "pin", "size": "1/2 in"}), [50.0])
    assert find(pins, PULL).verdict == "fails"
    slot = group([20.0], held=stock("4x12 dressed"), manner="concealed plate", plate=A36, other=None)
    assert "is not checked here" in said(axial(slot, [50.0]), "refer")
    with pytest.raises(OutOfRange, match="one tension for each of 1 combinations"):
        axial(group([20.0]), [50.0, 60.0])


def test_combinations_without_force_do_not_disturb() -> None:
    made = group([0.0, 20.0], fastener={**LAG, "length": "6 in"}, other=INTO, into=stock("6x12 dressed"))
    assert find(axial(made, [0.0, 100.0]), "pull and lateral").combination == "case 2"


def test_lag_distances_in_withdrawal() -> None:
    """Table 12.5.1E (read): edge 1.5 D, end and spacing 4 D."""
    for spacing, verdict in (("1 1/4 in", "fails"), ("1 1/2 in", "passes")):
        holes = {"rows": 1, "columns": 2, "end": "4 in", "edge": "5 in", "spacing": spacing}
        made = group([20.0], held=stock("6x12 dressed"), fastener=LAG, plate=PLATE, manner="plate one side", other=None,
                     holes=holes)  # fmt: skip
        assert find(axial(made, [50.0]), "distances of lag screws").verdict == verdict


def test_bearing_is_not_relied_on_beyond_what_thin_wood_holds() -> None:
    """12.2.5 (memory): 690 pi D_H G^2 t on a quarter of an inch under a 1 in washer; through thick wood it bears."""
    into, fastener = stock("6x12 dressed"), {**LAG, "length": "6 in"}
    thin = group([50.0], fastener=fastener, other=INTO, into=into)
    thin = replace(thin, section=replace(thin.section, b=0.25))
    assert find(axial(thin, [100.0]), PULL).capacity == pytest.approx(690 * math.pi * 0.25 * 0.25)


def test_as_much_of_a_washer_counts_as_lies_on_the_wood() -> None:
    """625 psi on 3 in less the hole: 1 1/2 in from an edge, or 3 in from the next one, a 4 in washer counts so wide."""
    wide = {**HALF, "washer": "4 in"}
    other = {"stock": "wood", "thickness": "1 1/2 in", "grain": "across", "end": "6 in", "edge": "1 1/2 in"}
    made = group([20.0], fastener=wide, other=other)
    area = math.pi / 4 * (3.0**2 - 0.5625**2)
    assert find(axial(made, [100.0]), "washer on the post").capacity == pytest.approx(625 * area)
    two = {"rows": 2, "columns": 1, "row_spacing": "3 in", "end": "4 in", "edge": "4 in"}
    close = group([20.0], fastener=wide, holes=two)
    assert find(axial(close, [100.0]), "washer on the post").capacity == pytest.approx(625 * area)
    assert "overlap" in said(layout(close), "fails")
    over = group([20.0], fastener={**HALF, "washer": "9 in"})
    assert "hang over" in said(layout(over), "refer")
