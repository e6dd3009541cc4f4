"""A bracket cut from one piece: field analysis on its true outline, the hand rule beside it, what its grain allows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ..errors import BeamcheckError
from ..formulas import off_axis as oa
from ..formulas.bearing import bearing_at_angle, bearing_stress
from ..formulas.pad import Pad, SilentPad
from ..model.brackets import Bracket, Solid
from ..units import show
from ..values.brackets import bracket_limit
from .anchor_dowel import dowel_of
from .bracket_body import Body
from .bracket_field import Setting, candidates, nose_stiffness, pull_per_moment, setting_of
from .bracket_hand import HandRule, Moduli, hand_rule
from .bracket_loads import BracketLoads
from .context import Around
from .demand import Asked, duration, govern, stated
from .pictures import Points, StressPicture
from .result import Check, Table, Verdict, judge
from .strength import Outcome
from .wood import Wood, bearing_prime, compression_star, shear_prime, tension_prime

if TYPE_CHECKING:
    from ..analysis.field import Field

Array = np.ndarray
FIELD = "plane stress field analysis"
NO_VALUE = "NDS 2018 3.8.2: no value, judgement"
NOTICED = 1.0  # psi: less tension along an edge is rounding of loads and meshes; judgement
PART = 0.25  # of the largest stress along the edge: where less acts, a ratio says nothing
BAND = (0.95, 3.5)  # of hand rule over field analysis, at the sections that the rule covers
GRAINS = (0.0, 45.0, 90.0, 135.0)  # tried when the grain is not given
ALONG = 15.0  # deg: grain within so much of a leg counts as along it
ELASTIC = (
    "Field analysis takes the wood as the same all over, straight in its grain, without knots or checks, in plane "
    "stress. No stress is read at anchors, loads, clamped faces and inward corners."
)
TWO_ENDS = "Anchor slip, hardness of the wall and elastic ratios are each run at both ends; the worse one counts."


def solid_body(bracket: Bracket, shape: Solid, loads: BracketLoads, wood: Wood, around: Around) -> Body:
    """Everything about the body of a solid bracket."""
    name = bracket.name
    body = Body(eta=shape.soffit, assumptions=[ELASTIC, TWO_ENDS])
    if bracket.knots != "none in the throat":
        said = {None: "is not said (`knots`)", "in the throat": "there are some"}.get(bracket.knots, "nobody looked")
        text = f"knots, checks and repairs where it is thinnest: {said}"
        body.checks.append(stated(name, "knots in the throat", "judgement", "refer", text))
    if shape.grain is None:
        text = "the direction of the grain is not given (`shape.grain`): the table shows what each would mean"
        body.checks.append(stated(name, "grain", "judgement", "refer", text))
        body.tables.append(_spread(bracket, shape, loads, wood, around))
        return body
    setting = setting_of(bracket, shape, loads, wood, around, grain=shape.grain)
    which = candidates(loads)
    worst = _worst(setting, which, wood)
    field = setting.refined(*worst.where)
    body.checks += [
        *_field_checks(setting, field, worst, wood),
        *_bearing_under_loads(bracket, shape, loads, wood),
        *_corners(bracket, setting, loads),
        *_nose(bracket, setting, which),
    ]
    hand_checks, table = _beside(setting, field, worst.where, loads)
    body.checks += hand_checks
    body.tables.append(table)
    others = (setting.coarse(v, c) for v in range(len(setting.variants)) for c in which)
    body.weak_grain = next(filter(None, (_weak(setting, one) for one in (field, *others))), "")
    body.k_low, body.k_high = nose_stiffness(setting)
    body.pull = np.maximum(loads.M_wall, 0.0) * pull_per_moment(setting, which)
    body.pictures.append(_picture(setting, worst.where))
    variant = setting.variants[worst.where[0]]
    body.inputs += [
        ("field analysis", f"{field.across_cells} cells across, figures moved by {100.0 * field.moved:.1f} % in the "
         f"last refinement, {field.residual:.0e} of the load out of balance"),
        ("governing case of what is uncertain", variant.words),
    ]  # fmt: skip
    return body


def solid_stiffness(
    bracket: Bracket, shape: Solid, loads: BracketLoads, wood: Wood, around: Around
) -> tuple[float, float]:
    """Bounds of the stiffness at the nose, lbf/in; over all grain directions where the grain is not given."""
    grains = GRAINS if shape.grain is None else (shape.grain,)
    found = [nose_stiffness(setting_of(bracket, shape, loads, wood, around, grain=grain)) for grain in grains]
    return min(low for low, _ in found), max(high for _, high in found)


@dataclass(frozen=True)
class Worst:
    """The governing variant and combination, by tension across the grain and else by strength."""

    where: tuple[int, int]


def _strengths(wood: Wood, pad: Pad, loads: BracketLoads, which: int | slice) -> dict[str, float | Array]:
    """F_t', F_c*, F_v' with the C_D of a combination; F_c_perp'; and the borrowed figure for tension across."""
    C_D = duration(pad, loads.combinations, which)
    return {
        "F_t": tension_prime(pad, wood, C_D),
        "F_c": compression_star(pad, wood, C_D),
        "F_v": shear_prime(pad, wood, C_D),
        "F_c_perp": bearing_prime(pad, wood, 1.0),
        "F_t_perp": bracket_limit("tension across the grain").value,
    }


