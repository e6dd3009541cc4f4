"""The whole job: pieces from the top of the house down, each handing its reactions to what carries it."""

from __future__ import annotations

import hashlib
from collections import Counter, deque
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain, starmap

from ..analysis.beams.member_loads import TransferredLoad
from ..errors import JobError
from ..model.brackets import Bracket, Trim
from ..model.links import check_links
from ..model.pieces import Beam, Existing, Job, Post, Rafter, Tie
from ..units import show, shown_in
from ..values.combinations import asd_combinations
from ..values.factors import load_duration
from ..version import VERSION
from .anchors.group import Group
from .anchors.results import held_by_nobody, worst_result
from .beams.result import beam_result, post_result
from .brackets.trim import trim_result
from .core.context import Context, Structure
from .core.draft import Reactions
from .core.pictures import Label
from .core.plausible import job_doubts
from .core.result import Check, JobResult, PieceResult, Table, Verdict, worst
from .core.summary import by_gravity
from .loadpath.load_path import load_path, load_path_table, totals_table
from .loadpath.roles import faults_of, in_its_role, role_checks, ways_of
from .roofs.result import roof_results

NOTHING = "The job has no beams, rafters, ties or posts: nothing was checked."
Carrying = Beam | Rafter | Post | Bracket | Trim


def check_job(job: Job, *, text: str = "", name: str = "job", units: str | None = None) -> JobResult:
    """Check every piece of a job.

    Parameters
    ----------
    job : Job
    text, name : str
        The job file as written and its name, kept with the result so that it can be checked again.
    units : 'US', 'SI' or None
        Units of the words in the result; None is what the job asks for.

    Returns
    -------
    JobResult
        Beams, rafters, ties, posts and anchor groups, each kind in the order of the file. A job without pieces is
        `refer`: nothing was checked.

    Raises
    ------
    JobError
        If the pieces do not fit together: a name that is missing or used twice, pieces that rest on each other in a
        circle. A job that was read from a file has been looked through already.
    """
    if problems := check_links(job):
        raise JobError(name, problems)
    system = units or job.job.units
    with shown_in(system):
        return _check(job, text, name, system)


def anchor_groups(job: Job) -> dict[str, list[Group]]:
    """The anchor groups of a job by name, each at every end that it holds, with the forces that come to it.

    Raises
    ------
    JobError
        As `check_job`.
    """
    if problems := check_links(job):
        raise JobError("job", problems)
    found: dict[str, list[Group]] = {}
    _check(job, "", "job", "US", found)
    return found


def _check(job: Job, text: str, name: str, system: str, collected: dict[str, list[Group]] | None = None) -> JobResult:
    pieces: tuple[Carrying | Tie, ...] = (*job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim)
    everything: tuple[Carrying | Tie | Existing, ...] = (*pieces, *job.existing)
    structure = Structure(
        {stock.name: stock for stock in job.stock}, {piece.name: piece for piece in everything},
        {anchor.name: anchor for anchor in job.anchor}, {} if collected is None else collected,
    )  # fmt: skip
    transfers: dict[str, list[TransferredLoad]] = {}
    results: dict[str, PieceResult] = {}
    groups: dict[str, list[PieceResult]] = {}
    reactions: list[Reactions] = []
    for piece in from_the_top(job):
        for result, handed in results_of(
            piece, Context(structure, tuple(transfers_to(piece, transfers.get(piece.name, ()))))
        ):
            results[result.name] = result
            for anchor in handed.anchors:
                groups.setdefault(anchor.name, []).append(anchor)
            reactions.append(handed)
            for under, transfer in handed.transfers:
                transfers.setdefault(under, []).append(transfer)
    ways = ways_of(job, reactions)
    roles = role_checks(job, reactions, ways)
    ordered = (
        *(in_its_role(results[piece.name], piece, roles.get(piece.name, ())) for piece in pieces),
        *(worst_result(groups.get(anchor.name) or [held_by_nobody(anchor)]) for anchor in job.anchor),
    )
    path, followed = load_path(job, structure, reactions, ordered)
    wrong = tuple(fault.text for fault in faults_of(job, ways))
    doubts = job_doubts(job)
    verdicts: list[Verdict] = [piece.verdict for piece in ordered]
    if doubts:
        verdicts.append("refer")
    return JobResult(
        title=job.job.title,
        verdict=worst(verdicts),
        reasons=(*wrong, *_reasons(ordered, wrong), *doubts),
        pieces=ordered,
        about=tuple(starmap(Label, _about(job))),
        tables=(load_path_table(job, reactions), totals_table(followed), _combinations_table()),
        job_text=text,
        job_name=name,
        fingerprint=hashlib.sha256(text.encode()).hexdigest(),
        version=VERSION,
        units=system,
        invented=job.job.invented,
        path=path,
    )


def transfers_to(piece: Carrying, transfers: Sequence[TransferredLoad]) -> Iterator[TransferredLoad]:
    """The loads of other pieces. A bracket is no line on which a row could be spread: one of the row comes to it."""
    for transfer in transfers:
        yield replace(transfer, spread=None) if isinstance(piece, (Bracket, Trim)) else transfer


