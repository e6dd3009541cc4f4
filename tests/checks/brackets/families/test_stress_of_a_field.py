"""What is read of a stress field, and which field is refined: on fields of a few places, by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from beamcheck.calc.pad import SilentPad
from beamcheck.checks.brackets.families.solid_stress import (
    Governing,
    _edge_check,
    _index,
    _on_edge,
    _together,
    edges_of,
    place_words,
    strengths,
    stress_checks,
)
from beamcheck.errors import BeamcheckError

from ..brackets import SOLID, bracket, loads_of, structure, wood
from ..by_hand import F_C, F_PERP, F_T, F_V, at_angle

F = {"F_t": 800.0, "F_c": 1000.0, "F_v": 200.0, "F_c_perp": 600.0}


def edge(*rows: tuple[float, float, float, float]) -> Any:
    """Places x, y (in), stress along it (psi) and angle to the grain (deg)."""
    x, y, sigma, phi = np.array(rows).T if rows else np.zeros((4, 0))
    return SimpleNamespace(x=x, y=y, sigma_t=sigma, phi=phi)


def field(stress: Any = ((0.0, 0.0, 0.0),), *, held: str = "springs", peak: float = 0.0, **edges: Any) -> Any:
    """Stresses along the grain, across it and in shear, psi, each at a place (0, i); what is far out is not read."""
    places = np.array([(0.0, float(i)) for i in range(len(stress))])
    return SimpleNamespace(
        _everywhere=(places, np.array(stress, dtype=float)), readable=lambda at: at[:, 0] < 90.0,
        peak=lambda what: SimpleNamespace(value=peak), backing=SimpleNamespace(kind=held),
        top=edges.get("top", edge()), soffit=edges.get("soffit", edge()), wall_edge=edges.get("wall", edge()),
    )  # fmt: skip


# ---- one place ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("stress", "U"),
    [
        ((400.0, 50.0, 0.0), 0.5),  # tension across the grain is no figure here
        ((-500.0, 0.0, 0.0), 0.5), ((0.0, 0.0, -100.0), 0.5), ((0.0, -300.0, 0.0), 0.5),
        ((400.0, -300.0, 50.0), math.sqrt(0.25 + 400.0 * 300.0 / 800.0**2 + 0.25 + 1.0 / 16.0)),
        ((-500.0, -300.0, 50.0), math.sqrt(0.25 - 500.0 * 300.0 / 1000.0**2 + 0.25 + 1.0 / 16.0)),
    ],
)  # fmt: skip
def test_stresses_together_at_one_place(stress: tuple[float, float, float], U: float) -> None:
    """The quadratic form, with F_t' or F_c* by the sign along the grain; what presses across counts alone."""
    found, counted, place = _index(field((stress,)), F, 1.0)
    assert found == pytest.approx(U)
    assert counted == pytest.approx((stress[0], min(stress[1], 0.0), stress[2])) and place == (0.0, 0.0)
    twice, _, _ = _index(field((stress,)), F, 2.0)
    assert twice == pytest.approx(2.0 * U)


def test_pressure_across_the_grain_takes_no_more_than_along_it() -> None:
    weak = {**F, "F_c_perp": 900.0}
    assert _index(field(((0.0, -400.0, 0.0),)), weak, 1.0)[0] == pytest.approx(400.0 / 800.0)
    assert _index(field(((-1.0, -450.0, 0.0),)), weak, 1.0)[0] == pytest.approx(0.5, rel=1e-2)


def test_the_worst_place_that_may_be_read_counts() -> None:
    many = field(((100.0, 0.0, 0.0), (0.0, 0.0, 150.0), (200.0, 0.0, 0.0)))
    assert _index(many, F, 1.0)[2] == (0.0, 1.0)
    many._everywhere[0][1, 0] = 99.0  # at a load or an anchor
    assert _index(many, F, 1.0)[0] == pytest.approx(200.0 / 800.0)
    many._everywhere[0][:, 0] = 99.0
    with pytest.raises(BeamcheckError, match="no place is left where stress may be read"):
        _index(many, F, 1.0)


