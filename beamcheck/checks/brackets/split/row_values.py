"""What the rows of fasteners bring to the split test: pull, sideways force, bearing on the wood, bending.

The single values are those of the anchor groups; here they are put together for one row.
"""

from __future__ import annotations

from ....analysis.splits.holds import Row
from ....calc.pad import Pad, SilentPad
from ....errors import BeamcheckError
from ....formulas.brackets.split import dowel_bearing_force, dowel_moment
from ....formulas.connections.washer import round_washer_area, washer_bearing
from ....formulas.connections.yield_modes.terms import angle_coefficient, reduction_term_I, reduction_term_III_IV
from ....formulas.wood.bearing import bearing_at_angle
from ....records import dataclass
from ....values.hardware.connections import connection_factor
from ....values.judgment import judgment
from ...anchors.fasteners.axial import counted_washer, pull_value
from ...anchors.fasteners.connection import Connection, connection_duration
from ...anchors.fasteners.factors import temperature, wet_service
from ...anchors.manners.registry import resolved
from ...anchors.unsaid import Open
from ...core.context import Context
from ...core.result import Check
from ...core.wood.material import WoodMaterial, bearing_prime, compression_star
from ..fixings.rows import FixingRows
from ..fixings.wood_fasteners import lateral_in_end_grain, row_group


class NotKnown(BeamcheckError):
    """A row has no value: the check that says why, or what is open."""

    def __init__(self, check: Check | Open) -> None:
        super().__init__("not known")
        self.check = check


@dataclass(frozen=True)
class RowValue:
    """A row for the statics, and the steps that give its figures."""

    row: Row
    pad: Pad


def row_value(
    rows: FixingRows, wood: WoodMaterial, context: Context, i: int, which: int, *, grain: float
) -> RowValue:  # fmt: skip
    """A row under one combination; all its fasteners together.

    Raises NotKnown, BeamcheckError if something has no value.
    """
    one = rows.fixings.rows[i]
    _through(rows, i)
    group = row_group(rows, wood, context, [i], 1.0)
    found = resolved(group)
    if not isinstance(found, Connection):
        raise NotKnown(found)
    joint, dowel, pad, n = found.joint, found.joint.dowel, Pad(), one.count
    if joint.faults:
        fault = joint.faults[0]
        raise NotKnown(Check.breaks_rule(fault.id, rows.bracket.name, fault.what, fault.clause, fault.text))
    held = joint.held_part
    upright = rows.family.upright_at_wall is True
    C_D = connection_duration(pad, group, joint, which)
    moist = float(wet_service(group, joint, "lateral").value) * float(temperature(joint).value)
    T = float(pull_value(SilentPad(), found, which))
    if upright:
        Z = float(found.lateral(SilentPad(), 0, which))
        end = 1.0
    else:
        Z = lateral_in_end_grain(SilentPad(), rows, group, which)
        end = float(connection_factor("end grain, lateral").value)
    # sideways, in the bracket itself
    F_e = held.bearing(pad, dowel, abs(90.0 - grain) if upright else 90.0, "F_e")
    whole = dowel.length is not None and dowel.thread is not None and dowel.length - dowel.thread >= _through(rows, i)
    D = dowel.D if whole or dowel.smooth else dowel.D_calc
    R_I = float(reduction_term_I(D=D, D_nom=dowel.D, K_theta=float(angle_coefficient(theta=90.0))))
    R_IV = float(reduction_term_III_IV(D=dowel.D_r, D_nom=dowel.D, K_theta=float(angle_coefficient(theta=90.0))))
    q = float(pad(dowel_bearing_force, F_e=F_e, D=D, R_d=R_I, C_D=C_D)) * moist * end
    M = float(pad(dowel_moment, F_yb=dowel.F_yb, D_r=dowel.D_r, R_d=R_IV, C_D=C_D)) * moist
    washer = _width(found)
    B = under_head(pad, found, wood, which, washer, grain)
    T = min(T, B) if B is not None else T
    row = Row(
        y=one.below_top, head=_through(rows, i), T=n * T, Z=n * Z, q=n * q, M=n * M, washer=washer,
        B=None if B is None else n * B, bore=dowel.hole, slotted=one.slot is not None,
    )  # fmt: skip
    for symbol, value, unit, note in (
        ("T'", row.T, "lbf", "pull of the row"), ("Z'", row.Z, "lbf", "sideways force of the row"),
        ("q'", row.q, "lbf/in", "of the row, all factors"), ("M'", row.M, "lbf*in", "of the row, all factors"),
    ):  # fmt: skip
        pad.take(symbol, value, unit, note=note)
    return RowValue(row, pad)


def _through(rows: FixingRows, i: int) -> float:
    through = rows.fixings.through_of(rows.fixings.rows[i])
    if through is None:
        text = "how much wood the fasteners go through before the wall is not given (`through`)"
        raise NotKnown(Open(text, "through", "through"))
    return through


def _width(found: Connection) -> float:
    """Of washer or head, in."""
    dowel = found.joint.dowel
    wide = dowel.washer if dowel.kind in ("bolt", "lag screw") else dowel.head
    return float(wide or dowel.D)


def under_head(
    pad: Pad, found: Connection, wood: WoodMaterial, which: int, wide: float, grain: float
) -> float | None:  # fmt: skip
    """What the wood under one head bears, lbf; the pull is level, so its angle to the grain is that of the grain."""
    group, part, dowel = found.group, found.joint.held_part, found.joint.dowel
    counted = counted_washer(group, part, wide) if dowel.kind in ("bolt", "lag screw") else wide
    if counted <= dowel.D:
        return None
    theta = min(grain % 180.0, 180.0 - grain % 180.0)
    F_star = compression_star(pad, wood, connection_duration(pad, group, found.joint, which))
    F_perp = bearing_prime(pad, wood, 1.0)
    F = float(pad(bearing_at_angle, F_c_star=F_star, F_c_perp_prime=F_perp, theta=theta))
    F = min(F, judgment("end grain without a metal plate").value * float(F_star))
    area = pad(round_washer_area, D_w=counted, d_h=dowel.hole)
    return float(pad(washer_bearing, F_c_perp_prime=F, A_b=area))
