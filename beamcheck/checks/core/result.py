"""What a check hands back. Every output (terminal, sheet, JSON, notebook) is a view of these records."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, ClassVar

from ...calc.pad import Step
from ...provenance import Source
from ...records import dataclass
from ...units.kinds import kind_of
from ...units.marks import InUnitOf, Pure
from .asking.open_questions import OpenQuestion
from .asking.open_questions import Verdict as Verdict
from .asking.question import Question, ask
from .kinds import part_of
from .pictures.beams import Figure as Figure
from .pictures.beams import Label, LoadPath
from .pictures.beams import Table as Table
from .statics import Statics

if TYPE_CHECKING:  # a job of beams draws none of them; JSON finds them by their names, see `sheet/record/records.py`
    from .pictures.assembled import AssemblyPicture
    from .pictures.others import HoleDrawing, Picture

DISTANCES = ("length", "small length")  # kinds of quantity that are needed and there, not a demand and a capacity
HOLDING = ("anchor", "joint")  # kinds of piece that hold others: all of them is joint
ROUNDING = 1e-9  # relative: below it two ratios are the same number

CAUTION = (
    "This is a calculation aid, not an engineered design. Local codes and the building department decide. "
    "A licensed engineer must review and sign off before anyone relies on it or covers the work."
)
SIGN_OFF = "Reviewed by licensed engineer: ____________________   license no.: __________   date: __________"


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """fails outweighs refer, refer outweighs passes; nothing checked at all is refer."""
    seen = set(verdicts)
    if "fails" in seen:
        return "fails"
    return "passes" if seen == {"passes"} else "refer"


def judge(ratio: float | None, *, strict: bool = False, distance: bool = False) -> Verdict:
    """The one place where a ratio becomes a verdict. It is not rounded.

    What is no measure of anything is `refer`: a missing ratio, NaN, one below zero (a capacity or a demand with the
    wrong sign) and one without limit (no capacity). `strict` is for the rules that ask for less than 1, such as
    NDS 2018 eq. 3.9-4. Of a `distance` nothing is a measure too: where some is needed and there is none, it fails.
    """
    if distance and ratio == math.inf:
        return "fails"
    if ratio is None or not math.isfinite(ratio) or ratio < 0.0:
        return "refer"
    return "passes" if ratio < 1.0 or (ratio == 1.0 and not strict) else "fails"


def within(ratio: Any) -> Any:
    """Whether a ratio, or each of an array, is at most 1: arithmetic of searches over sizes and woods, no verdict."""
    return ratio <= 1.0


def no_figure(subject: str, what: str) -> Question:
    """Where the figures of a check come to nothing that can be judged, an engineer has to look."""
    return ask("no_figure", subject, what=what)


def _tuple(questions: Question | Iterable[Question]) -> tuple[Question, ...]:
    return (questions,) if isinstance(questions, Question) else tuple(questions)


def first_worst(ratios: Iterable[float]) -> int:
    """The place of the first of the largest ratios; NaN (outside a formula's range) outweighs every number.

    What mirrors each other differs by rounding only: which of them is named must not hang on that.
    """
    sizes = [math.inf if math.isnan(ratio) else float(ratio) for ratio in ratios]
    most = max(sizes)
    least = most - ROUNDING * abs(most) if math.isfinite(most) else most
    return next(index for index, size in enumerate(sizes) if size >= least)


@dataclass(frozen=True)
class Check:
    """One question and its answer.

    `kind` is the quantity of demand and capacity ('stress', 'force', 'length', 'ratio', ...) in inner units (in, lbf,
    psi); `ratio` is demand over capacity. A check without numbers (something is missing or out of scope) has None.
    """

    subject: str
    what: str
    clause: str
    verdict: Verdict
    kind: str = "ratio"
    demand: Annotated[float | None, InUnitOf("kind", kind=True)] = None
    capacity: Annotated[float | None, InUnitOf("kind", kind=True)] = None
    ratio: Pure | None = None
    combination: str = ""
    where: str = ""
    steps: tuple[Step, ...] = ()
    notes: tuple[str, ...] = ()
    id: str = ""  # stable: 'beam.bending'; a row of tables/checks_*.csv
    questions: tuple[Question, ...] = ()  # what is open, or was not said and is taken on the safe side

    def __post_init__(self) -> None:
        if self.verdict == "refer" and not self.questions:
            raise ValueError(f"{self.id or self.what} of {self.subject} refers without a question")
        kind_of(self.kind)  # else no door could show its numbers

    @classmethod
    def refers(
        cls, id: str, subject: str, what: str, clause: str, *notes: str, ask: Question | Iterable[Question],
        where: str = "",
    ) -> Check:  # fmt: skip
        """A check that cannot be answered yet, with what would answer it. Without a question it cannot be made."""
        return cls(subject, what, clause, "refer", where=where, notes=notes, id=id, questions=_tuple(ask))

    @classmethod
    def breaks_rule(cls, id: str, subject: str, what: str, clause: str, *notes: str, where: str = "") -> Check:
        """A rule that is not kept, without figures."""
        return cls(subject, what, clause, "fails", where=where, notes=notes, id=id)

    @classmethod
    def keeps_rule(cls, id: str, subject: str, what: str, clause: str, *notes: str, where: str = "") -> Check:
        """A rule that is kept, or an answer that was wanted and is there."""
        return cls(subject, what, clause, "passes", where=where, notes=notes, id=id)

    @classmethod
    def of_ratio(
        cls, id: str, subject: str, what: str, clause: str, *notes: str, demand: float, capacity: float, kind: str,
        ratio: float | None = None, strict: bool = False, combination: str = "", where: str = "",
        steps: Iterable[Step] = (), ask: Question | Iterable[Question] = (),
        pending: Question | Iterable[Question] = (),
    ) -> Check:  # fmt: skip
        """Demand against capacity, judged.

        `ask` holds what was not said and is taken on the safe side: what passes so still passes; where it fails and an
        answer would help, it is referred with that question once all pieces have their verdicts. With `pending` the
        figures are for information only until that is answered. A ratio that is no measure of anything (no
        capacity, a wrong sign) refers, with the question that the caller attached or the one for such figures.
        """
        if ratio is None:
            ratio = demand / capacity if capacity else math.nan if demand == 0.0 else math.inf
        waiting = _tuple(pending)
        verdict = judge(ratio, strict=strict, distance=kind in DISTANCES)
        if waiting and verdict == "passes":
            verdict = "refer"
        questions = (*waiting, *_tuple(ask))
        if verdict == "refer" and not questions:
            questions = (no_figure(subject, what),)
        return cls(
            subject, what, clause, verdict, kind, demand, capacity, ratio, combination, where, tuple(steps), notes, id,
            questions,
        )  # fmt: skip

    def waits_for(self, *questions: Question, note: str = "") -> Check:
        """The same figures, for information only until these questions are answered."""
        notes = (note, *self.notes) if note else self.notes
        kept = {one.id: one for one in (*self.questions, *questions)}
        return replace(self, verdict="refer", notes=notes, questions=tuple(kept.values()))

    def with_rulings(self, words: tuple[str, ...], still_open: tuple[Question, ...], notes: tuple[str, ...]) -> Check:
        """A check that referred, with what an engineer or a department ruled; it passes when nothing is open any more.

        A ruling answers what is not worked out here: where a figure stands that is more than allowed, it changes
        nothing.
        """
        told = (*self.notes, *(f"with a ruling: {one}" for one in words), *notes)
        holds = not still_open and (self.ratio is None or judge(self.ratio) != "fails")
        questions = still_open or (() if holds else self.questions)
        return replace(self, verdict="passes" if holds else "refer", questions=questions, notes=told)

    @property
    def part(self) -> str:
        """'member', 'joints' or 'path': what of the piece it is about."""
        return part_of(self.id)

    @property
    def holds(self) -> bool:
        """Whether it is met."""
        return self.verdict == "passes"

    @property
    def rank(self) -> tuple[int, float, str, str, str]:
        """What decides comes first: fails, then refer, then passes; within each the largest ratio first.

        Of what is referred, that without a ratio comes first: something is missing there, while the figures of the
        others are for information. Equal ones are told apart by their words, so that no order depends on chance.
        """
        place = ("fails", "refer", "passes").index(self.verdict)
        if self.ratio is None or math.isnan(self.ratio):
            size = -math.inf if self.verdict == "refer" else math.inf
        else:
            size = -self.ratio
        return place, size, self.id, self.what, self.where


@dataclass(frozen=True)
class Holding:
    """An anchor group that holds an end of a piece, with its verdict, which counts to the joints of that piece."""

    group: str
    verdict: Verdict


@dataclass(frozen=True)
class PieceResult:
    """Everything about one piece."""

    name: str
    kind: str  # 'beam', 'rafter', 'tie', 'post', 'anchor', 'joint', 'bracket', 'trim'
    title: str  # plain words: '8x10 rough eastern white pine, 14 ft'
    verdict: Verdict
    checks: tuple[Check, ...]
    inputs: tuple[Label, ...]
    tables: tuple[Table, ...] = ()  # loads, reactions, combinations, screening
    assumptions: tuple[str, ...] = ()
    remedies: tuple[str, ...] = ()  # what would make a failing piece pass
    figure: Figure | None = None
    drawing: HoleDrawing | None = None  # of an anchor group
    to_see: tuple[str, ...] = ()  # and to photograph, before the work is covered
    finding: str = ""  # of a bracket: 'carries', 'decoration only', 'acts as a prop', 'not enough information'
    reason: str = ""  # of that finding, in a sentence
    pictures: tuple[Picture, ...] = ()
    understood: str = ""  # what it was taken for, in a sentence, before any figure
    held_by: tuple[Holding, ...] = ()  # the anchor groups that hold its ends
    statics: Statics | None = None  # how its forces can be done again
    assembly: AssemblyPicture | None = None  # of a bracket or frame: its order, beside the table of that name

    also: ClassVar = ("decided_by", "member_verdict", "joints_verdict")  # stands in JSON beside the fields

    @property
    def member_verdict(self) -> Verdict | None:
        """Of the wood, or whatever it is made of; None where nothing of it is checked."""
        found = [check.verdict for check in self.checks if self.kind not in HOLDING and check.part == "member"]
        return worst(found) if found else None

    @property
    def joints_verdict(self) -> Verdict | None:
        """Of its ends, joints and seats, and of the way on of its load; None where nothing of that is checked."""
        found = [check.verdict for check in self.checks if self.kind in HOLDING or check.part != "member"]
        found += [group.verdict for group in self.held_by]
        return worst(found) if found else None

    def with_checks(self, checks: tuple[Check, ...]) -> PieceResult:
        """The piece with other checks, judged by them."""
        verdict = worst([*(check.verdict for check in checks), *(group.verdict for group in self.held_by)])
        if verdict == self.verdict or not self.finding:
            return replace(self, checks=checks, verdict=verdict)
        finding = "carries" if verdict == "passes" else "not enough information"
        return replace(self, checks=checks, verdict=verdict, finding=finding, reason="")

    @property
    def decided_by(self) -> str | None:
        """What decides about the piece, in words."""
        if (group := self.deciding_group) is not None:
            return f"what holds it: {group.group}"
        return None if self.governing is None else self.governing.what

    @property
    def deciding_group(self) -> Holding | None:
        """The anchor group that gives the piece its verdict, where no check of its own has it."""
        if any(check.verdict == self.verdict for check in self.checks):
            return None
        return next((group for group in self.held_by if group.verdict == self.verdict), None)

    @property
    def governing(self) -> Check | None:
        """What decides about the piece: the check that ranks first, so none that passes where one fails or refers."""
        return min(self.checks, key=lambda check: check.rank, default=None)

    @property
    def closest(self) -> Check | None:
        """The check with the largest ratio, NaN above all: what would give first by the figures alone."""
        with_ratio = [check for check in self.checks if check.ratio is not None]
        return max(with_ratio, key=_size, default=None)

    @property
    def questions(self) -> tuple[Question, ...]:
        """What is open about the piece, each question once."""
        return tuple({asked.id: asked for check in self.checks for asked in check.questions}.values())

    @property
    def sources(self) -> tuple[Source, ...]:
        """The distinct sources behind the steps, in order of first use."""
        found = (step.source for check in self.checks for step in check.steps)
        return tuple(dict.fromkeys(source for source in found if source is not None))


def worst_of(checks: Iterable[Check]) -> Check:
    """The first with the largest ratio; one that broke a rule, or is not a number, outweighs every number."""
    every = tuple(checks)
    return every[first_worst(math.inf if check.ratio is None else check.ratio for check in every)]


def _size(check: Check) -> float:
    return -math.inf if check.ratio is None else math.inf if math.isnan(check.ratio) else check.ratio


@dataclass(frozen=True)
class JobResult:
    """The whole job: verdict first."""

    title: str
    verdict: Verdict
    reasons: tuple[str, ...]  # why it is not 'passes', one plain sentence each
    pieces: tuple[PieceResult, ...]
    about: tuple[Label, ...]  # project data
    tables: tuple[Table, ...]  # combinations, load path
    job_text: str
    job_name: str
    fingerprint: str  # SHA-256 of the job text
    version: str
    units: str = "US"
    invented: bool = False
    path: LoadPath | None = None
    checks: tuple[Check, ...] = ()  # of the job as a whole, beside those of its pieces
    questions: tuple[OpenQuestion, ...] = ()  # what is open, in the order in which it is worth asking
    caution: str = CAUTION
    sign_off: str = SIGN_OFF

    @property
    def sources(self) -> tuple[Source, ...]:
        """The distinct sources of all pieces."""
        return tuple(dict.fromkeys(source for piece in self.pieces for source in piece.sources))
