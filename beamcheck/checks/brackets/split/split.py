"""The split test of a bracket that is one piece of wood: it carries only what it carries with any one full check.

The same test for a solid bracket and for a corbel block. What it needs and is not said refers; what no figure of it
lets stand fails, with what would help.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import field, replace
from typing import Any

import numpy as np

from ....analysis.splits.holds import Held
from ....analysis.splits.split import Allowed, Split, allowed
from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....formulas.brackets.split import head_reach, load_allowed, load_with_own_weight
from ....model.existing import Existing
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from ....values.refused import in_trade_words
from ...anchors.unsaid import NotSaid, Open
from ...core.context import Context
from ...core.pictures.split import SplitPicture
from ...core.result import Check, Table
from ...core.wood.govern import writing
from ...core.wood.material import WoodMaterial
from ..asking import ask_for
from ..body import Body
from ..family import Family, OnePiece
from ..fixings.rows import ANCHORED, FixingRows
from ..loads import BracketLoads
from .held import held_of, seats_of
from .loose import loose_tip
from .picture import split_picture
from .row_values import NotKnown, RowValue, row_value
from .wood_as_it_is import more_checks

ID, WHAT = "bracket.split", "split test"
CLAUSE = "statics of strips along the grain (judgment)"
RULE = (
    "Split test: wood is taken to have no strength in tension across its grain. What is left with one full check along "
    "any grain line, and with none, must hold the load by pressure, shear along the grain and its fasteners; so it "
    "must with the grain 7 degrees to either side of what is said."
)
NONE = 1.0  # lbf: less is nothing
MOST_KNOWN = 256
_KNOWN: dict[tuple[Any, ...], Allowed] = {}
_NOTHING = np.zeros((0, 2))
Key = tuple[float, tuple[Any, ...]]


@dataclass
class SplitFound:
    """What the split test says. `weak` is why nothing is carried, '' where something is."""

    checks: list[Check] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    weak: str = ""
    allowed: float = math.nan
    pictures: list[SplitPicture] = field(default_factory=list)


@dataclass(frozen=True)
class _Run:
    """One combination that was tried."""

    combination: int
    held: Held
    found: Allowed
    rows: tuple[RowValue, ...]
    load: float
    weight: float
    x_c: float

    @property
    def demand(self) -> float:
        return float(load_with_own_weight(P=self.load, W=self.weight, x_c=self.x_c, x_Q=self.held.x_R))

    @property
    def ratio(self) -> float:
        return self.demand / self.found.load if self.found.load > NONE else math.inf


def add_split_test(
    body: Body, family: OnePiece[Any], loads: BracketLoads, which: Sequence[int], wood: WoodMaterial, context: Context,
    grain: float,
) -> None:  # fmt: skip
    """Adds the split test, and what strips cannot know, to what is said of a bracket's body."""
    found = split_checks(family, loads, which, wood, context, grain)
    body.weak_grain = found.weak
    body.tables += found.tables
    body.pictures += found.pictures
    body.checks += [*found.checks, *more_checks(family, context, loads, wood)]


def split_checks(
    family: OnePiece[Any], loads: BracketLoads, which: Sequence[int], wood: WoodMaterial, context: Context, grain: float
) -> SplitFound:
    """The load that it is allowed, over those combinations that can govern."""
    bracket, out = family.bracket, SplitFound()
    fixings, name = bracket.fixings, family.bracket.name
    if fixings is None or fixings.by_hand is not None or not fixings.rows or fixings.fastener is None:
        out.checks.append(_not_described(family, loads))
        return out
    under = context.under(bracket.on)
    if fixings.other is None and isinstance(under, Existing) and under.material in ANCHORED:  # they go by a report
        out.checks.append(_not_described(family, loads))
        return out
    rows = FixingRows(family, fixings, loads)
    try:
        runs = list(_runs(family, rows, which, wood, context, grain))
    except NotKnown as error:
        out.checks.append(_unknown(rows, wood, context, error.check, loads))
        return out
    except NotSaid as error:
        out.checks.append(_unknown(rows, wood, context, error.open, loads))
        return out
    except BeamcheckError as error:
        text = f"the split test is not worked out: {in_trade_words(error)}"
        out.checks.append(family.doubt("bracket.split_known", WHAT, CLAUSE, text, "split_by_engineer", loads))
        return out
    if not runs:
        return out
    worst = max(runs, key=lambda run: (run.ratio, run.demand))
    out.allowed = worst.found.load
    out.tables = [_table(worst), _row_table(worst)]
    if writing():
        words, lines = _line_words(worst.held, worst.found.governing), int(judgment("lines of the split test").value)
        combination = loads.combinations[worst.combination].name
        out.pictures = [split_picture(name, combination, worst.held, worst.found, worst.demand, words, lines)]
    if worst.found.load <= NONE:
        out.weak = _why_nothing(worst, grain)
        out.checks.append(Check.breaks_rule(ID, name, WHAT, CLAUSE, out.weak, *_help(worst, grain)))
    else:
        out.checks.append(_judged(name, worst, loads, grain))
    out.checks += loose_tip(bracket, worst.held, wood, grain)
    out.checks += _rods(family, loads)
    return out


