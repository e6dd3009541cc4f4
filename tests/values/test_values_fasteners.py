"""Fasteners, steels and connection factors by look-up: values against their documents, bad names and sizes refused."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import pairwise

import pytest

from beamcheck.errors import BeamcheckError, OutOfRange, UnknownName
from beamcheck.values.hardware import connections, fasteners, steels
from beamcheck.values.loader import listed, rows


def test_bolts() -> None:
    """NDS 2018 Table L1 (memory); washers second-hand, and those of 1/4 and 5/16 not certain to be in Table L6."""
    made = fasteners.bolt("1/2")
    assert (made.value.D, made.value.D_r, made.source.how) == (0.5, 0.406, "memory")
    assert (made.value.thread(6.0), made.value.thread(6.5)) == (1.25, 1.5)
    assert made.reason == "1/2 in bolt, root 0.406 in"
    ring = fasteners.washer('1/2"')
    assert (ring.value, ring.source.how) == (fasteners.Washer(0.562, 1.375, 0.109), "read, second-hand")
    assert fasteners.washer("1/4 in").source.confidence == "low"
    assert fasteners.bolt_sizes() == ("1/4", "5/16", "3/8", "1/2", "5/8", "3/4", "7/8", "1")


def test_lag_screws() -> None:
    """NDS 2018 Table L2 (memory)."""
    made = fasteners.lag_screw("1-1/4").value
    with pytest.raises(UnknownName, match="'-1 in'"):  # a minus, no hyphen
        fasteners.bolt("-1 in")
    assert (made.D, made.D_r, made.E_tip) == (1.25, 1.012, 0.875)
    assert fasteners.lag_screw("1 1/4 in").value == made
    assert [fasteners.lag_thread(length).value for length in (1, 1.5, 4, 6, 9, 12, 16)] == [
        0.75, 1.25, 2.5, 3.5, 5.0, 6.0, 6.0,
    ]  # fmt: skip
    assert fasteners.lag_thread(4.5).value == 2.5
    assert "as for 4 in" in fasteners.lag_thread(4.5).reason


@pytest.mark.parametrize(("length", "T", "other"), [(10.0, 5.25, "5.5"), (11.0, 5.5, "6"), (11.5, 5.5, "6")])
def test_the_doubtful_lag_threads_take_the_shorter_and_say_so(length: float, T: float, other: str) -> None:
    found = fasteners.lag_thread(length)
    assert found.value == T and found.source.confidence == "low" and "the shorter is taken" in found.source.note
    assert f"in doubt: recalled as {other} in as well" in found.reason


def test_the_thread_rule_holds_in_the_table() -> None:
    """T = min(6, L/2 + 1/2) from 1-1/2 in on (memory); at 1 in the table has less."""
    for row in rows("nds_2018_l2_lag_threads")[1:]:
        assert float(row["T"]) == min(6.0, float(row["L"]) / 2 + 0.5)


def test_screws_and_nails() -> None:
    """NDS 2018 Tables L3 and L4 (memory; diameters of common nails also second-hand)."""
    for spelled in ("No. 10", "10", "#10", "no 10"):
        assert fasteners.wood_screw(spelled).value == fasteners.WoodScrew("No. 10", 0.19, 0.152, 0.363)
    common = fasteners.nail("common", "16D").value
    assert (common.L, common.D, common.D_H) == (3.5, 0.162, 0.344)
    assert fasteners.nail("box", "16d").source.how == "memory"
    assert "second-hand" in fasteners.nail("common", "16d").source.note
    assert fasteners.nail_sizes("common")[0] == "6d" and len(fasteners.nail_sizes("box")) == 9


@pytest.mark.parametrize(
    ("family", "D", "F_yb"),
    [  # NDS 2018 Table I1 (memory): both sides of every edge
        ("nail", 0.099, 100), ("nail", 0.142, 100), ("nail", 0.1421, 90), ("nail", 0.177, 90), ("nail", 0.1771, 80),
        ("wood screw", 0.236, 80), ("wood screw", 0.2361, 70), ("lag screw", 0.25, 70), ("wood screw", 0.273, 70),
        ("lag screw", 0.3125, 60), ("nail", 0.344, 60), ("wood screw", 0.372, 45), ("lag screw", 0.375, 45),
        ("lag screw", 1.0, 45), ("bolt", 0.25, 45), ("bolt", 1.0, 45), ("drift pin", 0.75, 45),
        ("hardened nail", 0.12, 130), ("hardened nail", 0.142, 130), ("hardened nail", 0.148, 115),
        ("hardened nail", 0.207, 100),
    ],
)  # fmt: skip
def test_bending_yield(family: fasteners.Family, D: float, F_yb: float) -> None:
    found = fasteners.bending_yield(family, D)
    assert found.value == 1000 * F_yb and found.source.how == "memory"


def test_thicker_soft_steel_fasteners_yield_earlier() -> None:
    bands = [row for row in rows("nds_2018_i1_bending_yield") if row["families"].startswith("nail")]
    for thin, thick in pairwise(bands):
        assert thin["D_up_to"] == thick["D_from"] and float(thick["F_yb"]) < float(thin["F_yb"])


def test_steels() -> None:
    """AISC 360 excerpts (read), A36 second-hand; bearing strengths of the lateral tables memory."""
    assert steels.steel("a36").value == steels.Steel("A36", 36000.0, 58000.0, "hot-rolled")
    assert steels.steel("A653 Grade 33").value.F_u == 45000.0
    assert steels.bolt_steel("A325").value.F_nv_threads_in == 54000.0
    assert [steels.other_bearing(name).value for name in steels.bearing_materials()] == [87000.0, 61850.0, 7500.0]
    assert steels.other_bearing(steels.bearing_materials()[0]).source.how == "memory"
    assert (steels.steel("A36").source.how, steels.bolt_steel("A307").source.how) == ("read, second-hand", "read")
    assert steels.steel_grades() == ("A36", "A653 Grade 33", "A992", "A572 Grade 50") and steels.bolt_grades() == (
        "A307",
        "A325",
    )


@pytest.mark.parametrize(
    ("action", "made", "service", "D", "one_row", "C_M"),
    [  # NDS 2018 Table 11.3.3 (memory)
        ("lateral", "dry", "dry", 0.5, False, 1.0), ("lateral", "wet", "dry", 0.5, False, 0.4),
        ("lateral", "wet", "dry", 0.2, False, 0.7), ("lateral", "wet", "dry", 0.5, True, 1.0),
        ("lateral", "wet", "wet", 0.5, True, 0.7), ("lateral", "dry", "wet", 0.2, False, 0.7),
        ("withdrawal of screws", "wet", "dry", 0.5, False, 1.0), ("withdrawal of screws", "dry", "wet", 0.5, True, 0.7),
        ("withdrawal of nails", "wet", "dry", 0.162, False, 0.25),
        ("withdrawal of nails", "dry", "wet", 0.162, True, 0.25),
        ("withdrawal of nails", "wet", "wet", 0.162, False, 1.0),
        ("withdrawal of toe-nails", "wet", "dry", 0.162, False, 1.0),
    ],
)  # fmt: skip
def test_wet_service(
    action: connections.Action, made: connections.Moist, service: connections.Moist, D: float, one_row: bool, C_M: float
) -> None:
    assert connections.connection_wet_service(action, made, service, D, one_row).value == C_M


def test_temperature() -> None:
    """NDS 2018 Table 11.3.4 (memory)."""
    found = [connections.connection_temperature(T, wet).value for wet in (False, True) for T in (100, 101, 125, 150)]
    assert found == [1.0, 0.8, 0.8, 0.7, 1.0, 0.7, 0.7, 0.5]


def test_factors_by_case() -> None:
    """NDS 2018 12.2 and 12.5 (memory)."""
    by_case = {case: connections.connection_factor(case).value for case in (
        "end grain, lateral", "toe-nail, lateral", "toe-nail, withdrawal", "diaphragm, nails")}  # fmt: skip
    assert list(by_case.values()) == [0.67, 0.83, 0.67, 1.1]


def test_distances() -> None:
    """NDS 2018 Tables 12.5.1A to E (memory)."""
    end, D = connections.end_distance, connections.Distance
    assert end("across", towards_end=True, hardwood=False).value == D(2, 4)
    assert end("along", towards_end=False, hardwood=False).value == D(2, 4)
    assert end("along", towards_end=True, hardwood=False).value == D(3.5, 7)
    assert end("along", towards_end=True, hardwood=True).value == D(2.5, 5)
    assert connections.row_spacing("along").value == connections.row_spacing("across").value == D(3, 4)
    assert "safe reading" in connections.row_spacing("across").reason
    assert connections.distance("edge", "across", "loaded").value == D(4, None)
    assert connections.distance("lag pull", "any", "end").value == D(4, None)
    assert connections.distance("thin", "not prebored", "end tension").source.how == "memory"
    assert connections.connection_limit("outer fasteners across the grain, sawn wood").value == 5.0


def test_the_least_distances_are_those_that_the_formulas_hold_to() -> None:
    """geometry_factor_end allows half the full distance, geometry_factor_spacing three quarters: so does the table."""
    for row in rows("nds_2018_12_5_1_distances"):
        if row["full"]:
            share = {"end": 0.5, "spacing": 0.75}[row["rule"]]
            assert float(row["least"]) == share * float(row["full"])


def test_lead_holes() -> None:
    """NDS 2018 12.1.4 and 12.1.5 (second-hand, the smallest lag hole and nails memory)."""
    hole = connections.lead_hole
    assert [hole("lag screw", "thread", G).value for G in (0.5, 0.55, 0.6, 0.67)] == [
        connections.LeadHole(0.4, 0.7, "D"), connections.LeadHole(0.6, 0.75, "D"),
        connections.LeadHole(0.6, 0.75, "D"), connections.LeadHole(0.65, 0.85, "D"),
    ]  # fmt: skip
    assert hole("wood screw, lateral", "thread", 0.67).value == connections.LeadHole(1.0, 1.0, "D_r")
    assert hole("wood screw, withdrawal", "thread", 0.45).value.low == 0.0
    assert hole("nail", "hole", 0.67).value.high == 0.9 and hole("nail", "hole", 0.6).value.high == 0.75
    assert connections.bolt_hole_over("bolt").value == (1 / 32, 1 / 16)
    assert connections.bolt_hole_over("drift pin").value == (-1 / 32, 0.0)


def test_advice() -> None:
    found = connections.fastener_steel("oak, chestnut, cedar, redwood")
    assert found.value == "stainless or hot-dip galvanized" and found.source.how == "practice"
    assert connections.lever_arm("bracket, concave, horizontal grain").value == 0.45
    assert max(connections.lever_arm(kind).value for kind in listed("bracket_lever_arms", "bracket")) == 0.9


REFUSED: list[tuple[Callable[[], object], type[BeamcheckError], str]] = [
    (lambda: fasteners.bolt("9/16"), UnknownName, "bolt size '9/16' is not known; did you mean '5/16'"),
    (lambda: fasteners.lag_screw("2"), UnknownName, "lag screw size '2' is not known; "),
    (lambda: fasteners.wood_screw("No. 11"), UnknownName, "wood screw size 'No. 11' is not known; did you mean"),
    (lambda: fasteners.nail("common", "5d"), UnknownName, "size of a common nail '5d' is not known; did you mean"),
    (lambda: fasteners.nail("casing", "8d"), UnknownName, "kind of nail 'casing' is not known"),  # type: ignore[arg-type]
    (lambda: fasteners.washer("2"), UnknownName, "washer size '2' is not known"),
    (lambda: fasteners.lag_thread(0.75), OutOfRange, "a lag screw 0.75 in long: the table begins at 1 in"),
    (lambda: fasteners.bending_yield("nail", 0.092), OutOfRange,
     "no bending yield strength for a nail 0.092 in thick: the table goes from 0.099 to 0.375 in. Enter the maker's"),
    (lambda: fasteners.bending_yield("hardened nail", 0.225), OutOfRange, "goes from 0.12 to 0.207 in"),
    (lambda: fasteners.bending_yield("peg", 0.5), UnknownName, "family of fasteners 'peg'"),  # type: ignore[arg-type]
    (lambda: steels.steel("A37"), UnknownName, "grade of steel 'A37' is not known; did you mean 'A36'?"),
    (lambda: steels.bolt_steel("A490"), UnknownName, "grade of bolt 'A490' is not known"),
    (lambda: steels.other_bearing("brick"), UnknownName, "material 'brick' is not known"),
    (lambda: connections.connection_temperature(151, False), OutOfRange,
     "151 deg F: no temperature factor for sustained heat above 150 deg F (NDS 2018 11.3.4)"),
    (lambda: connections.connection_factor("end grain, withdrawal of a nail"), OutOfRange, "not allowed"),
    (lambda: connections.connection_factor("end grain"), UnknownName, "did you mean 'end grain, lateral'"),
    (lambda: connections.distance("edge", "across", "lower"), UnknownName, "distance 'edge, across, lower' is not"),
    (lambda: connections.end_distance("askew", towards_end=False, hardwood=False), UnknownName,  # type: ignore[arg-type]
     "distance 'end, askew, compression' is not known"),
    (lambda: connections.lead_hole("bolt", "shank", 0.5), UnknownName, "fastener with lead holes 'bolt'"),
    (lambda: connections.lead_hole("nail", "shank", 0.5), UnknownName, "part of a nail 'shank' is not known"),
    (lambda: connections.connection_wet_service("lateral", "damp", "dry", 0.5, False),  # type: ignore[arg-type]
     UnknownName, "moisture of a joint 'damp' is not known"),
    (lambda: connections.fastener_steel("painted"), UnknownName, "condition of the wood 'painted'"),
    (lambda: connections.lever_arm("scroll"), UnknownName, "kind of bracket 'scroll'"),
    (lambda: connections.connection_limit("six inches"), UnknownName, "rule 'six inches' is not known"),
    (lambda: connections.bolt_hole_over("nail"), UnknownName, "fastener in a drilled hole 'nail'"),  # type: ignore[arg-type]
]  # fmt: skip


@pytest.mark.parametrize(("call", "kind", "told"), REFUSED, ids=[told[:40] for _, _, told in REFUSED])
def test_what_no_table_has_is_refused(call: Callable[[], object], kind: type[BeamcheckError], told: str) -> None:
    with pytest.raises(kind, match=re.escape(told)):
        call()
