"""The whole job: pieces from the top of the house down, each handing its reactions to what carries it."""

from __future__ import annotations

import hashlib
from importlib.metadata import PackageNotFoundError, version

from ..analysis.carried import Arrival
from ..model.pieces import Beam, Job, Post, Rafter, Tie
from ..units import show, shown_in
from ..values.combinations import asd_combinations
from ..values.factors import load_duration
from .context import Around, House
from .demand import stated
from .path import load_path_table
from .piece import Reactions, beam_result, post_result, roof_results
from .result import Check, JobResult, PieceResult, Table, worst


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
        Pieces in the order of the file. A job without pieces is `refer`: nothing was checked.
    """
    system = units or job.job.units
    with shown_in(system):
        return _check(job, text, name, system)


def _check(job: Job, text: str, name: str, system: str) -> JobResult:
    everything = (*job.beam, *job.rafter, *job.tie, *job.post, *job.existing)
    house = House({stock.name: stock for stock in job.stock}, {piece.name: piece for piece in everything})
    arrivals: dict[str, list[Arrival]] = {}
    results: dict[str, PieceResult] = {}
    reactions: list[Reactions] = []
    for piece in _from_the_top(job):
        around = Around(house, tuple(arrivals.get(piece.name, ())))
        found: list[tuple[PieceResult, Reactions]]
        if isinstance(piece, Beam):
            found = [beam_result(piece, around)]
        elif isinstance(piece, Post):
            found = [post_result(piece, around)]
        else:
            found = roof_results(piece, around)
        for result, handed in found:
            results[result.name] = result
            reactions.append(handed)
            for under, arrival in handed.arrivals:
                arrivals.setdefault(under, []).append(arrival)
    untied = [tie for tie in job.tie if tie.name not in results]
    for tie in untied:
        results[tie.name] = _idle(tie)
    ordered = tuple(results[piece.name] for piece in everything if piece.name in results)
    verdict = worst(piece.verdict for piece in ordered)
    return JobResult(
        title=job.job.title,
        verdict=verdict,
        reasons=_reasons(ordered),
        pieces=ordered,
        about=_about(job),
        tables=(load_path_table(job, reactions), _combinations_table()),
        job_text=text,
        job_name=name,
        fingerprint=hashlib.sha256(text.encode()).hexdigest(),
        version=package_version(),
        units=system,
        invented=job.job.invented,
    )


def package_version() -> str:
    """The installed version of this package."""
    try:
        return version("beamcheck")
    except PackageNotFoundError:  # run from a folder that was never installed
        return "unknown"


def _from_the_top(job: Job) -> list[Beam | Rafter | Post]:
    """Pieces in an order in which each comes after all that rests on it. Links were checked: there is no cycle."""
    pieces: dict[str, Beam | Rafter | Post] = {p.name: p for p in (*job.rafter, *job.beam, *job.post)}
    above: dict[str, set[str]] = {name: set() for name in pieces}
    for piece in pieces.values():
        for under in _carriers(piece):
            if under in above:
                above[under].add(piece.name)
    done: dict[str, None] = {}
    while len(done) < len(pieces):
        ready = [name for name in pieces if name not in done and above[name] <= set(done)]
        if not ready:  # pragma: no cover - links.py refuses cycles before this
            raise ValueError("the pieces rest on each other in a circle")
        done.update(dict.fromkeys(ready))
    return [pieces[name] for name in done]


def _carriers(piece: Beam | Rafter | Post) -> list[str]:
    if isinstance(piece, Beam):
        return [support.on for support in piece.supports]
    if isinstance(piece, Post):
        return [piece.on]
    return [piece.wall.on, *([piece.ridge_on] if piece.ridge_on else [])]


def _idle(tie: Tie) -> PieceResult:
    check = stated(tie.name, "use", "load path", "refer", "no rafter names this tie, so it is not checked")
    return PieceResult(tie.name, "tie", f"tie {tie.name}", "refer", (check,), ())


def _reasons(pieces: tuple[PieceResult, ...]) -> tuple[str, ...]:
    """One plain sentence for each thing that keeps the job from passing."""
    found = []
    for wanted in ("fails", "refer"):
        for piece in pieces:
            if piece.verdict != wanted:
                continue
            for check in piece.checks:
                if check.verdict == piece.verdict:
                    found.append(sentence(check))
                    break
    return tuple(found)


def sentence(check: Check) -> str:
    """A check in one line for people."""
    words = f"{check.subject}: {check.what}"
    if check.ratio is not None:
        words += f" is at {show(check.ratio, 'ratio')} of what is allowed"
    return f"{words} ({check.notes[0]})" if check.notes and check.ratio is None else words


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
        "C_D is that of the shortest load really present on a piece (NDS 2018 2.3.2). Variable loads are also tried on some "
        "spans only. W is the strength-level wind load."
    )
    return Table("Load combinations", ("combination", "C_D with all its loads", "source", "how known"), rows, note)
