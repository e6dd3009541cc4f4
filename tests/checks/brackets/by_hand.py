"""Values of Douglas Fir-Larch No.1, 4x6, typed from the NDS: F_b 1,000 (C_F 1.3), F_t 675 (1.3), F_v 180, F_c 1,500
(1.1), F_c_perp 625, E 1.7e6, E_min 620,000 psi (NDS Supplement 2018 Table 4A, memory); dry, at 100 deg F and less."""

from __future__ import annotations

import math

F_B, F_T, F_V, F_C, F_PERP, E, E_MIN = 1000.0 * 1.3, 675.0 * 1.3, 180.0, 1500.0 * 1.1, 625.0, 1.7e6, 620000.0


def bending(b: float, d: float, l_u: float, C_D: float = 1.0) -> float:
    """F_b' of a member that nothing holds over a length (NDS 3.3.3, any loading)."""
    l_e = 2.06 * l_u if l_u / d < 7.0 else 1.63 * l_u + 3.0 * d if l_u / d <= 14.3 else 1.84 * l_u
    ratio = 1.2 * E_MIN / (l_e * d / b**2) / (F_B * C_D)
    a = (1.0 + ratio) / 1.9
    return F_B * C_D * (a - math.sqrt(a**2 - ratio / 0.95))


def buckling(length: float, side: float) -> float:
    """F_cE (NDS 3.7.1)."""
    return 0.822 * E_MIN / (length / side) ** 2


def column(b: float, d: float, length: float, C_D: float = 1.0) -> float:
    """F_c' of a column of one effective length both ways (NDS 3.7.1, sawn)."""
    ratio = buckling(length, min(b, d)) / (F_C * C_D)
    a = (1.0 + ratio) / 1.6
    return F_C * C_D * (a - math.sqrt(a**2 - ratio / 0.8))


def at_angle(theta: float, C_D: float = 1.0) -> float:
    """Bearing at an angle to the grain, deg (NDS 3.10.3)."""
    s, c = math.sin(math.radians(theta)) ** 2, math.cos(math.radians(theta)) ** 2
    return F_C * C_D * F_PERP / (F_C * C_D * s + F_PERP * c)
