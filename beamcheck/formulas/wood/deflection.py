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

from ...calc.core import Number, formula, valid
from ...calc.ranges import given, positive

BEAM, SAG, NEAR = "statics of a simple beam", "NDS 2018 3.5.1", "NDS 2018 3.4.3.1"


@formula(symbol="M", clause=BEAM, unit="lbf*in")
def simple_uniform_moment(w: Number, L: Number) -> Number:
    """Moment at midspan of a simple beam under uniform load.

    Parameters
    ----------
    w : float or array
        Load along the beam. [lbf/in]
    L : float or array
        Span. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If the span is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> simple_uniform_moment(20.0, 144.0)
    51840.0
    """
    return w * positive("L", L) ** 2 / 8


@formula(symbol="V", clause=BEAM, unit="lbf")
def simple_uniform_shear(w: Number, L: Number) -> Number:
    """Shear at the supports of a simple beam under uniform load.

    Parameters
    ----------
    w : float or array
        Load along the beam. [lbf/in]
    L : float or array
        Span. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the span is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> simple_uniform_shear(20.0, 144.0)
    1440.0
    """
    return w * positive("L", L) / 2


@formula(symbol="V_d", clause="NDS 2018 3.4.3.1(a)", unit="lbf")
def shear_at_d(w: Number, L: Number, d: Number) -> Number:
    """Shear of a simple beam under uniform load with the load within d of the supports left out.

    Parameters
    ----------
    w : float or array
        Load along the beam. [lbf/in]
    L : float or array
        Span. [in]
    d : float or array
        Depth. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If span or depth is not positive, or the depth over half the span.

    Notes
    -----
    d is laid off from the end of the span L, which lies inside the bearing; the clause lays it off from the face of
    the support, which gives a little less shear. Only under the conditions named at `point_load_share`.
    Changed from the source: as said, on the safe side. How known: memory.

    Examples
    --------
    >>> shear_at_d(10.0, 144.0, 12.0)
    600.0
    """
    L, d = positive("L", L, NEAR), positive("d", d, NEAR)
    because = f"d must be at most half the span: no load lies farther than d from both supports{given(d)}"
    return w * (L / 2 - valid(d, 2 * d <= L, because, NEAR))


@formula(symbol="Delta", clause=SAG, unit="in")
def simple_uniform_deflection(w: Number, L: Number, E: Number, I: Number) -> Number:  # noqa: E741
    """Bending deflection at midspan of a simple beam under uniform load.

    Parameters
    ----------
    w : float or array
        Load along the beam. [lbf/in]
    L : float or array
        Span. [in]
    E : float or array
        Modulus of elasticity: adjusted apparent one alone, shear-free one beside shear deflection. [psi]
    I : float or array
        Second moment of area. [in4]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If span, modulus or second moment is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(simple_uniform_deflection(3700.0 / 240.0, 240.0, 1.6e6, 2456.0), 4)
    0.1695
    """
    return 5 * w * positive("L", L) ** 4 / (384 * positive("E", E) * positive("I", I))


@formula(symbol="M", clause=BEAM, unit="lbf*in")
def simple_point_moment(P: Number, L: Number) -> Number:
    """Moment at midspan of a simple beam with a point load there.

    Parameters
    ----------
    P : float or array
        Load. [lbf]
    L : float or array
        Span. [in]

    Returns
    -------
    float or array
        [lbf*in]

    Raises
    ------
    OutOfRange
        If the span is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> simple_point_moment(2000.0, 96.0)
    48000.0
    """
    return P * positive("L", L) / 4


@formula(symbol="Delta", clause=SAG, unit="in")
def simple_point_deflection(P: Number, L: Number, E: Number, I: Number) -> Number:  # noqa: E741
    """Bending deflection at midspan of a simple beam with a point load there.

    Parameters
    ----------
    P : float or array
        Load. [lbf]
    L : float or array
        Span. [in]
    E : float or array
        Modulus of elasticity: adjusted apparent one alone, shear-free one beside shear deflection. [psi]
    I : float or array
        Second moment of area. [in4]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If span, modulus or second moment is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(simple_point_deflection(1600.0, 96.0, 1.7e6, 111.1), 3)
    0.156
    """
    return P * positive("L", L) ** 3 / (48 * positive("E", E) * positive("I", I))


