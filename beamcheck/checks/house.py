"""The whole job: pieces from the top of the house down, each handing its reactions to what carries it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator

from ..analysis.carried import Arrival
from ..errors import JobError
from ..model.links import check_links
from ..model.pieces import Beam, Existing, Job, Post, Rafter, Tie
from ..units import show, shown_in
from ..values.combinations import asd_combinations
from ..values.factors import load_duration
from ..version import VERSION
from .anchor_group import Group
from .anchor_piece import held_by_nobody, worst_result
from .context import Around, House
from .draft import Reactions
from .path import load_path_table
from .piece import beam_result, post_result
from .piece_roof import roof_results
from .plausible import job_doubts
from .result import Check, JobResult, PieceResult, Table, Verdict, worst
from .shown import by_gravity

NOTHING = "The job has no beams, rafters, ties or posts: nothing was checked."
Carrying = Beam | Rafter | Post


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
    pieces: tuple[Carrying | Tie, ...] = (*job.beam, *job.rafter, *job.tie, *job.post)
    everything: tuple[Carrying | Tie | Existing, ...] = (*pieces, *job.existing)
    house = House(
        {stock.name: stock for stock in job.stock}, {piece.name: piece for piece in everything},
        {anchor.name: anchor for anchor in job.anchor}, {} if collected is None else collected,
    )  # fmt: skip
    arrivals: dict[str, list[Arrival]] = {}
    results: dict[str, PieceResult] = {}
    groups: dict[str, list[PieceResult]] = {}
    reactions: list[Reactions] = []
    for piece in _from_the_top(job):
        for result, handed in _results(piece, Around(house, tuple(arrivals.get(piece.name, ())))):
            results[result.name] = result
            for anchor in handed.anchors:
                groups.setdefault(anchor.name, []).append(anchor)
            reactions.append(handed)
            for under, arrival in handed.arrivals:
                arrivals.setdefault(under, []).append(arrival)
    ordered = (
        *(results[piece.name] for piece in pieces),
        *(worst_result(groups.get(anchor.name) or [held_by_nobody(anchor)]) for anchor in job.anchor),
    )
    doubts = job_doubts(job)
    verdicts: list[Verdict] = [piece.verdict for piece in ordered]
    if doubts:
        verdicts.append("refer")
    return JobResult(
        title=job.job.title,
        verdict=worst(verdicts),
        reasons=(*_reasons(ordered), *doubts),
        pieces=ordered,
        about=_about(job),
        tables=(load_path_table(job, reactions), _combinations_table()),
        job_text=text,
        job_name=name,
        fingerprint=hashlib.sha256(text.encode()).hexdigest(),
        version=VERSION,
        units=system,
        invented=job.job.invented,
    )


def _results(piece: Carrying, around: Around) -> list[tuple[PieceResult, Reactions]]:
    """The result of a piece, and of the tie that belongs to it."""
    if isinstance(piece, Beam):
        return [beam_result(piece, around)]
    if isinstance(piece, Post):
        return [post_result(piece, around)]
    return roof_results(piece, around)


def _from_the_top(job: Job) -> list[Carrying]:
    """Pieces in an order in which each comes after all that rests on it. Links were checked: there is no circle."""
    every: tuple[Carrying, ...] = (*job.rafter, *job.beam, *job.post)
    pieces = {piece.name: piece for piece in every}
    waiting = dict.fromkeys(pieces, 0)  # how many that rest on it are still to come
    for piece in pieces.values():
        for under in _carriers(piece):
            if under in waiting:
                waiting[under] += 1
    ready = [name for name, count in waiting.items() if count == 0]
    for name in ready:  # grows while it is walked
        for under in _carriers(pieces[name]):
            if under in waiting:
                waiting[under] -= 1
                if waiting[under] == 0:
                    ready.append(under)
    return [pieces[name] for name in ready]


def _carriers(piece: Carrying) -> list[str]:
    if isinstance(piece, Beam):
        return [support.on for support in piece.supports]
    if isinstance(piece, Post):
        return [piece.on]
    return [piece.wall.on, *([piece.ridge_on] if piece.ridge_on else [])]


def _reasons(pieces: tuple[PieceResult, ...]) -> Iterator[str]:
    """One plain sentence for each piece that keeps the job from passing: what decides about it, and how much more."""
    if not pieces:
        yield NOTHING
    for wanted in ("fails", "refer"):
        for piece in pieces:
            if piece.verdict == wanted:
                decides = by_gravity(piece.checks)[0] if piece.checks else None
                alike = sum(check.verdict == wanted for check in piece.checks) - 1
                more = f", and {alike} more" if alike > 0 else ""
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