def _runs(
    family: OnePiece[Any], rows: FixingRows, which: Sequence[int], wood: WoodMaterial, context: Context, grain: float
) -> Iterator[_Run]:  # fmt: skip
    loads = rows.loads
    turn, margin = judgment("turn of the grain").value, judgment("margin of the split test").value
    lines = int(judgment("lines of the split test").value)
    shift = family.shape.in_the_dap
    known: dict[Key, tuple[Held, Allowed, tuple[RowValue, ...]]] = {}
    for combination in which:
        seats, load = seats_of(loads, combination, shift)
        if load <= 0.0:
            continue
        own = [one for one in loads.strips(combination) if one.own]
        weight = sum(one.force for one in own)
        x_c = sum(one.force * 0.5 * (one.start + one.end) for one in own) / weight + shift if weight else 0.0
        key = float(loads.C_D[combination]), tuple((s.x0, s.x1, s.x_R, round(s.share, 6)) for s in seats)
        if key not in known:
            values = tuple(
                row_value(rows, wood, context, i, combination, grain=grain) for i in range(len(rows.fixings.rows))
            )
            behind = values_behind(rows, context)
            held = held_of(
                family, wood, behind, loads, combination, [one.row for one in values], grain=grain, seats=seats
            )
            known[key] = held, _kept(held, grain, turn, margin, lines), values
        held, found, values = known[key]
        yield _Run(combination, held, found, values, load, weight, x_c)


def _kept(held: Held, grain: float, turn: float, margin: float, lines: int) -> Allowed:
    """Kept: the same bracket is tried again with each answer that is looked at."""
    key = held.outline.tobytes(), replace(held, outline=_NOTHING).__repr__(), grain, turn, margin, lines
    if key not in _KNOWN:
        if len(_KNOWN) >= MOST_KNOWN:
            _KNOWN.clear()
        _KNOWN[key] = allowed(held, grain, turn, margin, lines)
    return _KNOWN[key]


def values_behind(rows: FixingRows, context: Context) -> WoodMaterial | None:
    """The wood of the wall, where it is known."""
    from ..wood import known_wood

    other = rows.fixings.other
    if other is None or other.stock is None:
        return None
    return known_wood(context.stock(other.stock), rows.bracket.on)


def _judged(name: str, run: _Run, loads: BracketLoads, grain: float) -> Check:
    worst, pad = run.found.governing, Pad()
    margin = judgment("margin of the split test")
    x_R = pad.take("x_Q", run.held.x_R, "in", note="the load a sixth of its bearing farther out than its middle")
    P = pad.take("P", run.load, "lbf", note="all that lies on it")
    demand = float(pad(load_with_own_weight, P=P, W=run.weight, x_c=run.x_c, x_Q=x_R))
    for i, one in enumerate(run.rows, start=1):
        pad(head_reach, note=f"row {i}", l_hd=one.row.head, x_Q=run.held.x_R, y_h=one.row.y, theta_g=worst.grain)
    P_s = pad.take("P_s", worst.least, "lbf", clause=CLAUSE, note=_line_words(run.held, worst))
    k_s = pad.take("k_s", margin.value, note=margin.reason, source=margin.source)
    capacity = float(pad(load_allowed, P_s=P_s, k_s=k_s))
    return Check.of_ratio(
        ID, name, WHAT, CLAUSE, *_help(run, grain) if demand > capacity else (), demand=demand, capacity=capacity,
        kind="force", combination=loads.combinations[run.combination].name, where=_line_words(run.held, worst),
        steps=pad.steps,
    )  # fmt: skip


def _line_words(held: Held, one: Split) -> str:
    """Which check governs, and with which grain, in words."""
    grain = show(one.grain % 180.0, "angle")
    if one.s is None:
        return f"no check, grain {grain}"
    theta = math.radians(one.grain)
    sin, cos = math.sin(theta), math.cos(theta)
    out = float(held.outline[:, 0].max())
    if abs(sin) > 1e-6 and 0.0 <= one.s / sin <= out:
        return f"check from the top edge {show(one.s / sin, 'length')} out, grain {grain}"
    if abs(cos) > 1e-6 and 0.0 <= one.s / cos <= held.H:
        return f"check from the wall {show(one.s / cos, 'length')} down, grain {grain}"
    return f"check {show(one.s, 'length')} across the grain from the corner, grain {grain}"


def _reaches(run: _Run, theta: float) -> list[float]:
    return [
        float(head_reach(l_hd=one.row.head, x_Q=run.held.x_R, y_h=one.row.y, theta_g=theta)) for one in run.rows
    ]  # fmt: skip


