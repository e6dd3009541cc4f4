"""Stress in a solid bracket against what the wood bears: along the grain, along the edges, in shear, all together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from ....calc.pad import Pad, SilentPad
from ....errors import BeamcheckError
from ....formulas.wood import off_axis as oa
from ....formulas.wood.bearing import bearing_at_angle
from ....units import show
from ....values.found import Found
from ....values.judgment import judgment
from ...anchors.fastener import dowel_of
from ...core.result import Check
from ...core.wood.govern import duration
from ...core.wood.material import WoodMaterial, bearing_prime, compression_star, shear_prime, tension_prime
from ..loads import BracketLoads
from .solid_comparison import EDGE_WORDS, Edge, noticed
from .solid_field import FieldModel, FieldRuns

if TYPE_CHECKING:
    from ....analysis.fields.field import Field

Array = np.ndarray
Where = tuple[int, int]  # variant and combination
FIELD = "plane stress field analysis"
OVER = 1.25  # of a limit: a coarse figure above it fails on any mesh (coarse ones were at most 1.21 of fine ones)


class Governing:
    """Which variant and combination governs what, by coarse fields; those are then refined, each once."""

    def __init__(self, runs: FieldRuns, which: Sequence[int], wood: WoodMaterial) -> None:
        self.runs, self.wood = runs, wood
        self.loss = _loss(runs.model)
        self.most: dict[str, tuple[float, Where]] = {}
        self._refined: dict[Where, Field] = {}
        for combination in which:
            F = self.strengths(combination)
            for variant in range(len(runs.model.variants)):
                field = runs.coarse(variant, combination)
                where = variant, combination
                self._note("together", _index(field, F, 1.0)[0], where)
                self._note("across", field.peak("across tension").value, where)
                for edge in edges_of(field):
                    for pulled in (True, False):
                        found = _on_edge(field, edge, F, 1.0, pulled=pulled)
                        if found is not None:
                            self._note(_what(edge, pulled=pulled), found[0], where)

    def _note(self, what: str, value: float, where: Where) -> None:
        if what not in self.most or value > self.most[what][0]:
            self.most[what] = (value, where)

    def strengths(self, combination: int, pad: Pad | None = None) -> dict[str, float]:
        """F_t', F_c*, F_v' with the C_D of a combination; F_c_perp'."""
        found = strengths(self.wood, SilentPad() if pad is None else pad, self.runs.loads, combination)
        return {key: float(value) for key, value in found.items()}

    def where(self, what: str = "together") -> Where:
        return self.most[what][1]

    def field(self, what: str = "together") -> Field:
        """The field that governs: refined where a coarse figure with its bound of error does not settle it."""
        where = self.where(what)
        if where in self._refined:
            return self._refined[where]
        coarse = self.most[what][0] * self.loss
        if what != "across" and coarse * error_bound("coarse").value > 1.0 and coarse <= OVER:
            self._refined[where] = self.runs.refined(*where)
            return self._refined[where]
        return self.runs.coarse(*where)

    def bound(self, what: str) -> Found[float]:
        """What a finer mesh makes of a figure at most, over the figure: measured, not what the last mesh moved it by.

        A figure that fails already is shown as it is.
        """
        if self.most[what][0] * self.loss > OVER:
            return error_bound("coarse")._replace(value=1.0, reason="above its limit on any mesh")
        refined = self.where(what) in self._refined
        return error_bound("refined, in the wood" if refined and what == "together" else
                           "refined, at an edge" if refined else "coarse")  # fmt: skip

    def fields(self) -> list[Field]:
        """All that were solved, refined ones first."""
        return [*self._refined.values(), *self.runs.fields.values()]


def stress_checks(governing: Governing) -> Iterator[Check]:
    """Stresses along the grain, in shear and pressure across it together; the edges, pulled along the grain or pressed.

    Tension across the grain is no figure here: the split test takes the wood to have none.
    """
    together = _together(governing)  # first: what it refines serves the others
    yield together
    for edge in EDGE_WORDS:
        for pulled in (True, False):
            if _what(edge, pulled=pulled) in governing.most:
                yield _edge_check(governing, edge, pulled=pulled)


def _what(edge: Edge, *, pulled: bool) -> str:
    return f"{'tension' if pulled else 'compression'} along the {EDGE_WORDS[edge]}"


def error_bound(of: str) -> Found[float]:
    """Largest of a figure on a mesh of 40 cells over the same on the mesh that is used."""
    return judgment(f"error of a stress field, {of}")


def _case(governing: Governing, what: str) -> str:
    return governing.runs.loads.combinations[governing.where(what)[1]].name


def _together(governing: Governing) -> Check:
    pad = Pad()
    F = governing.strengths(governing.where()[1], pad)
    field = governing.field()
    bound = governing.bound("together")
    _, (s_par, s_perp, tau), place = _index(field, F, governing.loss * bound.value)
    pad.take("k_mesh", bound.value, note=bound.reason, source=bound.source)
    note = "field analysis, holes deducted, times k_mesh"
    values = {
        "s_par": pad.take("s_par", s_par, "psi", clause=FIELD, note=note),
        "s_perp": pad.take("s_perp", s_perp, "psi", clause=FIELD, note=note),
        "tau": pad.take("tau", tau, "psi", clause=FIELD, note=note),
        "F_par": F["F_t"] if s_par >= 0.0 else F["F_c"],
        "F_v": F["F_v"],
    }
    F_perp = min(F["F_c_perp"], values["F_par"])
    U = float(pad(oa.quadratic_index, **values, F_perp=F_perp))
    return Check.of_ratio(
        "bracket.stresses_together", governing.runs.name,
        "stresses along the grain, pressure across it and shear together",
        "quadratic form (memory)", demand=U, capacity=1.0, kind="ratio", combination=_case(governing, "together"),
        where=place_words(*place), steps=pad.steps,
    )  # fmt: skip


