"""The loads of the whole house followed from the top to the ground, all at once: what is put on must come down.

This is a sum of its own beside the checks. They ask piece by piece for the worst pattern of load; here each kind of
load stands everywhere at once, so that what is applied and what arrives at the ends of the path can be compared.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from ...analysis.beams.load_cases import SLIVER, Applied, spans_of
from ...analysis.beams.member_loads import (
    TransferredLoad,
    applied_loads,
    row_places,
    row_stretch,
    self_weight,
)
from ...analysis.beams.solved_beam import BeamSupport, solve_beam
from ...analysis.frames.beam_frame import Section as Stretched
from ...calc.pad import SilentPad
from ...errors import BeamcheckError
from ...model.beams import Beam, beam_length
from ...model.classes import is_frame, is_member
from ...model.existing import Existing
from ...model.posts import Post
from ...model.roofs import Rafter, Tie, slope_length
from ...model.stock import Stock
from ...records import dataclass
from ...values.loads import asd_combinations
from ..beams.beam import BeamRun, section_of
from ..beams.cuts import has_net_section, net_section
from ..beams.rows import placed_rows
from ..core.context import AnyPiece, Context, Structure
from ..core.draft import Reactions
from ..core.wood.material import WoodMaterial, is_unknown, reference_values, wood_of
from .roof_totals import ROUNDING, at_once, put_on_rafters, put_on_tie, tie_length

Kinds = Mapping[str, float]  # lbf by kind of load, down positive, unfactored
Brought = tuple[TransferredLoad, Kinds]


@dataclass(frozen=True)
class Followed:
    """What one support takes: the piece, the number of its support, what carries it, and the force."""

    above: str
    index: int
    below: str
    force: Kinds


@dataclass(frozen=True)
class Trace:
    """`applied`: all that is put on the house, own weights and the further pieces of a row included; `arriving`: what
    comes to the ends of the path. `missing` says why there is no trace; then the rest is empty. `left`: steps onto a
    frame at none of its points, which it does not count.
    """

    applied: Kinds
    arriving: Kinds
    steps: tuple[Followed, ...]
    missing: str = ""
    left: tuple[Followed, ...] = ()

    def totals(self) -> tuple[tuple[str, float, float], ...]:
        """(combination, applied, arriving) for each combination that differs on this house, lbf."""
        here = {kind for kind, force in (*self.applied.items(), *self.arriving.items()) if force}
        found: dict[tuple[tuple[str, float], ...], tuple[str, float, float]] = {}
        for one in asd_combinations():
            factors = {kind: factor for kind, factor in one.factors.items() if factor and kind in here}
            if factors:
                name = " + ".join(kind if factor == 1.0 else f"{factor:g} {kind}" for kind, factor in factors.items())
                found.setdefault(
                    tuple(factors.items()), (name, _factored(factors, self.applied), _factored(factors, self.arriving))
                )
        return tuple(found.values())


def _factored(factors: Kinds, forces: Kinds) -> float:
    return sum(factor * forces.get(kind, 0.0) for kind, factor in factors.items())


class _Lost(Exception):
    """The path cannot be followed, and why."""


def trace(structure: Structure, reactions: Sequence[Reactions]) -> Trace:
    """Follow the loads through the pieces, which come in the order in which they were worked out: from the top."""
    applied, arriving = defaultdict[str, float](float), defaultdict[str, float](float)
    brought: dict[str, list[Brought]] = {}
    steps: list[Followed] = []
    left: list[Followed] = []
    try:
        for handed in reactions:
            piece = structure.pieces.get(handed.name)
            if piece is None or isinstance(piece, (Tie, Existing)) or is_member(piece):
                continue  # a tie is part of its rafters, a member of its frame
            if not handed.rows:
                raise _Lost(f"{handed.name} could not be worked out")
            own, forces = _statics(piece, handed, brought.get(handed.name, []), structure)
            _add(applied, own)
            for index, (row, force) in enumerate(zip(handed.rows, forces, strict=True)):
                under = structure.pieces.get(row.on)
                transfer = handed.transfers[index][1] if index < len(handed.transfers) else None
                if transfer is not None and isinstance(under, Beam):
                    (transfer,) = (placed.transfer for placed in placed_rows(under, [transfer]))
                sides = (
                    2.0 if isinstance(piece, Rafter) and index == 1 and row.on == piece.ridge_on and piece.pair else 1.0
                )
                times = sides * _in_a_row(transfer, under)
                _add(applied, force, times - 1.0)  # the others of the row are loaded alike
                passed = {kind: sides * value for kind, value in force.items()}
                steps.append(Followed(handed.name, index, row.on, passed))
                if transfer is not None and not transfer.point and is_frame(under):
                    left.append(steps[-1])
                if under is None or isinstance(under, Existing):
                    _add(arriving, passed)
                elif isinstance(under, (Rafter, Tie)) or transfer is None:
                    raise _Lost(f"{handed.name} is held by {row.on}, which takes no load of other pieces here")
                else:
                    brought.setdefault(row.on, []).append((transfer, passed))
    except (_Lost, BeamcheckError) as error:
        return Trace({}, {}, (), str(error))
    return Trace(dict(applied), dict(arriving), tuple(steps), left=tuple(left))


def _add(into: defaultdict[str, float], forces: Kinds, times: float = 1.0) -> None:
    for kind, force in forces.items():
        into[kind] += times * force


def _in_a_row(transfer: TransferredLoad | None, under: AnyPiece | None) -> float:
    """How many alike come to a beam from a row of pieces, as the even load that stands for them."""
    if transfer is None or transfer.spread is None or not isinstance(under, Beam):
        return 1.0
    length = beam_length(under)
    if transfer.single:
        return float(len(row_places(transfer, length)))
    start, end = row_stretch(transfer, length)
    return (end - start) / transfer.spread


def _statics(
    piece: AnyPiece, handed: Reactions, given: Sequence[Brought], structure: Structure
) -> tuple[Kinds, list[Kinds]]:
    """What a piece adds of its own, and the force at each of its supports. Of repeated rafters: at those of one."""
    if isinstance(piece, Beam):
        run = structure.runs.get(piece.name)
        if run is None:
            raise _Lost(f"{piece.name} could not be worked out")
        return _beam(run, given)
    if isinstance(piece, Rafter):
        return _rafter(piece, structure)
    if is_frame(piece):
        from .frame_totals import at_its_feet, put_on_frame

        woods = {name: standing_for(structure.stocks[name], "on edge") for name in {one.stock for one in piece.sticks}}
        return _sums(put_on_frame(piece, woods, structure)), list(at_its_feet(handed))
    if isinstance(piece, Post):
        loads = [*applied_loads(piece.carries, piece.height), _post_weight(piece, structure)]
        own = _sums((load.kind, load.total) for load in loads)
    else:
        own = _by_its_row(handed.rows[0].by_kind, given)
        if own.get("D", 0.0) < -ROUNDING * handed.rows[0].by_kind["D"][0]:
            raise _Lost(f"{piece.name} hands on less than what rests on it")
    return own, [_sums([*own.items(), *((kind, force) for _, one in given for kind, force in one.items())])]


def _sums(forces: Iterable[tuple[str, float]]) -> Kinds:
    found: defaultdict[str, float] = defaultdict(float)
    for kind, force in forces:
        found[kind] += force
    return found


def _by_its_row(row: Mapping[str, tuple[float, float]], given: Sequence[Brought]) -> Kinds:
    """What a bracket or a piece of trim adds, from what it says that it hands on: it stands on one support only.

    Every load goes straight through it, so that of each kind what presses and what lifts are sums.
    """

    def whole(kind: str, high: float, low: float) -> float:
        return high + low if kind == "W" else high

    own = {kind: whole(kind, high, low) for kind, (high, low) in row.items()}
    for transfer, _ in given:
        for kind, (high, low) in transfer.forces.items():
            own[kind] = own.get(kind, 0.0) - whole(kind, high if kind == "D" else max(high, 0.0), min(low, 0.0))
    return own


def _post_weight(post: Post, structure: Structure) -> Applied:
    stock = structure.stocks[post.stock]
    size = Context(structure).size(post.stock)
    area = float(section_of(size, "on edge", post.plies).area(SilentPad()))
    return self_weight(float(standing_for(stock, "on edge").density), area, post.height)


def standing_for(stock: Stock, laid: str) -> WoodMaterial:
    """The wood of a stock; where it is not known a candidate, with the weight of the heaviest."""
    if is_unknown(stock):
        from ..core.screening import screening_woods

        return screening_woods(stock, lambda values: wood_of(stock, values, laid=laid))[0][1]
    return wood_of(stock, reference_values(stock), laid=laid, form="beam")


def _beam(run: BeamRun, given: Sequence[Brought]) -> tuple[Kinds, list[Kinds]]:
    """By moments where statics alone decides; else with the stiffness that the checks take, without settlements."""
    length, supports = run.solved.length, run.solved.supports
    first = spans_of(length, [held.x for held in supports])[0]
    middle = 0.5 * (first[0] + first[1])
    own = [replace(load, start=middle, end=middle) if load.moves else load
           for load in run.solved.loads if not load.from_piece]  # fmt: skip
    loads = [*own, *(load for transfer, forces in given for load in _landed(transfer, forces, length))]
    by_kind = {kind: [load for load in loads if load.kind == kind] for kind in dict.fromkeys(x.kind for x in loads)}
    at: list[dict[str, float]] = [{} for _ in supports]
    for kind, of_kind in by_kind.items():
        for index, force in enumerate(_shares(run, of_kind)):
            at[index][kind] = force
    return _sums((load.kind, load.total) for load in own), list(at)


def _landed(transfer: TransferredLoad, forces: Kinds, length: float) -> Iterator[Applied]:
    """Where the checks of the beam put it."""
    if transfer.spread is not None and not transfer.single:
        start, end = row_stretch(transfer, length)
        for kind, force in forces.items():
            w = force / transfer.spread
            yield Applied(kind, start, end, w_start=w, w_end=w, from_piece=True)
        return
    place = 0.5 * length if transfer.at is None else min(transfer.at, length)
    for at in row_places(transfer, length) if transfer.spread is not None else [place]:
        for kind, force in forces.items():
            yield Applied(kind, at, at, P=force, from_piece=True)


def _shares(run: BeamRun, loads: Sequence[Applied]) -> list[float]:
    """The upward force of each support under some loads, lbf."""
    supports = run.solved.supports
    total = sum(load.total for load in loads)
    if len(supports) == 1:
        return [total]
    if len(supports) == 2 and not any(held.kind == "fixed" for held in supports):
        x1, x2 = (held.x for held in supports)
        far = (sum(map(_moment, loads)) - x1 * total) / (x2 - x1)
        return [total - far, far]
    pad, section, GA = SilentPad(), run.section, run.GA
    weaker = [
        Stretched(region.start, region.end, run.E * float(net.I), GA * float(net.A))
        for region in run.regions if has_net_section(section, region.cut) and region.end - region.start > SLIVER
        for net in [net_section(pad, section, region.cut)]
    ]  # fmt: skip
    solved = solve_beam(
        run.solved.length, [BeamSupport(held.x, held.kind) for held in supports],
        [replace(load, kind="D", moves=False) for load in loads],
        depth=float(section.d), EI=run.E * float(section.inertia(pad)), GA_s=GA * float(section.area(pad)),
        sections=weaker,
    )  # fmt: skip
    return [float(force) for force in solved.cases_run.reactions[0, :, 1]]


def _moment(load: Applied) -> float:
    """About the left end, lbf in."""
    if load.is_point:
        return load.P * load.start
    a, b = load.start, load.end
    return (b - a) / 6.0 * (load.w_start * (2.0 * a + b) + load.w_end * (a + 2.0 * b))


def _rafter(rafter: Rafter, structure: Structure) -> tuple[Kinds, list[Kinds]]:
    """One rafter or one pair with its tie; the forces are those of the frame, the loads are summed up beside it."""
    named = structure.pieces.get(rafter.tie) if rafter.tie else None
    tie = named if isinstance(named, Tie) else None
    context = Context(structure)
    from ...analysis.roofs.roof_frame import solve_roof
    from ..roofs.framed_stick import framed

    stick = framed(rafter, standing_for(structure.stocks[rafter.stock], rafter.laid), context)
    other = None if tie is None else framed(tie, standing_for(structure.stocks[tie.stock], tie.laid), context)
    run = solve_roof(rafter, tie, stick.stiff, other.stiff if other else None)
    sticks = 2.0 if rafter.ridge == "board" else 1.0
    loads = [("D", sticks * stick.stiff.w * slope_length(rafter)), *put_on_rafters(rafter, sticks)]
    if tie is not None and other is not None:
        length = tie_length(rafter, tie)
        loads += [("D", other.stiff.w * length), *put_on_tie(rafter, tie, length)]
    return _sums(loads), [at_once(run, 0), at_once(run, 1)]