def _loss(bracket: Bracket, shape: Solid) -> float:
    """Thickness over what the fasteners' holes leave of it."""
    fixings = bracket.fixings
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


def _worst(setting: Setting, which: list[int], wood: Wood) -> Worst:
    """By coarse fields: the variant and combination with the largest index."""
    found = []
    for combination in which:
        F = {k: float(v) for k, v in _strengths(wood, SilentPad(), setting.loads, combination).items()}
        for variant in range(len(setting.variants)):
            field = setting.coarse(variant, combination)
            found.append((_index(field, F, 1.0)[0], (variant, combination)))
    return Worst(max(found)[1])


def _field_checks(setting: Setting, field: Field, worst: Worst, wood: Wood) -> list[Check]:
    """Tension across the grain; stresses together; the edges at their angle to the grain."""
    bracket, loads = setting.bracket, setting.loads
    name, combination = bracket.name, worst.where[1]
    loss = _loss(bracket, setting.shape)
    limit = bracket_limit("tension across the grain")
    peak = field.peak("across tension")
    pad = Pad()
    sigma = float(pad.take("sigma_perp", max(peak.value, 0.0) * loss, "psi", clause=FIELD,
                           note="largest tension across the grain, holes deducted"))  # fmt: skip
    pad.take("F_t_perp", limit.value, "psi", note=limit.reason, source=limit.source)
    found = [
        Check(name, "tension across the grain", NO_VALUE, judge(sigma / limit.value), "stress", sigma, limit.value,
              sigma / limit.value, loads.combinations[combination].name, _place(peak.x, peak.y), tuple(pad.steps)),
    ]  # fmt: skip
    pad = Pad()
    F = {k: float(v) for k, v in _strengths(wood, pad, loads, combination).items()}
    _, (s_par, s_perp, tau), place = _index(field, F, loss)
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
    found.append(
        Check(name, "stresses along, across and in shear together", "quadratic form (memory)", judge(U), "ratio", U,
              1.0, U, loads.combinations[combination].name, _place(*place), tuple(pad.steps))
    )  # fmt: skip
    found += _edges(setting, field, combination, F, loss)
    return found


def _edge_names(field: Field) -> list[str]:
    return ["top", "soffit", *([] if field.backing.kind == "bonded" else ["wall"])]


def _edge(field: Field, name: str) -> tuple[Array, Array, Array]:
    """Places (n, 2), stress (n,) and angle to the grain (n,) along an edge, where it may be read."""
    edge = {"top": lambda: field.top, "soffit": lambda: field.soffit, "wall": lambda: field.wall_edge}[name]()
    places = np.stack([edge.x, edge.y], axis=-1)
    on = field.readable(places)
    return places[on], edge.sigma_t[on], edge.phi[on]


