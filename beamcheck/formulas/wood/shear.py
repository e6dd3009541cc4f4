"""Shear parallel to grain (NDS 2018 3.4): stresses, loads near a support, notches, connections.

At a notch and at a connection the full shear counts: the allowances of 3.4.3.1 for loads near a support do not apply.
"""

from __future__ import annotations

from ...calc.core import Number, formula, where
from ...calc.ranges import at_most, below, carried, not_negative, positive

STRESS, NEAR = "NDS 2018 3.4.2", "NDS 2018 3.4.3.1"
NOTCH, JOINT, LIMITS = "NDS 2018 3.4.3.2", "NDS 2018 3.4.3.3", "NDS 2018 4.4.3"


@formula(symbol="f_v", clause="NDS 2018 3.4.2 (eq. 3.4-2)", unit="psi")
def shear_stress(V: Number, b: Number, d: Number) -> Number:
    """Shear stress of a whole rectangular section.

    Parameters
    ----------
    V : float or array
        Shear force, without sign. [lbf]
    b, d : float or array
        Breadth and depth. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the shear is negative or a dimension not positive.

    Notes
    -----
    Changed from the source: nothing. How known: read.

    Examples
    --------
    >>> round(shear_stress(1000.0, 3.5, 7.25), 1)
    59.1
    """
    return 3 * not_negative("V", V, STRESS) / (2 * positive("b", b, STRESS) * positive("d", d, STRESS))


@formula(symbol="f_v", clause="NDS 2018 3.4.2 (eq. 3.4-1)", unit="psi")
def shear_stress_round(V: Number, A: Number) -> Number:
    """Shear stress of a whole round section.

    Parameters
    ----------
    V : float or array
        Shear force, without sign. [lbf]
    A : float or array
        Area of the circle. [in2]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the shear is negative or the area not positive.

    Notes
    -----
    V Q/(I b) at the middle of a circle. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(shear_stress_round(1000.0, 78.54), 3)
    16.976
    """
    return 4 * not_negative("V", V, STRESS) / (3 * positive("A", A, STRESS))


@formula(symbol="f_v", clause="NDS 2018 3.4.2 (eq. 3.4-1)", unit="psi")
def shear_stress_general(V: Number, Q: Number, I: Number, b: Number) -> Number:  # noqa: E741
    """Shear stress at a level of any section.

    Parameters
    ----------
    V : float or array
        Shear force, without sign. [lbf]
    Q : float or array
        First moment, about the centroid, of the area beyond the level. [in3]
    I : float or array
        Second moment of area. [in4]
    b : float or array
        Breadth at the level. [in]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the shear or Q is negative or another value not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> shear_stress_general(1000.0, 25.0, 100.0, 5.0)
    50.0
    """
    V, Q = not_negative("V", V, STRESS), not_negative("Q", Q, STRESS)
    return V * Q / (positive("I", I, STRESS) * positive("b", b, STRESS))


@formula(symbol="f_v", clause="NDS 2018 3.1.2, 3.4.2", unit="psi")
def shear_stress_area(V: Number, A_n: Number) -> Number:
    """Shear stress on a net area that is a rectangle, or two equal ones (a through hole at mid-depth).

    Parameters
    ----------
    V : float or array
        Shear force, without sign. [lbf]
    A_n : float or array
        Net area. [in2]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the shear is negative or the area not positive.

    Notes
    -----
    Too low for a mortise that does not go right through (`shear_stress_net`) and for a through hole away from
    mid-depth (`shear_stress_parts`). Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(shear_stress_area(1000.0, 56.25), 3)
    26.667
    """
    return 3 * not_negative("V", V, STRESS) / (2 * positive("A_n", A_n, STRESS))


@formula(symbol="r_x", clause="NDS 2018 3.4.3.1(a)", unit="")
def point_load_share(x: Number, d: Number) -> Number:
    """Share of a point load that counts for shear, near a support.

    Parameters
    ----------
    x : float or array
        Distance of the load from the face of the support. [in]
    d : float or array
        Depth. [in]

    Returns
    -------
    float or array
        [-]

    Raises
    ------
    OutOfRange
        If x is negative or d not positive.

    Notes
    -----
    Only with full bearing on one face and the load on the opposite one. Not for a load hung from, or framed into, the
    side, not for a beam in a hanger, not at a notch or connection.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> [point_load_share(x, 10.0) for x in (0.0, 4.0, 12.0)]
    [0.0, 0.4, 1.0]
    """
    x, d = not_negative("x", x, NEAR), positive("d", d, NEAR)
    return carried(where(x < d, x / d, 1.0), x, d)


@formula(symbol="V_r_prime", clause="NDS 2018 3.4.3.2(a) (eq. 3.4-3)", unit="lbf")
def end_notch_tension_shear(F_v_prime: Number, b: Number, d: Number, d_n: Number) -> Number:
    """Shear that a rectangular piece carries at an end notch on the tension side.

    Parameters
    ----------
    F_v_prime : float or array
        Adjusted shear design value. [psi]
    b, d : float or array
        Breadth and whole depth. [in]
    d_n : float or array
        Depth that remains at the notch. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or d_n exceeds d.

    Notes
    -----
    Against the full shear. Holds for notches that 4.4.3 allows (`end_notch_limit`), which this does not ask.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(end_notch_tension_shear(180.0, 1.5, 9.25, 7.25), 1)
    801.7
    """
    F_v_prime, b, d = positive("F_v_prime", F_v_prime), positive("b", b), positive("d", d)
    d_n = at_most("d_n", d_n, "d", d, NOTCH)
    return 2 * F_v_prime * b * d_n / 3 * (d_n / d) ** 2


