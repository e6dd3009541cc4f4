"""Stress in a solid bracket against what the wood bears: across the grain, along the edges, all together, at bores."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from ....calc.pad import Pad, SilentPad
from ....errors import BeamcheckError
from ....formulas.wood import off_axis as oa
from ....formulas.wood.bearing import bearing_at_angle
from ....model.brackets import Bracket
from ....units import show
from ....values.judgment import judgment
from ...anchors.fastener import dowel_of
from ...core.result import Check
from ...core.wood.govern import duration
from ...core.wood.material import WoodMaterial, bearing_prime, compression_star, shear_prime, tension_prime
from ..asking import ask_engineer
from ..loads import BracketLoads
from .solid_comparison import EDGE_WORDS, Edge, noticed
from .solid_field import FieldModel, FieldRuns

if TYPE_CHECKING:
    from ....analysis.fields.field import Field

Array = np.ndarray
Where = tuple[int, int]  # variant and combination
FIELD = "plane stress field analysis"
NO_VALUE = "NDS 2018 3.8.2: no value, judgment"
CLEAR = (0.85, 1.15)  # of a limit: coarse figures move by some per cent, so only between these they are refined


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
                self._note("across", field.peak("across tension").value / F["F_t_perp"], where)
                for edge in edges_of(field):
                    for sign in (1.0, -1.0):
                        found = _on_edge(field, edge, sign, F, 1.0)
                        if found is not None:
                            self._note(f"{edge} {sign:g}", found[0], where)

    def _note(self, what: str, value: float, where: Where) -> None:
        if what not in self.most or value > self.most[what][0]:
            self.most[what] = (value, where)

    def strengths(self, combination: int, pad: Pad | None = None) -> dict[str, float]:
        """F_t', F_c*, F_v' with the C_D of a combination; F_c_perp'; and the borrowed figure for tension across."""
        found = strengths(self.wood, SilentPad() if pad is None else pad, self.runs.loads, combination)
        return {key: float(value) for key, value in found.items()}

    def where(self, what: str = "together") -> Where:
        return self.most[what][1]

    def field(self, what: str = "together") -> Field:
        """The field that governs: refined unless a coarse figure is clear of its limit.

        The one for all stresses together is refined whenever it may pass: a pass rests on figures that stand still.
        """
        where = self.where(what)
        if where in self._refined:
            return self._refined[where]
        coarse = self.most[what][0] * self.loss
        if (CLEAR[0] <= coarse or what == "together") and coarse <= CLEAR[1]:
            self._refined[where] = self.runs.refined(*where)
            return self._refined[where]
        return self.runs.coarse(*where)

    def fields(self) -> list[Field]:
        """All that were solved, refined ones first."""
        return [*self._refined.values(), *self.runs.fields.values()]


def stress_checks(governing: Governing, bracket: Bracket) -> Iterator[Check]:
    """Tension across the grain; stresses together; the edges at their angle to the grain; bores; what was not read."""
    together = _together(governing)  # first: what it refines serves the others
    yield _across(governing)
    yield together
    for edge in EDGE_WORDS:
        for sign in (1.0, -1.0):
            if f"{edge} {sign:g}" in governing.most:
                yield _edge_check(governing, edge, sign)
    yield from _bores(governing, bracket)
    yield from _unread(governing, bracket)


def _case(governing: Governing, what: str) -> str:
    return governing.runs.loads.combinations[governing.where(what)[1]].name


def _across(governing: Governing) -> Check:
    limit = judgment("tension across the grain")
    peak = governing.field("across").peak("across tension")
    pad = Pad()
    sigma = float(pad.take("sigma_perp", max(peak.value, 0.0) * governing.loss, "psi", clause=FIELD,
                           note="largest tension across the grain, holes deducted"))  # fmt: skip
    pad.take("F_t_perp", limit.value, "psi", note=limit.reason, source=limit.source)
    return Check.of_ratio(
        "bracket.tension_across", governing.runs.name, "tension across the grain", NO_VALUE, demand=sigma,
        capacity=limit.value, kind="stress", combination=_case(governing, "across"),
        where=place_words(peak.x, peak.y), steps=pad.steps,
    )  # fmt: skip


