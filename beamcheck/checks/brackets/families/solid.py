"""A bracket cut from one piece: field analysis on its true outline, the hand rule beside it, what its grain allows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....model.brackets import Bracket, Solid
from ....units import show
from ....values.judgment import judgment
from ...core.context import Context
from ...core.govern import stated
from ...core.material import WoodMaterial
from ...core.pictures import Points, StressMark, StressPicture
from ...core.result import Check, Table, judge
from ..bearing import bearing_under_loads
from ..body import Body
from ..evidence import knots_seen
from ..loads import BracketLoads
from .solid_comparison import BAND, BANDS, EDGE_WORDS, beside
from .solid_field import Setting, candidates, nose_stiffness, pull_per_moment, setting_of
from .solid_hand_rule import Moduli, is_diagonal
from .solid_stress import FIELD, Governing, place_words, stress_checks, weak_grain

if TYPE_CHECKING:
    from ....analysis.fields.field import Field

Array = np.ndarray
GRAINS = (0.0, 45.0, 90.0, 135.0)  # tried when the grain is not given
ELASTIC = (
    "Field analysis takes the wood as the same all over, straight in its grain, without knots or checks, in plane "
    "stress. No stress is read at anchors, loads, clamped faces and inward corners."
)
TWO_ENDS = "Anchor slip, hardness of the wall and elastic ratios are each run at both ends; the worse one counts."


def solid_body(bracket: Bracket, shape: Solid, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
    """Everything about the body of a solid bracket."""
    name = bracket.name
    body = Body(eta=shape.soffit, assumptions=[ELASTIC, TWO_ENDS])
    body.checks += knots_seen(bracket)
    if shape.grain is None:
        text = "the direction of the grain is not given (`shape.grain`): the table shows what each would mean"
        body.checks.append(stated(name, "grain", "judgement", "refer", text))
        body.tables.append(_spread(bracket, shape, loads, wood, context))
        return body
    setting = setting_of(bracket, shape, loads, wood, context, grain=shape.grain)
    which = candidates(loads)
    governing = Governing(setting, which, wood)
    where, field = governing.where(), governing.field()
    body.checks += [
        *stress_checks(governing),
        *bearing_under_loads(name, loads, wood, thickness=shape.thickness, grain=shape.grain),
        *_corners(bracket, setting, loads),
        *_nose(bracket, setting, which),
    ]
    hand_checks, table = _beside(setting, field, where)
    body.checks += hand_checks
    body.tables.append(table)
    body.weak_grain = next(filter(None, (weak_grain(setting, one) for one in governing.fields())), "")
    body.k_low, body.k_high = nose_stiffness(setting)
    body.pull = np.maximum(loads.M_wall, 0.0) * pull_per_moment(setting, which)
    body.pictures.append(_picture(setting, where))
    variant = setting.variants[where[0]]
    moved = "not refined, since it fails by more than a mesh can change"
    if field.moved:
        moved = f"figures moved by {100.0 * field.moved:.1f} % in the last refinement"
    body.inputs += [
        ("field analysis",
         f"{field.across_cells} cells across, {moved}, {field.residual:.0e} of the load out of balance"),
        ("governing case of what is uncertain", variant.words),
    ]  # fmt: skip
    return body


def solid_stiffness(
    bracket: Bracket, shape: Solid, loads: BracketLoads, wood: WoodMaterial, context: Context
) -> tuple[float, float]:
    """Bounds of the stiffness at the nose, lbf/in; over all grain directions where the grain is not given."""
    grains = GRAINS if shape.grain is None else (shape.grain,)
    found = [nose_stiffness(setting_of(bracket, shape, loads, wood, context, grain=grain)) for grain in grains]
    return min(low for low, _ in found), max(high for _, high in found)


def _corners(bracket: Bracket, setting: Setting, loads: BracketLoads) -> Iterator[Check]:
    """Inward corners are singular: no peak is read there, so nothing says that they hold."""
    outline = setting.outline
    if outline.re_entrant:
        x, y = outline.soffit[outline.re_entrant[0]]
        text = (
            f"the soffit has an inward corner at {place_words(float(x), float(y))}: stress has no bound there, only "
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
    divisor = judgment("divisor of the stiffness, lower value")
    for combination in which:
        for variant in range(len(setting.variants)):
            one = _nose_sinks(setting.coarse(variant, combination))
            if one > sunk:
                sunk, case = one, combination
    pad = Pad()
    pad.take("k_div", divisor.value, note=divisor.reason, source=divisor.source)
    sunk *= divisor.value
    pad.take("v_nose", sunk, "in", clause=FIELD, note="of the nose or under the loads, times the divisor")
    ratio = sunk / bracket.deflects
    yield Check(
        bracket.name, "sinking of the nose", FIELD, judge(ratio), "length", sunk, bracket.deflects, ratio,
        setting.loads.combinations[case].name, steps=tuple(pad.steps),
    )  # fmt: skip


def _nose_sinks(field: Field) -> float:
    """How far the upper corner of the nose comes down, or the loads themselves where that is more, in."""
    away = np.hypot(field.mesh.nodes[:, 0] - field.outline.P, field.mesh.nodes[:, 1])
    nose = float(field.solution.moves[int(np.argmin(away)), 1])
    total = sum(press.force for press in field.presses)
    return max(nose, total / field.stiffness if total > 0.0 else 0.0)


def _beside(setting: Setting, field: Field, where: tuple[int, int]) -> tuple[list[Check], Table]:
    """The hand rule at sections along the edges beside the field analysis; outside the band it refers."""
    name, outline, shape = setting.bracket.name, setting.outline, setting.shape
    elastic = setting.variants[where[0]].elastic
    grain = float(elastic.grain)  # type: ignore[arg-type]
    moduli = Moduli(elastic.E_L, elastic.E_T, elastic.G_LT, elastic.nu_LT, grain)
    diagonal = is_diagonal(grain, shape.soffit, bool(outline.kinks))
    sections = beside(field, shape.thickness, moduli, diagonal=diagonal, sections=12)
    rows = [
        (EDGE_WORDS[one.edge], show(one.x, "length"), show(one.d, "length"), f"{one.arm:.2f}", show(one.hand, "stress"),
         show(one.field, "stress"), f"{one.ratio:.2f}" if one.counts else "–", "yes" if one.covered else "no")
        for one in sections
    ]  # fmt: skip
    claimed = f"claimed {BAND[0]:g} to {BAND[1]:g}"
    table = Table(
        "Hand rule beside field analysis",
        ("edge", "along it", "depth of the section", "arm over depth", "hand rule", "field analysis",
         "hand over field", "within the rule"),
        tuple(rows), f"Top edge: {claimed} where the rule holds; below 1 the hand rule alone is on the unsafe side.",
    )  # fmt: skip
    what, clause = "hand rule and field analysis", "reference rule for brackets, derived"
    bands = [(BANDS[one.edge, field.backing.kind], one) for one in sections if one.covered and one.counts]
    if not any(one.edge == "top" for _, one in bands):
        text = "the hand rule covers no section of it (too stubby, or loads too near): nothing confirms the field"
        return [stated(name, what, clause, "refer", text)], table
    ratios = [one.ratio for _, one in bands if one.edge == "top"]
    text = f"hand rule over field analysis {min(ratios):.2f} to {max(ratios):.2f} at {len(ratios)} sections, {claimed}"
    outside = [one for band, one in bands if band is not None and not band[0] <= one.ratio <= band[1]]
    if outside:
        text += f"; outside the band along the {EDGE_WORDS[outside[0].edge]}"
    return [stated(name, what, clause, "refer" if outside else "passes", text)], table


def _picture(setting: Setting, where: tuple[int, int]) -> StressPicture:
    field = setting.coarse(*where)
    peak = field.peak("across tension")
    limit = judgment("tension across the grain").value
    outline: Points = tuple((float(x), float(y)) for x, y in setting.outline.closed())
    return StressPicture(
        setting.bracket.name, "stress across the grain, tension positive", outline, field.cells, field.values("across"),
        limit, tuple(zone.polygon() for zone in field.left_out),
        (StressMark(peak.x, peak.y, f"largest tension {show(max(peak.value, 0.0), 'stress')}"),),
    )  # fmt: skip


def _spread(bracket: Bracket, shape: Solid, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Table:
    """What each direction of the grain would mean."""
    rows = []
    which = candidates(loads)
    for grain in GRAINS:
        setting = setting_of(bracket, replaced(shape, grain), loads, wood, context, grain=grain)
        try:
            governing = Governing(setting, which, wood)
            peak = governing.field("across").peak("across tension").value
            weak = next(filter(None, (weak_grain(setting, one) for one in governing.fields())), "")
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
