"""A beam that comes down on a bracket that was not meant to carry it: contact force, gap, pads."""

from __future__ import annotations

from ...calc.core import Number, formula, largest, valid
from ...calc.ranges import between, given, not_negative, positive, shown
from ..connections.ranges import finite
from .prop_sag import uniform_sag as uniform_sag
from .prop_sag import uniform_shear_sag as uniform_shear_sag
from .prop_sag import unit_sag as unit_sag
from .prop_sag import unit_sag_pair as unit_sag_pair
from .prop_sag import unit_shear_sag as unit_shear_sag
from .prop_sag import unit_shear_sag_pair as unit_shear_sag_pair

CONTACT = "force method, one-sided contact"


@formula(symbol="R", clause=CONTACT, unit="lbf")
def prop_force(Delta_0: Number, g: Number, k_n: Number, f_xx: Number) -> Number:
    """Force with which a beam rests on a bracket that was not meant to carry it.

    Parameters
    ----------
    Delta_0 : float or array
        How far the beam would come down there without the bracket, from when the gap was set. [in]
    g : float or array
        Gap between nose and beam as left; 0 where unknown. [in]
    k_n : float or array
        Stiffness of the bracket at its nose, fixings included. [lbf/in]
    f_xx : float or array
        How far the beam comes down there per force there; of a symmetric pair, per force at each. [in/lbf]

    Returns
    -------
    float or array
        [lbf]

    Raises
    ------
    OutOfRange
        If the gap is negative, or stiffness or f_xx not positive.

    Notes
    -----
    Linear, one-sided. For an upper bound: a low modulus of the beam (`softened_modulus`), shear included, creep in
    Delta_0, the bracket as stiff as it may be. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(prop_force(0.113144, 0.0, 8000.0, 3.1174e-5), 1)
    724.5
    """
    softness = 1 / positive("k_n", k_n, CONTACT) + positive("f_xx", f_xx, CONTACT)
    return largest(0.0, (finite("Delta_0", Delta_0, CONTACT) - not_negative("g", g, CONTACT)) / softness)


@formula(symbol="E_05", clause="NDS 2018 Appendix F", unit="psi")
def softened_modulus(E: Number, COV: Number) -> Number:
    """Modulus of elasticity that 95 of 100 pieces exceed.

    Parameters
    ----------
    E : float or array
        Mean modulus of elasticity, adjusted. [psi]
    COV : float or array
        Its coefficient of variation: 0.25 for visually graded lumber. [-]

    Returns
    -------
    float or array
        [psi]

    Raises
    ------
    OutOfRange
        If the modulus is not positive or COV not 0 to 0.5.

    Notes
    -----
    Changed from the source: nothing. How known: memory.

    Examples
    --------
    >>> softened_modulus(1.6e6, 0.25)
    942000.0
    """
    return positive("E", E) * (1 - 1.645 * between("COV", COV, 0, 0.5, "NDS 2018 Appendix F"))


@formula(symbol="g_req", clause=CONTACT, unit="in")
def gap_needed(
    K_cr: Number, Delta_LT: Number, Delta_ST: Number, Delta_in: Number, s_close: Number, g_tol: Number
) -> Number:
    """Gap that keeps a beam off a bracket for good.

    Parameters
    ----------
    K_cr : float or array
        Creep factor. [-]
    Delta_LT : float or array
        Immediate deflection under the long-term load, at the nose. [in]
    Delta_ST : float or array
        Deflection under the short-term load, at the nose. [in]
    Delta_in : float or array
        How far the beam had come down already when the gap was set; 0 where unknown. [in]
    s_close : float or array
        Sum of the movements of wood that bring beam and bracket together. [in]
    g_tol : float or array
        What setting out and straightness may take away. [in]

    Returns
    -------
    float or array
        [in]

    Raises
    ------
    OutOfRange
        If K_cr is not 1 to 4, another value negative, or Delta_in over K_cr Delta_LT: then the beam has come
        down more than its long-term load explains.

    Notes
    -----
    Changed from the source: Delta_in is limited. How known: derived.

    Examples
    --------
    >>> round(gap_needed(2.0, 0.1, 0.05, 0.0, 0.03, 0.0625), 4)
    0.3425
    """
    K_cr = valid(K_cr, (K_cr >= 1) & (K_cr <= 4), f"K_cr must be 1 to 4{given(K_cr)}", CONTACT)
    long = K_cr * not_negative("Delta_LT", Delta_LT, CONTACT)
    because = (
        f"Delta_in must be 0 or more and at most K_cr Delta_LT{shown(long)}, or the beam has come down more than its"
        f" long-term load explains{given(Delta_in)}"
    )
    Delta_in = valid(Delta_in, (Delta_in >= 0) & (Delta_in <= long), because, CONTACT)
    moves = not_negative("s_close", s_close, CONTACT) + not_negative("g_tol", g_tol, CONTACT)
    return long + not_negative("Delta_ST", Delta_ST, CONTACT) - Delta_in + moves