TENSION = [(1.0, 0.0, 100.0, 0.0), (2.0, 0.0, 300.0, 15.0), (3.0, 0.0, 500.0, 15.1), (4.0, 0.0, -700.0, 30.0),
           (95.0, 0.0, 900.0, 0.0)]  # fmt: skip


def test_an_edge_that_is_pulled_along_its_grain_or_pressed() -> None:
    """Up to 15 degrees off the grain tension counts; pressure by Hankinson at any angle."""
    some = field(top=edge(*TENSION))
    ratio, stress, angle, place = _on_edge(some, "top", F, 1.5, pulled=True)  # type: ignore[misc]
    assert (ratio, stress, angle, *place) == pytest.approx((450.0 / 800.0, 450.0, 15.0, 2.0, 0.0))
    allowed = 1000.0 * 600.0 / (1000.0 * 0.25 + 600.0 * 0.75)
    pressed = _on_edge(some, "top", F, 1.0, pulled=False)
    assert pressed is not None and pressed[:3] == pytest.approx((700.0 / allowed, 700.0, 30.0))
    assert _on_edge(some, "soffit", F, 1.0, pulled=True) is None


@pytest.mark.parametrize(
    ("sigma", "loss", "acts"), [(1.01, 1.0, True), (1.0, 1.0, False), (0.7, 1.5, True), (0.5, 1.5, False)]
)
def test_less_than_a_pound_on_an_inch_is_no_stress(sigma: float, loss: float, acts: bool) -> None:
    for sign in (1.0, -1.0):
        found = _on_edge(field(wall=edge((0.0, 3.0, sign * sigma, 0.0))), "wall", F, loss, pulled=sign > 0.0)
        assert (found is not None) is acts


def test_the_wall_edge_is_free_unless_it_is_bonded() -> None:
    assert edges_of(field(held="bonded")) == ("top", "soffit")
    assert edges_of(field()) == ("top", "soffit", "wall")


def test_a_place_in_words() -> None:
    assert place_words(2.5, 4.0) == "2 1/2 in out, 4 in down" and place_words(-1e-3, -0.2) == "0 in out, 0 in down"


def test_what_the_wood_bears_under_each_combination() -> None:
    """C_D 1.0 of a live load and 0.9 of a dead one (NDS 2018 Table 2.3.2) on all but pressure across the grain."""
    here = structure()
    loads = loads_of(bracket(SOLID, carries=[{"what": "shelf", "live": "20 lb", "dead": "20 lb", "at": "4 in"}]), here)
    seen = set()
    for i, one in enumerate(loads.combinations):
        C_D = float(loads.C_D[i])
        seen.add(C_D)
        found = {key: float(value) for key, value in strengths(wood(here), SilentPad(), loads, i).items()}
        expected = {"F_t": F_T * C_D, "F_c": F_C * C_D, "F_v": F_V * C_D, "F_c_perp": F_PERP}
        assert found == pytest.approx(expected), one.name
    assert seen == {0.9, 1.0}


# ---- which field governs -----------------------------------------------------------------------------------------


def governing(*variants: Any, refined: Any = None, loss: float = 1.0) -> Governing:
    """Under one live load; of several variants each is a field. `loss` by holes is put in afterwards."""
    here = structure()
    loads = loads_of(bracket(SOLID, "20 lb", "4 in"), here)
    which = int(np.argmax(loads.F))
    model = SimpleNamespace(variants=variants, fixings=None, shape=None)
    solved = {(v, which): one for v, one in enumerate(variants)}
    runs: Any = SimpleNamespace(
        name="K", model=model, loads=loads, fields=solved, coarse=lambda v, c: solved[v, c],
        refined=lambda v, c: refined,
    )  # fmt: skip
    made = Governing(runs, [which], wood(here))
    made.loss = loss
    return made


