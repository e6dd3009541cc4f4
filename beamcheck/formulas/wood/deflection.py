"""Simple beams and deflection (NDS 2018 3.5): moments and shears of the two commonest loads, sag, creep, limits.

Which modulus goes with which deflection (NDS 2018 3.5.1, Appendix F): a tabulated E of sawn lumber is apparent. It was
fitted to deflections under uniform load at a span of 21 depths and holds the shear deflection of that case, some 3 %.
So there are two consistent ways, and two mixtures of them:

- E with bending deflection only: what handbooks and span tables do. Too small for deep, short beams.
- 1.03 E (`shear_free_modulus`) with bending and shear deflection: right at any proportion; this is the one to take
  when shear deflection is computed. At 21 depths it agrees with the first way within 1 %.
- E with bending and shear deflection counts some shear twice: safe by 3 %, no more than that.
- 1.03 E with bending deflection only leaves shear out: unsafe, never do it.
"""

from __future__ import annotations

from typing import Annotated

from ...calc.core import Number, formula
from ...calc.ranges import NotNegative, Positive, at_least, at_most

BEAM, SAG = "statics of a simple beam", "NDS 2018 3.5.1"


@formula(symbol="M", clause=BEAM, unit="lbf*in", known="derived")
def simple_uniform_moment(w: Number, L: Positive) -> Number:
    """Moment at midspan of a simple beam under uniform load.

    >>> simple_uniform_moment(20.0, 144.0)
    51840.0
    """
    return w * L**2 / 8


@formula(symbol="V", clause=BEAM, unit="lbf", known="derived")
def simple_uniform_shear(w: Number, L: Positive) -> Number:
    """Shear at the supports of a simple beam under uniform load.

    >>> simple_uniform_shear(20.0, 144.0)
    1440.0
    """
    return w * L / 2


@formula(symbol="V_d", clause="NDS 2018 3.4.3.1(a)", unit="lbf", known="memory")
def shear_at_d(
    w: Number,
    L: Positive,
    d: Annotated[Number, at_most("L / 2", because="no load lies farther than d from both supports")],
) -> Number:
    """Shear of a simple beam under uniform load with the load within d of the supports left out.

    Only under the conditions named at `point_load_share`. Changed from the source: d is laid off from the end of the
    span L, which lies inside the bearing; the clause lays it off from the face of the support, a little less shear.

    >>> shear_at_d(10.0, 144.0, 12.0)
    600.0
    """
    return w * (L / 2 - d)


@formula(symbol="Delta", clause=SAG, unit="in", known="derived")
def simple_uniform_deflection(w: Number, L: Positive, E: Positive, I: Positive) -> Number:  # noqa: E741
    """Bending deflection at midspan of a simple beam under uniform load.

    E: the adjusted, apparent one alone; the shear-free one beside shear deflection.

    >>> round(simple_uniform_deflection(3700.0 / 240.0, 240.0, 1.6e6, 2456.0), 4)
    0.1695
    """
    return 5 * w * L**4 / (384 * E * I)


@formula(symbol="E_sf", clause="NDS 2018 Appendix F", unit="psi", known="memory")
def shear_free_modulus(E: Positive) -> Number:
    """Modulus of elasticity of sawn lumber for use beside a separate shear deflection.

    Never with bending deflection alone. Uniform load, 21 depths and E/G = 16 give 1.035. For glued laminated timber the
    factor is 1.05; not covered.

    >>> shear_free_modulus(1.6e6)
    1648000.0
    """
    return 1.03 * E


@formula(symbol="G_v", clause="practice: E/G = 16, as in NDS 2018 Appendix F", unit="psi", known="practice; memory")
def shear_modulus_from_E(E: Positive) -> Number:
    """Shear modulus for beams.

    Common practice, not a design value: tests give E/G from about 10 to 25. From the apparent E it is 3 % lower than
    from the shear-free one, which is the safe side.
    E: adjusted, apparent.

    >>> shear_modulus_from_E(1.6e6)
    100000.0
    """
    return E / 16


@formula(symbol="Delta_s", clause=SAG, unit="in", known="derived")
def simple_uniform_shear_deflection(w: Number, L: Positive, G_v: Positive, A: Positive) -> Number:
    """Shear deflection at midspan of a simple rectangular beam under uniform load.

    5/6 of the area of a rectangle counts for shear.

    >>> round(simple_uniform_shear_deflection(200.0 / 12.0, 144.0, 1.3e6 / 16.0, 52.25), 4)
    0.0122
    """
    return w * L**2 / (8 * G_v * (5 * A / 6))


@formula(symbol="Delta_T", clause="NDS 2018 3.5.2 (eq. 3.5-1)", unit="in", known="memory")
def long_term_deflection(K_cr: Annotated[Number, at_least(1)], Delta_LT: Number, Delta_ST: Number) -> Number:
    """Deflection with creep.

    Not together with the creep note of the D + L limits of IBC Table 1604.3.
    K_cr: 1.5 for seasoned lumber used dry; 2.0 for unseasoned lumber or wet use.

    >>> long_term_deflection(1.5, 0.2, 0.1)
    0.4
    """
    return K_cr * Delta_LT + Delta_ST


@formula(symbol="Delta_T", clause="IBC Table 1604.3, footnote d", unit="in", known="read; second-hand")
def dead_and_other_deflection(s_D: NotNegative, Delta_LT: Number, Delta_ST: Number) -> Number:
    """Total deflection as the code counts it: of the dead load only the part that comes with time.

    Not together with the creep factor of NDS 2018 3.5.2.
    s_D: 0.5 dry when put in and used, else 1.
    Delta_LT: immediate, under dead load.
    Delta_ST: under all other load.

    >>> dead_and_other_deflection(0.5, 0.2, 0.1)
    0.2
    """
    return s_D * Delta_LT + Delta_ST


@formula(symbol="Delta_max", clause="IBC Table 1604.3, IRC R301.7", unit="in", known="read; second-hand")
def deflection_limit(L: Positive, n: Positive) -> Number:
    """Largest deflection allowed.

    L: of a cantilever twice its length.
    n: divisor of the span, such as 360.

    >>> round(deflection_limit(96.0, 360), 3)
    0.267
    """
    return L / n