@formula(symbol="f_pad", clause=CONTACT, unit="in/lbf")
def pad_softness(Delta_0: Number, g: Number, R_allow: Number, f_xx: Number, k_n: Number) -> Number:
    """How far a pad in the gap has to give per force, so that the bracket gets no more than it may.

    Parameters
    ----------
    Delta_0 : float or array
        How far the beam would come down there without the bracket, from when the gap was set. [in]
    g : float or array
        Gap between nose and beam as left; 0 where unknown. [in]
    R_allow : float or array
        Force that the bracket and its fixings may get. [lbf]
    f_xx : float or array
        How far the beam comes down there per force there; of a symmetric pair, per force at each. [in/lbf]
    k_n : float or array
        Stiffness of the bracket at its nose, fixings included. [lbf/in]

    Returns
    -------
    float or array
        0 where no pad is needed. [in/lbf]

    Raises
    ------
    OutOfRange
        If the gap is negative, or another value but Delta_0 not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(pad_softness(0.3, 0.0, 200.0, 3.1e-5, 8000.0) * 1e3, 4)
    1.344
    """
    over = finite("Delta_0", Delta_0, CONTACT) - not_negative("g", g, CONTACT)
    softness = positive("f_xx", f_xx, CONTACT) + 1 / positive("k_n", k_n, CONTACT)
    return largest(0.0, over / positive("R_allow", R_allow, CONTACT) - softness)


@formula(symbol="Delta_pad", clause=CONTACT, unit="in")
def pad_squeeze(Delta_0: Number, g: Number, R_allow: Number, f_xx: Number, k_n: Number) -> Number:
    """How far a pad must be able to be squeezed before it is hard, so that the bracket gets no more than it may.

    Parameters
    ----------
    Delta_0 : float or array
        How far the beam would come down there without the bracket, from when the gap was set. [in]
    g : float or array
        Gap between nose and beam as left; 0 where unknown. [in]
    R_allow : float or array
        Force that the bracket and its fixings may get. [lbf]
    f_xx : float or array
        How far the beam comes down there per force there; of a symmetric pair, per force at each. [in/lbf]
    k_n : float or array
        Stiffness of the bracket at its nose, fixings included. [lbf/in]

    Returns
    -------
    float or array
        0 where no pad is needed. [in]

    Raises
    ------
    OutOfRange
        If the gap is negative, or another value but Delta_0 not positive.

    Notes
    -----
    Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> round(pad_squeeze(0.3, 0.0, 200.0, 3.1e-5, 8000.0), 4)
    0.2688
    """
    over = finite("Delta_0", Delta_0, CONTACT) - not_negative("g", g, CONTACT)
    softness = positive("f_xx", f_xx, CONTACT) + 1 / positive("k_n", k_n, CONTACT)
    return largest(0.0, over - positive("R_allow", R_allow, CONTACT) * softness)


@formula(symbol="k_n", clause=CONTACT, unit="lbf/in")
def pad_in_series(k_n: Number, k_pad: Number) -> Number:
    """Stiffness of a bracket with a pad on its nose.

    Parameters
    ----------
    k_n : float or array
        Stiffness of the bracket at its nose, fixings included. [lbf/in]
    k_pad : float or array
        Stiffness of the pad. [lbf/in]

    Returns
    -------
    float or array
        [lbf/in]

    Raises
    ------
    OutOfRange
        If a value is not positive.

    Notes
    -----
    Only until the pad is hard. Changed from the source: nothing. How known: derived.

    Examples
    --------
    >>> pad_in_series(8000.0, 2000.0)
    1600.0
    """
    return 1 / (1 / positive("k_n", k_n, CONTACT) + 1 / positive("k_pad", k_pad, CONTACT))