def _why_nothing(run: _Run, grain: float) -> str:
    worst = run.found.governing
    most = max(_reaches(run, worst.grain))
    where = _line_words(run.held, worst)
    text = "without a single check" if worst.s is None else f"with one check along its grain ({where})"
    text += " nothing holds the part that pulls across the grain"
    sin = math.sin(math.radians(worst.grain))
    if most < 0.0 and sin > 0.1:
        text += (
            f": the fasteners end inside the grain line of the load; bring a head {show(-most / sin, 'length')} "
            "farther out, or more"
        )
    return f"{text}: not to be relied on for load"


def _help(run: _Run, grain: float) -> Iterator[str]:
    """What helps, in the order in which it should be tried."""
    theta = grain % 180.0
    shape_strut = math.degrees(math.atan2(run.held.H, float(run.held.outline[:, 0].max())))
    inside = [i for i, r in enumerate(_reaches(run, theta), start=1) if r <= 0.0]
    if inside and math.sin(math.radians(theta)) > 0.1:
        yield f"bring the head of row {inside[0]} out to the front of the bracket"
    elif abs(theta - shape_strut) > 15.0 and theta < 20.0:
        yield f"turn the grain from foot to nose, some {show(round(shape_strut), 'angle')}"
    yield "then in this order: another row, bigger fasteners, rods across the grain, three pieces, a steel core"


def _table(run: _Run) -> Table:
    rows = tuple(
        (show(one.grain % 180.0, "angle"), show(one.none, "force"), show(one.least, "force"),
         "none lowers it" if one.s is None else _line_words(run.held, one).split(", grain")[0])
        for one in run.found.splits
    )  # fmt: skip
    heads = ("grain above level, towards the nose", "without a check", "with the worst check", "which")
    return Table(
        "Split test: load that still stands", heads, rows, f"The least of them over {run.found.margin:g} is allowed."
    )


def _row_table(run: _Run) -> Table:
    theta = run.found.governing.grain
    rows = tuple(
        (f"{i}", show(v.row.head, "length"), show(v.row.T, "force"), show(v.row.Z, "force"),
         f"{v.row.q:.0f} lb/in", show(v.row.M, "moment"), show(reach, "length"))
        for i, (v, reach) in enumerate(zip(run.rows, _reaches(run, theta), strict=True), start=1)
    )  # fmt: skip
    heads = ("row", "head from the wall", "pull", "sideways", "on the wood", "bending", "head outside the load's line")
    return Table("Rows in the split test", heads, rows, "Each row with all its fasteners and all factors.")


def _not_described(family: Family[Any], loads: BracketLoads) -> Check:
    """Without fasteners there is nothing to test: who answers for others must answer for this too."""
    bracket, fixings = family.bracket, family.bracket.fixings
    id = "bracket.split_known"
    if fixings is None or (not fixings.rows and not fixings.confirmed_by and fixings.rating is None):
        text = "what holds it is not given (`fixings`): nothing says what stands with a check along its grain"
        return Check.refers(id, bracket.name, WHAT, CLAUSE, text, ask=ask_for(bracket, "fixings", "fixings"))
    text = (
        "its fasteners have no value here one by one: whoever answers for them must say that it stands with one full "
        "check along any grain line"
    )
    return family.doubt(id, WHAT, CLAUSE, text, "split_by_others", loads)


def _unknown(
    rows: FixingRows, wood: WoodMaterial, context: Context, why: Check | Open, loads: BracketLoads
) -> Check:  # fmt: skip
    from ..fixings.wood_fasteners import row_group

    id, name = "bracket.split_known", rows.bracket.name
    if isinstance(why, Check):
        if why.questions:
            return Check.refers(id, name, WHAT, CLAUSE, *why.notes, ask=why.questions)
        text = f"the split test waits for its fasteners: {'; '.join(why.notes) or why.what}"
        return rows.family.doubt(id, WHAT, CLAUSE, text, "split_by_engineer", loads)
    through = rows.fixings.through_of(rows.fixings.rows[0])
    if why.key == "through" or through is None:
        asked = ask_for(rows.bracket, "through", "fixings.through")
        return Check.refers(id, name, WHAT, CLAUSE, why.text, ask=asked)
    return row_group(rows, wood, context, [0], 1.0).refers(id, WHAT, CLAUSE, why)


def _rods(family: Family[Any], loads: BracketLoads) -> Iterator[Check]:
    """Rods across the grain are believed by their report."""
    for i, rod in enumerate(family.bracket.rods, start=1):
        if not rod.report.strip():
            text = f"rod {i} across the grain: which report gives its values is not said (`report`)"
            asked = ask_for(family.bracket, "rod_report", f"rods.{i}.report")
            yield Check.refers("bracket.split_known", family.bracket.name, f"rod {i}", CLAUSE, text, ask=asked)
