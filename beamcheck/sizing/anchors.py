"""The fewest or the smallest fasteners of a family that hold what comes to an anchor group, with a layout that fits.

Every answer has been through the same checks as a group of a job. It is a proposal and no verdict: what the job does
not say of the wood and the joint is listed with it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from textwrap import wrap
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from ..checks.anchors.far_side import far_side_checks
from ..checks.anchors.group import Group
from ..checks.anchors.manners.base import Fastened
from ..checks.anchors.manners.registry import connect, manner_of
from ..checks.core.result import CAUTION, SIGN_OFF, Check, judge
from ..checks.core.wood.govern import figures_only
from ..checks.job import anchor_groups
from ..errors import BeamcheckError, OutOfRange, UnknownName
from ..model.anchors.anchor import Anchor, Fastener
from ..model.anchors.manners import MANNERS, kinds_for
from ..model.job import Job
from ..model.links.anchors import crossed
from ..records import dataclass
from ..units import show
from ..values.hardware.fasteners import NailKind, bolt_sizes, lag_screw_sizes, nail, nail_sizes, wood_screw_sizes
from ..values.loader import rows as table_rows
from .anchor_layouts import STEP, Layout, TooLittleWood, layouts, other_width, placed, trial_line

if TYPE_CHECKING:
    from .joints import JointProposal

Family = Literal["bolt", "lag screw", "wood screw", "nail"]
FAMILIES: tuple[Family, ...] = ("bolt", "lag screw", "wood screw", "nail")
MOST = 16  # fasteners; larger groups are an engineer's
LONGEST_SCREW = 6.0  # in: longer wood screws are not common in the trade
NAILS: NailKind = "common"
NEEDED = ("anchor.couple", "anchor.both_ways")  # what refers here asks for another layout


@dataclass(frozen=True)
class Proposal:
    """The answer to one question. It is arithmetic and no verdict.

    Attributes
    ----------
    family, goal : str
        What was asked: the family, and 'fewest' or 'smallest'.
    found : bool
        Whether any of it works; if not, `why` says for each size what stopped it.
    group : Group or None
        The group as proposed, ready to be checked; None when nothing works.
    layout : Layout or None
        Its rows and distances.
    ratio, governs
        The largest ratio of strength and the check it belongs to; NaN and '' when nothing works.
    refer : tuple of str
        What an engineer still has to decide, or the job does not say.
    tried : int
        How many layouts were checked.
    """

    family: Family
    goal: str
    found: bool
    group: Group | None
    layout: Layout | None
    ratio: float
    governs: str
    why: tuple[str, ...]
    refer: tuple[str, ...]
    tried: int
    caution: str = CAUTION
    sign_off: str = SIGN_OFF

    @property
    def words(self) -> str:
        """The answer in one sentence."""
        if self.group is None or self.layout is None or self.group.anchor.fastener is None:
            return f"No {self.family} fits: {'; '.join(self.why)}."
        fastener, n = self.group.anchor.fastener, self.group.x.size
        long = f", {show(fastener.length, 'length')} long" if fastener.length is not None else ""
        of = f"{n} {fastener.kind}{'s' if n > 1 else ''} {fastener.size}{long}"
        return f"{of}: {self.layout.words()}. Largest ratio {show(self.ratio, 'ratio')}, {self.governs}."


def in_words(name: str, proposal: Proposal | JointProposal) -> str:
    """A proposal as lines for a console: the answer, what is still to be decided, caution and sign-off line."""
    lines = [f"{name}: {proposal.words}", "", "A proposal and no verdict: write it into the job file and check that."]
    if proposal.refer:
        lines += ["", "Still to be decided, or not said in the job:", *(f"  - {text}" for text in proposal.refer)]
    lines += ["", f"Caution: {proposal.caution}", "", proposal.sign_off]
    return "\n".join(line for text in lines for line in (wrap(text, 100, subsequent_indent="    ") or [""])) + "\n"


def fasteners_for(job: Job, anchor: str, family: Family, *, goal: Literal["fewest", "smallest"] = "fewest") -> Proposal:
    """What would hold the ends that one anchor group of a job holds: the answer for the end that needs the most.

    Parameters
    ----------
    job : Job
    anchor : str
        Name of the group in the job.
    family, goal : str
        As `fewest_fasteners`.

    Raises
    ------
    UnknownName
        If the job has no such group, or the group does not take that family.
    OutOfRange
        If the group could not be worked out, or has no layout to start from.
    JobError
        If the pieces of the job do not fit together.
    """
    names = [one.name for one in job.anchor]
    if anchor not in names:
        raise UnknownName("anchor group", anchor, names)
    groups = anchor_groups(job).get(anchor, [])
    if not groups:
        raise OutOfRange(f"the forces on {anchor!r} could not be worked out: run `check` to see why")
    answers = [_nowhere(group, family, goal) or fewest_fasteners(group, family, goal=goal) for group in groups]
    lost = [answer for answer in answers if answer.group is None]
    return (
        lost[0] if lost else max(answers, key=lambda answer: (answer.group.x.size if answer.group else 0, answer.ratio))
    )


def _nowhere(group: Group, family: Family, goal: Literal["fewest", "smallest"]) -> Proposal | None:
    """Why nothing holds in what the group is fastened to, whatever its fasteners; None where it may."""
    why = [note for check in far_side_checks(group) for note in check.notes
           if check.id == "anchor.far_side" and check.verdict == "fails"]  # fmt: skip
    return Proposal(family, goal, False, None, None, math.nan, "", tuple(why), (), 0) if why else None


def fewest_fasteners(
    group: Group,
    family: Family,
    *,
    goal: Literal["fewest", "smallest"] = "fewest",
    sizes: Sequence[str] | None = None,
    most: int = MOST,
) -> Proposal:
    """The fewest fasteners of a family that work with the wood there is, or the smallest size of which any number does.

    `group`: as the job has it: its wood, forces, plate and other member stay; fastener, number and places are replaced.
    The line on which the other side takes the load stays where it is. `family`: 'bolt', 'lag screw', 'wood screw' or
    'nail': screws are as long as the wood has room for; nails are common nails, as long as they are sold. `goal`:
    'fewest' or 'smallest': fewest first and then the smallest size, or the other way about. `sizes`: those to choose
    from; all of the tables when not given. `most`: fasteners at the most. Raises UnknownName for another family or
    goal, or one that the manner of the group does not take; OutOfRange if `most` is not positive, or the group has no
    layout from which its line of support can be measured.
    """
    kinds = [one for one in FAMILIES if one in kinds_for(group.anchor.manner)]
    if family not in kinds:
        raise UnknownName(f"family of fasteners for {group.anchor.manner!r}", family, kinds)
    if goal not in ("fewest", "smallest"):
        raise UnknownName("goal", goal, ("fewest", "smallest"))
    if most < 1:
        raise OutOfRange(f"{most} fasteners at the most: at least 1 must be allowed")
    if group.made.in_the_end:
        raise OutOfRange("fasteners into the end of a piece are not laid out here: write the layout that fits the end")
    if group.x.size == 0:
        raise OutOfRange("the group has no layout: give one to start from, so that the line of its support is known")
    search = _Search(group, family, most)
    with figures_only():
        return search.run(tuple(sizes) if sizes is not None else sizes_of(family), goal)


def sizes_of(family: Family) -> tuple[str, ...]:
    """All sizes of a family, the smallest first, as a job file writes them."""
    if family == "bolt":
        return bolt_sizes()
    if family == "lag screw":
        return lag_screw_sizes()
    if family == "wood screw":
        return wood_screw_sizes()
    return tuple(f"{weight} {NAILS}" for weight in nail_sizes(NAILS))


class _Search:
    """One question: sizes and numbers of fasteners in the order in which they are wanted."""

    def __init__(self, group: Group, family: Family, most: int) -> None:
        self.group, self.family, self.most = group, family, most
        self.tried = 0
        self.stopped: dict[str, tuple[float, str]] = {}  # by size: how near the best came, and what stopped it

    def run(self, sizes: Sequence[str], goal: str) -> Proposal:
        trials = [(size, trial) for size in sizes if (trial := self._trial(size)) is not None]
        least = {size: self._least(size, trial) for size, trial in trials}
        for size in (size for size, fewest in least.items() if fewest > self.most):
            self._stop(size, math.inf, f"{self.most} of them take less than half of what comes")
        numbers = range(1, self.most + 1)
        if goal == "fewest":
            order = [(n, size, trial) for n in numbers for size, trial in trials]
        else:
            order = [(n, size, trial) for size, trial in trials for n in numbers]
        for n, size, trial in order:
            if n < least[size]:
                continue
            for rows, columns in _shapes(n):
                for made, layout in self._laid(size, trial, rows, columns):
                    checks = self._works(size, n, made)
                    if checks is not None:
                        return self._answer(goal, made, layout, checks)
        why = tuple(f"{size}: {self.stopped[size][1]}" for size in sizes if size in self.stopped)
        return Proposal(self.family, goal, False, None, None, math.nan, "", why, (), self.tried)

    def _trial(self, size: str) -> Group | None:
        """The group with one fastener of the size, or None where there is no room for one at all."""
        try:
            made = fastener_for(self.group.anchor, self.family, size, float(self.group.section.b))
        except BeamcheckError as error:
            self.stopped[size] = (math.inf, str(error))
            return None
        return replace(self.group, anchor=self.group.anchor.model_copy(update={"fastener": made}))

    def _least(self, size: str, trial: Group) -> int:
        """Fewer need not be tried: half of what one fastener in the line of the load would need, at its full value."""
        try:
            first = next(self._laid(size, trial, 1, 1), None)
            if first is None:
                return 1
            ratio = connect(first[0]).ratio
            return max(1, math.floor(0.5 * float(np.nanmax(ratio))))
        except (BeamcheckError, ValueError):
            return 1

    def _laid(self, size: str, trial: Group, rows: int, columns: int) -> Iterator[tuple[Group, Layout]]:
        try:
            for layout in layouts(self.group, trial, rows, columns):
                yield placed(trial_line(self.group, trial), layout), layout
        except (TooLittleWood, BeamcheckError) as error:
            self._stop(size, math.inf, f"{rows * columns} of them find no room, as {error}")

    def _works(self, size: str, n: int, made: Group) -> list[Check] | None:
        """All checks, or None where one of them keeps the layout from working."""
        self.tried += 1
        found: list[Check] = []
        manner = manner_of(made.anchor)
        assert isinstance(manner, Fastened)  # the family of a manner without fasteners was refused
        try:
            stages = manner.stages(connect(made))
        except BeamcheckError as error:
            self._stop(size, math.inf, f"{n} of them: {error}")
            return None
        for checks in stages:
            found += checks
            bad = [check for check in checks if _stops(check)]
            if bad:
                worst = max(bad, key=lambda check: math.inf if check.ratio is None else check.ratio)
                ratio = math.inf if worst.ratio is None or math.isnan(worst.ratio) else worst.ratio
                said = f"ratio {show(ratio, 'ratio')}" if math.isfinite(ratio) else "; ".join(worst.notes)
                self._stop(size, ratio, f"{n} of them: {worst.what}, {said}")
                return None
        return found

    def _stop(self, size: str, ratio: float, text: str) -> None:
        if size not in self.stopped or ratio < self.stopped[size][0]:
            self.stopped[size] = (ratio, text)

    def _answer(self, goal: str, made: Group, layout: Layout, checks: list[Check]) -> Proposal:
        strength = [check for check in checks if check.ratio is not None and check.kind != "length"]
        worst = max(strength, key=lambda check: check.ratio or 0.0)
        refer = [f"{check.what}: {'; '.join(check.notes)}" for check in checks if check.verdict == "refer"]
        if (other := made.anchor.other) is not None and other_width(made) is None and other.material == "wood":
            refer.append("width of the member on the other side: not known, so not compared with the layout")
        return Proposal(self.family, goal, True, made, layout, float(worst.ratio or 0.0), worst.what, (),
                        tuple(dict.fromkeys(refer)), self.tried)  # fmt: skip


def _stops(check: Check) -> bool:
    """Fails, or has a figure that does not allow it; what only asks for evidence does not stop a proposal.

    Nor is the couple of a lap anything that waits for evidence: other fasteners may hold it.
    """
    return check.verdict == "fails" or (check.ratio is not None and judge(check.ratio) != "passes") or (
        check.verdict == "refer" and check.id in NEEDED
    )  # fmt: skip


def _shapes(n: int) -> list[tuple[int, int]]:
    """Rows and columns that make n: the fewest rows first, for wood that shrinks."""
    return [(rows, n // rows) for rows in range(1, n + 1) if n % rows == 0]


def fastener_for(anchor: Anchor, family: Family, size: str, breadth: float) -> Fastener:
    """The fastener of a size for a group: screws as long as the wood has room for.

    `breadth`: of the held piece, inches. Raises OutOfRange if there is no room for a screw or nail in the member that
    holds its point; UnknownName if the tables do not list the size.
    """
    given = anchor.fastener
    same = given is not None and given.kind == family
    kept: dict[str, Any] = {"coating": given.coating} if given is not None else {}
    if given is not None and same:
        kept |= {"steel": given.steel, "threads": given.threads, "counterbore": given.counterbore,
                 "counterbore_depth": given.counterbore_depth, "plugged": given.plugged}  # fmt: skip
    made = Fastener.model_construct(kind=family, size=size, **kept)
    if family == "bolt":
        return made
    bare = anchor.model_copy(update={"fastener": made})
    through, _ = crossed(bare, breadth)
    room = through + (anchor.other.thickness if anchor.other is not None else breadth)
    if MANNERS[anchor.manner].aslant:
        room = math.inf  # driven aslant: its own check sees whether the point comes out
    if family == "nail":
        length = nail(NAILS, size.removesuffix(f" {NAILS}")).value.L
        if length > room:
            raise OutOfRange(f"{show(length, 'length')} long, but there is room for {show(room, 'length')}")
        return made
    if family == "lag screw":
        lengths = [float(row["L"]) for row in table_rows("nds_2018_l2_lag_threads")]
    else:
        lengths = [STEP * k for k in range(4, int(LONGEST_SCREW / STEP) + 1)]
    fits = [length for length in lengths if length <= room + 1e-9]
    if not fits:
        raise OutOfRange(f"there is room for {show(room, 'length')} only: too short for a {family}")
    return made.model_copy(update={"length": max(fits)})
