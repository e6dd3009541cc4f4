"""The hand rule for a solid bracket: plane sections three ways, times factors. It runs on arrays of brackets too.

The top leg is cut by equal-angle sections from its top edge to the soffit, the wall leg by their mirror images.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ....analysis.fields.outline import Outline
from ....formulas.brackets import fan_sections as fan
from ....formulas.brackets import section_forces as sf
from ....formulas.brackets import section_stress as sec
from ....formulas.wood.off_axis import off_axis_modulus
from ....records import dataclass
from ....values.judgment import judgment

Array = np.ndarray
PARTS = 60  # sections along the soffit
HAIR = 1e-9
LITTLE = 1e-6  # of the largest load beyond a section: less is none


@dataclass(frozen=True)
class Moduli:
    """psi, and the slope of the grain, deg."""

    E_L: float
    E_T: float
    G_LT: float
    nu_LT: float
    grain: float


@dataclass(frozen=True, eq=False)
class EdgeLoad:
    """Loads square to the edge that sections start from; each entry a number or (n, 1). `end` is the edge's length."""

    presses: Sequence[tuple[float | Array, float | Array, float | Array]]  # (from, to, force)
    end: float | Array
    kept_clear: bool = True  # whether sections must keep their distance from narrow loads

    def beyond(self, x: Array) -> tuple[Array, Array]:
        """Force beyond places x along the edge, and its moment about them."""
        force, moment = np.zeros(x.shape), np.zeros(x.shape)
        for start, end, F in self.presses:
            low = np.clip(x, start, end)
            part = F * (end - low) / (end - start)
            force = force + part
            moment = moment + part * (0.5 * (low + end) - x)
        return force, moment

    def clear_of(self, x: Array, d: Array) -> Array:
        """Whether sections that start at x, of depth d, keep their distance from narrow loads."""
        far = judgment("least distance of a load over depth").value
        clear = np.ones(x.shape, dtype=bool)
        for start, end, _ in self.presses if self.kept_clear else ():
            gap = np.maximum(np.maximum(start - x, x - end), 0.0)
            clear &= (gap >= far * d) | (end - start > judgment("wide load over top edge").value * self.end)
        return clear


@dataclass(frozen=True, eq=False)
class HandRule:
    """Stress by the rule. Arrays (..., sections), from the wall outwards (in the wall leg from the top down).

    `x_0`, `x_s`, `y_s`, `d`: where a section starts on the edge, where it meets the soffit, how deep it is, inch.
    `arm`: arm of the load over depth; 0 where no load lies beyond. `top`, `soffit`: stress that the rule designs for
    along both edges, psi, without sign. `shear`: shear stress, psi. `holds`: whether the rule covers the section: its
    arm reaches the least, that of the section next to the wall is 1 or more, and no narrow load is near. `phi`: deg, 0
    to 90, between grain and soffit there.
    """

    x_0: Array
    x_s: Array
    y_s: Array
    d: Array
    arm: Array
    top: Array
    soffit: Array
    shear: Array
    holds: Array
    phi: Array


def is_diagonal(grain: float, soffit: str, kinks: bool) -> bool:
    """Whether the larger factor on the soffit applies: grain along neither leg, or an ogee or a corner."""
    off = min(abs(grain), abs(grain - 90.0), abs(grain - 180.0))
    return off > judgment("grain that counts as along a leg").value or soffit == "ogee" or kinks


def hand_rule(outline: Outline, thickness: float, moduli: Moduli, line: EdgeLoad, *, diagonal: bool) -> HandRule:
    """The rule on equal-angle sections of the top leg of one bracket. `diagonal` as `is_diagonal` says."""
    x_s, y_s, alpha = _spaced(outline.soffit[:, 0], outline.soffit[:, 1], outline.tangent, outline.P)
    x_0 = np.maximum(_start(x_s, y_s, alpha), 0.0)
    upright = outline.depths(np.minimum(x_0, outline.P))
    return section_rule((x_0, x_s, y_s, alpha), upright, thickness, moduli, line, diagonal=diagonal)


