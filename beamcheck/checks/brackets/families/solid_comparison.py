"""The hand rule beside the field analysis, section by section along three edges, and the band claimed for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

import numpy as np

from ....records import dataclass
from ....values.judgment import judgment
from .solid_hand_rule import EdgeLoad, HandRule, Moduli, hand_rule, wall_rule

if TYPE_CHECKING:
    from ....analysis.fields.field import Field

Array = np.ndarray
Edge = Literal["top", "soffit", "wall"]
EDGE_WORDS: Mapping[Edge, str] = MappingProxyType({"top": "top edge", "soffit": "soffit", "wall": "wall edge"})
NEAR = 0.05  # of the projection: farther than this from a place that may be read, nothing is compared
POINT = 0.01  # in: width that stands for one point of the wall's push
BANDED: Mapping[tuple[Edge, str], str] = MappingProxyType({
    ("top", "bonded"): "top edge", ("top", "springs"): "top edge", ("soffit", "bonded"): "soffit, bonded wall face",
})  # fmt: skip


def band(edge: Edge, held: str) -> tuple[float, float] | None:
    """Hand rule over field analysis where the rule holds and the edge is stressed; None where nothing is claimed.

    So it is in worked_examples/bracket_hand_rule_against_field.csv, and a test keeps it so. `held`: 'bonded' or
    'springs'.
    """
    words = BANDED.get((edge, held))
    if words is None:
        return None
    least, most = (judgment(f"hand rule over field analysis, {words}, {end}").value for end in ("least", "most"))
    return least, most


def noticed() -> float:
    """Stress along an edge, psi: less is rounding of loads and meshes."""
    return judgment("stress along an edge that is noticed").value


@dataclass(frozen=True)
class ComparedSection:
    """One section: place along the edge (in), its depth, arm over depth, stress by hand rule and by field (psi)."""

    edge: Edge
    x: float
    d: float
    arm: float
    hand: float
    field: float
    covered: bool  # the rule holds there
    counts: bool  # it bears enough stress for a ratio to say something

    @property
    def ratio(self) -> float:
        return self.hand / self.field if self.field > 0.0 else float("nan")


def beside(
    field: Field, thickness: float, moduli: Moduli, *, diagonal: bool, sections: int = 60
) -> list[ComparedSection]:
    """Hand rule and field analysis at sections of a solved bracket, along top edge, soffit and wall edge.

    Soffit stress is compression, that of the other two tension. What lies in zones that are not read is left out.
    """
    outline = field.outline
    line = EdgeLoad([(one.x0, one.x1, one.force) for one in field.presses], outline.P)
    rule = hand_rule(outline, thickness, moduli, line, diagonal=diagonal)
    found = [*_along(field, "top", rule, sections), *_along(field, "soffit", rule, sections)]
    if field.backing.kind == "springs":
        push = EdgeLoad(list(_push(field)), outline.H, kept_clear=False)
        found += _along(field, "wall", wall_rule(outline, thickness, moduli, push, diagonal=diagonal), sections)
    return found


def _push(field: Field) -> Sequence[tuple[float, float, float]]:
    """What acts on the wall face, outwards positive: the wall's pressure, and the pulls of the anchors."""
    s = field.solution
    force = (s.contact * s.wall.length * field.mesh.thickness[s.wall.cells][:, None]).ravel()
    y = s.wall.place[..., 1].ravel()
    places = [(float(at), float(F)) for at, F in zip(y, force, strict=True) if F > 0.0]
    places += [(spring.y, -pull) for spring, pull in zip(field.backing.springs, field.pulls, strict=True)]
    return [(at - 0.5 * POINT, at + 0.5 * POINT, F) for at, F in places]


def _along(field: Field, edge: Edge, rule: HandRule, sections: int) -> list[ComparedSection]:
    read = {"top": lambda: field.top, "soffit": lambda: field.soffit, "wall": lambda: field.wall_edge}[edge]()
    places = np.stack([read.x, read.y], axis=-1)
    on = field.readable(places)
    places, sigma = places[on], read.sigma_t[on] * (-1.0 if edge == "soffit" else 1.0)
    if not sigma.size or not rule.x_0.size:
        return []
    least = max(noticed(), judgment("stress that counts in a comparison").value * float(sigma.max()))
    none = np.zeros_like(rule.x_0)
    at = {"top": (rule.x_0, none), "wall": (none, rule.x_0), "soffit": (rule.x_s, rule.y_s)}[edge]
    run = at[1] if edge == "wall" else at[0]
    hand = rule.soffit if edge == "soffit" else rule.top
    found = []
    for k in np.unique(np.linspace(0, rule.x_0.size - 1, sections).astype(int)):
        away = np.hypot(places[:, 0] - at[0][k], places[:, 1] - at[1][k])
        if float(away.min()) > NEAR * field.outline.P:
            continue
        if edge == "soffit":
            value = float(sigma[int(np.argmin(away))])
        else:
            along = places[:, 1 if edge == "wall" else 0]
            order = np.argsort(along)
            value = float(np.interp(float(run[k]), along[order], sigma[order]))
        found.append(
            ComparedSection(edge, float(run[k]), float(rule.d[k]), float(rule.arm[k]), float(hand[k]), value,
                    bool(rule.holds[k]), value >= least)
        )  # fmt: skip
    return found
