"""Forces in a frame in trade words: king post, queen post, scissor, collar tie, braced bent, or free by coordinates.

As in `single.py` this is no verdict: it is statics, both ways of what is not known. No joint is checked, nor anything
out of the plane.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

import numpy as np

from .analysis.frames.structure import Hold
from .analysis.trusses.both_ends import FREE, HELD, FrameForces, StickForces, Worst, frame_forces
from .analysis.trusses.plan import Plan, Stick, Stiffness
from .analysis.trusses.trade_forms import one_way, trade_form
from .checks.core.result import CAUTION, SIGN_OFF
from .errors import OutOfRange, UnknownName
from .formulas.wood.section import rectangle_area, rectangle_inertia
from .records import dataclass
from .units import read, show
from .values.lumber import read_size

Feet = Literal["both ways", "free", "held"]
NOT_LOOKED_AT = (
    "Not looked at: the strength of sticks and joints, anything out of the plane, other combinations of loads, "
    "walls below."
)


@dataclass(frozen=True)
class SolvedFrame:
    """A frame under one combination of loads: the worst over the ways in which its feet and joints may hold."""

    forces: FrameForces

    @property
    def sticks(self) -> tuple[StickForces, ...]:
        """Forces by stick."""
        return self.forces.sticks

    def stick(self, name: str) -> StickForces:
        """One stick by its name."""
        found = {each.name: each for each in self.sticks}
        if name not in found:
            raise UnknownName("stick", name, list(found))
        return found[name]

    def __repr__(self) -> str:
        rows = [f"solved frame; runs: {'; '.join(self.forces.runs)}"]
        for each in self.sticks:
            axial = f"{_axial(each.N.low)} to {_axial(each.N.high)}"
            turned = ", pushes and pulls" if each.changes_sign else ""
            idle = f", opens with {' and '.join(each.idle_in)}" if each.idle_in else ""
            rows.append(f"{each.name}: {axial}, moment up to {show(each.M.size, 'moment')}{turned}{idle}")
        feet = ", ".join(
            f"{foot} {show(up.low, 'force')} to {show(up.high, 'force')}" for foot, up in self.forces.up.items()
        )
        thrust, spread = self.forces.thrust, self.forces.spread
        rows.append(f"upright at the feet: {feet}")
        rows.append(f"thrust on the supports: up to {show(thrust.size, 'force')} ({thrust.size_run})")
        rows.append(f"the feet part by up to {show(max(spread.high, 0.0), 'small length')} ({spread.high_run})")
        factor, run = self.forces.buckling
        rows.append(f"buckles in its plane at {factor:.3g} times these loads ({run}), by elastic theory")
        return "\n  ".join(rows) + f"\n{NOT_LOOKED_AT}\nCaution: {CAUTION}\n{SIGN_OFF}"


def solved_frame(
    form: str, *, size: str, E: object, sizes: Mapping[str, str] | None = None, density: object | None = None,
    on_plan: Mapping[str, object] | None = None, down: Mapping[str, object] | None = None,
    sideways: Mapping[str, object] | None = None, feet: Feet = "both ways", wall_stiffness: object | None = None,
    joint_stiffness: object | None = None, only_push: Sequence[str] = (), only_pull: Sequence[str] = (),
    **measures: object,
) -> SolvedFrame:  # fmt: skip
    """Forces in a frame of a form that the trade has a name for, under one combination of loads.

    A combination has to be solved by itself wherever sticks act one way only: nothing may be added up afterwards.

    Parameters
    ----------
    form : 'king post', 'queen post', 'scissor', 'collar tie' or 'braced bent'
    size, E : str
        Of all sticks: '6x8 dressed', '1600000 psi'; `sizes` names sticks of another size.
    density : str or pint quantity, optional
        Such as '35 pcf': the sticks' own weight is added.
    on_plan : mapping of stick to load
        Load per length of plan, down: {'left rafter': '200 plf'}.
    down, sideways : mapping of point to force
        At points such as 'ridge' or 'foot of the king post'; sideways to the right.
    feet : 'both ways', 'free' or 'held'
        Free: one foot slides, no thrust. A bent's feet are held always.
    wall_stiffness : str or pint quantity, optional
        Of each wall against thrust, such as '2000 lb/in': one more run.
    joint_stiffness : str or pint quantity, optional
        Of the soft run of the joints along posts, struts, braces, collars and at the heels of ties, such as
        '60000 lb/in'; the tight run is made too. Left out, only the tight one is made.
    only_push, only_pull : sequence of str
        Sticks with dry shoulders; rods and straps.
    **measures
        Measures of the form: span, rise, post_from_heel, collar_height, height, brace_on_beam, brace_on_post.

    Returns
    -------
    SolvedFrame

    Raises
    ------
    BeamcheckError
        If a name or unit is wrong, a measure is missing or does not fit, or the frame moves without resistance.
    """
    plan = trade_form(form, {name: float(read(value, "length")) for name, value in measures.items()})
    return _solved(
        plan, size, E, sizes, density, on_plan, down, sideways, feet, wall_stiffness, joint_stiffness, only_push,
        only_pull,
    )  # fmt: skip


def solved_free_frame(
    points: Mapping[str, tuple[object, object]], sticks: Mapping[str, Sequence[str]], *, feet_at: Sequence[str],
    size: str, E: object, sizes: Mapping[str, str] | None = None, density: object | None = None,
    on_plan: Mapping[str, object] | None = None, down: Mapping[str, object] | None = None,
    sideways: Mapping[str, object] | None = None, feet: Feet = "both ways", wall_stiffness: object | None = None,
    joint_stiffness: object | None = None, only_push: Sequence[str] = (), only_pull: Sequence[str] = (),
) -> SolvedFrame:  # fmt: skip
    """Forces in a frame of any form by the coordinates of its points, under one combination of loads.

    Parameters
    ----------
    points : mapping of name to (x, y)
        x to the right, y up: {'ridge': ('12 ft', '8 ft')}.
    sticks : mapping of name to the points it runs through
        Straight, one piece of wood: continuous at inner points, hinged at its ends.
    feet_at : sequence of str
        Points that stand on something, from left to right; with free feet the last one slides.

    The others as for `solved_frame`; the joints of sticks between two points give in the soft run.

    Returns
    -------
    SolvedFrame

    Raises
    ------
    BeamcheckError
        As for `solved_frame`; also a point that no stick reaches, a stick without length or not straight.
    """
    at = {name: (float(read(x, "offset")), float(read(y, "offset"))) for name, (x, y) in points.items()}
    made = tuple(Stick(name, tuple(path), slips=len(path) == 2) for name, path in sticks.items())
    return _solved(
        Plan(at, made, tuple(feet_at)), size, E, sizes, density, on_plan, down, sideways, feet, wall_stiffness,
        joint_stiffness, only_push, only_pull,
    )  # fmt: skip


def _solved(
    plan: Plan, size: str, E: object, sizes: Mapping[str, str] | None, density: object | None,
    on_plan: Mapping[str, object] | None, down: Mapping[str, object] | None, sideways: Mapping[str, object] | None,
    feet: Feet, wall_stiffness: object | None, joint_stiffness: object | None, only_push: Sequence[str],
    only_pull: Sequence[str],
) -> SolvedFrame:  # fmt: skip
    plan = one_way(plan, tuple(only_push), tuple(only_pull))
    names = [stick.name for stick in plan.sticks]
    for name in sizes or {}:
        if name not in names:
            raise UnknownName("stick", name, names)
    rho = 0.0 if density is None else float(read(density, "density"))
    modulus = float(read(E, "stress"))
    if not modulus > 0.0 or rho < 0.0:
        raise OutOfRange("E must be greater than zero, and the density not less", "frame")
    stiffness = {name: _stiffness((sizes or {}).get(name, size), modulus, rho) for name in names}
    forces: dict[str, tuple[float, float]] = {}
    for given, way in ((down, (0.0, -1.0)), (sideways, (1.0, 0.0))):
        for point, P in (given or {}).items():
            x, y = forces.get(point, (0.0, 0.0))
            value = float(read(P, "force"))
            forces[point] = (x + way[0] * value, y + way[1] * value)
    holds: list[tuple[str, Hold]] = [(FREE, False), (HELD, True)]
    if feet not in ("both ways", "free", "held"):
        raise UnknownName("way of the feet", feet, ["both ways", "free", "held"])
    if plan.anchored or feet == "held":
        holds = holds[1:]
    elif feet == "free":
        holds = holds[:1]
    if wall_stiffness is not None:
        if plan.anchored:
            raise OutOfRange("the feet of a bent are held: a wall's stiffness has no place here", "frame")
        holds.append((f"walls of {wall_stiffness}", _positive(wall_stiffness, "wall_stiffness")))
    slips = [np.inf] if joint_stiffness is None else [np.inf, _positive(joint_stiffness, "joint_stiffness")]
    spread = {name: float(read(w, "line load")) for name, w in (on_plan or {}).items()}
    return SolvedFrame(frame_forces(plan, stiffness, on_plan=spread, at_points=forces, holds=holds, slips=slips))


def _positive(value: object, name: str) -> float:
    number = float(read(value, "stiffness"))
    if not number > 0.0:
        raise OutOfRange(f"{name} must be greater than zero: leave it out where there is none", "frame")
    return number


def _stiffness(size: str, E: float, rho: float) -> Stiffness:
    section = read_size(size)
    A = float(rectangle_area(b=section.b, d=section.d))
    EI = E * float(rectangle_inertia(b=section.b, d=section.d))
    return Stiffness(E * A, EI, E / 16 * A / 1.2, rho * A / 1728)


def _axial(N: float) -> str:
    return f"{'pull ' if N > 0.0 else 'push ' if N < 0.0 else ''}{show(abs(N), 'force')}"


__all__ = ["SolvedFrame", "StickForces", "Worst", "solved_frame", "solved_free_frame"]
