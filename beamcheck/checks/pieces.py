"""The pieces of a job from the top of the house down, each handing its reactions to what carries it."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import field, replace
from itertools import chain
from typing import TYPE_CHECKING, Any, TypeAlias

from ..analysis.beams.member_loads import TransferredLoad
from ..analysis.site.areas import NO_AREAS, Areas
from ..model.beams import Beam
from ..model.classes import is_bracket, is_frame, is_trim
from ..model.existing import Existing
from ..model.fields.base import Piece
from ..model.job import Job
from ..model.posts import Post
from ..model.roofs import Rafter, Tie
from ..model.stock import Stock
from ..records import dataclass
from .beams.moving_supports import Sinks, sinks_of
from .beams.result import beam_result
from .core.context import AREAS, HEAD, JOINTS, JOINTS_OF, MOVEMENT, Context, Joints, NoJoints, Structure
from .core.draft import Reactions
from .core.result import PieceResult
from .core.watched import Entries, Log, Watched
from .core.wood.govern import drawing, writing
from .loadpath.roles import Way, in_its_role, role_checks, ways_of
from .loadpath.shared_capacity import shared_capacity_checks

if TYPE_CHECKING:
    from ..model.brackets.bracket import Bracket, Trim
    from ..model.frames.frame import Frame, FrameStick

Carrying: TypeAlias = "Beam | Rafter | Post | Bracket | Trim | Frame"
Done = tuple[PieceResult, Reactions]
KEPT = 64  # results of one piece that are kept for the next time
FORMED = ("beam", "rafter", "tie", "post")  # kinds of piece whose loads may follow from the site
_WATCHED = ("stocks", "pieces", "anchors", "runs", "verdicts", "stiffness", "heads")


@dataclass(frozen=True)
class _Kept:
    """How one piece was worked out before: from what, and what came of it."""

    piece: Carrying
    transfers: tuple[TransferredLoad, ...]
    sinks: Sinks
    log: Log
    done: list[Done]
    groups: dict[str, list[Any]]
    written: bool  # with its steps
    drawn: bool  # with its drawing and tables


@dataclass
class Memory:
    """Results of pieces for the next run of a job that differs in little: each holds while all that it read does."""

    kept: dict[str, list[_Kept]] = field(default_factory=dict)
    worked_out: int = 0  # how many pieces were really worked out
    pieces: int = 0  # of the job that is run
    entries: dict[str, dict[str, list[Any]]] = field(default_factory=dict)  # of jobs, by table and name, newest first
    before_each: Callable[[str], None] = lambda _: None  # is told the name of a piece to be worked out; may raise
    before_question: Callable[[int, int], None] = lambda *_: None  # is told which of how many is tried
    formed: list[tuple[Job, Job, Areas]] = field(default_factory=list)  # jobs before and after their loads were formed

    def known(self, job: Job) -> Job:
        """The same job, made of entries that were met before where they are equal: what is the same is found again."""
        met: dict[str, Any] = {"job": self._met("job", job.job)}
        for kind in type(job).model_fields.keys() - met.keys():
            value = getattr(job, kind)
            one_of = isinstance(value, Piece)  # the site, of which a job has one
            met[kind] = self._met(kind, value) if one_of else value and tuple(self._met(kind, one) for one in value)
        return job.model_copy(update=met)

    def _met(self, kind: str, entry: Any) -> Any:
        met = self.entries.setdefault(kind, {}).setdefault(str(getattr(entry, "name", "")), [])
        same = next((one for one in met if one is entry), None) or next((one for one in met if one == entry), None)
        if same is None:
            met.insert(0, entry)
            del met[KEPT:]
        return entry if same is None else same

    def with_loads(self, job: Job) -> tuple[Job, Areas]:
        """The job in which pieces carry what follows from the site; what was met before is the same object again."""
        if not job.roof and not job.floor:
            return job, NO_AREAS
        from ..analysis.site.pieces import areas_of, with_formed_loads

        places = (job.site, *job.roof, *job.floor)
        before = next((one for one in self.formed if _same((one[0].site, *one[0].roof, *one[0].floor), places)), None)
        areas = before[2] if before is not None else areas_of(job.site, job.roof, job.floor)
        done = (
            {}
            if before is None
            else {
                id(old): new
                for kind in FORMED
                for old, new in zip(getattr(before[0], kind), getattr(before[1], kind), strict=True)
            }
        )
        update = {
            kind: tuple(done.get(id(piece)) or with_formed_loads(piece, areas) for piece in getattr(job, kind))
            for kind in FORMED
        }
        made = job.model_copy(update=update)
        if before is None or all(len(getattr(job, kind)) >= len(getattr(before[0], kind)) for kind in FORMED):
            self.formed.insert(0, (job, made, areas))  # a part of a job holds nothing that is not known
            del self.formed[KEPT:]
        return made, areas

    def find(
        self, piece: Carrying, transfers: tuple[TransferredLoad, ...], sinks: Sinks, shared: dict[str, Any]
    ) -> _Kept | None:
        for one in self.kept.get(piece.name, ()):
            if one.piece is not piece or (writing() and not one.written) or (drawing() and not one.drawn):
                continue
            if one.transfers == transfers and one.sinks == sinks and one.log.holds(shared):
                return one
        return None

    def keep(self, name: str, one: _Kept) -> None:
        entries = self.kept.setdefault(name, [])
        entries.insert(0, one)
        del entries[KEPT:]


@dataclass(frozen=True, eq=False)
class Run:
    """A job that was run: every piece and anchor group, in the order of the file, and what they handed on."""

    job: Job
    structure: Structure
    results: tuple[PieceResult, ...]
    reactions: tuple[Reactions, ...]
    ways: tuple[Way, ...]


def run_pieces(job: Job, memory: Memory | None = None, left_out: frozenset[str] = frozenset()) -> Run:
    """Check every piece of a job whose pieces fit together; of a part of a job, from which some names were left out.

    Beams whose forces depend on how far the beams under them come down are solved on supports that stand still first;
    then all is run once more, with what the beams below give under them. Each check is the worse of both: what a
    carrier hands on is one end of a range, and further on the other end may be worse.

    Raises
    ------
    LookedBeyond
        If what was left out decides about what is there.
    """
    job, areas = (memory or Memory()).with_loads(job)
    still = _run(job, areas, memory, {}, left_out)
    sinks = sinks_of(job.beam, still.structure)
    if not sinks:
        return still
    run = _run(job, areas, memory, sinks, left_out)
    return replace(run, results=tuple(map(_worse, run.results, still.results)))


def _worse(result: PieceResult, other: PieceResult) -> PieceResult:
    """The result, in which each check is the worse of the same one in both."""
    if result is other:
        return result
    before = {(check.id, check.what, check.where): check for check in other.checks}
    known = {(check.id, check.what, check.where) for check in result.checks}
    checks = [
        min(check, before.get((check.id, check.what, check.where), check), key=lambda one: one.rank)
        for check in result.checks
    ]
    checks += (check for key, check in before.items() if key not in known and not check.holds)
    return result if tuple(checks) == result.checks else result.with_checks(tuple(checks))


def _same(some: Sequence[Any], others: Sequence[Any]) -> bool:
    return len(some) == len(others) and all(one is other for one, other in zip(some, others, strict=True))


def _run(
    job: Job, areas: Areas, memory: Memory | None, sinks: Mapping[str, Sinks], left_out: frozenset[str]
) -> Run:  # fmt: skip
    pieces: tuple[Carrying | Tie, ...] = (*job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim)
    members = job.members
    everything: tuple[Carrying | Tie | Existing | FrameStick, ...] = (
        *pieces, *job.existing, *job.frame, *members.values()
    )  # fmt: skip
    structure = Structure(
        {stock.name: stock for stock in job.stock}, Entries({piece.name: piece for piece in everything}, left_out),
        Entries({anchor.name: anchor for anchor in job.anchor}, left_out),
        heads={HEAD: job.job, AREAS: areas, JOINTS: job.joint, MOVEMENT: job.movement, **_joints_by_frame(job)},
        joints=joints_of(job),
    )  # fmt: skip
    if memory is not None and not left_out:
        memory.pieces = len(pieces)
    transfers: dict[str, list[TransferredLoad]] = {}
    results: dict[str, PieceResult] = {}
    groups: dict[str, list[PieceResult]] = {}
    reactions: list[Reactions] = []
    for piece in from_the_top(job):
        come = tuple(transfers_to(piece, transfers.get(piece.name, ())))
        for result, handed in _done(piece, structure, come, memory, sinks.get(piece.name, {})):
            results[result.name] = result
            for anchor in handed.anchors:
                groups.setdefault(anchor.name, []).append(anchor)
            if result.kind != "joint":  # a joint hands nothing on, its frame does
                reactions.append(handed)
            for under, transfer in handed.transfers:
                transfers.setdefault(under, []).append(transfer)
    ways = ways_of(job, reactions)
    roles = role_checks(job, reactions, ways)
    for name, checks in shared_capacity_checks(job, reactions).items():
        roles.setdefault(name, []).extend(checks)
    by_name = {piece.name for piece in pieces}  # the others are frames, their members and their joints
    ordered = (
        *(in_its_role(results[piece.name], piece, roles.get(piece.name, ())) for piece in pieces),
        *(results[name] for name in results if name not in by_name),
        *_of_anchors(job, groups),
        *_of_joints(job, structure, groups),
    )
    if job.movement or job.job.air is not None:
        from .movement.parts import with_movement

        ordered = tuple(with_movement(result, job) for result in ordered)
    return Run(job, structure, ordered, tuple(reactions), tuple(ways))


def _done(
    piece: Carrying, structure: Structure, come: tuple[TransferredLoad, ...], memory: Memory | None, sinks: Sinks
) -> list[Done]:  # fmt: skip
    """The piece worked out, or taken from memory; either way what it leaves for others stands in the structure."""
    if memory is None:
        return results_of(piece, Context(structure, come, sinks))
    shared = {which: getattr(structure, which) for which in _WATCHED}
    known = memory.find(piece, come, sinks, shared)
    if known is None:
        memory.before_each(piece.name)
        log, groups = Log(), dict[str, list[Any]]()
        own = Structure(**{which: Watched(which, shared[which], log) for which in _WATCHED}, groups=groups,
                        joints=structure.joints)  # fmt: skip
        known = _Kept(piece, come, sinks, log, results_of(piece, Context(own, come, sinks)), groups,
                      writing(), drawing())  # fmt: skip
        memory.keep(piece.name, known)
        memory.worked_out += 1
    else:
        for (which, name), value in known.log.writes.items():
            shared[which][name] = value
    for name, found in known.groups.items():
        structure.groups.setdefault(name, []).extend(found)
    return known.done


def _joints_by_frame(job: Job) -> dict[str, tuple[Any, ...]]:
    """The [[joint]] entries of a job under the frame that each names."""
    found: dict[str, tuple[Any, ...]] = {}
    for joint in getattr(job, "joint", ()):
        key = f"{JOINTS_OF}{joint.in_frame}"
        found[key] = (*found.get(key, ()), joint)
    return found


def joints_of(job: Job) -> Joints:
    """What answers for the anchor groups of a job; most beams have none, and much hangs on those files."""
    if not job.anchor:
        return NoJoints()
    from .anchors.joints import AnchorGroups

    return AnchorGroups()


def _of_anchors(job: Job, groups: Mapping[str, list[PieceResult]]) -> Iterator[PieceResult]:
    """Each anchor group with its worst result."""
    if not job.anchor:
        return
    from .anchors.results import held_by_nobody, worst_result

    for anchor in job.anchor:
        yield worst_result(groups.get(anchor.name) or [held_by_nobody(anchor)])


def _of_joints(job: Job, structure: Structure, groups: Mapping[str, list[PieceResult]]) -> Iterator[PieceResult]:
    """The joints in the order of the file: of posts as these were worked out, and those whose forces are stated."""
    if not job.joint:
        return
    from .joints.results import not_worked_out, stated_result

    for joint in job.joint:
        if joint.in_frame is None and joint.post is None:
            yield stated_result(joint, Context(structure))
        elif joint.post is not None:
            found = groups.get(joint.name)
            yield found[0] if found else not_worked_out(joint, f"{joint.post} could not be worked out")


def transfers_to(piece: Carrying, transfers: Sequence[TransferredLoad]) -> Iterator[TransferredLoad]:
    """The loads of other pieces. A bracket is no line on which a row could be spread: one of the row comes to it."""
    for transfer in transfers:
        yield replace(transfer, spread=None) if is_bracket(piece) or is_trim(piece) else transfer


def results_of(piece: Carrying, context: Context) -> list[Done]:
    """The result of a piece, and of the tie that belongs to it; of surveyed timber with what its survey says."""
    done = [(_of_a_fire(result, context), handed) for result, handed in _results_of(piece, context)]
    if not any(_survey_of(result, context) for result, _ in done):
        return done
    from .survey.timber import with_survey

    air = context.structure.air

    def surveyed(result: PieceResult) -> PieceResult:
        stock = _survey_of(result, context)
        return result if stock is None else with_survey(result, stock, context.under(result.name), air)

    found = [(surveyed(result), handed) for result, handed in done]
    for result, _ in found:
        if result.name in context.structure.verdicts:
            context.structure.verdicts[result.name] = result.verdict
    return found


def _survey_of(result: PieceResult, context: Context) -> Stock | None:
    """The stock of a stick that was surveyed."""
    name = getattr(context.structure.pieces.get(result.name), "stock", None)
    stock = None if name is None else context.stock(name)
    return stock if stock is not None and stock.survey is not None else None


def _of_a_fire(result: PieceResult, context: Context) -> PieceResult:
    """What is left out of the checks of a piece that must stand a fire."""
    if getattr(context.structure.pieces.get(result.name), "fire", None) is None:
        return result
    from .core.wood.burnt import SAID

    return replace(result, assumptions=(*result.assumptions, SAID))


def _results_of(piece: Carrying, context: Context) -> list[Done]:
    """A kind of piece that a job has not is not loaded."""
    if isinstance(piece, Beam):
        return [beam_result(piece, context)]
    if isinstance(piece, Post):
        from .posts.result import post_result

        return [post_result(piece, context)]
    if is_bracket(piece):
        from .brackets.bracket import bracket_results

        return [bracket_results(piece, context)]
    if is_trim(piece):
        from .brackets.trim.trim import trim_result

        return [trim_result(piece, context)]
    if is_frame(piece):
        from .frames.result import frame_results

        return frame_results(piece, context)
    from .roofs.result import roof_results

    return roof_results(piece, context)


def from_the_top(job: Job) -> list[Carrying]:
    """Pieces in an order in which each comes after all that rests on it. Links were checked: there is no circle.

    A bracket, a post or trim also waits for the beam above it, whose sag it asks for, and for those on which that
    stands, unless one of them in turn waits for it.
    """
    every: tuple[Carrying, ...] = (*job.frame, *job.rafter, *job.beam, *job.post, *job.bracket, *job.trim)
    pieces = {piece.name: piece for piece in every}
    below = {name: [under for under in carriers_of(piece) if under in pieces] for name, piece in pieces.items()}
    watched: dict[str, list[str]] = {}  # what looks at a beam above it
    watching: tuple[Bracket | Post | Trim, ...] = (*job.bracket, *job.post, *job.trim)
    for one in watching:
        if one.near is not None and one.near.beam in pieces:
            for beam in _with_beams_below(one.near.beam, pieces):
                watched.setdefault(beam, []).append(one.name)
    loads = Counter(chain.from_iterable(below.values()))  # how many that rest on it are still to come
    looks = Counter(chain.from_iterable(watched.values()))
    ordered: dict[str, None] = {}
    ready = deque(name for name in pieces if not loads[name] and not looks[name])
    while len(ordered) < len(pieces):
        if not ready:  # only such are left whose beam waits for them: they do without it
            ready.append(next(name for name in pieces if name not in ordered and not loads[name]))
        name = ready.popleft()
        ordered[name] = None
        for under in below[name]:
            loads[under] -= 1
        for other in watched.get(name, ()):
            looks[other] -= 1
        freed = dict.fromkeys((*below[name], *watched.get(name, ())))
        ready.extend(other for other in freed if not loads[other] and not looks[other] and other not in ordered)
    return [pieces[name] for name in ordered]


def _with_beams_below(name: str, pieces: Mapping[str, Carrying]) -> Iterator[str]:
    """A beam and all beams that carry it: where it comes down depends on all of them."""
    seen, todo = {name: None}, [name]
    while todo:
        for under in carriers_of(pieces[todo.pop()]):
            if isinstance(pieces.get(under), Beam) and under not in seen:
                seen[under] = None
                todo.append(under)
    yield from seen


def carriers_of(piece: Carrying) -> list[str]:
    if isinstance(piece, Beam):
        return [support.on for support in piece.supports]
    if isinstance(piece, Rafter):
        return [piece.wall.on, *filter(None, (piece.ridge_on, piece.other_wall))]
    if is_frame(piece):
        return [foot.on for foot in piece.feet]
    return [piece.on]
