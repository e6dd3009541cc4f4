"""A bracket cut from one piece: field analysis on its true outline, the hand rule beside it, what its grain allows."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....model.brackets.bracket import Bracket, Fixings, Pocket, Solid
from ....model.stock import Stock
from ....units import show
from ....values.brackets import lever_arm_eta
from ....values.found import Found
from ....values.judgment import judgment
from ....values.refused import in_trade_words
from ...core.asking.question import ask
from ...core.context import Context
from ...core.pictures.beams import Points
from ...core.pictures.others import StressMark, StressPicture
from ...core.result import Check, Table
from ...core.wood.material import WoodMaterial
from ..asking import ask_for
from ..bearing import bearing_under_loads
from ..body import Body
from ..evidence import knots_seen, sinking_not_given
from ..family import OnePiece, Rows, SideView, Strips, box, points_of
from ..loads import BracketLoads
from ..split.held import outline_with_pocket
from ..split.proof import information, on_a_test, stress_over_one_cubic_inch
from ..split.split import RULE, add_split_test, split_checks
from ..wood import known_wood, wood_or_weakest
from .solid_comparison import EDGE_WORDS, band, beside
from .solid_field import FieldModel, FieldRuns, candidates, model_of, nose_stiffness, pull_per_moment
from .solid_hand_rule import Moduli, is_diagonal
from .solid_stress import FIELD, Governing, place_words, stress_checks

if TYPE_CHECKING:
    from ....analysis.fields.field import Field
    from ....analysis.fields.outline import Outline

Array = np.ndarray
GRAINS = (0.0, 45.0, 90.0, 135.0)  # tried when the grain is not given
PLACES = 401  # along the top edge, at which the depth is read
HAIR = 1e-6  # in
STRIPS = 12  # of own weight along the top edge
MOST_KNOWN = 128
_KNOWN: dict[tuple[str, ...], tuple[float, float]] = {}  # stiffness of brackets as the job file writes them
ELASTIC = (
    "Field analysis takes the wood as the same all over, straight in its grain, without knots or checks, in plane "
    "stress. No stress is read at anchors, loads, clamped faces and inward corners."
)
TWO_ENDS = "Anchor slip, hardness of the wall and elastic ratios are each run at both ends; the worse one counts."


class SolidBracket(OnePiece[Solid]):
    """Cut from one board or block."""

    words = "cut from one piece"
    can_have_pocket = True
    carved = True

    @property
    def depth_at_back(self) -> float:
        return self.shape.projection

    @property
    def pocket(self) -> Pocket | None:
        return self.shape.pocket

    @cached_property
    def outline(self) -> Outline:
        from ....analysis.fields.outline import outline_of

        return outline_of(self.shape)

    def depths_below(self, x: Array) -> Array:
        on = x < self.shape.projection
        return np.where(on, self.outline.depths(np.where(on, x, 0.0)), 0.0)

    def depth_at(self, down: float) -> float | None:
        out = self.shape.stands_out
        places = np.linspace(0.0, out, PLACES)
        depths = self.depths_below(places)
        edge = down - HAIR
        deeper = np.flatnonzero(depths >= edge)
        if not deeper.size:
            return None
        last = int(deeper[-1])
        if last >= places.size - 2:
            return out  # the front of the nose
        more = (depths[last] - edge) / (depths[last] - depths[last + 1])
        return float(places[last] + more * (places[last + 1] - places[last]))

    def cut_outline(self) -> Array:
        return outline_with_pocket(self.shape)

    @property
    def lever_arm(self) -> Found[float]:
        return lever_arm_eta(self.shape.soffit, self.shape.grain)

    def weight(self, density: float) -> Strips:
        """The area is exact; the strips only say where it lies."""
        from ....analysis.fields.outline import outline_of

        shape, outline = self.shape, outline_of(self.shape)
        edges = [shape.projection * i / STRIPS for i in range(STRIPS + 1)]
        depths = [outline.depth(0.5 * (low + high)) for low, high in pairwise(edges)]
        each = density * shape.thickness * outline.area / sum(depths)
        return [(low, high, each * depth) for (low, high), depth in zip(pairwise(edges), depths, strict=True)]

    def side_view(self) -> SideView:
        from ....analysis.fields.outline import outline_of

        shape = self.shape
        view = SideView([("", points_of(outline_of(shape).closed()), shape.grain)])
        view.dimensions += [("x", 0.0, shape.foot, "foot"), ("y", 0.0, shape.nose, "nose")]
        if (p := shape.pocket) is not None:
            view.voids.append(("pocket", box(0.0, p.top, p.depth, p.top + p.height)))
        return view

    def inputs(self) -> Rows:
        rows, shape = super().inputs(), self.shape
        if shape.points:
            rows.append(("soffit points", str(len(shape.points))))
        if (p := shape.pocket) is not None:
            sizes = f"{show(p.height, 'length')} high, {show(p.depth, 'length')} deep"
            rows.append(("pocket", f"{sizes}, from {show(p.top, 'length')} below the top"))
        return rows

    def stiffness(self, stock: Stock | None) -> tuple[float, float]:
        assert stock is not None
        low, high = _stiffness(self.shape, self.bracket.fixings, stock)
        return low, high if known_wood(stock) is not None else math.inf

    def body(self, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Body:
        bracket, shape, name = self.bracket, self.shape, self.bracket.name
        assert bracket.stock is not None
        stock = context.stock(bracket.stock)
        body = Body(assumptions=[RULE, ELASTIC, TWO_ENDS])
        body.checks += knots_seen(bracket)
        if shape.grain is None:
            text = "the direction of the grain is not given (`shape.grain`): the table shows what each would mean"
            asked = ask_for(bracket, "grain", "shape.grain")
            body.checks.append(Check.refers("bracket.grain", name, "grain", "judgment", text, ask=asked))
            body.tables.append(self._spread(loads, wood, context))
            return body
        which = candidates(loads)
        add_split_test(body, self, loads, which, wood, context, shape.grain)
        self.read_field(body, loads, wood, stock, which)
        body.checks += bearing_under_loads(bracket, loads, wood, thickness=shape.thickness, grain=shape.grain)
        return body

    def read_field(
        self, body: Body, loads: BracketLoads, wood: WoodMaterial, stock: Stock, which: list[int]
    ) -> None:  # fmt: skip
        """Stresses, sinking, the test of each piece and the pull on its fixings, by its field."""
        bracket, shape, name = self.bracket, self.shape, self.bracket.name
        assert shape.grain is not None
        try:
            model = model_of(shape, bracket.fixings, stock, wood, grain=shape.grain)
            runs = FieldRuns(name, model, loads)
            governing = Governing(runs, which, wood)
            where, field = governing.where(), governing.field()
            stresses = list(stress_checks(governing))
        except BeamcheckError as error:  # its other faults and questions are said all the same
            asked = ask("outside_rules", name, rule=in_trade_words(error))
            unread = Check.refers("piece.within_rules", name, "field analysis", FIELD, in_trade_words(error), ask=asked)
            body.checks.append(unread)
            return
        body.checks += [*stresses, *self._corners(model, loads), *_nose(bracket, runs, which)]
        body.tables.append(self._beside(runs, field, where))
        sigma = stress_over_one_cubic_inch(runs.fields.values())
        body.inputs.append(information(sigma))
        on_a_test(body, bracket, loads, sigma)
        body.pull = np.maximum(loads.M_wall, 0.0) * pull_per_moment(runs, which)
        body.pictures.append(_picture(runs, where))
        most = governing.bound("together").value
        moved = f"a mesh of 40 cells makes a figure at most {most:g} of it, which is counted"
        if most <= 1.0:
            moved = "not refined, since it fails by more than a mesh can change"
        balance = _one_in(field.residual)
        body.inputs += [
            ("field analysis",
             f"{field.across_cells} cells across, {moved}; its forces balance to {balance} of the load"),
            ("governing case of what is uncertain", model.variants[where[0]].words),
        ]  # fmt: skip

    def _corners(self, model: FieldModel, loads: BracketLoads) -> Iterator[Check]:
        """Inward corners are singular: no peak is read there, so nothing says that they hold."""
        outline = model.outline
        if outline.re_entrant:
            x, y = outline.soffit[outline.re_entrant[0]]
            text = (
                f"the soffit has an inward corner at {place_words(float(x), float(y))}: stress has no bound there, "
                "only resultants are read; round it, or have it tested"
            )
            yield self.doubt("bracket.inward_corner", "inward corner", FIELD, text, "inward_corner", loads)
        if model.voids:
            text = "the pocket has inward corners: stress has no bound there; for a bracket that carries, test it"
            yield self.doubt("bracket.pocket_corners", "corners of the pocket", FIELD, text, "pocket_corners", loads)
        if float(np.min(loads.F, initial=0.0)) < 0.0 or float(np.min(loads.M_wall, initial=0.0)) < 0.0:
            text = (
                "some combinations lift the nose: pull on the lower anchors is not worked out; an engineer must look "
                "at it"
            )
            yield self.doubt("bracket.uplift", "uplift", "ASCE 7-16 2.4.1", text, "lifted", loads)

    def _beside(self, runs: FieldRuns, field: Field, where: tuple[int, int]) -> Table:
        """The hand rule at sections along the edges beside the field analysis: shown, no bar."""
        outline, shape = runs.model.outline, self.shape
        elastic = runs.model.variants[where[0]].elastic
        grain = float(elastic.grain)  # type: ignore[arg-type]
        moduli = Moduli(elastic.E_L, elastic.E_T, elastic.G_LT, elastic.nu_LT, grain)
        diagonal = is_diagonal(grain, shape.soffit, bool(outline.kinks))
        sections = beside(field, shape.thickness, moduli, diagonal=diagonal, sections=12)
        rows = [
            (EDGE_WORDS[one.edge], show(one.x, "length"), show(one.d, "length"), f"{one.arm:.2f}",
             show(one.hand, "stress"), show(one.field, "stress"), f"{one.ratio:.2f}" if one.counts else "–",
             "yes" if one.covered else "no")
            for one in sections
        ]  # fmt: skip
        top = band("top", "bonded") or (0.0, math.inf)
        claimed = f"claimed {top[0]:g} to {top[1]:g}"
        return Table(
            "Hand rule beside field analysis",
            ("edge", "along it", "depth of the section", "arm over depth", "hand rule", "field analysis",
             "hand over field", "within the rule"),
            tuple(rows),
            f"Top edge: {claimed} where the rule holds; below 1 the hand rule alone is on the unsafe side.",
        )  # fmt: skip

    def _spread(self, loads: BracketLoads, wood: WoodMaterial, context: Context) -> Table:
        """What each direction of the grain would mean."""
        rows, which = [], candidates(loads)
        for grain in GRAINS:
            turned = self.bracket.model_copy(update={"shape": self.shape.model_copy(update={"grain": grain})})
            family = type(self)(turned, turned.shape)  # type: ignore[arg-type]
            found = split_checks(family, loads, which, wood, context, grain)
            load = show(found.allowed, "force") if math.isfinite(found.allowed) else "–"
            rows.append((show(grain, "angle"), load, found.weak or "; ".join(found.checks[0].notes)))
        heads = ("grain above level, towards the nose", "allowed by the split test", "what that means")
        return Table("What the direction of the grain would mean", heads, tuple(rows))


def _stiffness(shape: Solid, fixings: Fixings | None, stock: Stock) -> tuple[float, float]:
    """Bounds of the stiffness at the nose, lbf/in; over all grain directions where the grain is not given.

    Kept: the same bracket is asked for by each of its neighbors, and in each trial of an answer.
    """
    key = tuple("" if one is None else one.model_dump_json() for one in (shape, fixings, stock))
    if key not in _KNOWN:
        wood = wood_or_weakest(stock)
        grains = GRAINS if shape.grain is None else (shape.grain,)
        found = [nose_stiffness(model_of(shape, fixings, stock, wood, grain=grain)) for grain in grains]
        if len(_KNOWN) >= MOST_KNOWN:
            _KNOWN.clear()
        _KNOWN[key] = min(low for low, _ in found), max(high for _, high in found)
    return _KNOWN[key]


def _nose(bracket: Bracket, runs: FieldRuns, which: list[int]) -> Iterator[Check]:
    """How far the nose sinks under its load, with the softest of what is uncertain."""
    if bracket.deflects is None:
        yield sinking_not_given(bracket)
        return
    sunk, case = 0.0, which[0]
    divisor = judgment("divisor of the stiffness, lower value")
    for combination in which:
        for variant in range(len(runs.model.variants)):
            one = _nose_sinks(runs.coarse(variant, combination))
            if one > sunk:
                sunk, case = one, combination
    pad = Pad()
    pad.take("k_div", divisor.value, note=divisor.reason, source=divisor.source)
    sunk *= divisor.value
    pad.take("v_nose", sunk, "in", clause=FIELD, note="of the nose or under the loads, times the divisor")
    yield Check.of_ratio(
        "bracket.sinking", bracket.name, "sinking of the nose", FIELD, demand=sunk, capacity=bracket.deflects,
        kind="small length", combination=runs.loads.combinations[case].name, steps=pad.steps,
    )  # fmt: skip


def _nose_sinks(field: Field) -> float:
    """How far the upper corner of the nose comes down, or the loads themselves where that is more, in."""
    away = np.hypot(field.mesh.nodes[:, 0] - field.outline.P, field.mesh.nodes[:, 1])
    nose = float(field.solution.moves[int(np.argmin(away)), 1])
    total = sum(press.force for press in field.presses)
    return max(nose, total / field.stiffness if total > 0.0 else 0.0)


def _one_in(residual: float) -> str:
    return "a millionth" if residual <= 1e-6 else f"{100.0 * residual:.2g} percent"


def _picture(runs: FieldRuns, where: tuple[int, int]) -> StressPicture:
    field = runs.coarse(*where)
    peak = field.peak("across tension")
    limit = judgment("tension across the grain").value
    outline: Points = tuple((float(x), float(y)) for x, y in runs.model.outline.closed())
    return StressPicture(
        runs.name, "stress across the grain, tension positive", outline, field.cells, field.values("across"),
        limit, tuple(zone.polygon() for zone in field.left_out),
        (StressMark(peak.x, peak.y, f"largest tension {show(max(peak.value, 0.0), 'stress')}"),),
    )  # fmt: skip
