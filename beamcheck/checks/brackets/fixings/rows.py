"""The rows of fasteners of a bracket: which of them hold it up, the pull on the top one, the heel on the wall."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import Any

import numpy as np

from ....calc.pad import Pad, SilentPad
from ....formulas.steel import bolts
from ....formulas.wood.bearing import bearing_stress
from ....formulas.wood.section import round_area
from ....model.brackets.bracket import Bracket, Fixings
from ....model.stock import Stock
from ....records import dataclass
from ....units import show
from ....values.found import Found
from ....values.hardware.fasteners import bolt
from ....values.hardware.steels import bolt_steel
from ....values.judgment import judgment
from ...core.asking.question import PlausibleAnswer
from ...core.result import Check
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.grade_asked import ask_grade
from ...core.wood.material import WoodMaterial, bearing_prime
from ...core.wood.strength import Outcome
from ..asking import ask_for, path_of
from ..body import Body
from ..family import Family
from ..loads import BracketLoads

Array = np.ndarray
RULE = "lever-arm rule for brackets"
ANCHORED = ("masonry", "concrete")  # of what is by others: fastened into by anchors with a report
SOFT_WALLS = ("plaster", "gypsum board")


@dataclass(frozen=True, eq=False)
class FixingRows:
    """The rows of a bracket ready to be checked: which of them hold it up, and the pull on the top one."""

    family: Family[Any]
    fixings: Fixings
    loads: BracketLoads
    body_pull: Array | None = None

    @property
    def bracket(self) -> Bracket:
        return self.family.bracket

    @property
    def thickness(self) -> float:
        """Of the bracket, side to side, in."""
        return self.bracket.shape.side_to_side

    @cached_property
    def eta(self) -> Found[float]:
        """Lever arm over height of the top row."""
        return self.family.lever_arm

    @property
    def tight(self) -> list[int]:
        """Rows without slots: only those hold it up."""
        return [i for i, row in enumerate(self.fixings.rows) if row.slot is None]

    @property
    def alike(self) -> bool:
        """Whether all rows have the same fasteners through the same wood."""
        return all(row.through is None and row.length is None for row in self.fixings.rows)

    @property
    def top(self) -> int:
        return int(np.argmin([row.below_top for row in self.fixings.rows]))

    @property
    def share(self) -> Found[float] | None:
        """What one row is taken to bear of all the load where there are several; None where they share it evenly."""
        return None if self.family.shares_evenly or len(self.tight) < 2 else judgment("share of the load on one row")

    @property
    def shared(self) -> float:
        """What all tight rows together are checked for, over the load: then the smallest of them has its share."""
        if self.family.stands_on_wood or not self.tight:
            return 0.0
        counts = [self.fixings.rows[i].count for i in self.tight]
        return 1.0 if self.share is None else self.share.value * sum(counts) / min(counts)

    @property
    def on_one_fastener(self) -> float:
        """Over the load: what comes to one fastener of the smallest tight row."""
        return self.shared / max(sum(self.fixings.rows[i].count for i in self.tight), 1)

    @property
    def share_note(self) -> tuple[str, ...]:
        return () if self.share is None or self.family.stands_on_wood else (self.share.reason,)

    @property
    def h_1(self) -> float:
        """Height of the top row above the foot of the wall face, in."""
        return self.family.back - self.fixings.rows[self.top].below_top

    def pull(self, pad: Pad, which: int | slice) -> float | Array:
        """Pull on the top row, lbf."""
        M = at(np.maximum(self.loads.M_wall, 0.0), which)
        M = pad.take("M", M, "lbf*in", note="load times its distance from the wall")
        T = self.family.top_row_pull(pad, M, self.h_1)
        if self.body_pull is None:
            return np.asarray(T, dtype=float) if isinstance(which, slice) else float(T)
        field = at(self.body_pull, which)
        if isinstance(which, slice):
            return np.asarray(np.maximum(T, field), dtype=float)
        return float(
            pad.take("T_1", max(float(T), float(field)), "lbf", note="the larger: the body's own statics give more")
        )

    def pulls(self) -> Array:
        return np.asarray(self.pull(SilentPad(), slice(None)), dtype=float)


def rows_of(family: Family[Any], loads: BracketLoads, body: Body) -> FixingRows:
    """The rows of a bracket whose fixings are given."""
    assert family.bracket.fixings is not None
    return FixingRows(family, family.bracket.fixings, loads, body.pull)


def each_once(checks: Iterable[Check]) -> list[Check]:
    """The checks without those that say the very same of another row."""
    found = {(check.what, check.where, check.verdict, check.notes, check.ratio): check for check in checks}
    return list(found.values())


def outward_pulls(rows: FixingRows) -> Iterator[tuple[str, float]]:
    """Pull on the top row when somebody pulls the nose outwards or sideways, lbf; downwards is among the loads."""
    force = rows.bracket.accidental
    if isinstance(force, float):
        yield "outwards", force
        yield "sideways", force * rows.loads.projection / (0.5 * rows.thickness)


def bolt_checks(rows: FixingRows, T: Array) -> Iterator[Check]:
    """The steel of bolts in pull with shear (AISC 360-16 J3.7); screws are checked at their root elsewhere."""
    fastener, name, what = rows.fixings.fastener, rows.bracket.name, "pull on the bolts with shear"
    if fastener is None or fastener.kind != "bolt":
        return
    if not fastener.steel:
        text = "the grade of the bolts is not given (`fastener.steel`): their steel cannot be checked"
        asked = ask_for(rows.bracket, "bolt_steel", "fixings.fastener.steel")
        yield Check.refers("bracket.bolt_steel", name, what, bolts.BOTH, text, ask=asked)
        return
    grade, D = bolt_steel(fastener.steel), bolt(fastener.size).value.D
    V = np.maximum(rows.loads.F, 0.0) * rows.on_one_fastener
    pull = T / rows.fixings.rows[rows.top].count
    clear = fastener.threads == "clear of it"

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        t = pad.take("T", at(pull, which), "lbf", note="on one bolt of the top row")
        A_b = pad(round_area, symbol="A_b", D=D)
        f_rv = pad(bolts.bolt_shear_stress, V=pad.take("V", at(V, which), "lbf", note="on one bolt"), A_b=A_b)
        F_nt = pad.take("F_nt", grade.value.F_nt, "psi", note=grade.reason, source=grade.source)
        F_nv = grade.value.F_nv_threads_out if clear else grade.value.F_nv_threads_in
        F_nt = pad(bolts.bolt_tension_with_shear, F_nt=F_nt, F_nv=F_nv, f_rv=f_rv)
        T_a = pad(bolts.bolt_tension, F_nt=F_nt, A_b=A_b)
        return Outcome(t, T_a, t / T_a)

    yield govern(
        Criterion(name, what, bolts.BOTH, "force", id="bracket.bolt_steel"), rows.loads.combinations, calculate
    )


def heel_checks(
    rows: FixingRows, woods: Sequence[WoodMaterial | None], behind_stock: Stock | None = None
) -> Iterator[Check]:  # fmt: skip
    """The lower end presses on the wall with as much as the top row pulls; `woods` are the bracket's and the wall's.

    behind_stock : the stock that is said to be behind it: what it is made of is then what is asked.
    """
    bracket, wall, what, id = rows.bracket, rows.fixings.wall, "heel against the wall", "bracket.heel"
    name, T = bracket.name, rows.pulls()
    most = float(np.max(T, initial=0.0))
    if most <= judgment("trivial force").value:
        return
    if wall is None:
        text = "what its back presses against is not said (`wall`)"
        yield Check.refers(id, name, what, RULE, text, ask=ask_for(bracket, "wall", "fixings.wall"))
        return
    if wall in SOFT_WALLS or rows.fixings.gap > 0.0:
        soft = wall if wall in SOFT_WALLS else "the gap behind it"
        text = (
            f"its heel presses with {show(most, 'force')} on {soft}, which crushes: go through to the wood behind it, "
            "or put hard shims there"
        )
        onto = PlausibleAnswer(
            "yes", ((path_of(bracket, "fixings.wall"), "wood"), (path_of(bracket, "fixings.gap"), "0 in"))
        )
        asked = ask_for(bracket, "shims", "fixings.wall", [onto, PlausibleAnswer("no")], wall=soft)
        yield Check.refers(id, name, what, RULE, text, ask=asked)
        return
    own, behind = woods
    if wall == "wood" and behind is None:
        text = "the wood of the wall is not known (`other.stock`)"
        asked = ask_for(bracket, "wood_behind", "fixings.other.stock")
        if behind_stock is not None:
            text, asked = f"the wood of {behind_stock.name} is not known", ask_grade(behind_stock)
        yield Check.refers(id, name, what, "NDS 2018 3.10.2", text, ask=asked)
    length = rows.family.pressed_length(2.0 * (1.0 - rows.eta.value) * rows.h_1)
    for words, one in (("bracket", own), ("wall", behind if wall == "wood" else None)):
        if one is None:
            continue

        def calculate(pad: Pad, which: int | slice, one: WoodMaterial = one) -> Outcome:
            C = pad.take("C", at(T, which), "lbf", note="as much as the top row pulls")
            l_c = pad.take("l_c", length, "in", note="centered on the line of pressure that the lever arm supposes")
            f = pad(bearing_stress, R=C, b=rows.thickness, l_b=l_c)
            allowed = bearing_prime(pad, one, 1.0)
            return Outcome(f, allowed, f / allowed)

        criterion = Criterion(name, f"{what}, wood of the {words}", "NDS 2018 3.10.2", "stress", id=id)
        yield govern(criterion, rows.loads.combinations, calculate)