@formula(symbol="V_r_prime", clause="NDS 2018 3.4.3.2(b) (eq. 3.4-4)", unit="lbf")
def end_notch_tension_shear_round(F_v_prime: Number, A_n: Number, d: Number, d_n: Number) -> Number:
    """Shear that a round piece carries at an end notch on the tension side.

    Parameters
    ----------
    F_v_prime : float or array
        Adjusted shear design value. [psi]
    A_n : float or array
        Area that remains at the notch. [in2]
    d, d_n : float or array
        Diameter, and depth that remains at the notch. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or d_n exceeds d.

    Notes
    -----
    Against the full shear. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(end_notch_tension_shear_round(150.0, 70.0, 10.0, 8.0))
    4480
    """
    F_v_prime, A_n, d = positive("F_v_prime", F_v_prime), positive("A_n", A_n), positive("d", d)
    d_n = at_most("d_n", d_n, "d", d, NOTCH)
    return 2 * F_v_prime * A_n / 3 * (d_n / d) ** 2


@formula(symbol="V_r_prime", clause="NDS 2018 3.4.3.2(e) (eq. 3.4-5)", unit="lbf")
def end_notch_compression_shear(F_v_prime: Number, b: Number, d: Number, d_n: Number, e: Number) -> Number:
    """Shear that a rectangular piece carries at an end notch on the compression side.

    Parameters
    ----------
    F_v_prime : float or array
        Adjusted shear design value. [psi]
    b, d : float or array
        Breadth and whole depth. [in]
    d_n : float or array
        Depth that remains at the notch. [in]
    e : float or array
        How far the notch reaches past the inner edge of the support. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive (e: negative) or d_n exceeds d.

    Notes
    -----
    With e over d_n the remaining depth is a beam of its own, as the clause says; at e = d_n both give the same.
    Against the full shear. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> [round(end_notch_compression_shear(180.0, 1.5, 9.25, 7.25, e), 1) for e in (0.0, 3.0, 20.0)]
    [1665.0, 1516.0, 1305.0]
    """
    F_v_prime, b, d = positive("F_v_prime", F_v_prime), positive("b", b), positive("d", d)
    d_n, e = at_most("d_n", d_n, "d", d, NOTCH), not_negative("e", e, NOTCH)
    V_r = where(e <= d_n, 2 * F_v_prime * b / 3 * (d - (d - d_n) / d_n * e), 2 * F_v_prime * b * d_n / 3)
    return carried(V_r, d, e)


@formula(symbol="d_cut_max", clause="NDS 2018 4.4.3", unit="in")
def end_notch_limit(d: Number) -> Number:
    """Deepest notch at the end of a sawn bending member, for bearing over a support.

    Parameters
    ----------
    d : float or array
        Depth. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the depth is not positive.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> end_notch_limit(10.0)
    2.5
    """
    return positive("d", d, LIMITS) / 4


@formula(symbol="d_cut_max", clause="NDS 2018 4.4.3", unit="in")
def inner_notch_limit(d: Number) -> Number:
    """Deepest notch in the outer thirds of a single span of a sawn bending member.

    Parameters
    ----------
    d : float or array
        Depth. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the depth is not positive.

    Notes
    -----
    None in the middle third; none on the tension side of pieces 3.5 in thick and more.
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> inner_notch_limit(12.0)
    2.0
    """
    return positive("d", d, LIMITS) / 6


@formula(symbol="d_e", clause="NDS 2018 3.4.3.3", unit="in")
def connection_depth(d: Number, c_u: Number) -> Number:
    """Effective depth at a connection.

    Parameters
    ----------
    d : float or array
        Depth. [in]
    c_u : float or array
        From the unloaded edge to the centre of the nearest bolt or lag screw (its edge, for a ring or plate). [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If the depth is not positive or the distance not from 0 to less than the depth.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> connection_depth(11.25, 3.0)
    8.25
    """
    return positive("d", d, JOINT) - below("c_u", c_u, "d", d, JOINT)


@formula(symbol="V_r_prime", clause="NDS 2018 3.4.3.3(a) (eq. 3.4-6)", unit="lbf")
def connection_shear_near_end(F_v_prime: Number, b: Number, d: Number, d_e: Number) -> Number:
    """Shear that a piece carries at a connection less than 5 d from its end.

    Parameters
    ----------
    F_v_prime : float or array
        Adjusted shear design value. [psi]
    b, d : float or array
        Breadth and depth. [in]
    d_e : float or array
        Effective depth at the connection. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive or d_e exceeds d.

    Notes
    -----
    Against the full shear. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(connection_shear_near_end(180.0, 3.5, 11.25, 8.25), 1)
    1863.4
    """
    F_v_prime, b, d = positive("F_v_prime", F_v_prime), positive("b", b), positive("d", d)
    d_e = at_most("d_e", d_e, "d", d, JOINT)
    return 2 * F_v_prime * b * d_e / 3 * (d_e / d) ** 2


@formula(symbol="V_r_prime", clause="NDS 2018 3.4.3.3(b) (eq. 3.4-7)", unit="lbf")
def connection_shear_inner(F_v_prime: Number, b: Number, d_e: Number) -> Number:
    """Shear that a piece carries at a connection 5 d or more from its end.

    Parameters
    ----------
    F_v_prime : float or array
        Adjusted shear design value. [psi]
    b : float or array
        Breadth. [in]
    d_e : float or array
        Effective depth at the connection. [in]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Against the full shear. Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> round(connection_shear_inner(180.0, 3.5, 8.25), 1)
    3465.0
    """
    return 2 * positive("F_v_prime", F_v_prime) * positive("b", b) * positive("d_e", d_e) / 3