def _together(governing: Governing) -> Check:
    pad = Pad()
    F = governing.strengths(governing.where()[1], pad)
    _, (s_par, s_perp, tau), place = _index(governing.field(), F, governing.loss)
    note = "field analysis, holes deducted"
    values = {
        "s_par": pad.take("s_par", s_par, "psi", clause=FIELD, note=note),
        "s_perp": pad.take("s_perp", s_perp, "psi", clause=FIELD, note=note),
        "tau": pad.take("tau", tau, "psi", clause=FIELD, note=note),
        "F_par": F["F_t"] if s_par >= 0.0 else F["F_c"],
        "F_v": F["F_v"],
    }
    F_perp = min(F["F_t_perp"] if s_perp >= 0.0 else F["F_c_perp"], values["F_par"])
    U = float(pad(oa.quadratic_index, **values, F_perp=F_perp))
    return Check.of_ratio(
        "bracket.stresses_together", governing.runs.name, "stresses along, across and in shear together",
        "quadratic form (memory)", demand=U, capacity=1.0, kind="ratio", combination=_case(governing, "together"),
        where=place_words(*place), steps=pad.steps,
    )  # fmt: skip


def _on_edge(
    field: Field, edge: Edge, sign: float, F: dict[str, float], loss: float
) -> tuple[float, float, float, Array] | None:
    """Largest ratio along an edge by Hankinson, its stress, angle to the grain and place; None where little acts."""
    places, sigma, phi = read_edge(field, edge)
    s = np.maximum(sign * sigma, 0.0) * loss
    if not s.size or float(s.max()) <= noticed():
        return None
    if sign > 0.0:
        allowed = np.asarray(oa.hankinson_tension(F["F_t"], F["F_t_perp"], phi))
    else:
        allowed = np.asarray(bearing_at_angle(F["F_c"], F["F_c_perp"], phi))
    k = int(np.argmax(s / allowed))
    return float(s[k] / allowed[k]), float(s[k]), float(phi[k]), places[k]


def _edge_check(governing: Governing, edge: Edge, sign: float) -> Check:
    key = f"{edge} {sign:g}"
    what = f"{'tension' if sign > 0.0 else 'compression'} along the {EDGE_WORDS[edge]}"
    F = governing.strengths(governing.where(key)[1])
    found = _on_edge(governing.field(key), edge, sign, F, governing.loss)
    if found is None:  # on the finer mesh next to nothing is left of it
        return Check.keeps_rule("bracket.edge_stress", governing.runs.name, what, FIELD, "next to no stress")
    _, stress, angle, place = found
    pad = Pad()
    demand = float(pad.take("sigma_t", stress, "psi", clause=FIELD, note="along the edge, holes deducted"))
    phi = pad.take("phi", angle, "deg", note="between edge and grain")
    if sign > 0.0:
        value = pad(oa.hankinson_tension, F_par=F["F_t"], F_perp=F["F_t_perp"], phi=phi)
    else:
        value = pad(bearing_at_angle, F_c_star=F["F_c"], F_c_perp_prime=F["F_c_perp"], theta=phi)
    return Check.of_ratio(
        "bracket.edge_stress", governing.runs.name, what, "Hankinson (NDS 2018 3.10.3, App. J)", demand=demand,
        capacity=float(value), kind="stress", combination=_case(governing, key), where=place_words(*place),
        steps=pad.steps,
    )  # fmt: skip


def _bores(governing: Governing, bracket: Bracket) -> Iterator[Check]:
    """The field knows no holes: one in an edge in tension raises the stress beside it by what only a test shows."""
    outline, fixings = governing.runs.model.outline, bracket.fixings
    if fixings is None or fixings.fastener is None:
        return
    reach = judgment("reach of a bore").value * min(outline.H, outline.P)
    for i, row in enumerate(fixings.rows):
        most, where = 0.0, ""
        for field in governing.fields():
            for edge in edges_of(field):
                if edge == "top":
                    continue
                places, sigma, _ = read_edge(field, edge)
                near = np.abs(places[:, 1] - row.below_top) <= reach
                if bool(near.any()) and float(sigma[near].max()) > most:
                    most, where = float(sigma[near].max()), EDGE_WORDS[edge]
        if most > noticed():
            text = (
                f"beside row {i + 1} the {where} is pulled with {show(most, 'stress')}: what a hole in an edge in "
                "tension adds is not worked out; have it tested, or put the row where the edge is pressed"
            )
            asked = ask_engineer(bracket, "bore_in_tension", why=text, row=f"{i + 1}", forces=governing.runs.loads.most)
            what = f"bores of row {i + 1} in an edge in tension"
            yield Check.refers("bracket.bore_in_tension", bracket.name, what, FIELD, text, ask=asked)


