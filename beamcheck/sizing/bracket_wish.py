"""What would carry a load: changes to a bracket and other shapes, each looked at as the job checks a bracket."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import field
from textwrap import wrap
from typing import Any

from ..checks.brackets.bracket import bracket_results
from ..checks.brackets.families.registry import family_of
from ..checks.brackets.fixings.rows import FixingRows
from ..checks.brackets.split.row_values import NotKnown, row_value
from ..checks.brackets.wood import wood_of_bracket
from ..checks.core.context import Context
from ..checks.core.result import CAUTION, SIGN_OFF, PieceResult, Verdict
from ..checks.core.wood.govern import figures_only
from ..errors import BeamcheckError, JobError, OutOfRange, UnknownName
from ..formulas.brackets.split import head_reach
from ..model.brackets.bracket import Bracket
from ..model.job import Job
from ..model.links.pieces import check_links
from ..records import dataclass
from ..units import show
from ..values.judgment import judgment
from .bracket_tries import Try, load_place, tries
from .brackets import around, loads_on, resting_on, stopped, why_stopped

SECONDS = 1.8  # of processor time, then it stops with what it has found
MOST_OF_SUM = (
    0.62  # a sawn bracket never carried more of the sum of the sideways values of its rows (reference, section 7)
)
KINDS = ("as it is", "another shape", "steel")


@dataclass(frozen=True)
class Proposal:
    """A bracket that no figure refuses: what is done, what stands in the job file, and what is still to be decided."""

    words: str
    lines: tuple[str, ...]
    verdict: Verdict
    worst: float
    open: tuple[str, ...]


@dataclass(frozen=True)
class Wish:
    """What would carry the load of a bracket, the least change first; `nearest` is what came nearest."""

    bracket: str
    load: float
    proposals: tuple[Proposal, ...]
    tried: int
    nearest: str = ""
    cut_short: bool = False
    caution: str = field(default=CAUTION)
    sign_off: str = field(default=SIGN_OFF)


def what_would_carry(job: Job, name: str, told: Callable[[str], None] = lambda _: None) -> Wish:
    """Ordinary ways to carry the load that the job states on a bracket, each checked whole: wood, fixings, sinking.

    `told`: is told each bracket before it is checked. Raises UnknownName, OutOfRange, JobError as for `size_bracket`.
    """
    names = [one.name for one in job.bracket]
    if name not in names:
        raise UnknownName("bracket", name, names)
    if problems := check_links(job):
        raise JobError("job", problems)
    bracket = next(one for one in job.bracket if one.name == name)
    if bracket.role != "carries":
        raise OutOfRange(f"{name} is declared {bracket.role}: only a bracket that carries is sized for a load")
    with figures_only():
        return _Search(job, bracket, told).run()


class _Search:
    def __init__(self, job: Job, bracket: Bracket, told: Callable[[str], None]) -> None:
        self.job, self.bracket, self.told = job, bracket, told
        self.above = resting_on(job, bracket.name)
        self.context = around(job, bracket.name, self.above)
        self.loads = loads_on(bracket, self.context)
        if self.loads.only_own_weight:
            raise OutOfRange(f"no load is stated on {bracket.name} and nothing rests on it: say what it shall carry")
        self.tried, self.near = 0, ("", float("inf"))
        self.begun = time.process_time()

    def run(self) -> Wish:
        worst = int(self.loads.F.argmax())
        strips = [(one.start, one.end, one.force) for one in self.loads.strips(worst) if not one.own]
        out, x = load_place(strips)
        load = sum(one[2] for one in strips)
        x_R = x + judgment("load on its outer part").value * (out - min(one[0] for one in strips))
        stock = self.context.stock(self.bracket.stock) if self.bracket.stock is not None else None
        found: dict[str, Proposal] = {}
        cut_short = False
        for one in tries(self.bracket, stock, out, x_R, float(self.loads.F.max())):
            kind = self._kind(one)
            if kind in found:
                continue
            sawn = one.bracket.shape.sawn  # the others are looked at in no time
            if sawn and time.process_time() - self.begun > SECONDS:
                cut_short = True
                continue
            made = self._looked_at(one, load, x_R)
            if made is not None:
                found[kind] = made
        return Wish(
            self.bracket.name, float(self.loads.F.max()), tuple(found.values()), self.tried, self.near[0], cut_short
        )

    def _kind(self, one: Try) -> str:
        if one.steel:
            return KINDS[2]
        same = one.bracket.shape.family == self.bracket.shape.family
        outline = ("height", "projection", "thickness")
        as_it_is = same and all(getattr(one.bracket.shape, k) == getattr(self.bracket.shape, k) for k in outline)
        return KINDS[0] if as_it_is else KINDS[1] if one.bracket.shape.sawn else "three pieces"

    def _looked_at(self, one: Try, load: float, x_R: float) -> Proposal | None:
        job = self._job(one)
        context = around(job, self.bracket.name, self.above)
        try:
            if one.bracket.shape.sawn and not self._may(one.bracket, context, load, x_R):
                return None
            self.told(one.words)
            self.tried += 1
            piece = bracket_results(one.bracket, context)[0]
        except BeamcheckError:
            return None
        ratios = [check.ratio for check in piece.checks if check.ratio is not None]
        worst = max(ratios, default=float("inf"))
        if stopped(piece):
            if worst < self.near[1]:
                self.near = (f"{one.words}: {why_stopped(piece)}", worst)
            return None
        return Proposal(one.words, _lines(one.bracket), piece.verdict, worst, _open(piece))

    def _may(self, bracket: Bracket, context: Context, load: float, x_R: float) -> bool:
        """A first look: some head outside the load's grain line, and rows that could take the load at best."""
        grain, turn = getattr(bracket.shape, "grain", None), judgment("turn of the grain").value
        if grain is None or bracket.fixings is None:
            return False
        wood, _ = wood_of_bracket(bracket, context)
        if wood is None:
            return False
        for theta in (grain - turn, grain, grain + turn):
            reach = [
                float(head_reach(l_hd=bracket.fixings.through_of(row), x_Q=x_R, y_h=row.below_top, theta_g=theta))
                for row in bracket.fixings.rows
            ]
            if theta % 180.0 > 10.0 and max(reach) <= 0.0:
                return False
        family = family_of(bracket)
        rows = FixingRows(family, bracket.fixings, loads_on(bracket, context))
        which = int(rows.loads.F.argmax())
        try:
            Z = [row_value(rows, wood, context, i, which, grain=grain).row.Z for i in range(len(bracket.fixings.rows))]
        except NotKnown:
            return False
        return load <= MOST_OF_SUM * sum(Z)

    def _job(self, one: Try) -> Job:
        brackets = tuple(one.bracket if old.name == self.bracket.name else old for old in self.job.bracket)
        update: dict[str, Any] = {"bracket": brackets}
        if one.stock is not None:
            update["stock"] = (*self.job.stock, one.stock)
        return self.job.model_copy(update=update)