def pulled(share: float) -> Any:
    """Along the grain, with so much of F_t'."""
    return field(((share * F_T, 0.0, 0.0),))


def test_the_variant_with_the_larger_figure_governs() -> None:
    found = governing(pulled(0.3), pulled(0.5), pulled(0.4))
    assert (found.where()[0], found.most["together"][0]) == (1, pytest.approx(0.5))
    one, other = field(peak=3.0), field(peak=7.0)
    assert governing(one, other, field(peak=5.0)).where("across")[0] == 1
    equal = governing(pulled(0.5), pulled(0.5))
    assert equal.where()[0] == 0


@pytest.mark.parametrize(
    ("share", "loss", "finer", "bound"),
    [(0.70, 1.0, False, 1.4), (0.72, 1.0, True, 1.2), (1.25, 1.0, True, 1.2), (1.26, 1.0, False, 1.0),
     (0.35, 2.0, False, 1.4), (0.36, 2.0, True, 1.2), (0.63, 2.0, False, 1.0)],
)  # fmt: skip
def test_only_what_a_finer_mesh_may_settle_is_refined(share: float, loss: float, finer: bool, bound: float) -> None:
    """A coarse figure may be 1/1.4 of the fine one; above 1.25 it fails on any mesh and is shown as it is."""
    fine = pulled(0.9)
    found = governing(pulled(share), refined=fine, loss=loss)
    assert (found.field() is fine) is finer
    assert found.bound("together").value == bound
    assert found.field() is found.field() and len(found.fields()) == 1 + finer
    check = _together(found)
    assert check.demand == pytest.approx((0.9 if finer else share) * loss * bound)
    assert (check.capacity, check.where) == (1.0, "0 in out, 0 in down")


def test_a_refined_field_serves_its_edges_too() -> None:
    """At an edge a refined figure is taken 1.4 times; what is pulled across the grain is never refined for itself."""
    top = edge((2.0, 0.0, 0.5 * F_T, 0.0))
    coarse, fine = field(((0.8 * F_T, 0.0, 0.0),), top=top), field(
        ((0.7 * F_T, 0.0, 0.0),), top=edge((3.0, 0.0, 0.6 * F_T, 10.0)))  # fmt: skip
    found = governing(coarse, refined=fine)
    together, pull = stress_checks(found)
    assert together.demand == pytest.approx(0.7 * 1.2)
    assert (pull.what, pull.where) == ("tension along the top edge", "3 in out, 0 in down")
    assert (pull.demand, pull.capacity) == pytest.approx((0.6 * F_T * 1.4, F_T))
    calm = governing(field(((0.1, 0.0, 0.0),), peak=500.0), refined=fine)
    assert calm.field("across") is not fine


def test_what_is_pressed_along_an_edge_by_hankinson() -> None:
    soffit = edge((2.0, 5.0, -400.0, 20.0), (4.0, 3.0, -300.0, 60.0))
    found = governing(field(soffit=soffit))
    check = _edge_check(found, "soffit", pulled=False)
    assert check.what == "compression along the soffit" and check.where == "4 in out, 3 in down"
    assert (check.demand, check.capacity) == pytest.approx((300.0 * 1.4, at_angle(60.0)))
    assert [one.what for one in stress_checks(found)][1:] == ["compression along the soffit"]


def test_an_edge_that_is_calm_on_the_finer_mesh_holds() -> None:
    coarse = field(((0.8 * F_T, 0.0, 0.0),), top=edge((2.0, 0.0, 1.5, 0.0)))
    found = governing(coarse, refined=field(((0.7 * F_T, 0.0, 0.0),), top=edge((2.0, 0.0, 0.5, 0.0))))
    list(stress_checks(found))
    check = _edge_check(found, "top", pulled=True)
    assert (check.verdict, check.notes) == ("passes", ("next to no stress",))
