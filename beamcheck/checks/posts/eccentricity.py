"""The load of a post off center: NDS 2018 15.4.1 with the offsets that are given, or with those assumed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import numpy as np

from ...calc.core import Number
from ...calc.pad import Pad, SilentPad
from ...formulas.wood import combined as cb
from ...formulas.wood import compression as cp
from ...formulas.wood.bending import bending_stress
from ...formulas.wood.combined import eccentric_column_one_way
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ..beams.bracing import proportion
from ..core.asking.question import Question, ask
from ..core.result import Check, worst_of
from ..core.wood.govern import Criterion, duration, govern
from ..core.wood.lost import one_sided
from ..core.wood.strength import Bracing, Outcome, Section, bending_values, column_values, compression, sideways_limit
from .brackets import FACE, SIDE_BRACKETS, brackets_on, on_a_face, side_moment
from .cuts import AS_ONE, NET, Weak, can_be_counted, weak_places, weakened
from .plies import ply_question
from .post_run import PostRun, column_wood, force, lengths

ECCENTRIC = "NDS 2018 15.4.1"
WAYS = ("deep", "thin")


@dataclass(frozen=True)
class _Off:
    """Offsets that are checked together, in, and the words for it."""

    what: str
    e_1: float
    e_2: float
    notes: tuple[str, ...]
    brackets: str = ""  # the way in which the brackets push: "deep", "thin"; "" where there are none


def _offsets(run: PostRun) -> Iterator[_Off]:
    """As given; where nothing is given an offset is assumed, one way at a time, beside what is given the other way."""
    post = run.post
    given = [None if e is None else abs(e) for e in (post.eccentricity, post.eccentricity_weak)]
    taken = [_assumed(run, side) if e is None else (e, "as given") for e, side in zip(given, run.sides, strict=True)]
    gone = one_sided(run.context.stock(post.stock))
    taken = [
        (e + x, f"{why}, and {show(x, 'small length')} as wood is gone on one side") if x else (e, why)
        for x, (e, why) in zip(gone, taken, strict=True)
    ]
    notes = [f"offset the {way} way {show(e, 'length')}: {why}" for way, (e, why) in zip(WAYS, taken, strict=True)]
    if None not in given:
        sets = [(True, True)]
    elif given == [None, None]:
        sets = [(True, False), (False, True)]
    else:
        sets = [(True, True)]
    for ways in sets:
        e_1, e_2 = (e if counts else x for counts, x, (e, _) in zip(ways, gone, taken, strict=True))
        if e_1 == e_2 == 0.0:
            continue
        said = "both ways" if e_1 and e_2 else f"the {WAYS[0] if e_1 else WAYS[1]} way"
        yield _Off(f"load off center {said}", e_1, e_2, tuple(n for n, e in zip(notes, (e_1, e_2), strict=True) if e))


def _assumed(run: PostRun, side: float) -> tuple[float, str]:
    """How far off center a load is taken to come when nobody says, and why."""
    pieces = _on_top(run)
    words, row = ("a sixth", "eccentricity not stated") if pieces < 2 else (
        "a quarter", "eccentricity not stated of a shared top")  # fmt: skip
    e, why = judgment(row).value * side, f"not stated: {words} of the side is taken (common practice, no source)"
    sides = [0.5 * (side - extent) for seat in run.seats() for extent in (seat.length, seat.breadth) if extent]
    if sides and max(sides) > e:
        return max(sides), "not stated: the seat may lie at the edge of the top"
    return e, why


def _on_top(run: PostRun) -> int:
    """How many pieces and loads of its own share the top; brackets stand on its faces."""
    names = {transfer.from_piece for transfer in run.context.transfers if not on_a_face(run, transfer)}
    return len(names) + bool(run.post.carries)


def _contradictions(run: PostRun) -> Iterator[Check]:
    """Eccentricities as stated that cannot be: outside the post, or smaller than the seats leave room for."""
    post = run.post
    fields_ = (("eccentricity", post.eccentricity), ("eccentricity_weak", post.eccentricity_weak))
    for (field, e), side in zip(fields_, run.sides, strict=True):
        if e is not None and abs(e) > 0.5 * side:
            text = f"{show(abs(e), 'length')} is beyond the edge of the post: what takes the load there is not checked"
            why = f"{text[0].upper()}{text[1:]}. At its edge it is {show(0.5 * side, 'length')} off center."
            path = f"post.{post.name}.{field}"
            asked = ask("post_eccentricity", post.name, path, answers=(show(0.5 * side, "length"),), why=why)
            yield Check.refers("post.eccentricity_beyond", post.name, "eccentricity beyond the post", ECCENTRIC, text,
                               ask=asked)  # fmt: skip
    given = [abs(e) for _, e in fields_ if e is not None]
    least, words = _least_by_seats(run)
    if given and max(given) < least - judgment("seat beside the middle of a post").value:
        text = f"{words}, {show(least, 'length')} off center; {show(max(given), 'length')} is stated"
        asked = ask(
            "post_eccentricity", post.name, f"post.{post.name}.eccentricity",
            answers=(show(least, "length"),), why=f"{words[0].upper()}{words[1:]}, {show(least, 'length')} off center.",
        )  # fmt: skip
        yield Check.refers("post.eccentricity_and_seats", post.name, "eccentricity smaller than the seats", ECCENTRIC,
                           text, ask=asked)  # fmt: skip


def _least_by_seats(run: PostRun) -> tuple[float, str]:
    """The smallest eccentricity that the seats on the top allow, inches, and why.

    The end of one beam with a seat shorter than the post lies over one half of it. Of several pieces none can bear on
    the middle, and one of them may be loaded alone.
    """
    seats = [seat for seat in run.seats() if seat.length]
    if not seats:
        return 0.0, ""
    pieces = _on_top(run)
    if pieces > 1:
        shortest = min(seat.length for seat in seats if seat.length)
        words = (
            f"{pieces} pieces share the top, so they cannot all bear on its middle: one of them alone, seated over "
            f"{show(shortest, 'length')}, bears"
        )
        return max(0.5 * (max(run.sides) - shortest), 0.0), words
    (seat,) = seats[:1]
    if not seat.at_an_end or not seat.length:
        return 0.0, ""
    words = f"the end of {seat.beam}, seated over {show(seat.length, 'length')}, bears on one side of the post"
    return max(0.5 * (min(run.sides) - seat.length), 0.0), words


def _with_brackets(run: PostRun, offsets: list[_Off]) -> Iterator[_Off]:
    """Brackets push the deep way, or the thin way, and the same way as a load that is off center one way only."""
    if not brackets_on(run):
        yield from offsets
        return
    assumed = len(offsets) > 1  # an offset each way in turn: what is given comes as one set
    for off in offsets or [_Off("", 0.0, 0.0, ())]:
        for way in WAYS:
            if assumed and (off.e_1 if way == "thin" else off.e_2):
                continue
            what = f"{off.what}, brackets {way} way" if off.what else f"brackets on its faces, the {way} way"
            yield replace(off, what=what, notes=(*off.notes, FACE), brackets=way)


def off_center_checks(run: PostRun) -> list[Check]:
    """NDS 2018 15.4.1: eq. 15.4-1 and its companion 15.4-2, which must stay below 1."""
    post = run.post
    if run.section.round:
        central = post.eccentricity == 0.0 and post.eccentricity_weak in (None, 0.0) and not brackets_on(run)
        text = "a round post with a load not shown to be central is for an engineer"
        asked = ask("round_post_off_center", post.name, forces={"comes down": float(np.max(run.pressed))})
        return [] if central else [
            Check.refers("post.eccentric", post.name, "load off center", "NDS 2018 15.4", text, ask=asked)
        ]  # fmt: skip
    offs = list(_with_brackets(run, list(_offsets(run))))
    found = list(_contradictions(run))
    for off in offs:
        found += _of(run, off)
    for weak in filter(partial(can_be_counted, run), weak_places(run)):
        found += _with_a_cut(run, weak, offs)
    return found


def _of(run: PostRun, off: _Off, more: str = "", notes: tuple[str, ...] = ()) -> Iterator[Check]:
    """One set of eccentricities."""
    clause = f"{ECCENTRIC}, {SIDE_BRACKETS.rsplit(maxsplit=1)[-1]}" if off.brackets else ECCENTRIC
    asked = (*_not_stated(run), *filter(None, [ply_question(run.post, run.size)]))
    criterion = Criterion(run.post.name, f"{off.what}{more}", clause, "ratio", notes=(*off.notes, *notes),
                          id="post.eccentric", ask=asked)  # fmt: skip
    yield govern(criterion, run.combinations, partial(_eccentric, run, off))
    if off.e_1 == 0.0 and off.brackets != "deep":
        return  # eq. 15.4-2 is then f_c < F_cE2, which eq. 15.4-1 asks for already
    sideways = replace(criterion, what=f"{off.what}, sideways{more}", clause=f"{ECCENTRIC} (eq. 15.4-2)", strict=True,
                       id="post.eccentric_sideways")  # fmt: skip
    yield govern(sideways, run.combinations, partial(_limit, run, off))


def _not_stated(run: PostRun) -> tuple[Question, ...]:
    """The eccentricities that are taken because nobody states them."""
    post = run.post
    return tuple(
        ask(key, post.name, f"post.{post.name}.{field}")
        for key, field, e in (
            ("eccentricity", "eccentricity", post.eccentricity),
            ("eccentricity_weak", "eccentricity_weak", post.eccentricity_weak),
        ) if e is None
    )  # fmt: skip


def _with_a_cut(run: PostRun, weak: Weak, offs: list[_Off]) -> list[Check]:
    """Compression and eccentricity with what is left at a cut, along the whole height; the worst of each kind."""
    less, more = weakened(run, weak), f" with {weak.words}"
    shift = f"what is left at the cut lies {show(weak.off, 'small length')} off the middle"
    sets = [
        replace(off, e_1=off.e_1 + weak.off,
                notes=(f"{off.notes[0] if off.e_1 else 'offset the deep way'}; {shift}",
                       *(off.notes[1:] if off.e_1 else off.notes)))
        for off in offs or [_Off("load off center the deep way", 0.0, 0.0, ())]
    ] if weak.off else offs  # fmt: skip
    straight = Criterion(run.post.name, f"buckling{more}", NET, "stress", notes=(AS_ONE,), id="post.net_buckling",
                         ask=tuple(filter(None, [ply_question(run.post, run.size)])))  # fmt: skip
    found = [govern(straight, run.combinations, partial(straight_down, less))]
    checks = [check for off in sets for check in _of(less, off, more, (AS_ONE,))]
    for id in ("post.eccentric", "post.eccentric_sideways"):
        if alike := [check for check in checks if check.id == id]:
            found.append(worst_of(alike))
    return found


def straight_down(run: PostRun, pad: Pad, which: int | slice) -> Outcome:
    """Compression with buckling both ways (NDS 2018 3.6, 3.7)."""
    P = force(run, pad, which)
    l_e1, l_e2 = lengths(run, pad)
    return compression(
        pad, column_wood(run), run.column, P=P, C_D=duration(pad, run.combinations, which), l_e1=l_e1, l_e2=l_e2,
        K_f=run.K_f or 1.0,
    )  # fmt: skip


def _ply_depth(run: PostRun) -> float:
    """Depth in bending the thin way: plies slide on each other, so it is that of one ply."""
    return float(run.column.breadth_alone)


def _stresses(run: PostRun, pad: Pad, which: int | slice, C_D: Number) -> tuple[Number, Number, Number, Number]:
    """f_c, F_c', F_cE1 and F_cE2; K_f counts in the last one too (safe reading)."""
    column = run.column
    f_c = pad(cp.compression_stress, P=force(run, pad, which), A=column.area(pad))
    l_e1, l_e2 = lengths(run, pad)
    K_f = run.K_f or 1.0
    F_c_prime, F_cE1, F_cE2, _ = column_values(pad, column_wood(run), column, l_e1=l_e1, l_e2=l_e2, C_D=C_D, K_f=K_f)
    if K_f != 1.0:
        F_cE2 = pad.take("F_cE2", K_f * F_cE2, "psi", note=f"times K_f = {K_f:g} (safe reading)")
    return f_c, F_c_prime, F_cE1, F_cE2