def _on_edge(
    field: Field, edge: Edge, F: dict[str, float], loss: float, *, pulled: bool
) -> tuple[float, float, float, Array] | None:
    """Largest ratio along an edge by Hankinson, its stress, angle to the grain and place; None where little acts."""
    places, sigma, phi = read_edge(field, edge)
    s = np.maximum(sigma if pulled else -sigma, 0.0) * loss
    if pulled:  # where the grain stands at more to a pulled edge, the split test alone says what is left
        s = np.where(phi <= judgment("slope of grain at an edge in tension").value, s, 0.0)
    if not s.size or float(s.max()) <= noticed():
        return None
    if pulled:
        allowed = np.full_like(s, F["F_t"])
    else:
        allowed = np.asarray(bearing_at_angle(F["F_c"], F["F_c_perp"], phi))
    k = int(np.argmax(s / allowed))
    return float(s[k] / allowed[k]), float(s[k]), float(phi[k]), places[k]


def _edge_check(governing: Governing, edge: Edge, *, pulled: bool) -> Check:
    what = _what(edge, pulled=pulled)
    F = governing.strengths(governing.where(what)[1])
    field = governing.field(what)
    bound = governing.bound(what)
    found = _on_edge(field, edge, F, governing.loss * bound.value, pulled=pulled)
    if found is None:  # on the finer mesh next to nothing is left of it
        return Check.keeps_rule("bracket.edge_stress", governing.runs.name, what, FIELD, "next to no stress")
    _, stress, angle, place = found
    pad, clause = Pad(), "NDS 2018 3.8.1" if pulled else "NDS 2018 3.10.3, App. J"
    pad.take("k_mesh", bound.value, note=bound.reason, source=bound.source)
    demand = float(
        pad.take("sigma_t", stress, "psi", clause=FIELD, note="along the edge, holes deducted, times k_mesh")
    )
    phi = pad.take("phi", angle, "deg", note="between edge and grain")
    if pulled:
        value = pad.take("F_t_prime", F["F_t"], "psi", note="the grain runs along the edge")
    else:
        value = pad(bearing_at_angle, F_c_star=F["F_c"], F_c_perp_prime=F["F_c_perp"], theta=phi)
    return Check.of_ratio(
        "bracket.edge_stress", governing.runs.name, what, clause, demand=demand,
        capacity=float(value), kind="stress", combination=_case(governing, what), where=place_words(*place),
        steps=pad.steps,
    )  # fmt: skip


def strengths(wood: WoodMaterial, pad: Pad, loads: BracketLoads, which: int | slice) -> dict[str, float | Array]:
    """F_t', F_c*, F_v' with the C_D of a combination; F_c_perp'."""
    C_D = duration(pad, loads.combinations, which)
    return {
        "F_t": tension_prime(pad, wood, C_D),
        "F_c": compression_star(pad, wood, C_D),
        "F_v": shear_prime(pad, wood, C_D),
        "F_c_perp": bearing_prime(pad, wood, 1.0),
    }


def _loss(model: FieldModel) -> float:
    """Thickness over what the fasteners' holes leave of it."""
    fixings, shape = model.fixings, model.shape
    if fixings is None or fixings.fastener is None or not fixings.rows:
        return 1.0
    fastener = fixings.fastener
    hole = max(dowel_of(fastener).hole, fastener.counterbore or 0.0)
    left = shape.thickness - hole * max(row.count for row in fixings.rows)
    if left <= 0.0:
        raise BeamcheckError(f"the fasteners' holes, {show(hole, 'length')} wide, leave nothing of the thickness")
    return shape.thickness / left


def _index(
    field: Field, F: dict[str, float], loss: float
) -> tuple[float, tuple[float, float, float], tuple[float, float]]:
    """The largest quadratic index over all that may be read, its stresses and its place."""
    places, stress = field._everywhere
    on = field.readable(places)
    s = stress[on] * loss
    if not len(s):
        raise BeamcheckError("no place is left where stress may be read: load and anchors are too near each other")
    pressed = np.minimum(s[:, 1], 0.0)
    F_par = np.where(s[:, 0] >= 0.0, F["F_t"], F["F_c"])
    U = np.asarray(oa.quadratic_index(s[:, 0], pressed, s[:, 2], F_par, np.minimum(F["F_c_perp"], F_par), F["F_v"]))
    k = int(np.argmax(U))
    place = places[on][k]
    return float(U[k]), (float(s[k, 0]), float(pressed[k]), float(s[k, 2])), (float(place[0]), float(place[1]))


def edges_of(field: Field) -> tuple[Edge, ...]:
    """The edges that are free: the wall face is none where it is bonded."""
    return ("top", "soffit") if field.backing.kind == "bonded" else ("top", "soffit", "wall")


def read_edge(field: Field, name: Edge) -> tuple[Array, Array, Array]:
    """Places (n, 2), stress (n,) and angle to the grain (n,) along an edge, where it may be read."""
    edge = {"top": lambda: field.top, "soffit": lambda: field.soffit, "wall": lambda: field.wall_edge}[name]()
    places = np.stack([edge.x, edge.y], axis=-1)
    on = field.readable(places)
    return places[on], edge.sigma_t[on], edge.phi[on]


def place_words(x: float, y: float) -> str:
    """A place in the words of the sheet."""
    return f"{show(max(x, 0.0), 'length')} out, {show(max(y, 0.0), 'length')} down"