def wall_rule(outline: Outline, thickness: float, moduli: Moduli, line: EdgeLoad, *, diagonal: bool) -> HandRule:
    """The rule on the mirrored sections of the wall leg: `top` is then the wall edge, x_0 runs down the wall.

    `line`: push of the wall on the face, by depth below the top edge.
    """
    turned = sf.wall_leg(outline.soffit[:, 0], outline.soffit[:, 1], outline.tangent, moduli.grain)
    x_s, y_s, alpha = _spaced(np.asarray(turned[0]), np.asarray(turned[1]), np.asarray(turned[2]), outline.H)
    x_0 = np.maximum(_start(x_s, y_s, alpha), 0.0)
    mirrored = Moduli(moduli.E_L, moduli.E_T, moduli.G_LT, moduli.nu_LT, float(turned[3]))
    k = judgment("factor, stress along the wall edge").value
    d = np.asarray(sf.equal_angle_depth(y_s, alpha))  # the rule for this edge has no vertical sections
    return section_rule((x_0, x_s, y_s, alpha), d, thickness, mirrored, line, diagonal=diagonal, upright=False, k=k)


def _start(x_s: Array, y_s: Array, alpha: Array) -> Array:
    return np.asarray(x_s - y_s * np.tan(np.radians(alpha) / 2.0))


def _spaced(x_s: Array, y_s: Array, alpha: Array, end: float) -> tuple[Array, Array, Array]:
    """Sections that exist, evenly picked in the order in which they start."""
    good = (alpha >= 0.0) & (alpha <= 90.0) & (y_s > HAIR)
    x_s, y_s, alpha = x_s[good], y_s[good], alpha[good]
    x_0 = _start(x_s, y_s, alpha)
    on = (x_0 >= -HAIR) & (x_0 < end - HAIR)
    order = np.flatnonzero(on)[np.argsort(x_0[on])]
    keep = order[np.unique(np.linspace(0, order.size - 1, PARTS).astype(int))] if order.size else order
    return x_s[keep], y_s[keep], alpha[keep]


def section_rule(
    where: tuple[Array, Array, Array, Array], vertical_depth: Array, thickness: float | Array, moduli: Moduli,
    line: EdgeLoad, *, diagonal: bool, upright: bool = True, k: float | None = None,
) -> HandRule:  # fmt: skip
    """The rule at given sections; any shapes that broadcast, sections last.

    `where`: (x_0, x_s, y_s, alpha): start on the edge, end on the soffit (in), slope of the soffit (0 to 90 deg).
    `vertical_depth`: depth of the section square to the edge at x_0, in; it counts only where `upright`. `k`: factor on
    the edge; None for that of the top edge.
    """
    x_0, x_s, y_s, alpha = where
    Q, M_0 = line.beyond(x_0)
    d = np.asarray(sf.equal_angle_depth(y_s, alpha))
    M = M_0 - Q * 0.5 * (x_s - x_0)
    N, V = np.asarray(sf.section_axial_force(Q, alpha)), np.asarray(sf.section_shear_force(Q, alpha))
    linear = sec.equal_angle_edge_stress_top(M, N, thickness, d, alpha)
    linear_s = sec.equal_angle_edge_stress_soffit(M, N, thickness, d, alpha)
    vertical = sec.vertical_edge_stress(M_0, thickness, vertical_depth) if upright else linear
    one = (moduli.E_L, moduli.E_T, moduli.G_LT, moduli.nu_LT)
    E = fan.fan_moments(*one, moduli.grain, alpha)
    eps_0, eps_b = fan.fan_mean_strain(M, N, thickness, d, *E), fan.fan_bending_strain(M, N, thickness, d, *E)
    E_top, E_sof = off_axis_modulus(*one, moduli.grain), off_axis_modulus(*one, moduli.grain - alpha)
    fan_top = fan.fan_edge_stress_top(E_top, alpha, eps_0, eps_b)
    fan_sof = fan.fan_edge_stress_soffit(E_sof, alpha, eps_0, eps_b)
    k_sof = judgment(f"factor, stress along the soffit{', diagonal grain or ogee' if diagonal else ''}").value
    k_top = judgment("factor, stress along the top edge").value if k is None else k
    least = judgment("least arm over depth").value
    there = LITTLE * np.max(np.abs(Q), axis=-1, keepdims=True, initial=HAIR) < Q
    arm = np.where(there, M / np.where(there, Q * d, 1.0), 0.0)
    wall = arm[..., :1]  # sections are in order: the first is next to the wall
    phi = np.abs(moduli.grain - alpha)
    return HandRule(
        x_0, x_s, y_s, d, arm,
        np.asarray(sec.top_design_stress(k_top, vertical, linear, fan_top)),
        np.asarray(sec.soffit_design_stress(k_sof, linear_s, fan_sof)),
        np.asarray(sec.bracket_shear_stress(np.abs(V), thickness, d)),
        there & (arm >= least) & (wall >= judgment("least arm over depth at the wall").value) & line.clear_of(x_0, d),
        np.minimum(phi, np.abs(180.0 - phi)),
    )  # fmt: skip