def _open(piece: PieceResult) -> tuple[str, ...]:
    said = (f"{one.what}: {'; '.join(one.notes)}" for one in piece.checks if one.verdict == "refer")
    return tuple(dict.fromkeys(said))


def _lines(bracket: Bracket) -> tuple[str, ...]:
    """The entries of the job file, in inches."""
    found = [f"shape = {_inline(bracket.shape.model_dump(exclude_defaults=True))}"]
    if bracket.fixings is not None:
        fixings = bracket.fixings
        assert fixings.fastener is not None
        found += ["[bracket.fixings]", f"fastener = {_inline(fixings.fastener.model_dump(exclude_defaults=True))}"]
        if fixings.through is not None:
            found.append(f'through = "{fixings.through:g} in"')
        rows = ", ".join(_inline(row.model_dump(exclude_defaults=True)) for row in fixings.rows)
        found.append(f"rows = [{rows}]")
    return tuple(found)


ANGLES, FORCES = ("grain", "sweep"), ("takes", "takes_up")


def _inline(data: dict[str, Any]) -> str:
    """A table of the job file on one line."""
    parts = []
    for key, value in data.items():
        if isinstance(value, dict):
            parts.append(f"{key} = {_inline(value)}")
        elif isinstance(value, bool):
            parts.append(f"{key} = {str(value).lower()}")
        elif isinstance(value, float):
            unit = "deg" if key in ANGLES else "lb" if key in FORCES else "in"
            parts.append(f'{key} = "{value:g} {unit}"')
        elif isinstance(value, int):
            parts.append(f"{key} = {value}")
        elif isinstance(value, str):
            parts.append(f'{key} = "{value}"')
    return f"{{ {', '.join(parts)} }}"


def in_words(wish: Wish) -> str:
    """Proposals as lines for a console."""
    lines = [f"{wish.bracket}: what would carry {show(wish.load, 'force')}", ""]
    for number, one in enumerate(wish.proposals, start=1):
        says = "passes" if one.verdict == "passes" else "is refused by no figure, and refers"
        lines += [f"{number}. {one.words}: {says}; its worst figure is {one.worst:.2f} of what is allowed."]
        lines += [f"    {text}" for text in one.lines]
        lines += [f"  - still to be decided: {text}" for text in one.open] + [""]
    if not wish.proposals:
        lines += [
            f"None of the {wish.tried} ordinary ways that were checked carries it. The nearest is {wish.nearest}.",
            "What helps: the load nearer to the wall, two brackets in place of one, a post below, or a steel bracket "
            "of an engineer.", "",
        ]  # fmt: skip
    lines += [f"{wish.tried} brackets checked."]
    if wish.cut_short:
        lines += ["It stopped after a few seconds: other ways were not looked at."]
    lines += ["Write one into the job file and check that.", "", f"Caution: {wish.caution}", "", wish.sign_off]
    return "\n".join(
        line for text in lines
        for line in ([text] if text.startswith("    ") else wrap(text, 100, subsequent_indent="    ") or [""])
    ) + "\n"  # fmt: skip