def _edges(setting: Setting, field: Field, combination: int, F: dict[str, float], loss: float) -> Iterator[Check]:
    """Hankinson along the free edges, tension and compression."""
    name, words = setting.bracket.name, {"top": "top edge", "soffit": "soffit", "wall": "wall edge"}
    case = setting.loads.combinations[combination].name
    for edge in _edge_names(field):
        places, sigma, phi = _edge(field, edge)
        if not sigma.size:
            continue
        sigma = sigma * loss
        for sign, what in ((1.0, "tension"), (-1.0, "compression")):
            s = np.maximum(sign * sigma, 0.0)
            if float(s.max()) <= NOTICED:
                continue
            if sign > 0.0:
                allowed = np.asarray(oa.hankinson_tension(F["F_t"], F["F_t_perp"], phi))
            else:
                allowed = np.asarray(bearing_at_angle(F["F_c"], F["F_c_perp"], phi))
            k = int(np.argmax(s / allowed))
            pad = Pad()
            demand = float(pad.take("sigma_t", float(s[k]), "psi", clause=FIELD, note="along the edge, holes deducted"))
            angle = pad.take("phi", float(phi[k]), "deg", note="between edge and grain")
            if sign > 0.0:
                value = pad(oa.hankinson_tension, F_par=F["F_t"], F_perp=F["F_t_perp"], phi=angle)
            else:
                value = pad(bearing_at_angle, F_c_star=F["F_c"], F_c_perp_prime=F["F_c_perp"], theta=angle)
            ratio = demand / float(value)
            yield Check(
                name, f"{what} along the {words[edge]}", "Hankinson (NDS 2018 3.10.3, App. J)", judge(ratio), "stress",
                demand, float(value), ratio, case, _place(*places[k]), tuple(pad.steps),
            )  # fmt: skip


def _weak(setting: Setting, field: Field) -> str:
    """Short grain on an edge in tension, or too much tension across the grain: then it is not to be relied on."""
    angle = bracket_limit("slope of grain at an edge in tension")
    limit = bracket_limit("tension across the grain")
    loss = _loss(setting.bracket, setting.shape)
    reasons = []
    across = field.peak("across tension")
    if across.value * loss > limit.value:
        reasons.append(
            f"tension across the grain reaches {show(across.value * loss, 'stress')} at {_place(across.x, across.y)}, "
            f"and no more than {limit.value:g} psi is let pass"
        )
    for edge, words in (("top", "top edge"), ("soffit", "soffit"), ("wall", "wall edge")):
        if edge not in _edge_names(field):
            continue
        places, sigma, phi = _edge(field, edge)
        bad = (sigma > NOTICED) & (phi > angle.value)
        if bool(bad.any()):
            k = int(np.flatnonzero(bad)[np.argmax(sigma[bad] * np.sin(np.radians(phi[bad])) ** 2)])
            reasons.append(
                f"the {words} is pulled with {show(float(sigma[k]), 'stress')} where the grain stands at "
                f"{phi[k]:.0f} degrees to it ({_place(*places[k])})"
            )
    return f"short grain: {'; '.join(reasons)}: not to be relied on for load" if reasons else ""


def _bearing_under_loads(bracket: Bracket, shape: Solid, loads: BracketLoads, wood: Wood) -> Iterator[Check]:
    """What presses on the top edge in one place."""
    theta = abs(90.0 - (shape.grain or 0.0))
    theta = min(theta, 180.0 - theta)
    for load in loads.loads:
        if not load.is_point or load.own or load.P <= 0.0:
            continue
        what = f"bearing of {load.what or 'a load'} on the top edge"
        if load.bearing is None:
            text = "the length on which it bears is not given (`bearing`)"
            yield stated(bracket.name, what, "NDS 2018 3.10.3", "refer", text)
            continue
        length = min(load.bearing, loads.projection)
        P = load.P

        def calculate(pad: Pad, which: int | slice, P: float = P, length: float = length) -> Outcome:
            f = pad(
                bearing_stress, R=pad.take("R", P, "lbf", note="this load, unfactored"), b=shape.thickness, l_b=length
            )
            F_star = compression_star(pad, wood, duration(pad, loads.combinations, which))
            F_perp = bearing_prime(pad, wood, 1.0)
            allowed = pad(bearing_at_angle, F_c_star=F_star, F_c_perp_prime=F_perp, theta=theta)
            return Outcome(f, allowed, f / allowed)

        yield govern(Asked(bracket.name, what, "NDS 2018 3.10.3", "stress"), loads.combinations, calculate)