def _unread(governing: Governing, bracket: Bracket) -> Iterator[Check]:
    """An edge that lies in zones which are not read for the most part: its peak may be there."""
    field = governing.field()
    for edge in edges_of(field):
        line = {"top": lambda: field.top, "soffit": lambda: field.soffit, "wall": lambda: field.wall_edge}[edge]()
        part = float(np.mean(field.readable(line.dense("sigma_t")[0])))  # places evenly along it
        if part < judgment("part of an edge that is read").value:
            text = (
                f"stress is read on {100.0 * part:.0f} % of the {EDGE_WORDS[edge]} only: the rest is too near loads, "
                "anchors or corners; a test or an engineer must say what it bears"
            )
            asked = ask_engineer(bracket, "edge_not_read", why=text, forces=governing.runs.loads.most)
            what = f"{EDGE_WORDS[edge]} not read"
            yield Check.refers("bracket.edge_not_read", bracket.name, what, FIELD, text, ask=asked)


def strengths(wood: WoodMaterial, pad: Pad, loads: BracketLoads, which: int | slice) -> dict[str, float | Array]:
    """F_t', F_c*, F_v' with the C_D of a combination; F_c_perp'; and the borrowed figure for tension across."""
    C_D = duration(pad, loads.combinations, which)
    return {
        "F_t": tension_prime(pad, wood, C_D),
        "F_c": compression_star(pad, wood, C_D),
        "F_v": shear_prime(pad, wood, C_D),
        "F_c_perp": bearing_prime(pad, wood, 1.0),
        "F_t_perp": judgment("tension across the grain").value,
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
    F_par = np.where(s[:, 0] >= 0.0, F["F_t"], F["F_c"])
    F_perp = np.where(s[:, 1] >= 0.0, F["F_t_perp"], F["F_c_perp"])
    U = np.asarray(oa.quadratic_index(s[:, 0], s[:, 1], s[:, 2], F_par, np.minimum(F_perp, F_par), F["F_v"]))
    k = int(np.argmax(U))
    place = places[on][k]
    return float(U[k]), (float(s[k, 0]), float(s[k, 1]), float(s[k, 2])), (float(place[0]), float(place[1]))


def edges_of(field: Field) -> tuple[Edge, ...]:
    """The edges that are free: the wall face is none where it is bonded."""
    return ("top", "soffit") if field.backing.kind == "bonded" else ("top", "soffit", "wall")


def read_edge(field: Field, name: Edge) -> tuple[Array, Array, Array]:
    """Places (n, 2), stress (n,) and angle to the grain (n,) along an edge, where it may be read."""
    edge = {"top": lambda: field.top, "soffit": lambda: field.soffit, "wall": lambda: field.wall_edge}[name]()
    places = np.stack([edge.x, edge.y], axis=-1)
    on = field.readable(places)
    return places[on], edge.sigma_t[on], edge.phi[on]


def weak_grain(model: FieldModel, field: Field) -> tuple[str, str]:
    """Short grain on an edge in tension, or too much tension across the grain: then it is not to be relied on.

    And, where there is nothing of that: an edge whose grain is as short, and which is pulled across it by no more than
    is let pass. No value says what it bears, so an engineer has to.
    """
    angle = judgment("slope of grain at an edge in tension")
    limit = judgment("tension across the grain")
    loss = _loss(model)
    reasons: list[str] = []
    small: list[str] = []
    across = field.peak("across tension")
    if across.value * loss > limit.value:
        reasons.append(
            f"tension across the grain reaches {show(across.value * loss, 'stress')} at "
            f"{place_words(across.x, across.y)}, and no more than {limit.value:g} psi is let pass"
        )
    for edge in edges_of(field):
        words = EDGE_WORDS[edge]
        places, sigma, phi = read_edge(field, edge)
        bad = (sigma > noticed()) & (phi > angle.value)
        if bool(bad.any()):
            k = int(np.flatnonzero(bad)[np.argmax(sigma[bad] * np.sin(np.radians(phi[bad])) ** 2)])
            most = float(np.max(sigma[bad] * np.sin(np.radians(phi[bad])) ** 2)) * loss
            (reasons if most > limit.value else small).append(
                f"the {words} is pulled with {show(float(sigma[k]), 'stress')} where the grain stands at "
                f"{phi[k]:.0f} degrees to it ({place_words(*places[k])})"
            )
    if reasons:
        return f"short grain: {'; '.join([*reasons, *small])}: not to be relied on for load", ""
    text = f"short grain: {'; '.join(small)}: little, and nothing says that it may be relied on for load"
    return "", text if small else ""


def place_words(x: float, y: float) -> str:
    """A place in the words of the sheet."""
    return f"{show(max(x, 0.0), 'length')} out, {show(max(y, 0.0), 'length')} down"
