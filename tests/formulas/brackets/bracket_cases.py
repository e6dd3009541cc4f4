"""Five solid brackets of the collected notes on brackets (how: derived), and their soffits in closed form.

The notes hold for each what the hand rules gave and what plane stress models gave; the figures stand in the tests.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.optimize import brentq

from beamcheck.formulas.brackets.fan_sections import (
    fan_bending_strain,
    fan_edge_stress_soffit,
    fan_edge_stress_top,
    fan_mean_strain,
    fan_moments,
)
from beamcheck.formulas.brackets.section_forces import equal_angle_depth, section_axial_force, wall_leg
from beamcheck.formulas.brackets.section_stress import (
    equal_angle_edge_stress_soffit,
    equal_angle_edge_stress_top,
    vertical_edge_stress,
)
from beamcheck.formulas.wood.off_axis import off_axis_modulus


@dataclass(frozen=True)
class Case:
    """A bracket, 100 lb at x_L or (`shelf`) spread over its top edge, and its wood. Inches, pounds, psi, degrees."""

    kind: str
    h: float
    l_out: float
    a_f: float
    b_n: float
    t: float
    x_L: float
    theta_g: float = 0.0
    E_T: float = 80000.0
    G_LT: float = 124800.0
    nu_LT: float = 0.449
    shelf: bool = False
    P: float = 100.0
    E_L: float = 1.6e6

    @property
    def wood(self) -> dict[str, float]:
        return {"E_L": self.E_L, "E_T": self.E_T, "G_LT": self.G_LT, "nu_LT": self.nu_LT}

    @property
    def l_x(self) -> float:
        return self.l_out - self.a_f

    @property
    def l_y(self) -> float:
        return self.h - self.b_n

    def soffit(self, u: Any) -> tuple[Any, Any, Any]:
        """x, y and slope (deg) of the soffit, u from 0 at the foot to 1 at the nose."""
        q, w, h = np.asarray(u) * np.pi / 2, self.l_x, self.l_y
        if self.kind == "straight":
            return self.a_f + w * u, self.h - h * u, np.degrees(np.arctan2(h, w)) + 0 * q
        if self.kind == "concave":
            slope = np.arctan2(h * np.cos(q), w * np.sin(q))
            return self.l_out - w * np.cos(q), self.h - h * np.sin(q), np.degrees(slope)
        slope = np.arctan2(h * np.sin(q), w * np.cos(q))
        return self.a_f + w * np.sin(q), self.b_n + h * np.cos(q), np.degrees(slope)

    def at_soffit(self, x: float) -> float:
        """u of the soffit point at x."""
        return float(brentq(lambda u: float(self.soffit(u)[0]) - x, 0, 1, xtol=1e-13))

    def at_top(self, x: float) -> float:
        """u of the equal-angle section that starts on the top edge at x; where two do, the one nearer the nose."""
        grid = np.linspace(0, 1, 401)
        past = np.flatnonzero(np.diff(np.sign(self._start(grid) - x)))[-1]
        return float(brentq(lambda u: float(self._start(u)) - x, grid[past], grid[past + 1], xtol=1e-13))

    def _start(self, u: Any) -> Any:
        x, y, slope = self.soffit(u)
        return x - y * np.tan(np.radians(slope / 2))

    def load_beyond(self, x_0: Any) -> tuple[Any, Any]:
        """Load beyond sections that start at x_0, and where its resultant lies."""
        if not self.shelf:
            return self.P + 0 * x_0, self.x_L
        inside = np.maximum(x_0, 0.0)
        return self.P / self.l_out * (self.l_out - inside), (self.l_out + inside) / 2


TIP = {"t": 1.5, "x_L": 11.5}
CASES = {
    "B01": Case("straight", 12, 12, 2, 2, **TIP),
    "B03": Case("concave", 10, 10, 2, 2, t=1.5, x_L=9.5, E_T=108800.0, G_LT=102400.0, nu_LT=0.292),
    "B05": Case("convex", 8, 6, 1, 1, t=3.0, x_L=3.0, shelf=True),
    "B07": Case("concave", 12, 12, 1.5, 1.5, theta_g=45.0, **TIP),
    "B09": Case("concave", 14, 10, 2, 2, t=2.5, x_L=9.5),
}


def section_moment(load: Any, x_L: Any, x_0: Any, x_s: Any) -> Any:
    """Moment about the middle of a section from x_0 on the top edge to x_s on the soffit (statics)."""
    return load * (x_L - (x_0 + x_s) / 2)


def vertical(case: Case, x: float) -> float:
    """Stress along the top edge at x by a vertical section."""
    depth = float(case.soffit(case.at_soffit(x))[1])
    load, at = case.load_beyond(x)
    return float(vertical_edge_stress(section_moment(load, at, x, x), case.t, depth))


def equal_angle(case: Case, u: Any, strips: int = 0) -> dict[str, Any]:
    """Stress along both edges by the equal-angle sections that end at u, and where they start.

    `strips`: take the moduli from that many trapezoids over the depth instead of `fan_moments`.
    """
    x_s, y_s, slope = case.soffit(u)
    x_0 = case._start(u)
    load, at = case.load_beyond(x_0)
    moment = load * (at - (x_0 + x_s) / 2) if case.shelf else section_moment(load, at, np.maximum(x_0, 0), x_s)
    return edges(case, x_s, y_s, slope, case.theta_g, load, moment, strips) | {"x_0": x_0, "x_s": x_s}


def edges(
    case: Case, x_s: Any, y_s: Any, slope: Any, grain: float, load: Any, moment: Any, strips: int = 0
) -> dict[str, Any]:
    wood = case.wood
    forces = {"M": moment, "N": section_axial_force(load, slope), "t": case.t, "d": equal_angle_depth(y_s, slope)}
    moduli = by_strips(wood, grain, slope, strips) if strips else fan_moments(**wood, theta_g=grain, alpha_s=slope)
    weighed = {**forces, **dict(zip(("E_0", "E_1", "E_2"), moduli, strict=True))}
    strain = {"eps_0": fan_mean_strain(**weighed), "eps_b": fan_bending_strain(**weighed), "alpha_s": slope}
    return {
        "top": equal_angle_edge_stress_top(**forces, alpha_s=slope),
        "soffit": equal_angle_edge_stress_soffit(**forces, alpha_s=slope),
        "fan top": fan_edge_stress_top(E_off=off_axis_modulus(**wood, psi=grain + 0 * slope), **strain),
        "fan soffit": fan_edge_stress_soffit(E_off=off_axis_modulus(**wood, psi=grain - slope), **strain),
    }


def by_strips(wood: dict[str, float], grain: float, slope: Any, strips: int) -> list[Any]:
    """E_0, E_1, E_2 from trapezoids: how the notes summed them, with 40 strips (found by trying; how: derived)."""
    eta = np.linspace(0, 1, strips + 1).reshape(-1, *(1,) * np.ndim(slope))
    modulus = off_axis_modulus(**wood, psi=grain - slope * eta) * np.cos(np.radians(slope * (eta - 0.5))) ** 4
    return [np.trapezoid(modulus * (0.5 - eta) ** j, dx=1 / strips, axis=0) for j in range(3)]


def at_the_wall(case: Case, u: Any, push: float, depth: float, strips: int = 0) -> dict[str, Any]:
    """Stress along both edges of the wall leg that the wall pushes with `push` at `depth` below the top edge."""
    x_s, y_s, slope, grain = wall_leg(*case.soffit(u), case.theta_g)
    x_0 = x_s - y_s * np.tan(np.radians(slope / 2))
    counted = (x_0 >= 0) & (x_0 < depth)
    x_s, y_s, slope, x_0 = (each[counted] for each in (x_s, y_s, slope, x_0))
    moment = section_moment(push, depth, x_0, x_s)
    return edges(case, x_s, y_s, slope, grain, push, moment, strips) | {"x_0": x_0}
