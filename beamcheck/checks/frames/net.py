"""What is left of a member of a frame where joints and cuts take wood away, with the forces that pass there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, pairwise

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...calc.pad import Pad
from ...formulas.wood import bending as bd
from ...formulas.wood import combined as cb
from ...formulas.wood import compression as cp
from ...model.sticks import Cut
from ...units import show
from ..beams.cuts import cut_checks, has_net_section, net_section, regions, void_of
from ..core.asking.question import ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.group_cut import GroupCut
from ..core.wood.material import bending_star, compression_star, tension_prime
from ..core.wood.sticks import FROM_FRAME
from ..core.wood.strength import Outcome
from .member import MadeOf

NET = "NDS 2018 3.1.2, 3.9"


def net_checks(made: MadeOf, solved: SolvedFrame, cuts: Sequence[GroupCut | Cut]) -> Iterator[Check]:
    """At each cut tension or compression on what is left, with the bending there and that of the shifted middle."""
    member = made.member
    if made.section.round:
        return
    for cut in cuts:
        half = 0.5 * max(cut.length, cut.depth if isinstance(cut, Cut) and cut.kind == "hole" else 0.0)
        start, end = max(cut.at - half, 0.0), min(cut.at + half, member.length)
        words = cut.words if isinstance(cut, GroupCut) else f"{cut.kind} at {show(cut.at, 'length')}"
        if not has_net_section(made.section, cut):
            forces = {"pushes": float(np.max(solved.members[member.stick].pressed)),
                      "pulls": float(np.max(solved.members[member.stick].pulled))}  # fmt: skip
            asked = ask("frame_cut", f"{member.name}: {words}", of_member=member.name, forces=forces)
            text = "what is left there has no section that can be counted here"
            yield Check.refers("frame.net", member.name, f"net section, {words}", NET, text, ask=asked)
            continue
        yield _left(made, solved, cut, (start, end), words)


def cut_rules(made: MadeOf, solved: SolvedFrame) -> Iterator[Check]:
    """Where cuts of the job file lie and how deep: a frame gives no rule that lets notches pass."""
    member = made.member
    if not member.cuts or made.section.round:
        return
    ends = [0.0, *accumulate(solved.members[member.stick].panels)]
    found = regions(member.cuts, member.length, None, None)
    yield from cut_checks(member.name, found, made.section, list(pairwise(ends)), (), single_span=False,
                          pulled=[()] * len(found))  # fmt: skip


def _left(made: MadeOf, solved: SolvedFrame, cut: GroupCut | Cut, there: tuple[float, float], words: str) -> Check:
    N_low, N_high = solved.between(made.member.stick, "N", *there)
    M_low, M_high = solved.between(made.member.stick, "M", *there)
    pulled, pressed = np.maximum(N_high, 0.0), np.maximum(-N_low, 0.0)
    moments = np.maximum(np.abs(M_low), np.abs(M_high))
    shift = _shift(made, cut)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        net = net_section(pad, made.section, cut)
        C_D = duration(pad, solved.combinations, which)
        T = pad.take("T", at(pulled, which), "lbf", note=FROM_FRAME)
        P = pad.take("P", at(pressed, which), "lbf", note=FROM_FRAME)
        M = pad.take("M", at(moments + shift * np.maximum(pulled, pressed), which), "lbf*in",
                     note=f"there, and the force off the middle of what is left by {shift:.3g} in")  # fmt: skip
        f_b = pad(bd.bending_stress, M=M, S=net.S)
        F_b_star = bending_star(pad, made.wood, C_D)
        f_t, F_t = pad(cb.tension_stress, T=T, A_n=net.A), tension_prime(pad, made.wood, C_D)
        pull = pad(cb.bending_and_tension, f_t=f_t, F_t_prime=F_t, f_b=f_b, F_b_star=F_b_star)
        f_c, F_c = pad(cp.compression_stress, P=P, A=net.A), compression_star(pad, made.wood, C_D)
        push = pad(cb.bending_and_compression_added, f_c=f_c, F_c_star=F_c, f_b=f_b, F_b_star=F_b_star)
        ratio = np.maximum(pull, push)  # pulled or pressed, each with bending
        return Outcome(ratio, 1.0, ratio)

    criterion = Criterion(made.member.name, f"net section, {words}", NET, "ratio", id="frame.net")
    return govern(criterion, solved.combinations, calculate)


def _shift(made: MadeOf, cut: GroupCut | Cut) -> float:
    """How far the middle of what is left lies off that of the whole section, inches."""
    d = float(made.section.d)
    if isinstance(cut, Cut):
        if cut.kind in ("notch", "taper"):
            return 0.5 * cut.depth
        b_v, d_v, y_v = void_of(made.section, cut)
        return abs(y_v - 0.5 * d) * b_v * d_v / (float(made.section.b) * d - b_v * d_v)
    b_n = float(made.section.b) - cut.width
    lost = sum(void.breadth * void.height for void in cut.voids)
    off = sum(void.breadth * void.height * (void.y - 0.5 * d) for void in cut.voids)
    return abs(off) / (b_n * d - lost) if b_n * d > lost else 0.0
