"""From load and place to shapes that may carry: what helps a bracket, in the order in which it should be tried.

Heads to the front, grain from foot to nose, another row, bigger fasteners, a profile drawn for the load, three
pieces, a steel core. Nothing is checked here; see `bracket_wish.py`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ..checks.anchors.fastener import dowel_of
from ..checks.brackets.families.registry import family_of
from ..model.anchors.anchor import Fastener
from ..model.brackets.bracket import Bracket, Fixings, Row
from ..model.brackets.joints import LegJoint
from ..model.brackets.shapes import Braced, Shape, Solid, SteelCore
from ..model.stock import Stock
from ..records import dataclass
from ..values.lumber import read_size

LAGS = (("3/8 in", 1.5), ("1/2 in", 1.75), ("5/8 in", 2.25))  # and the washer of each, in
BORE = 0.75  # in: a counterbore in front of a head is no deeper
HEAD_OUT = 1.0  # in: a head stands so far beyond the load, where there is wood
INTO = 10.0  # diameters: of a lag screw in the wall
LONGEST = 12.0  # in: longer lag screws are hard to buy
BEYOND = 1.0  # in: of top edge beyond a load
TALL, LEG = 1.4, 0.38  # height and legs of a drawn profile over its projection
THICK = (3.5, 5.5)  # in: of the timbers that are looked at beside that of the job
TWO_ROWS, THREE_ROWS = (0.2, 0.65), (0.15, 0.42, 0.7)  # heights of rows over that of the bracket
BARS = (1 / 4, 3 / 8, 1 / 2, 3 / 4)  # in: thickness of a steel bar


@dataclass(frozen=True)
class Try:
    """A bracket that may carry: what is done to the one of the job, in words, and whether it is steel that carries."""

    words: str
    bracket: Bracket
    stock: Stock | None = None  # where it is cut from a thicker timber than that of the job
    steel: bool = False


def tries(bracket: Bracket, stock: Stock | None, out: float, x_R: float, pull: float) -> Iterator[Try]:
    """Brackets in the order in which they should be tried.

    `out`, `x_R`: outer end of the load and its resultant, from the wall [in]. `pull`: largest force on it [lbf].
    """
    fixings = bracket.fixings
    if stock is not None and fixings is not None and fixings.rows and fixings.other is not None:
        if bracket.shape.sawn:
            yield from _same_shape(bracket, fixings, x_R)
        yield from _drawn(bracket, stock, fixings, out, x_R)
        yield from _three_pieces(bracket, stock, fixings, out, pull)
    if fixings is not None and fixings.other is not None:
        yield from _steel(bracket, fixings, out)


def _with(bracket: Bracket, shape: Shape, fixings: Fixings, **more: object) -> Bracket:
    return bracket.model_copy(update={"shape": shape, "fixings": fixings, **more})


def fronted(bracket: Bracket, fixings: Fixings, x_R: float, size: tuple[str, float] | None = None,
            downs: Sequence[float] = ()) -> Fixings | None:  # fmt: skip
    """The fixings with heads in front: beyond the load, or at the front where that is nearer; None where lags would be
    too long or the wood is too thin for them."""
    assert fixings.other is not None
    fastener = fixings.fastener
    if size is not None or fastener is None:
        name, washer = size or LAGS[0]
        fastener = Fastener.model_construct(kind="lag screw", size=name, length=6.0, washer=washer)
    D = dowel_of(fastener).D
    thickness, washer = bracket.shape.side_to_side, fastener.washer or 1.5
    if thickness < max(4.0 * D, washer + 0.125):
        return None
    family, rows = family_of(bracket), []
    for down in downs or [row.below_top for row in fixings.rows]:
        deep = family.depth_at(down)
        if deep is None:
            return None
        through = math.floor(4.0 * min(deep - BORE, x_R + HEAD_OUT)) / 4.0
        length = math.ceil(2.0 * (through + min(INTO * D, fixings.other.thickness - 0.25))) / 2.0
        if through < 1.0 or (fastener.kind == "lag screw" and length > LONGEST):
            return None
        rows.append(Row.model_construct(below_top=down, count=1, through=through, length=length))
    bored = {"counterbore": washer + 0.125, "counterbore_depth": BORE, "washer": washer, "length": rows[0].length}
    return fixings.model_copy(update={
        "fastener": fastener.model_copy(update=bored), "rows": tuple(rows), "through": rows[0].through,
    })  # fmt: skip


def _same_shape(bracket: Bracket, fixings: Fixings, x_R: float) -> Iterator[Try]:
    """As it is, with its heads out, its grain turned, another row, bigger fasteners."""
    shape, H = bracket.shape, family_of(bracket).back
    ways = [("", shape)]
    if family_of(bracket).carved:  # a block stands with its grain upright
        strut = round(math.degrees(math.atan2(H, shape.stands_out)))
        turned = shape.model_copy(update={"grain": float(strut), "pocket": None})
        ways.append((f", grain from foot to nose, {strut} degrees above level", turned))
    more = [H * part for part in THREE_ROWS]
    for grain, one in ways:
        moved = bracket.model_copy(update={"shape": one})
        for rows, downs in (("", ()), (", a third row", more if len(fixings.rows) < 3 else ())):
            if rows and not downs:
                continue
            for size in (None, *LAGS):
                bigger = "" if size is None else f", {size[0]} lag screws"
                held = fronted(moved, fixings, x_R, size, downs)
                if held is not None:
                    yield Try(f"heads out to the front{grain}{rows}{bigger}", _with(bracket, one, held))


def _drawn(bracket: Bracket, stock: Stock, fixings: Fixings, out: float, x_R: float) -> Iterator[Try]:
    """A straight profile drawn for the load, grain from foot to nose, heads in front."""
    P = math.ceil(2.0 * (out + BEYOND)) / 2.0
    H, leg = math.ceil(2.0 * TALL * P) / 2.0, math.ceil(4.0 * LEG * P) / 4.0
    size = read_size(stock.size)
    thin = float(min(size.b, size.d))
    for t in dict.fromkeys((thin, *(one for one in THICK if one > thin))):
        shape = Solid.model_construct(
            family="solid", thickness=t, height=H, projection=P, foot=leg, nose=leg, soffit="straight",
            grain=float(round(math.degrees(math.atan2(H, P)))),
        )  # fmt: skip
        timber = None
        if t > thin:
            wide = f"{t:g} in x {max(float(max(size.b, size.d)), t):g} in"
            timber = stock.model_copy(update={"name": f"{stock.name}, {t:g} in thick", "size": wide})
        more = {} if timber is None else {"stock": timber.name}
        for parts in (TWO_ROWS, THREE_ROWS):
            for lag in LAGS:
                plain = _with(bracket, shape, fixings, **more)
                held = fronted(plain, fixings, x_R, lag, [round(4.0 * part * H) / 4.0 for part in parts])
                if held is not None:
                    words = (
                        f"a straight bracket {H:g} in high, {P:g} in out, {t:g} in thick, legs {leg:g} in, grain from "
                        f"foot to nose, {len(parts)} {lag[0]} lag screws from the front"
                    )
                    yield Try(words, _with(bracket, shape, held, **more), timber)


def _three_pieces(bracket: Bracket, stock: Stock, fixings: Fixings, out: float, pull: float) -> Iterator[Try]:
    """Wall leg, top leg and brace in housings, the legs tied by steel."""
    size = read_size(stock.size)
    t = float(min(size.b, size.d))
    if t < 1.5:
        return
    leg = max(t, 2.5)
    P = math.ceil(2.0 * (out + 4.0)) / 2.0
    at = P - 3.0
    if at <= 2.0 * leg:
        return
    tie = LegJoint.model_construct(
        manner="steel", takes=math.ceil(2.0 * pull / 10.0) * 10.0, takes_up=math.ceil(pull / 20.0) * 10.0,
        report="report of its maker, with number and year: to be found", both_sides=True,
    )  # fmt: skip
    shape = Braced.model_construct(
        family="braced", thickness=t, height=P, projection=P, wall_leg=leg, top_leg=leg, brace=leg, brace_out=at,
        brace_down=at, joints="housed", housing=0.5, behind_housing=1.5, legs_joint=tie,
    )  # fmt: skip
    for lag in LAGS:
        plain = _with(bracket, shape, fixings)
        assert fixings.other is not None
        D = dowel_of(Fastener.model_construct(kind="lag screw", size=lag[0], length=6.0)).D
        length = math.ceil(2.0 * (leg + min(INTO * D, fixings.other.thickness - 0.25))) / 2.0
        rows = tuple(Row.model_construct(below_top=down, count=1) for down in (1.5 * leg, round(2.0 * 0.6 * P) / 2.0))
        fastener = Fastener.model_construct(kind="lag screw", size=lag[0], length=length, washer=min(lag[1], t - 0.125))
        held = fixings.model_copy(update={"fastener": fastener, "rows": rows, "through": leg})
        words = (
            f"three pieces {leg:g} in deep and {t:g} in thick, {P:g} in by {P:g} in, brace in housings 1/2 in deep, "
            f"the legs tied by steel for {tie.takes:g} lb, two {lag[0]} lag screws"
        )
        yield Try(words, _with(plain, shape, held))


def _steel(bracket: Bracket, fixings: Fixings, out: float) -> Iterator[Try]:
    """A bar in a wooden skin that carries all of it."""
    assert fixings.other is not None
    P, down = math.ceil(2.0 * (out + 0.5)) / 2.0, max(6.0, float(math.ceil(1.4 * out)))
    for thick in BARS:
        shape = SteelCore.model_construct(
            family="steel core", steel="A36", width=1.5 if thick < 0.5 else 2.0, thickness=thick, projection=P,
            down=down, tip_clear=0.25, skin="boards, open at the back",
        )  # fmt: skip
        for name, _ in LAGS[:2]:
            D = dowel_of(Fastener.model_construct(kind="lag screw", size=name, length=4.0)).D
            length = math.ceil(2.0 * min(INTO * D + thick, fixings.other.thickness)) / 2.0
            fastener = Fastener.model_construct(
                kind="lag screw", size=name, length=min(length, fixings.other.thickness)
            )
            rows = tuple(Row.model_construct(below_top=at, count=1) for at in (1.5, down))
            held = fixings.model_copy(update={"fastener": fastener, "rows": rows, "through": thick})
            words = (
                f"a hidden A36 bar {shape.width:g} in by {thick:g} in, bent, {down:g} in down the wall, two {name} lag "
                "screws; wood only as its skin"
            )
            yield Try(words, _with(bracket, shape, held, stock=None, rods=(), checks=None), steel=True)


def load_place(strips: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """Outer end and resultant of strips (from, to, force), in."""
    force = np.array([one[2] for one in strips])
    middle = np.array([0.5 * (one[0] + one[1]) for one in strips])
    return max(one[1] for one in strips), float((force * middle).sum() / max(force.sum(), 1e-9))
