"""Load combinations, weights of finishes, live loads by use."""

import pytest

from beamcheck.errors import OutOfRange, UnknownName
from beamcheck.values.factors import load_duration
from beamcheck.values.loader import listed
from beamcheck.values.loads import asd_combinations, finish_weight, live_load, live_load_uses

PSF = 1 / 144.0

# ASCE 7-16 2.4.1 (read in 7-10, which has the same), with the C_D that the reference lists beside each
COMBINATIONS = [
    ({"D": 1.0}, 0.9),
    ({"D": 1.0, "L": 1.0}, 1.0),
    ({"D": 1.0, "Lr": 1.0}, 1.25),
    ({"D": 1.0, "S": 1.0}, 1.15),
    ({"D": 1.0, "L": 0.75, "Lr": 0.75}, 1.25),
    ({"D": 1.0, "L": 0.75, "S": 0.75}, 1.15),
    ({"D": 1.0, "W": 0.6}, 1.6),
    ({"D": 1.0, "L": 0.75, "Lr": 0.75, "W": 0.45}, 1.6),
    ({"D": 1.0, "L": 0.75, "S": 0.75, "W": 0.45}, 1.6),
    ({"D": 0.6, "W": 0.6}, 1.6),
]


def test_combinations() -> None:
    found = asd_combinations()
    assert [(dict(one.factors), load_duration(one.duration_load).value) for one in found] == COMBINATIONS
    assert found[2].name == "D + Lr" and found[2].clause == "ASCE 7-16 2.4.1 no. 3a" and found[2].source.how == "read"


def test_the_duration_load_is_the_shortest_in_the_combination() -> None:
    """NDS 2018 2.3.2 (second-hand)."""
    for one in asd_combinations():
        shortest = max(one.factors, key=lambda kind: load_duration(kind).value)
        assert one.duration_load == shortest


def test_combinations_are_read_only() -> None:
    with pytest.raises(TypeError):
        asd_combinations()[0].factors["D"] = 0.5  # type: ignore[index]


@pytest.mark.parametrize(
    ("name", "psf", "how"),
    [
        ("Plaster on wood lath", 8, "read"),  # ASCE 7 Table C3.1-1; 0.38 kN/m2 is 7.9 psf
        ("plaster on wood lath", 8, "read"),
        ("Gypsum board 1/2 in.", 2.2, "derived"),
        ("Slate 1/4 in.", 10, "read"),
        ("MDF panel 3/4 in.", 3, "derived"),
        ("Clay brick 4 in. wythe", 39, "memory"),
    ],
)
def test_finish_weights(name: str, psf: float, how: str) -> None:
    found = finish_weight(name)
    assert found.value == pytest.approx(psf * PSF) and found.source.how == how
    assert found.reason.endswith(" psf")


def test_finish_weights_agree_with_the_metric_column_where_that_was_read() -> None:
    """ASCE 7 Table C3.1-1 gives both; 1 kN/m2 is 20.885 psf. The notes of the rows hold the metric value."""
    compared = 0
    for name in listed("finish_weights", "item"):
        found = finish_weight(name)
        note = found.source.note
        if " kN/m2" in note and "poor scan" not in note:
            metric = float(note.split(" kN/m2")[0].split()[-1])
            assert found.value / PSF == pytest.approx(metric * 20.885, abs=0.35)
            compared += 1
    assert compared >= 15


def test_gypsum_board_by_thickness() -> None:
    """0.55 psf for each 1/8 in (read)."""
    eighth = finish_weight("Gypsum board, per 1/8 in.").value
    assert finish_weight("Gypsum board 5/8 in.").value == pytest.approx(5 * eighth)


def test_an_unknown_finish() -> None:
    with pytest.raises(
        UnknownName, match="finish 'Plaster on wood lathe' is not known; did you mean 'Plaster on wood lath'"
    ):
        finish_weight("Plaster on wood lathe")


@pytest.mark.parametrize(
    ("use", "psf", "how"),
    [
        ("sleeping room", 30, "read"), ("other room", 40, "read"), ("attic without storage", 10, "read"),
        ("attic with limited storage", 20, "read"), ("habitable attic", 30, "read"), ("garage", 50, "read"),
        ("roof", 20, "read"), ("stair", 40, "read"),
        ("deck", 60, "memory"), ("Balcony", 60, "read"),  # documents differ: the larger
    ],
)  # fmt: skip
def test_live_loads(use: str, psf: float, how: str) -> None:
    """IRC Table R301.5 and ASCE 7 Table 4.3-1."""
    found = live_load(use)
    assert found.value == pytest.approx(psf * PSF) and found.source.how == how


def test_point_loads_are_named() -> None:
    assert live_load("stair").reason == "stair: 40 psf, or 300 lb on 4 in2"
    with pytest.raises(OutOfRange, match="guard or handrail has a point load only: 200 lb, top, any direction"):
        live_load("guard or handrail")


def test_an_unknown_use() -> None:
    assert "garage" in live_load_uses()
    with pytest.raises(UnknownName, match="use 'garages' is not known; did you mean 'garage'"):
        live_load("garages")
