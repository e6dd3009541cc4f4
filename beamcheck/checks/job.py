"""The whole job: pieces from the top of the house down, each handing its reactions to what carries it."""

from __future__ import annotations

import hashlib
import time
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import replace
from functools import cache
from itertools import starmap
from typing import TYPE_CHECKING, Any

from ..analysis.site.areas import Areas
from ..errors import JobError
from ..model.job import Job
from ..model.links.pieces import check_links
from ..units import show, shown_in
from ..values.editions import run_as
from ..values.factors import load_duration
from ..values.loads import asd_combinations
from ..version import VERSION
from .core.asking.open_questions import OpenQuestion
from .core.pictures.beams import Label
from .core.result import HOLDING, Check, Holding, JobResult, PieceResult, Table, worst
from .core.summary import by_gravity
from .core.understood import understood
from .core.watched import LookedBeyond
from .core.wood.govern import verdicts_only
from .loadpath.load_path import load_path, load_path_table, totals_table
from .loadpath.roles import faults_of
from .loads.given import job_checks
from .pieces import Memory, Run, run_pieces
from .questions.best_answers import spared
from .questions.collect import collect
from .questions.rulings import changed_answers, ruled
from .questions.trial import OutOfTime

if TYPE_CHECKING:
    from .questions.reach import Reach

NOTHING = "The job has no beams, rafters, ties or posts: nothing was checked."