def results_of(piece: Carrying, context: Context) -> list[tuple[PieceResult, Reactions]]:
    """The result of a piece, and of the tie that belongs to it."""
    if isinstance(piece, Beam):
        return [beam_result(piece, context)]
    if isinstance(piece, Post):
        return [post_result(piece, context)]
    if isinstance(piece, Bracket):
        from .brackets.bracket import bracket_results  # most jobs have no brackets, and much hangs on that file

        return [bracket_results(piece, context)]
    if isinstance(piece, Trim):
        return [trim_result(piece, context)]
    return roof_results(piece, context)


def from_the_top(job: Job) -> list[Carrying]:
    """Pieces in an order in which each comes after all that rests on it. Links were checked: there is no circle.

    A bracket also waits for the beam above it, whose sag it asks for, unless that beam in turn waits for the bracket.
    """
    every: tuple[Carrying, ...] = (*job.rafter, *job.beam, *job.post, *job.bracket, *job.trim)
    pieces = {piece.name: piece for piece in every}
    below = {name: [under for under in carriers_of(piece) if under in pieces] for name, piece in pieces.items()}
    watched: dict[str, list[str]] = {}  # the brackets that look at a beam
    for bracket in job.bracket:
        if bracket.near is not None and bracket.near.beam in pieces:
            watched.setdefault(bracket.near.beam, []).append(bracket.name)
    loads = Counter(chain.from_iterable(below.values()))  # how many that rest on it are still to come
    looks = Counter(chain.from_iterable(watched.values()))
    ordered: dict[str, None] = {}
    ready = deque(name for name in pieces if not loads[name] and not looks[name])
    while len(ordered) < len(pieces):
        if not ready:  # only brackets are left whose beam rests on what they are fixed to: they do without it
            ready.append(next(name for name in pieces if name not in ordered and not loads[name]))
        name = ready.popleft()
        ordered[name] = None
        for under in below[name]:
            loads[under] -= 1
        for bracket_name in watched.get(name, ()):
            looks[bracket_name] -= 1
        freed = dict.fromkeys((*below[name], *watched.get(name, ())))
        ready.extend(one for one in freed if not loads[one] and not looks[one] and one not in ordered)
    return [pieces[name] for name in ordered]


def carriers_of(piece: Carrying) -> list[str]:
    if isinstance(piece, Beam):
        return [support.on for support in piece.supports]
    if isinstance(piece, Rafter):
        return [piece.wall.on, *([piece.ridge_on] if piece.ridge_on else [])]
    return [piece.on]


def _reasons(pieces: tuple[PieceResult, ...], said: Sequence[str]) -> Iterator[str]:
    """One plain sentence for each piece that keeps the job from passing: what decides about it, and how much more.

    Checks whose sentence has been `said` already do not count.
    """
    if not pieces:
        yield NOTHING
    for wanted in ("fails", "refer"):
        for piece in pieces:
            checks = tuple(check for check in piece.checks if not set(check.notes) & set(said))
            if piece.checks and not checks:
                continue
            if worst(check.verdict for check in checks) == wanted:
                decides = by_gravity(checks)[0] if checks else None
                alike = sum(check.verdict == wanted for check in checks) - 1
                more = f", and {alike} more" if alike > 0 else ""
                if piece.reason:
                    yield f"{piece.name}, {piece.finding}: {piece.reason}"
                    continue
                yield (sentence(decides) if decides else f"{piece.name}: nothing was checked") + more


def sentence(check: Check) -> str:
    """A check in one line for people."""
    words = f"{check.subject}: {check.what}"
    if check.ratio is None:
        return f"{words} ({check.notes[0]})" if check.notes else words
    under = f" under {check.combination}" if check.combination else ""
    return f"{words} is at {show(check.ratio, 'ratio')} of what is allowed{under}"


def _about(job: Job) -> tuple[tuple[str, str], ...]:
    about = job.job
    rows = [("standard", f"{about.standard}, ASD"), ("load combinations", f"{about.loads}, 2.4.1")]
    for label, text in (
        ("address", about.address), ("author", about.author), ("date", about.date), ("local code", about.local_code),
        ("wind speed", about.wind_speed), ("notes", about.notes),
    ):  # fmt: skip
        rows.append((label, text or "not given"))
    if about.ground_snow is not None:
        rows.append(("ground snow", show(about.ground_snow, "load")))
    rows.append(("earthquake", "out of scope: not checked here"))
    return tuple(rows)


def _combinations_table() -> Table:
    rows = tuple(
        (one.name, f"{load_duration(one.duration_load).value:g}", one.source.document, one.source.how)
        for one in asd_combinations()
    )
    note = (
        "C_D is that of the shortest load really present on a piece (NDS 2018 2.3.2). Variable loads are also tried on "
        "some spans only. W is the strength-level wind load."
    )
    return Table("Load combinations", ("combination", "C_D with all its loads", "source", "how known"), rows, note)
