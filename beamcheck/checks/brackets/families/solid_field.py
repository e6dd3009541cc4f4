"""Stress fields of a solid bracket: both ends of what is uncertain, the worse one refined."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import field
from typing import TYPE_CHECKING, Any

import numpy as np

from ....calc.pad import SilentPad
from ....formulas.connections.group_action import load_slip_wood
from ....model.brackets.bracket import Fixings, Solid
from ....model.stock import Stock
from ....records import dataclass
from ....values.brackets import elastic_ratios
from ....values.judgment import judgment
from ...anchors.fastener import dowel_of
from ...core.wood.material import WoodMaterial, modulus_prime
from ..loads import BracketLoads
from ..wood import known_species

if TYPE_CHECKING:
    from ....analysis.fields.field import Backing, Elastic, Field, Press, Void
    from ....analysis.fields.outline import Outline

Array = np.ndarray
COARSE = 6  # cells across, to find the worst; then it is refined
LOOSE = 1.0  # lbf/in: a row in slots holds nothing up
THINNEST = 0.25  # in: the slip rule begins there
TRIAL = 100.0  # lbf, for stiffness
NARROW_NOSE = 0.1  # of the projection: strip on which the trial force stands at the nose
TOLERANCE = 0.03  # figures that still move by more are refined further
MOST_KNOWN = 48
_KNOWN: dict[tuple[Any, ...], Field] = {}  # brackets that are alike, and trials of answers, have the same fields


@dataclass(frozen=True, eq=False)
class Variant:
    """One end of what is uncertain: elastic ratios, anchors and wall; in words."""

    elastic: Elastic
    backing: Backing
    words: str


@dataclass(frozen=True, eq=False)
class FieldModel:
    """A solid bracket ready for field analysis, without its loads."""

    shape: Solid
    fixings: Fixings | None
    outline: Outline
    variants: tuple[Variant, ...]
    voids: tuple[Void, ...]


@dataclass(eq=False)
class FieldRuns:
    """A bracket under its loads. `fields` keeps what was solved: (variant, combination) -> field."""

    name: str
    model: FieldModel
    loads: BracketLoads
    fields: dict[tuple[int, int], Field] = field(default_factory=dict)

    def presses(self, combination: int) -> list[Press]:
        """The load of one combination; its own weight lies evenly along the top edge, which is farther out."""
        from ....analysis.fields.field import Press

        strips = self.loads.strips(combination)
        found = [Press(s.start, s.end, s.force) for s in strips if not s.own]
        own = sum(s.force for s in strips if s.own)
        return [*found, *([Press(0.0, self.model.outline.P, own)] if own else [])]

    def coarse(self, variant: int, combination: int) -> Field:
        """One coarse mesh, kept."""
        from ....analysis.fields.field import solve_field

        key = variant, combination
        if key not in self.fields:
            model, one = self.model, self.model.variants[variant]
            presses = self.presses(combination)
            places = [(press.x0, press.x1) for press in presses]
            same = [field for field in self.fields.values() if [(p.x0, p.x1) for p in field.presses] == places]
            # the wall presses where it does with other wood on the same anchors
            like = next((field for field in same if field.backing == one.backing), same[-1] if same else None)
            self.fields[key] = self._kept("coarse", one, presses, lambda: solve_field(
                model.outline, model.shape.thickness, one.elastic, one.backing, presses,
                across=COARSE, voids=model.voids, like=like,
            ))  # fmt: skip
        return self.fields[key]

    def refined(self, variant: int, combination: int) -> Field:
        """Refined until its figures stand still. Raises BeamcheckError if they do not."""
        from ....analysis.fields.field import refined_field

        model, one, presses = self.model, self.model.variants[variant], self.presses(combination)
        return self._kept("refined", one, presses, lambda: refined_field(
            model.outline, model.shape.thickness, one.elastic, one.backing, presses,
            voids=model.voids, tolerance=TOLERANCE,
        ))  # fmt: skip

    def _kept(self, how: str, one: Variant, presses: list[Press], solved: Callable[[], Field]) -> Field:
        key = how, self.model.shape.model_dump_json(), one.elastic, one.backing, tuple(presses)
        if key not in _KNOWN:
            if len(_KNOWN) >= MOST_KNOWN:
                _KNOWN.clear()
            _KNOWN[key] = solved()
        return _KNOWN[key]


def model_of(shape: Solid, fixings: Fixings | None, stock: Stock, wood: WoodMaterial, *, grain: float) -> FieldModel:
    """Outline, pockets, and the variants that are run."""
    from ....analysis.fields.outline import outline_of

    variants = tuple(
        Variant(elastic, backing, f"{words}; {held}")
        for elastic, words in _elastic(stock, wood, grain) for backing, held in _backings(fixings)
    )  # fmt: skip
    return FieldModel(shape, fixings, outline_of(shape), variants, tuple(_voids(shape)))


def _elastic(stock: Stock, wood: WoodMaterial, grain: float) -> Iterator[tuple[Elastic, str]]:
    """The softest and the stiffest across the grain of what the wood may be, sawn tangentially or radially."""
    from ....analysis.fields.field import Elastic

    rows = [found.value for found in elastic_ratios(known_species(stock))]
    E = float(modulus_prime(SilentPad(), wood))
    soft = min(rows, key=lambda row: row.E_T)
    stiff = max(rows, key=lambda row: row.E_R)
    yield Elastic(E, E * soft.E_T, E * soft.G_LT, soft.nu_LT, grain), f"{soft.species}, rings flat"
    yield Elastic(E, E * stiff.E_R, E * stiff.G_LR, stiff.nu_LR, grain), f"{stiff.species}, rings upright"


def _backings(fixings: Fixings | None) -> list[tuple[Backing, str]]:
    """Soft anchors on a soft wall and stiff ones on a hard wall; bonded where the fixings are not described."""
    from ....analysis.fields.field import Backing, Spring

    if fixings is None or not fixings.rows:
        return [(Backing("bonded"), "wall face held everywhere, since the fixings are not described")]
    D = dowel_of(fixings.fastener).D if fixings.fastener is not None else 0.25
    k_s = float(load_slip_wood(min(max(D, THINNEST), 1.0)))
    found = []
    for name, wall, words in (
        ("anchor stiffness, soft", "hardness of a wall, soft", "soft anchors and wall"),
        ("anchor stiffness, stiff", "hardness of a wall, hard", "stiff"),
    ):  # fmt: skip
        k_a = judgment(name).value
        springs = tuple(
            Spring(row.below_top, k_a * row.count, LOOSE if row.slot else k_s * row.count) for row in fixings.rows
        )
        found.append((Backing("springs", springs, judgment(wall).value), words))
    return found


def _voids(shape: Solid) -> Iterator[Void]:
    from ....analysis.fields.field import Void

    if (pocket := shape.pocket) is not None:
        left = 0.0 if pocket.width is None else max(shape.thickness - pocket.width, 0.0)
        yield Void(pocket.top, pocket.height, pocket.depth, left)


def candidates(loads: BracketLoads) -> list[int]:
    """The combinations that can govern: most load, most moment at the wall and halfway out, each as it is and over
    C_D; the most lifting one."""
    F, M, C_D = loads.F, loads.M_wall, loads.C_D
    _, M_out = loads.beyond(0.5 * loads.projection)
    found = [int(np.argmax(one)) for one in (F, M, M_out, F / C_D, M / C_D, M_out / C_D)]
    if float(F.min()) < 0.0 or float(M.min()) < 0.0:
        found.append(int(np.argmin(M)))
    return list(dict.fromkeys(found))


def nose_stiffness(model: FieldModel) -> tuple[float, float]:
    """Least and largest stiffness under a force at the nose, over the variants and a bonded wall face, lbf/in."""
    from ....analysis.fields.field import Backing, Press, solve_field

    P = model.outline.P
    press = [Press(P * (1.0 - NARROW_NOSE), P, TRIAL)]
    found = []
    stiffest = model.variants[-1].elastic
    bonded = [(stiffest, Backing("bonded"))] if model.variants[0].backing.kind != "bonded" else []
    for elastic, backing in [*((one.elastic, one.backing) for one in model.variants), *bonded]:
        solved = solve_field(
            model.outline, model.shape.thickness, elastic, backing, press, across=COARSE, voids=model.voids
        )
        found.append(solved.stiffness)
    return min(found), max(found)


def pull_per_moment(runs: FieldRuns, which: Sequence[int]) -> float:
    """Largest pull on the top row per moment about the wall face, over variants and combinations, 1/in."""
    model = runs.model
    rows = model.fixings.rows if model.fixings is not None else ()
    if not rows or model.variants[0].backing.kind != "springs":
        return 0.0
    top = int(np.argmin([row.below_top for row in rows]))
    found = [0.0]
    for combination in which:
        M = float(runs.loads.M_wall[combination])
        if M > 0.0:
            found += [runs.coarse(v, combination).pulls[top] / M for v in range(len(model.variants))]
    return max(found)
