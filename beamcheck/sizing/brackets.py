"""How thick, how far out, how much: sizes of one bracket of a job, each step checked as the job checks it.

The search looks along a scale of whole steps, from the size as it is; the answer and the step beyond it go through the
check of the whole job. What would carry at all: `bracket_wish.py`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from textwrap import wrap
from typing import Any, Literal, get_args

import numpy as np

from ..analysis.beams.member_loads import TransferredLoad
from ..checks.brackets.bracket import bracket_results, loads_of
from ..checks.brackets.families.registry import family_of
from ..checks.brackets.loads import BracketLoads
from ..checks.core.context import AnyPiece, Context, Structure
from ..checks.core.result import CAUTION, SIGN_OFF, Check, PieceResult, Verdict, within
from ..checks.core.wood.govern import figures_only
from ..checks.job import check_job
from ..checks.pieces import Carrying, carriers_of, from_the_top, joints_of, results_of, transfers_to
from ..errors import JobError, OutOfRange, UnknownName
from ..model.brackets.bracket import Braced, Bracket, Solid
from ..model.job import Job
from ..model.links.pieces import check_links
from ..records import dataclass
from ..units import show
from ..values.lumber import read_size

Goal = Literal["least thickness", "largest projection", "largest load"]
GOALS: tuple[Goal, ...] = get_args(Goal)
Array = np.ndarray
STEP, STEEL_STEP = 1.0 / 8.0, 1.0 / 16.0  # in
THINNEST, THICKEST_STEEL = 0.5, 1.0  # in
FARTHEST = 48.0  # in; longer brackets are an engineer's
SHARE, MOST_SHARES = 0.01, 500  # steps of the stated loads, and how many of them are tried
AMOUNTS = ("dead", "live", "roof_live", "snow", "wind")
BEYOND = "within the rules"  # the check that says that a piece could not be worked out


@dataclass(frozen=True)
class Sized:
    """The answer to one sizing question about a bracket. It is arithmetic; the verdict is that of the bracket checked.

    Attributes
    ----------
    bracket, goal : str
    found : bool
        Whether some step is not refused by any figure.
    value : float
        Thickness or projection, in; of 'largest load' the part of the stated loads. NaN where nothing is found.
    load : float
        Largest force on it at the answer, lbf; NaN where nothing is found.
    capped : bool
        Whether the search ended at its limit.
    verdict : 'passes', 'fails' or 'refer'
        Of the bracket at the answer, in the job checked as a whole; where nothing is found, of the last step.
    job_verdict : 'passes', 'fails' or 'refer'
        Of the whole job at that step.
    limits : str
        What stops the next step, or every one.
    refer : tuple of str
        What an engineer still has to decide, or the job does not say.
    tried : int
        Steps checked.
    """

    bracket: str
    goal: Goal
    found: bool
    value: float
    load: float
    capped: bool
    verdict: Verdict
    job_verdict: Verdict
    limits: str
    refer: tuple[str, ...]
    tried: int
    range: str
    caution: str = CAUTION
    sign_off: str = SIGN_OFF

    @property
    def words(self) -> str:
        """The answer in a sentence or two."""
        what = self.goal.split()[-1]
        if not self.found:
            none = f"no part of the stated load from {self.range}" if what == "load" else f"no {what} {self.range}"
            return f"{self.bracket}: {none} carries: {self.limits}."
        amount = f"{100.0 * self.value:.0f} % of the stated loads" if what == "load" else show(self.value, "length")
        end = "the search ended there" if self.capped else f"the next step does not: {self.limits}"
        carries = "carries" if self.verdict == "passes" else "is not refused by any figure, but the bracket is referred"
        return f"{self.bracket}: {self.goal} {amount} {carries} ({show(self.load, 'force')} on it); {end}."


def in_words(sized: Sized) -> str:
    """An answer as lines for a console: the sentence, what is still to be decided, caution and sign-off line."""
    lines = [
        sized.words,
        "",
        f"Verdict of {sized.bracket} there: {sized.verdict}; of the whole job: {sized.job_verdict}.",
    ]
    lines += [f"{sized.tried} checked."]
    if sized.found and not sized.goal.endswith("load"):
        lines += ["Write the size into the job file and check that."]
    if sized.refer:
        lines += ["", "Still to be decided, or not said in the job:", *(f"  - {text}" for text in sized.refer)]
    lines += ["", f"Caution: {sized.caution}", "", sized.sign_off]
    return "\n".join(line for text in lines for line in (wrap(text, 100, subsequent_indent="    ") or [""])) + "\n"


def size_bracket(job: Job, bracket: str, goal: Goal = "least thickness") -> Sized:
    """The least thickness, the largest projection or the largest load of one bracket of a job, all else as it is.

    Thickness goes up to the lesser side of its stock (a concealed bar: 1 in), by eighths of an inch (sixteenths).
    Projection is stretched with the soffit, and places of loads on it with that; foot, nose and height stay. Load is
    the part of all loads that the job states on the bracket and on whatever rests on it, each times the same number.

    Parameters
    ----------
    job : Job
    bracket : str
        Its name in the job.
    goal : 'least thickness', 'largest projection' or 'largest load'

    Raises
    ------
    UnknownName
        If the job has no such bracket, or for another goal.
    OutOfRange
        If the question has no meaning: a bracket that is not meant to carry, without load, a bent one's projection.
    JobError
        If the pieces of the job do not fit together.
    """
    if goal not in GOALS:
        raise UnknownName("goal", goal, GOALS)
    names = [one.name for one in job.bracket]
    if bracket not in names:
        raise UnknownName("bracket", bracket, names)
    if problems := check_links(job):
        raise JobError("job", problems)
    with figures_only():
        return _Search(job, bracket, goal).run()


class _Search:
    """Steps in order of preference; the first that no figure refuses is the answer."""

    def __init__(self, job: Job, name: str, goal: Goal) -> None:
        self.job, self.name, self.goal = job, name, goal
        self.bracket = next(one for one in job.bracket if one.name == name)
        if self.bracket.role != "carries":
            raise OutOfRange(f"{name} is declared {self.bracket.role}: only a bracket that carries is sized for a load")
        self.above = resting_on(job, name)
        self.context = around(job, name, self.above)
        self.loads = loads_on(self.bracket, self.context)
        if self.loads.only_own_weight:
            raise OutOfRange(f"no load is stated on {name} and nothing rests on it: say what it shall carry")
        self.steps = self._scale()
        self.seen: dict[int, PieceResult] = {}

    def _scale(self) -> Array:
        """The steps, the most wanted first."""
        shape = self.bracket.shape
        if self.goal == "largest load":
            return np.arange(MOST_SHARES, 0, -1) * SHARE
        if self.goal == "largest projection":
            if shape.level_top is None:
                raise OutOfRange(f"the projection of {self.name} follows from its radius and sweep: change those")
            least = getattr(shape, "foot", 0.0) + STEP
            return np.arange(FARTHEST, least - 1e-9, -STEP)
        if not shape.of_wood:
            return np.arange(STEEL_STEP, THICKEST_STEEL + 1e-9, STEEL_STEP)
        if self.bracket.stock is None:
            raise OutOfRange(f"of which wood {self.name} is made is not said (`stock`), so its thickness has no limit")
        size = read_size(self.context.stock(self.bracket.stock).size)
        sides = sorted((float(size.b), float(size.d)))
        most = sides[0] if shape.thickness <= sides[0] + 1e-9 else sides[1]
        steps = np.arange(THINNEST, most + 1e-9, STEP)
        return steps if steps.size and abs(steps[-1] - most) < 1e-9 else np.append(steps, most)

    def run(self) -> Sized:
        n = len(self.steps)
        at = self._first_from(self._begin())
        worked = n - 1 if at is None else at
        here = check_job(self._variant(worked))
        piece = next(one for one in here.pieces if one.name == self.name)
        if at is not None and stopped(piece):  # what the whole job knows of it and the piece alone does not
            at = None
        refer = tuple(
            dict.fromkeys(f"{one.what}: {'; '.join(one.notes)}" for one in piece.checks if one.verdict == "refer")
        )
        if at is None:
            return Sized(
                self.name, self.goal, False, np.nan, np.nan, False, piece.verdict, here.verdict,
                why_stopped(piece), refer, len(self.seen), self._range(),
            )  # fmt: skip
        limits = ""
        if at > 0:
            beyond = next(one for one in check_job(self._variant(at - 1)).pieces if one.name == self.name)
            limits = why_stopped(beyond)
        loads = self._loads_at(at)
        return Sized(
            self.name, self.goal, True, float(self.steps[at]), float(np.max(loads.F)), at == 0, piece.verdict,
            here.verdict, limits, refer, len(self.seen), self._range(),
        )  # fmt: skip

    def _begin(self) -> int:
        """Where to look first: the size as it is; of loads the part that the bracket as it is carries by its worst
        figure."""
        if self.goal == "largest load":
            at = int(np.argmin(np.abs(self.steps - 1.0)))
            self._good(at)
            worst = max((one.ratio for one in self.seen[at].checks if one.ratio is not None), default=0.0)
            return at if not 0.0 < worst < np.inf else int(np.argmin(np.abs(self.steps - 1.0 / worst)))
        now = self.bracket.shape.stands_out
        if self.goal == "least thickness":
            now = getattr(self.bracket.shape, "thickness", float(self.steps[-1]))
        return int(np.argmin(np.abs(self.steps - now)))

    def _range(self) -> str:
        if self.goal == "largest load":
            return f"{100.0 * self.steps.min():.0f} % up"
        ends = f"{show(float(self.steps.min()), 'length')} to {show(float(self.steps.max()), 'length')}"
        side = ", the side of the stock," if self.goal == "least thickness" and self.bracket.stock is not None else ""
        return f"from {ends}{side}"

    def _first_from(self, start: int) -> int | None:
        """A step that is not refused while the one before it is; None where none is found."""
        low, high = -1, start  # refused at low (or nothing there), not refused at high
        if self._good(start):
            step = 1
            while high > 0:
                trial = max(high - step, 0)
                if not self._good(trial):
                    low = trial
                    break
                high, step = trial, 2 * step
        else:
            low, step, high = start, 1, -1
            while low < len(self.steps) - 1:
                trial = min(low + step, len(self.steps) - 1)
                if self._good(trial):
                    high = trial
                    break
                low, step = trial, 2 * step
            if high < 0:
                return None
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if self._good(middle) else (middle, high)
        return high

    def _good(self, i: int) -> bool:
        if i not in self.seen:
            job = self._variant(i)
            bracket = next(one for one in job.bracket if one.name == self.name)
            self.seen[i] = bracket_results(bracket, around(job, self.name, self.above))[0]
        return not stopped(self.seen[i])

    def _variant(self, i: int) -> Job:
        """The job with one step in it."""
        value, shape = float(self.steps[i]), self.bracket.shape
        if self.goal == "least thickness":
            return self._with({"shape": shape.model_copy(update={"thickness": value})})
        if self.goal == "largest load":
            return _with_loads(self.job, {*self.above, self.name}, value)
        stretch = value / self.bracket.shape.stands_out
        places = [
            load.model_copy(update={key: _times(getattr(load, key), stretch) for key in ("at", "start", "end")})
            for load in self.bracket.carries
        ]
        job = self._with({"shape": _stretched(shape, value, stretch), "carries": tuple(places)})
        beams = []
        for beam in job.beam:
            seats = [
                seat.model_copy(update={"lands_at": _times(seat.lands_at, stretch)}) if seat.on == self.name else seat
                for seat in beam.supports
            ]
            beams.append(beam.model_copy(update={"supports": tuple(seats)}))
        return job.model_copy(update={"beam": tuple(beams)})

    def _with(self, update: dict[str, Any]) -> Job:
        new = self.bracket.model_copy(update=update)
        return self.job.model_copy(
            update={"bracket": tuple(new if one.name == self.name else one for one in self.job.bracket)}
        )

    def _loads_at(self, i: int) -> BracketLoads:
        job = self._variant(i)
        bracket = next(one for one in job.bracket if one.name == self.name)
        return loads_on(bracket, around(job, self.name, self.above))


def _times(value: float | None, factor: float) -> float | None:
    return None if value is None else value * factor


def _stretched(shape: Any, projection: float, stretch: float) -> Any:
    """The shape with another projection; what is measured outwards on it goes along."""
    along = _ALONG.get(shape.family)
    more = {} if along is None else along(shape, projection, stretch)
    return shape.model_copy(update={"projection": projection, **more})


def _soffit_along(shape: Solid, projection: float, stretch: float) -> dict[str, Any]:
    """Points and sagitta of the soffit, which begins at the foot of the wall leg."""
    wide = (projection - shape.foot) / (shape.projection - shape.foot) if shape.projection > shape.foot else stretch
    points = (point.model_copy(update={"x": shape.foot + (point.x - shape.foot) * wide}) for point in shape.points)
    update: dict[str, Any] = {"points": tuple(points)}
    if shape.sagitta is not None:
        drop = shape.height - shape.nose
        chord = np.hypot(projection - shape.foot, drop) / np.hypot(shape.projection - shape.foot, drop)
        update["sagitta"] = shape.sagitta * float(chord)
    return update


def _brace_along(shape: Braced, projection: float, stretch: float) -> dict[str, Any]:
    return {"brace_out": shape.brace_out * stretch}


_ALONG: Mapping[str, Callable[[Any, float, float], dict[str, Any]]] = {"solid": _soffit_along, "braced": _brace_along}


def _with_loads(job: Job, names: set[str], factor: float) -> Job:
    """All loads stated on some pieces, times a factor."""

    def scaled(piece: Any) -> Any:
        if piece.name not in names or not getattr(piece, "carries", ()):
            return piece
        loads = []
        for load in piece.carries:
            given = {key: getattr(load, key) for key in AMOUNTS if getattr(load, key) is not None}
            loads.append(load.model_copy(update={key: (v[0] * factor, v[1]) for key, v in given.items()}))
        return piece.model_copy(update={"carries": tuple(loads)})

    kinds = ("beam", "rafter", "post", "bracket", "trim")
    return job.model_copy(update={kind: tuple(map(scaled, getattr(job, kind))) for kind in kinds})


def resting_on(job: Job, name: str) -> frozenset[str]:
    """Everything whose load comes down to a piece, however far above."""
    pieces: tuple[Carrying, ...] = (*job.rafter, *job.beam, *job.post, *job.bracket, *job.trim)
    below = {piece.name: carriers_of(piece) for piece in pieces}
    found: set[str] = set()
    while True:
        more = {one for one, under in below.items() if one not in found and ({name, *found} & set(under))}
        if not more:
            return frozenset(found)
        found |= more


def around(job: Job, name: str, above: frozenset[str]) -> Context:
    """What one bracket knows of its job: pieces that rest on it are worked out, others are not."""
    everything: tuple[AnyPiece, ...] = (
        *job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim, *job.existing,
    )  # fmt: skip
    structure = Structure(
        {stock.name: stock for stock in job.stock}, {piece.name: piece for piece in everything},
        {anchor.name: anchor for anchor in job.anchor}, joints=joints_of(job),
    )  # fmt: skip
    near = next(one.near for one in job.bracket if one.name == name)
    wanted = above | ({near.beam} | resting_on(job, near.beam) if near is not None else frozenset())
    transfers: dict[str, list[TransferredLoad]] = {}
    for piece in from_the_top(job):
        come = tuple(transfers_to(piece, transfers.get(piece.name, ())))
        if piece.name == name:
            return Context(structure, come)
        if piece.name in wanted:
            for _, handed in results_of(piece, Context(structure, come)):
                for under, transfer in handed.transfers:
                    transfers.setdefault(under, []).append(transfer)
    return Context(structure, tuple(transfers.get(name, ())))


def loads_on(bracket: Bracket, context: Context) -> BracketLoads:
    return loads_of(family_of(bracket), context)


def stopped(piece: PieceResult) -> bool:
    """Refused by a figure, or not worked out; what only asks for evidence does not stop a proposal."""
    return piece.verdict == "fails" or any(_stops(check) for check in piece.checks)


def _stops(check: Check) -> bool:
    return check.verdict == "fails" or check.what == BEYOND or (check.ratio is not None and not within(check.ratio))


def why_stopped(piece: PieceResult) -> str:
    """What stops a bracket, in a few words: its grain before all figures."""
    if piece.reason:
        return piece.reason
    bad: Sequence[Check] = [check for check in piece.checks if _stops(check)]
    if not bad:
        return f"the bracket is referred: {next((one.what for one in piece.checks if one.verdict == 'refer'), '')}"
    worst = max(bad, key=lambda check: -1.0 if check.ratio is None or np.isnan(check.ratio) else check.ratio)
    said = f"at {show(worst.ratio, 'ratio')} of what is allowed" if worst.ratio is not None else "; ".join(worst.notes)
    return f"{worst.what}, {said}"
