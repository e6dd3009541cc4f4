"""A post with its loads, combinations and what buckles: what the checks of a post read."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ...analysis.beams.combinations import Loaded, combine, matrix
from ...analysis.beams.load_cases import DRIES, Applied, Case, cases_for
from ...analysis.beams.member_loads import TransferredLoad, applied_loads, self_weight, transferred_loads
from ...calc.core import Number
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import compression as cp
from ...model.beams import Beam, beam_length
from ...model.posts import Post
from ...model.sticks import Support
from ...records import dataclass
from ...values.factors import length_factor
from ...values.lumber import Size
from ..beams.beam import section_of
from ..core.context import Context
from ..core.wood.govern import at
from ..core.wood.lost import least_section
from ..core.wood.material import WoodMaterial
from .plies import built_up_factor


@dataclass(frozen=True)
class Seat:
    """A beam that rests on the top of the post; sides of the contact in inches, None where the length is not given."""

    beam: str
    length: float | None
    breadth: float
    at_an_end: bool  # the beam does not go on beyond the post


class PostRun:
    """A post with its loads and combinations.

    `flat` is the same wood for bending the thin way, where beam and stringer grades count for less (NDS 2018 4.3.7).
    Plies that are not joined by the rules stand each for itself: `column` is then one ply, with `share` of the load.
    """

    def __init__(self, post: Post, wood: WoodMaterial, flat: WoodMaterial, context: Context) -> None:
        self.post, self.context = post, context
        self.wood, self.flat = wood, flat
        if wood.volume is not None:
            from ..core.wood.made.engineered import pulled_side  # most posts are sawn

            self.wood, self.flat = (pulled_side(one, None, post.height, top=True) for one in (wood, flat))
        self.size: Size = context.size(post.stock)
        self.section = least_section(context.stock(post.stock), section_of(self.size, "on edge", post.plies))
        self.K_f = built_up_factor(post, self.size)
        self.apart = post.plies > 1 and self.K_f is None
        self.column = section_of(self.size, "on edge", 1) if self.apart else self.section
        self.share = 1.0 / post.plies if self.apart else 1.0
        area = float(self.section.area(SilentPad()))
        own = self_weight(float(wood.density), area, post.height, float(wood.dry_density))
        self.loads: list[Applied] = [
            *applied_loads(post.carries, post.height),
            *transferred_loads([_one_of(transfer) for transfer in context.transfers], post.height),
            replace(own, start=0.0, end=0.0, P=own.total),
        ]
        # along a post every load has the same place: its axis. `P_low` is what a load is when it lifts
        axial = [
            Applied(load.kind, 0.0, 0.0, P=load.total, P_low=load.P_low, what=load.what, dries=load.dries)
            for load in self.loads
        ]
        self.cases: list[Case] = cases_for(axial, [(0.0, post.height)], float(self.section.d))
        self.combinations: list[Loaded] = combine(self.cases)
        self.factors = matrix(self.combinations)
        self.P = self.factors @ np.array([sum(load.P for load in case.loads) for case in self.cases])
        self.pressed = np.maximum(self.P, 0.0)

    @property
    def sides(self) -> tuple[float, float]:
        """The deep and the thin side of the whole post; of a round one the square of equal area."""
        if self.section.round:
            side = math.sqrt(float(self.section.area(SilentPad())))
            return side, side
        return float(self.section.d), float(self.section.b)

    def comes_from(self, name: str) -> np.ndarray:
        """(combinations,) what one piece brings, lbf, down positive."""
        by_case = [sum(load.P for load in case.loads if load.what == f"from {name}") for case in self.cases]
        return np.asarray(self.factors @ np.array(by_case))

    def pressed_by(self, name: str) -> np.ndarray:
        """(combinations,) what one piece on the top presses with, lbf."""
        return np.asarray(np.maximum(self.comes_from(name), 0.0))

    def seats(self) -> list[Seat]:
        """The beams that rest on the top."""
        names = dict.fromkeys(transfer.from_piece for transfer in self.context.transfers)
        above = [self.context.structure.pieces.get(name) for name in names]
        found = []
        for beam in (piece for piece in above if isinstance(piece, Beam)):
            b = float(section_of(self.context.size(beam.stock), beam.laid, beam.plies).b)
            found += [
                Seat(beam.name, support.bearing, min(b, support.bearing_width or b), _at_an_end(beam, support))
                for support in beam.supports if support.on == self.post.name and support.holds == "rests"
            ]  # fmt: skip
        return found

    def by_kind(self) -> dict[str, tuple[float, float]]:
        """Largest and least force of each kind at the foot, unfactored, lbf, down positive.

        A load that may be absent presses with nothing at least, and lifts with nothing at most.
        """
        found: dict[str, tuple[float, float]] = {}
        for case in self.cases:
            force = sum(load.P for load in case.loads)
            if case.kind == DRIES:  # the water of green wood may be gone one day
                high, low = found["D"]
                found["D"] = (high + max(-force, 0.0), low + min(-force, 0.0))
                continue
            high, low = found.get(case.kind, (force, force) if case.kind == "D" else (0.0, 0.0))
            found[case.kind] = (max(high, force), min(low, force))
        return found


def _at_an_end(beam: Beam, support: Support) -> bool:
    """Whether a seat lies at an end of the beam: it does not go on further than the seat is long."""
    beyond = support.bearing
    return beyond is not None and (support.at < beyond or beam_length(beam) - support.at < beyond)


def _one_of(transfer: TransferredLoad) -> TransferredLoad:
    """Repeated pieces (rafters) come to a post as one of them: a post is no line on which they could be spread."""
    return replace(transfer, spread=None)


def force(run: PostRun, pad: Pad, which: int | slice) -> Number:
    note = "all that arrives, own weight included" + (", the share of one ply" if run.apart else "")
    return pad.take("P", at(run.pressed * run.share, which), "lbf", note=note)


def lengths(run: PostRun, pad: Pad) -> tuple[float, float]:
    """Effective lengths the deep way and the thin way. An end said to be fixed counts as hinged."""
    post = run.post
    K_e = length_factor("pinned", "pinned")
    fixed = "fixed" in (post.top_restraint, post.base_restraint)
    note = "an end said to be fixed counts as hinged: its fixity is not shown" if fixed else "hinged at both ends"
    k = pad.take("K_e", K_e.value, clause="NDS 2018 Appendix G", note=note, source=K_e.source)
    strong, weak = (min(length or post.height, post.height) for length in (post.braced_strong, post.braced_weak))
    return (
        float(pad(cp.effective_length_column, symbol="l_e1", K_e=k, l=strong)),
        float(pad(cp.effective_length_column, symbol="l_e2", K_e=k, l=weak)),
    )


def column_wood(run: PostRun) -> WoodMaterial:
    """With the E_min of flat use, which is never more: buckling the thin way bends the piece on the flat."""
    return replace(run.wood, E_min=run.flat.E_min)