def check_job(
    job: Job, *, text: str = "", name: str = "job", units: str | None = None, what_ifs: bool = False,
    seconds: float | None = None, memory: Memory | None = None,
) -> JobResult:  # fmt: skip
    """Check every piece of a job.

    Parameters
    ----------
    job : Job
    text, name : str
        The job file as written and its name, kept with the result so that it can be checked again.
    units : 'US', 'SI' or None
        Units of the words in the result; None is what the job asks for.
    what_ifs : bool
        Find out what each plausible answer to each open question does, by running the job with it.
    seconds : float or None
        Processor time for that at the most; by default it is bounded by a number of runs, so that the result is always
        the same.
    memory : Memory or None
        Of earlier runs of the job: only what has changed is worked out.

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
        return _check(job, text, name, system, what_ifs, seconds, memory or Memory())


def anchor_groups(job: Job) -> dict[str, list[Any]]:
    """The anchor groups of a job by name, each at every end that it holds, with the forces that come to it.

    Raises JobError as `check_job`.
    """
    if problems := check_links(job):
        raise JobError("job", problems)
    return run_pieces(job).structure.groups


def _check(
    job: Job, text: str, name: str, system: str, what_ifs: bool, seconds: float | None, memory: Memory
) -> JobResult:  # fmt: skip
    job = memory.known(job)
    run = run_pieces(job, memory)
    pieces, questions = settled(job, run, memory)
    if what_ifs and questions:

        def again(other: Job) -> dict[str, PieceResult]:
            with verdicts_only():
                found = settled(other, fitting(other, frozenset(), memory), memory)[0]
            return {piece.name: piece for piece in found}

        from .questions.explore import explore  # the runs of answers: a job without open questions does without

        until = None if seconds is None else time.thread_time() + seconds
        with _stopping(memory, until):
            questions = explore(job, pieces, questions, again, until=until, tell=memory.before_question)
    whole, areas = run.job, run.structure.areas  # with the loads that follow from the site
    path, followed = load_path(whole, run.structure, run.reactions, pieces)
    wrong = tuple(fault.text for fault in faults_of(job, run.ways))
    of_job, words = tuple(job_checks(whole)), understood(whole)
    return JobResult(
        title=job.job.title,
        verdict=worst([*(piece.verdict for piece in pieces), *(check.verdict for check in of_job)]),
        reasons=(*wrong, *_reasons(pieces, wrong), *map(sentence, of_job)),
        pieces=tuple(replace(piece, understood=words(piece.name)) for piece in pieces),
        about=tuple(starmap(Label, _about(job))),
        tables=(
            load_path_table(whole, run.reactions),
            totals_table(followed),
            *_area_tables(whole, areas),
            _combinations_table(),
        ),
        job_text=text,
        job_name=name,
        fingerprint=hashlib.sha256(text.encode()).hexdigest(),
        version=VERSION,
        units=system,
        invented=job.job.invented,
        path=path,
        checks=of_job,
        questions=questions,
    )


@contextmanager
def _stopping(memory: Memory, until: float | None) -> Iterator[None]:
    """Runs end before the next piece once the time is over."""
    told = memory.before_each
    if until is None:
        yield
        return

    def before(name: str) -> None:
        if time.thread_time() >= until:
            raise OutOfTime
        told(name)

    memory.before_each = before
    try:
        yield
    finally:
        memory.before_each = told


def settled(
    job: Job, run: Run, memory: Memory
) -> tuple[tuple[PieceResult, ...], tuple[OpenQuestion, ...]]:  # fmt: skip
    """The results held against rulings, given answers and the best plausible ones; and what is open then."""

    def held(other: Job, found: tuple[PieceResult, ...]) -> tuple[tuple[PieceResult, ...], tuple[str, ...]]:
        closed, reopened = ruled(other, found)
        return changed_answers(other, closed), reopened

    @cache
    def reach() -> Reach:
        from .questions.reach import Reach  # of what fails: most jobs do without

        return Reach(job)

    def tried(other: Job, name: str) -> PieceResult | None:
        part = reach().part(other, name)
        with verdicts_only():  # of an answer that is only tried nobody sees more
            if part is not None:
                with suppress(LookedBeyond, JobError):  # then the whole has its say
                    return named(held(part[0], fitting(*part, memory).results)[0], name)
            return named(held(other, fitting(other, frozenset(), memory).results)[0], name)

    found, reopened = held(job, run.results)
    final = with_groups(spared(job, found, tried), run)
    return final, collect(final, reopened, tuple(job_checks(run.job)))


def with_groups(pieces: tuple[PieceResult, ...], run: Run) -> tuple[PieceResult, ...]:
    """The results, in which what holds the ends of a piece counts to the joints of that piece."""
    verdicts = {piece.name: piece.verdict for piece in pieces if piece.kind in HOLDING}
    held = {handed.name: dict.fromkeys(group.name for group in handed.anchors) for handed in run.reactions}
    groups = {
        name: tuple(Holding(one, verdicts[one]) for one in by if one in verdicts) for name, by in held.items() if by
    }
    return tuple(
        replace(piece, held_by=groups[piece.name]).with_checks(piece.checks) if groups.get(piece.name) else piece
        for piece in pieces
    )


def fitting(job: Job, left_out: frozenset[str], memory: Memory) -> Run:
    """The run of a job, or of a part of one, of which it was not yet asked whether its pieces fit together."""
    if problems := check_links(job):
        raise JobError("job", problems)
    return run_pieces(memory.known(job), memory, left_out)


def named(pieces: Iterable[PieceResult], name: str) -> PieceResult | None:
    """The result of that name; of two the last."""
    return {piece.name: piece for piece in pieces}.get(name)


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


def _run_here(edition: str) -> str:
    """An edition, and for a newer one that which is run in its place."""
    older = run_as(edition)
    return edition if older == edition else f"{edition} (run by the rules of {older}; see what is open)"


def _about(job: Job) -> tuple[tuple[str, str], ...]:
    about = job.job
    rows = [
        ("standard", f"{_run_here(about.standard)}, ASD"),
        ("load combinations", f"{_run_here(about.loads)}, 2.4.1"),
    ]
    for label, text in (
        ("address", about.address), ("author", about.author), ("date", about.date), ("local code", about.local_code),
        ("wind speed", about.wind_speed), ("notes", about.notes),
    ):  # fmt: skip
        rows.append((label, text or "not given"))
    rows += [(label, text) for label, text in (
        ("project number", about.project), ("designed by", about.designed_by), ("checked by", about.checked_by),
    ) if text]  # fmt: skip
    for one in about.revision:
        rows.append((f"revision {one.mark}", ", ".join(filter(None, (one.date, one.what, one.by)))))
    if job.site is not None:
        from .loads.given_areas import site_rows

        rows = [row for row in rows if row[0] != "wind speed"] + list(site_rows(job.site))
    elif about.ground_snow is not None:
        rows.append(("ground snow", show(about.ground_snow, "load")))
    rows.append(("earthquake", "out of scope: not checked here"))
    return tuple(rows)


def _area_tables(job: Job, areas: Areas) -> Iterator[Table]:
    if areas.roofs or areas.floors:
        from .loads.given_areas import area_tables

        yield from area_tables(job, areas)


def _combinations_table() -> Table:
    every = list(asd_combinations())
    rows = tuple((one.name, f"{load_duration(one.duration_load).value:g}") for one in every)
    sources = dict.fromkeys(f"{one.source.document} ({one.source.how})" for one in every)
    note = (
        "C_D is that of the shortest load really present on a piece (NDS 2018 2.3.2). Variable loads are also tried on "
        f"some spans only. W is the strength-level wind load. From {', '.join(sources)}."
    )
    return Table("Load combinations", ("combination", "C_D with all its loads"), rows, note)
