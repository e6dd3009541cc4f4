"""A member of a frame in a fire: its checks made of what is left of it, under the forces of the whole frame."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ...analysis.trusses.record import MemberForces, SolvedFrame
from ..core.result import Check
from ..core.unsaid import with_unsaid
from ..core.wood import burnt
from .member import MadeOf, address, member_checks


def fire_checks(made: MadeOf, solved: SolvedFrame, in_plane: tuple[float, str], *, leans: bool) -> Iterator[Check]:
    """Nothing for a member of which no fire is asked."""
    member, fire = made.member, made.member.fire
    if fire is None:
        return
    checks, left = burnt.begin(member.name, "frame", fire, made.section, address(member))
    yield from checks
    if left is None:
        return
    why = "Joints, steel and cuts of a frame in a fire are not worked out here, and each member hangs on the others."
    yield burnt.not_worked_out(member.name, fire, why, why, "its joints in the fire")
    burns = replace(made, member=burnt.with_its_bracing(member, fire), size=burnt.left_as_size(made.size, left.section),
                    section=left.section, wood=burnt.burning_wood(made.wood))  # fmt: skip
    forces = _without_wind(solved.members[member.stick], burnt.without_wind(solved.combinations))
    found = member_checks(burns, forces, burnt.without_duration(solved.combinations), in_plane, leans=leans)
    asked_bracing = burnt.bracing_asked(member.name, "frame", fire, address(member))
    for check in with_unsaid([one for one in found if one.ratio is not None], asked_bracing):
        if check.id == "frame.shear":
            yield burnt.without_a_factor(check, "fire.shear", left)
        else:
            yield from burnt.in_the_fire([check], "fire.frame", left)


def _without_wind(forces: MemberForces, counts: Sequence[float] | np.ndarray) -> MemberForces:
    times = np.asarray(counts)[:, None]
    return replace(
        forces, N_low=forces.N_low * times, N_high=forces.N_high * times, V=forces.V * times,
        M_low=forces.M_low * times, M_high=forces.M_high * times,
    )  # fmt: skip
