"""Outside its range a fastener or steel formula raises with a sentence for people, and an array element becomes NaN."""

from __future__ import annotations

import pytest

from beamcheck.calc.core import REGISTRY
from beamcheck.errors import OutOfRange

from ..connection_samples import FILES
from ..out_of_range import refuses
from ..samples import NAMES, draw, file_of

# formula, good inputs, the bad one, what the message says
CASES = [
    ("dowel_bearing_parallel", "G=0.5", "G=0.74",
     "G must be 0.31 to 0.73, given 0.74 (NDS 2018 Table 12.3.3)"),
    ("single_shear_IV", "D=0.5 F_em=5600 F_yb=45000 R_e=1 R_d_III=3.2", "D=1.1",
     "D must be above 0 and at most 1 in, given 1.1 (NDS 2018 Table 12.3.1B)"),
    ("double_shear", "Z_Im=9 Z_Is=9 Z_IIIs=9 Z_IV=9", "Z_IV=-1",
     "Z_IV must be a finite number above 0, given -1"),
    ("slot_gap", "w_slot=0.375 t=0.25", "t=0.5",
     "t must be above 0 and at most w_slot 0.375, given 0.5"),
    ("toe_nail_main_length", "L_f=3", "L_f=0",
     "L_f must be a finite number above 0, given 0 (NDS 2018 12.1.6.3)"),
    ("main_length_lag", "p=4 E_tip=0.3", "E_tip=4",
     "E_tip must be 0 or more and less than p 4, given 4 (NDS 2018 12.3.5)"),
    ("head_pull_through", "G=0.5 D_H=0.3 t_s=1", "t_s=0",
     "t_s must be a finite number above 0, given 0 (NDS 2018 12.2.5)"),
    ("shear_and_pull_nail", "V=10 T=10 Z_prime=200 W_p=100", "T=-10",
     "T must be a finite number, 0 or more, given -10"),
    ("adjusted_lateral", "Z=100 C_D=1 C_M=1 C_t=1 C_g=1 C_delta=1 C_eg=1 C_di=1 C_tn=1", "C_di=1.2",
     "C_di must be 1 to 1.1, given 1.2 (NDS 2018 Table 11.3.1)"),
    ("adjusted_lateral", "Z=100 C_D=1 C_M=1 C_t=1 C_g=1 C_delta=1 C_eg=1 C_di=1 C_tn=1", "C_delta=1.1",
     "C_delta must be above 0 and at most 1, given 1.1"),
    ("load_slip_wood", "D=0.5", "D=0.2", "D must be 0.25 to 1 in, given 0.2 (NDS 2018 11.3.6)"),
    ("group_m", "u=1.1", "u=1", "u must be above 1, given 1 (NDS 2018 11.3.6)"),
    ("group_action_factor", "m=0.7 n=4 R_EA=0.5", "m=1", "m must be above 0 and less than 1, given 1"),
    ("group_action_factor", "m=0.7 n=4 R_EA=0.5", "n=0", "n must be 1 or more, given 0"),
    ("group_action_factor", "m=0.7 n=4 R_EA=0.5", "R_EA=2", "R_EA must be above 0 and at most 1, given 2"),
    ("row_spacing_perpendicular", "l_w=3 D=0.5", "D=0.2", "D must be 0.25 to 1 in, given 0.2"),
    ("row_tear_out", "n=3 F_v_prime=180 t=1.5 s_crit=2", "n=0.5", "n must be 1 or more, given 0.5"),
    ("area_between_rows", "n_row=2 s_row=2 d_h=0.5 t=1.5", "n_row=1", "n_row must be 2 or more, given 1"),
    ("bolt_shear_stress", "V=100 A_b=0.2", "V=-1", "V must be a finite number, 0 or more, given -1"),
    ("block_shear", "F_y=36000 F_u=58000 A_gv=1 A_nv=0.7 A_nt=0.2 U_bs=1", "U_bs=0.4",
     "U_bs must be 0.5 to 1, given 0.4 (AISC 360-16 J4.3)"),
    ("fillet_weld", "F_EXX=70000 w_leg=0.2 L_w=2 theta_w=0", "theta_w=91",
     "theta_w must be 0 to 90 deg, given 91 (AISC 360-16 J2.4)"),
    ("fastener_force_x", "P_x=0 n=4 M=100 y_i=2 I_p=32", "M=inf", "M must be a finite number, given inf"),
    ("fastener_force_y", "P_y=0 n=4 M=100 x_i=2 I_p=32", "n=0", "n must be 1 or more, given 0"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "good", "bad", "told"), CASES)
def test_out_of_range(name: str, good: str, bad: str, told: str) -> None:
    refuses(name, good, bad, told)


@pytest.mark.parametrize("name", [name for name in NAMES if file_of(name) in FILES])
def test_a_minus_sign_on_a_size_or_strength_never_gives_a_value(name: str) -> None:
    """Only loads, moments and places of a pattern have a sign."""
    signed = {"P_x", "P_y", "P_xi", "P_yi", "M", "x_i", "y_i"} if "fastener_force" in name else set()
    (inputs,) = draw(name, 1)
    for each in set(inputs) - signed:
        with pytest.raises(OutOfRange):
            REGISTRY[name](**{**inputs, each: -inputs[each]})
