"""Adjustment factors of a group of fasteners: moisture, heat, group action (NDS 2018 Table 11.3.1)."""

from __future__ import annotations

from typing import Literal

import numpy as np

from ....calc.core import smallest
from ....calc.pad import Pad, SilentPad
from ....formulas.connections import group_action as act
from ....model.stock import Stock
from ....values.found import Found
from ....values.hardware.connections import (
    Action,
    Moist,
    connection_limit,
    connection_temperature,
    connection_wet_service,
    distance,
)
from ....values.judgment import judgment
from ....values.lumber import read_size
from ...core.wood.material import WoodMaterial, modulus_prime
from ..group import Group, levels
from ..joint import Joint, Part

Array = np.ndarray
Way = Literal["along", "across"]


def _moist(stock: Stock | None, wood: WoodMaterial | None, seasoned: str | None) -> list[tuple[Moist, Moist]]:
    """Every (made, in service) that may come true: what is not known counts with all it might be."""
    wet = wood is None or wood.F_c_perp.C_M.value != 1.0  # wet service, or not shown to be dry: see wood.py
    service: list[Moist] = ["wet"] if wet else ["dry"]
    if wet and (stock is None or stock.moisture != "wet"):
        service = ["wet", "dry"]  # put in green, or not metered: it may dry as well
    made: list[Moist] = ["wet", "dry"] if wet else ["dry"]
    if seasoned is not None:
        made = ["dry" if seasoned == "dry" else "wet"]
    return [(one, other) for one in made for other in service]


def wet_service(group: Group, joint: Joint, action: Action) -> Found[float]:
    """C_M, the lowest over the wood members and over what is not known of their moisture."""
    found = []
    for part in joint.woods:
        for made, service in _moist(part.stock, part.wood, group.anchor.seasoned):
            found.append(connection_wet_service(action, made, service, joint.dowel.D, _one_row(group, part)))
    return min(found, key=lambda one: one.value)


def temperature(joint: Joint) -> Found[float]:
    """C_t, the lowest over the wood members."""
    found = []
    for part in joint.woods:
        wet = part.wood is None or part.wood.F_c_perp.C_M.value != 1.0
        found.append(connection_temperature(part.stock.temperature if part.stock else 70.0, wet))
    return min(found, key=lambda one: one.value)


def _one_row(group: Group, part: Part) -> bool:
    """A single fastener, or one row along the grain of this member (NDS 2018 Table 11.3.3, footnote)."""
    if group.x.size == 1:
        return True
    if part.grain == "turned":  # asked of it as a held piece
        return False
    lines = group.x if part.grain == "across" else group.y
    return not part.end_grain and float(np.ptp(lines)) < 1e-6


def group_action(pad: Pad, group: Group, joint: Joint, k: int, way: Way) -> float:
    """C_g of the row in which fastener k stands, along or across the grain of the held piece.

    A row has its own number of fasteners, and with unlike spacings the largest counts; each fastener has the factor of
    its own row, which is never above the sum over the rows.
    """
    members = _row(group, k, way)
    if not joint.dowel.large or members.size == 1:
        return 1.0
    places = np.sort((group.x if way == "along" else group.y)[members])
    n, s = float(members.size), float(np.max(np.diff(places)))
    metal = any(part.material != "wood" for part in joint.parts)
    gamma = pad(act.load_slip_metal if metal else act.load_slip_wood, D=joint.dowel.D)
    (E_m, A_m), (E_s, A_s) = (_stiff(group, joint, part, way) for part in joint.parts)
    E_m, A_m = pad.take("E_m", E_m, "psi"), pad.take("A_m", A_m, "in2", note=f"gross, {joint.main.name}")
    E_s, A_s = pad.take("E_s", E_s, "psi"), pad.take("A_s", A_s, "in2", note=f"gross, {joint.side.name}")
    u = pad(act.group_u, gamma=gamma, s=s, E_m=E_m, A_m=A_m, E_s=E_s, A_s=A_s)
    R_EA = pad(act.stiffness_ratio, E_m=E_m, A_m=A_m, E_s=E_s, A_s=A_s)
    return float(pad(act.group_action_factor, m=pad(act.group_m, u=u), n=n, R_EA=R_EA))


def _row(group: Group, k: int, way: Way) -> Array:
    """The fasteners in line with k; lines nearer than a quarter of the spacing count as one (11.3.6, staggered)."""
    lines, places = (group.y, group.x) if way == "along" else (group.x, group.y)
    members = np.flatnonzero(np.abs(lines - lines[k]) < 1e-6)
    share = connection_limit("staggered rows counted as one row").value
    every = levels(lines)
    for level in every[np.argsort(np.abs(every - lines[k]))][1:]:
        others = np.flatnonzero(np.abs(lines - level) < 1e-6)
        gaps = np.abs(places[members][:, None] - places[others][None, :])
        a = float(np.min(gaps))  # between the closest fasteners of the two rows, measured along them
        if abs(level - lines[k]) < share * a:
            return np.union1d(members, others)
    return members


def group_action_factors(group: Group, joint: Joint, ways: dict[Way, Array]) -> tuple[Array, dict[Way, Array]]:
    """C_g per fastener and combination, and per way and fastener. `ways`: where the load has a part that way."""
    silent = SilentPad()
    own = {
        way: np.array([group_action(silent, group, joint, k, way) for k in range(group.x.size)])
        for way in ways
    }  # fmt: skip
    least = np.ones(next(iter(ways.values())).shape)
    for way, there in ways.items():
        least = np.where(there, smallest(least, np.broadcast_to(own[way][:, None], least.shape)), least)
    return least, own


def _stiff(group: Group, joint: Joint, part: Part, way: Way) -> tuple[float, float]:
    """Modulus (psi) and gross area (in2) of a member against a load that way; all side members together."""
    planes = 2.0 if joint.two_planes and part is joint.side else 1.0
    if part.material == "steel":
        plate = group.anchor.plate
        assert plate is not None
        return judgment("modulus of a steel side plate").value, planes * plate.thickness * (
            plate.width if way == "along" else plate.length
        )
    if part.material == "concrete":  # as stiff as the wood beside it: the lowest C_g is with the wood's own stiffness
        return _stiff(group, joint, next(iter(joint.woods)), way)
    if part.grain == "into":
        return float(modulus_prime(SilentPad(), group.wood)), part.length * _width(group, joint, way)
    if part.grain == "held":
        E = float(modulus_prime(SilentPad(), group.wood))
        thick = float(group.section.b) - joint.slot
        return E, thick * float(group.section.d) if way == "along" else thick * _width(group, joint, way)
    wood = part.wood or group.wood  # wood that is not known refers in any case
    E, thick = float(modulus_prime(SilentPad(), wood)), (group.anchor.other.thickness if group.anchor.other else 1.0)
    with_grain = (way == "across") == (part.grain == "across") and part.grain not in ("end", "turned")
    if with_grain and part.stock is not None:
        size = read_size(part.stock.size)
        return E, size.b * size.d
    return E, thick * _width(group, joint, way)


def _width(group: Group, joint: Joint, way: Way) -> float:
    """Width of the group square to the load; of a single row the least spacing along the grain (11.3.6.3)."""
    lines = group.y if way == "along" else group.x
    least = distance("spacing", "along", "any").value.least * joint.dowel.D
    return max(float(np.ptp(lines)), least)