def _deep_bracing(run: PostRun) -> Bracing:
    """Bending the deep way can tip the post the thin way; braces are not shown to hold the pressed edge."""
    if proportion(run.size, run.column) <= 2.0:
        return Bracing(True, "d/b is 2 or less: no sideways support is needed (NDS 2018 4.4.1.2)")
    return Bracing(False, "the whole height: braces are not shown to hold the pressed edge", run.post.height)


def _tipping(run: PostRun, pad: Pad) -> Number:
    bracing = _deep_bracing(run)
    return math.inf if bracing.held else sideways_limit(pad, run.wood, run.column, bracing)


def _eccentric(run: PostRun, off: _Off, pad: Pad, which: int | slice) -> Outcome:
    C_D, column = duration(pad, run.combinations, which), run.column
    f_c, F_c_prime, F_cE1, F_cE2 = _stresses(run, pad, which, C_D)
    d_1, d_2 = float(column.d), _ply_depth(run)
    F_b1_prime = F_b2_prime = 0.0
    if off.e_1 or off.brackets:
        _, F_b1_prime = bending_values(pad, run.wood, column, _deep_bracing(run), C_D)
    if off.e_2 or off.brackets:
        turned = Section(d_1, d_2, d_1)
        _, F_b2_prime = bending_values(pad, run.flat, turned, Bracing(True, "bending the thin way"), C_D)
    e_1 = pad.take("e_1", off.e_1, "in", note=off.notes[0]) if off.e_1 else 0.0
    e_2 = pad.take("e_2", off.e_2, "in", note=off.notes[1 if off.e_1 else 0]) if off.e_2 else 0.0
    if off.brackets:
        f_b1, f_b2 = (_pushed(run, off, way, pad, which) for way in WAYS)
        ratio = pad(
            cb.eccentric_column, f_c=f_c, F_c_prime=F_c_prime, f_b1=f_b1, F_b1_prime=F_b1_prime, f_b2=f_b2,
            F_b2_prime=F_b2_prime, F_cE1=F_cE1, F_cE2=F_cE2, F_bE=_tipping(run, pad), e_1=e_1, d_1=d_1,
            e_2=e_2, d_2=d_2,
        )  # fmt: skip
    elif e_1 and e_2:
        values = {"F_b1_prime": F_b1_prime, "F_b2_prime": F_b2_prime, "F_cE1": F_cE1, "F_cE2": F_cE2}
        ratio = pad(
            cb.eccentric_column, f_c=f_c, F_c_prime=F_c_prime, f_b1=0.0, f_b2=0.0, F_bE=_tipping(run, pad), e_1=e_1,
            d_1=d_1, e_2=e_2, d_2=d_2, **values,
        )  # fmt: skip
    elif e_1:
        ratio = pad(eccentric_column_one_way, f_c=f_c, F_c_prime=F_c_prime, F_b1_prime=F_b1_prime, e_1=e_1, d_1=d_1,
                    F_cE1=F_cE1)  # fmt: skip
    else:
        ratio = pad(eccentric_column_one_way, note="axis 2 in the place of axis 1", f_c=f_c, F_c_prime=F_c_prime,
                    F_b1_prime=F_b2_prime, e_1=e_2, d_1=d_2, F_cE1=F_cE2)  # fmt: skip
    return Outcome(ratio, 1.0, ratio)


def _pushed(run: PostRun, off: _Off, way: str, pad: Pad, which: int | slice) -> Number:
    """f_b1 (deep way) or f_b2 (thin way) of the brackets, psi; plies slide on each other the thin way."""
    if off.brackets != way:
        return 0.0
    deep, d_1, d_2 = way == "deep", float(run.column.d), _ply_depth(run)
    across = float(run.column.area(SilentPad()))
    M = side_moment(run, pad, which, run.sides[0 if deep else 1])
    section = Section(across / d_1, d_1, d_2) if deep else Section(across / d_2, d_2, d_1)
    return pad(bending_stress, symbol="f_b1" if deep else "f_b2", M=M, S=section.modulus(pad))


def _limit(run: PostRun, off: _Off, pad: Pad, which: int | slice) -> Outcome:
    f_c, _, _, F_cE2 = _stresses(run, pad, which, duration(pad, run.combinations, which))
    ratio = pad(
        cb.eccentric_column_limit, f_c=f_c, F_cE2=F_cE2, f_b1=_pushed(run, off, "deep", pad, which),
        F_bE=_tipping(run, pad), e_1=off.e_1, d_1=float(run.column.d),
    )  # fmt: skip
    return Outcome(ratio, 1.0, ratio)