def _corners(bracket: Bracket, setting: Setting, loads: BracketLoads) -> Iterator[Check]:
    """Inward corners are singular: no peak is read there, so nothing says that they hold."""
    outline = setting.outline
    if outline.re_entrant:
        x, y = outline.soffit[outline.re_entrant[0]]
        text = (
            f"the soffit has an inward corner at {_place(float(x), float(y))}: stress has no bound there, only "
            "resultants are read; round it, or have it tested"
        )
        yield stated(bracket.name, "inward corner", FIELD, "refer", text)
    if setting.voids:
        text = "the pocket has inward corners: stress has no bound there; for a bracket that carries, test it"
        yield stated(bracket.name, "corners of the pocket", FIELD, "refer", text)
    if float(np.min(loads.F, initial=0.0)) < 0.0 or float(np.min(loads.M_wall, initial=0.0)) < 0.0:
        text = (
            "some combinations lift the nose: pull on the lower anchors is not worked out; an engineer must look at it"
        )
        yield stated(bracket.name, "uplift", "ASCE 7-16 2.4.1", "refer", text)


def _nose(bracket: Bracket, setting: Setting, which: list[int]) -> Iterator[Check]:
    """How far the nose sinks under its load, with the softest of what is uncertain."""
    if bracket.deflects is None:
        yield stated(bracket.name, "sinking of the nose", "judgement", "refer",
                     "how far the nose may sink is not given (`deflects`)")  # fmt: skip
        return
    sunk, case = 0.0, which[0]
    divisor = bracket_limit("divisor of the stiffness, lower value")
    for combination in which:
        F = float(setting.loads.F[combination])
        if F <= 0.0:
            continue
        for variant in range(len(setting.variants)):
            one = F / setting.coarse(variant, combination).stiffness
            if one > sunk:
                sunk, case = one, combination
    pad = Pad()
    pad.take("k_div", divisor.value, note=divisor.reason, source=divisor.source)
    sunk *= divisor.value
    pad.take("v_nose", sunk, "in", clause=FIELD, note="mean sinking under the loads, times the divisor")
    ratio = sunk / bracket.deflects
    yield Check(
        bracket.name, "sinking of the nose", FIELD, judge(ratio), "length", sunk, bracket.deflects, ratio,
        setting.loads.combinations[case].name, steps=tuple(pad.steps),
    )  # fmt: skip