@formula(symbol="E_sf", clause="NDS 2018 Appendix F", unit="psi")
def shear_free_modulus(E: Number) -> Number:
    """Modulus of elasticity of sawn lumber for use beside a separate shear deflection.

    Parameters
    ----------
    E : float or array
        Modulus of elasticity, tabulated or adjusted (apparent). [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the modulus is not positive.

    Notes
    -----
    Never with bending deflection alone. For glued laminated timber the factor is 1.05; not covered.
    Changed from the source: nothing. How known: memory; 3.5 % follows from uniform load, 21 depths and E/G = 16.

    Examples
    --------
    >>> shear_free_modulus(1.6e6)
    1648000.0
    """
    return 1.03 * positive("E", E, "NDS 2018 Appendix F")


@formula(symbol="G_v", clause="practice: E/G = 16, as in NDS 2018 Appendix F", unit="psi")
def shear_modulus_from_E(E: Number) -> Number:
    """Shear modulus for beams.

    Parameters
    ----------
    E : float or array
        Modulus of elasticity, adjusted, apparent. [psi]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the modulus is not positive.

    Notes
    -----
    Common practice, not a design value: tests give E/G from about 10 to 25. From the apparent E it is 3 % lower than
    from the shear-free one, which is the safe side. How known: practice, memory.

    Examples
    --------
    >>> shear_modulus_from_E(1.6e6)
    100000.0
    """
    return positive("E", E) / 16


@formula(symbol="Delta_s", clause=SAG, unit="in")
def simple_uniform_shear_deflection(w: Number, L: Number, G_v: Number, A: Number) -> Number:
    """Shear deflection at midspan of a simple rectangular beam under uniform load.

    Parameters
    ----------
    w : float or array
        Load along the beam. [lbf/in]
    L : float or array
        Span. [in]
    G_v : float or array
        Shear modulus. [psi]
    A : float or array
        Area of the rectangle. [in2]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If span, modulus or area is not positive.

    Notes
    -----
    5/6 of the area of a rectangle counts for shear. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(simple_uniform_shear_deflection(200.0 / 12.0, 144.0, 1.3e6 / 16.0, 52.25), 4)
    0.0122
    """
    return w * positive("L", L) ** 2 / (8 * positive("G_v", G_v) * (5 * positive("A", A) / 6))


@formula(symbol="Delta_T", clause="NDS 2018 3.5.2 (eq. 3.5-1)", unit="in")
def long_term_deflection(K_cr: Number, Delta_LT: Number, Delta_ST: Number) -> Number:
    """Deflection with creep.

    Parameters
    ----------
    K_cr : float or array
        Creep factor: 1.5 seasoned lumber used dry; 2.0 unseasoned or used wet. [-]
    Delta_LT : float or array
        Immediate deflection under the long-term part of the load. [in]
    Delta_ST : float or array
        Deflection under the short-term part of the load. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If K_cr is under 1.

    Notes
    -----
    Not together with the creep note of the D + L limits of IBC Table 1604.3.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> long_term_deflection(1.5, 0.2, 0.1)
    0.4
    """
    K_cr = valid(K_cr, K_cr >= 1, f"K_cr must be 1 or more{given(K_cr)}", "NDS 2018 3.5.2")
    return K_cr * Delta_LT + Delta_ST


@formula(symbol="Delta_max", clause="IBC Table 1604.3, IRC R301.7", unit="in")
def deflection_limit(L: Number, n: Number) -> Number:
    """Largest deflection allowed.

    Parameters
    ----------
    L : float or array
        Span; of a cantilever twice its length. [in]
    n : float or array
        Divisor of the span, such as 360. [-]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(deflection_limit(96.0, 360), 3)
    0.267
    """
    return positive("L", L) / positive("n", n)