def _beside(setting: Setting, field: Field, where: tuple[int, int], loads: BracketLoads) -> tuple[list[Check], Table]:
    """The hand rule at sections along the top edge beside the field analysis; outside the band it refers."""
    name, outline = setting.bracket.name, setting.outline
    rule = _rule(setting, where, loads)
    places, sigma, _ = _edge(field, "top")
    rows, ratios = [], []
    noticed = max(NOTICED, PART * float(sigma.max(initial=0.0)))
    for k in np.unique(np.linspace(0, max(rule.x_0.size - 1, 0), 12).astype(int)) if rule.x_0.size else []:
        x = float(rule.x_0[k])
        near = np.abs(places[:, 0] - x) if places.size else np.array([np.inf])
        if near.min() > 0.05 * outline.P:
            continue  # in a zone that is not read
        fe = float(np.interp(x, places[:, 0], sigma))
        ratio = float(rule.top[k]) / fe if fe > noticed else float("nan")
        covered = bool(rule.holds[k])
        if covered and np.isfinite(ratio):
            ratios.append(ratio)
        rows.append(
            (show(x, "length"), show(float(rule.d[k]), "length"), f"{float(rule.arm[k]):.2f}",
             show(float(rule.top[k]), "stress"), show(fe, "stress"), f"{ratio:.2f}" if np.isfinite(ratio) else "–",
             "yes" if covered else "no")
        )  # fmt: skip
    table = Table(
        "Hand rule beside field analysis, top edge",
        ("from the wall", "depth of the section", "arm over depth", "hand rule", "field analysis", "hand over field",
         "within the rule"),
        tuple(rows), f"Claimed band: {BAND[0]:g} to {BAND[1]:g} where the rule holds.",
    )  # fmt: skip
    what = "hand rule and field analysis"
    if not ratios:
        text = "the hand rule covers no section of it (too stubby, or loads too near): nothing confirms the field"
        return [stated(name, what, "reference rule for brackets, derived", "refer", text)], table
    low, high = min(ratios), max(ratios)
    claimed = f"claimed {BAND[0]:g} to {BAND[1]:g}"
    text = f"hand rule over field analysis {low:.2f} to {high:.2f} at {len(ratios)} sections, {claimed}"
    verdict: Verdict = "passes" if BAND[0] <= low and high <= BAND[1] else "refer"
    return [stated(name, what, "reference rule for brackets, derived", verdict, text)], table


def _rule(setting: Setting, where: tuple[int, int], loads: BracketLoads) -> HandRule:
    elastic = setting.variants[where[0]].elastic
    x = np.linspace(0.0, setting.outline.P, 201)
    pairs = [loads.beyond(float(one)) for one in x]
    force = np.array([Q[where[1]] for Q, _ in pairs])
    moment = np.array([M[where[1]] for _, M in pairs])
    grain = float(elastic.grain)  # type: ignore[arg-type]
    off = min(abs(grain), abs(grain - 90.0), abs(grain - 180.0))
    diagonal = off > ALONG or setting.shape.soffit == "ogee" or bool(setting.outline.kinks)
    moduli = Moduli(elastic.E_L, elastic.E_T, elastic.G_LT, elastic.nu_LT, grain)
    return hand_rule(setting.outline, setting.shape.thickness, moduli, (x, force, moment), diagonal=diagonal)


def _picture(setting: Setting, where: tuple[int, int]) -> StressPicture:
    field = setting.coarse(*where)
    peak = field.peak("across tension")
    limit = bracket_limit("tension across the grain").value
    outline: Points = tuple((float(x), float(y)) for x, y in setting.outline.closed())
    return StressPicture(
        setting.bracket.name, "stress across the grain, tension positive", outline, field.cells, field.values("across"),
        limit, tuple(zone.polygon() for zone in field.left_out),
        ((peak.x, peak.y, f"largest tension {show(max(peak.value, 0.0), 'stress')}"),),
    )  # fmt: skip


def _spread(bracket: Bracket, shape: Solid, loads: BracketLoads, wood: Wood, around: Around) -> Table:
    """What each direction of the grain would mean."""
    rows = []
    which = candidates(loads)
    for grain in GRAINS:
        setting = setting_of(bracket, replaced(shape, grain), loads, wood, around, grain=grain)
        try:
            worst = _worst(setting, which, wood)
            field = setting.coarse(*worst.where)
            peak = field.peak("across tension").value
            weak = _weak(setting, field)
            rows.append(
                (show(grain, "angle"), show(max(peak, 0.0), "stress"), weak or "no short grain on an edge in tension")
            )
        except BeamcheckError as error:
            rows.append((show(grain, "angle"), "–", str(error)))
    heads = ("grain above level, towards the nose", "tension across the grain", "what that means")
    return Table("What the direction of the grain would mean", heads, tuple(rows))


def replaced(shape: Solid, grain: float) -> Solid:
    """The same bracket with its grain turned."""
    return shape.model_copy(update={"grain": grain})


def _place(x: float, y: float) -> str:
    return f"{show(max(x, 0.0), 'length')} out, {show(max(y, 0.0), 'length')} down"
