"""A bracket near a beam: whether the beam stays clear of it, and what it means if it does not.

Clear means: the gap is known, is enough, and what may close it is stated; or slots let the bracket slide as far. What
is not known is referred; a gap that is known to be too small makes the bracket a prop.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....units import show
from ....values.judgment import judgment
from ...core.context import Context
from ...core.govern import stated
from ...core.material import is_unknown
from ...core.pictures import Closing, GapPicture
from ...core.result import Check, Verdict, judge
from .beam import effects
from .gap import FREE, Array, Nearby, PropAsk

__all__ = ["PropAsk", "PropResult", "prop_result"]

GAP, FORCE = "NDS 2018 3.5.2", "force method, one-sided contact"
TREAT = "treat it as structural or free it"
SOFT = "For the gap at a bracket, and for what it attracts, the beam is taken as soft as one piece in twenty is."
TOGETHER = (
    "The force on a bracket is the largest for all that its stiffness may be and with all brackets under that beam "
    "together; those that relieve it count only as far as they are known."
)
STILL = "What a bracket is fixed to is taken not to move; its gap is that at the nose, where it is least."
SNUG = "Screws in slots are snug and not clamped, and no other fixing keeps the bracket from sliding."
FILLED = "A pad is taken to fill the gap: it presses from the first movement on."
FITTED = "Where it is not given how far the beam had come down when the gap was set, all of that is still to come."


@dataclass(frozen=True, eq=False)
class PropResult:
    """What the beam above does to one bracket.

    R, R_least : (combinations,) largest and least force of the beam on the bracket, lbf, down positive; a negative one
        pulls it up. Zero while it stays free. Where the gap is not known: what it attracts if there is none.
    combinations : of the beam; empty, like the arrays, where nothing could be worked out.
    g_needed : gap that keeps it free, in; None where it could not be worked out.
    touches : it is known to act as a prop, or not to be clear by the gap needed.
    free : it is shown to stay clear.
    """

    checks: tuple[Check, ...]
    picture: GapPicture | None
    R: Array
    R_least: Array
    combinations: tuple[Loaded, ...]
    g_needed: float | None
    touches: bool
    free: bool
    remedies: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()


def prop_result(
    asks: Sequence[PropAsk], mine: str, context: Context, *, beam_verdict: Verdict | None = None
) -> PropResult:  # fmt: skip
    """Check one bracket near a beam, with the others near that beam.

    Parameters
    ----------
    asks : sequence of PropAsk
        All brackets near the beam, `mine` among them; those near other beams are left out.
    mine : str
        The bracket that is asked for.
    beam_verdict : Verdict or None
        Of the beam itself, without any bracket; None where it is not known.

    Raises
    ------
    ValueError
        If `mine` is not among `asks`.
    """
    own = next((ask for ask in asks if ask.name == mine), None)
    if own is None:
        raise ValueError(f"{mine!r} is not among the brackets that are asked about")
    beam = own.near.beam
    alone = _beam_alone(mine, beam, beam_verdict)
    run = context.structure.runs.get(beam)
    if run is None:
        return _refused(alone, own, f"{beam} could not be worked out, so how far it comes down is not known")
    if is_unknown(context.stock(run.beam.stock)):
        text = f"the wood of {beam} is not known, so how far it comes down is not known either: have it graded"
        return _refused(alone, own, text)
    together = [ask for ask in asks if ask.near.beam == beam]
    try:
        return _result(Nearby(run, together), together.index(own), context, alone)
    except BeamcheckError as error:
        return _refused(alone, own, str(error))


def _beam_alone(mine: str, beam: str, verdict: Verdict | None) -> Check:
    text = {
        "passes": f"{beam} passes on its own",
        "refer": f"{beam} is not shown to pass on its own, and a bracket never stands in for what is missing there",
        "fails": f"{beam} does not pass on its own, and a bracket never makes up for that",
        None: f"whether {beam} passes on its own is not known here",
    }[verdict]
    return stated(mine, f"{beam} without the bracket", "load path", "passes" if verdict == "passes" else "refer", text)


def _refused(alone: Check, own: PropAsk, text: str) -> PropResult:
    none = np.zeros(0)
    check = stated(own.name, f"gap under {own.near.beam}", GAP, "refer", text, where=show(own.near.at, "length"))
    return PropResult((alone, check), None, none, none, (), None, touches=False, free=False)


def _result(nearby: Nearby, i: int, context: Context, alone: Check) -> PropResult:
    ask, near = nearby.asks[i], nearby.asks[i].near
    wide_enough = judge(nearby.ratio(i)) == "passes"
    clear = nearby.slides(i) or (wide_enough and near.pad is None)
    none = np.zeros(len(nearby.run.solved.combinations))
    R, R_least = (none, none) if clear else nearby.forces(i)
    acts = bool(np.max(R) > FREE or np.min(R_least) < -FREE)
    sure = near.fixed_to_beam or near.gap is not None
    checks = [alone, *_doubts(nearby, i)]
    if not ask.carries:
        checks.append(_slot_check(nearby, i) if nearby.slides(i) and not wide_enough else _gap_check(nearby, i, R))
    if acts:
        checks += _force_checks(nearby, i, R, R_least, sure=sure)
        checks += effects(nearby.run, nearby.states(i), ask.name, near.at, context, sure=sure)
    free = clear or (wide_enough and not acts)
    return PropResult(
        tuple(checks), _picture(nearby, i, R), R, R_least, nearby.run.solved.combinations, nearby.g_needed(i),
        touches=sure and not free and not ask.carries, free=free and near.closing is not None,
        remedies=() if free or ask.carries else (_remedy(nearby, i),), assumptions=tuple(_assumptions(nearby, i)),
    )  # fmt: skip


def _doubts(nearby: Nearby, i: int) -> Iterator[Check]:
    """Evidence that is missing."""
    ask, near, where = nearby.asks[i], nearby.asks[i].near, show(nearby.asks[i].near.at, "length")
    if near.closing is None:
        text = (
            "wood that shrinks or swells and closes the gap is not stated (`closing`): plates and sills under the "
            f"beam's supports, and the depth of {nearby.beam} where it hangs from its top; `[]` says that there is none"
        )
        yield stated(ask.name, "movements that close the gap", "Wood Handbook ch. 13", "refer", text, where=where)
    if nearby.crooked(i):
        text = (
            f"{nearby.beam} is said to have come down {show(near.sagged or 0.0, 'length')} there, which is more than "
            "its dead load explains: it is softer than taken here, bore more once, or was crooked from the start"
        )
        yield stated(ask.name, f"how far {nearby.beam} had come down", GAP, "refer", text, where=where)


def _gap_check(nearby: Nearby, i: int, R: Array) -> Check:
    ask, near = nearby.asks[i], nearby.asks[i].near
    needed, ratio, worst = nearby.g_needed(i), nearby.ratio(i), int(np.argmax(nearby.needed[:, i]))
    pad = Pad()
    nearby.soft_modulus(pad)
    nearby.movements(pad, ask)
    nearby.gap(pad, worst, i)
    leave = f"{show(_up(needed), 'length')} keeps it free"
    if near.fixed_to_beam:
        note = f"{ask.name} is fixed to {nearby.beam} and to what is behind it, so it works both ways: {TREAT}"
    elif near.gap is None:
        note = f"the gap between {ask.name} and {nearby.beam} is not known; {leave}"
    elif judge(ratio) == "passes":
        note = leave
    elif float(np.max(R)) > FREE:
        note = f"too small: {leave}"
    else:
        note = f"too small to be sure, though by the figures it just stays open; {leave}"
    if near.slot is not None and judge(ratio) != "passes":
        note += (
            f"; its slots of {show(near.slot, 'length')} do not free it; {_slot(nearby, i)} may, if an engineer "
            "confirms that it slides"
        )
    return Check(
        ask.name, f"gap under {nearby.beam}", GAP, judge(ratio, distance=True), "small length", needed,
        0.0 if near.fixed_to_beam else near.gap, None if math.isnan(ratio) else ratio,
        nearby.run.solved.combinations[worst].name, show(near.at, "length"), tuple(pad.steps), (note,),
    )  # fmt: skip


def _slot_check(nearby: Nearby, i: int) -> Check:
    """Slots that let it slide, where the gap alone does not keep it free."""
    ask, near, worst = nearby.asks[i], nearby.asks[i].near, int(np.argmax(nearby.needed[:, i]))
    pad = Pad()
    nearby.soft_modulus(pad)
    nearby.movements(pad, ask)
    nearby.gap(pad, worst, i)
    needed, slot = nearby.slot_needed(i), near.slot or 0.0
    return Check(
        ask.name, f"slots that free it from {nearby.beam}", GAP, judge(needed / slot), "small length", needed, slot,
        needed / slot, nearby.run.solved.combinations[worst].name, show(near.at, "length"), tuple(pad.steps),
        ("the slots are twice as long as the gap needed", SNUG),
    )  # fmt: skip


def _force_checks(nearby: Nearby, i: int, R: Array, R_least: Array, *, sure: bool) -> Iterator[Check]:
    """What the bracket attracts; and what pulls it up, where it is fixed to the beam."""
    ask, near, combinations = nearby.asks[i], nearby.asks[i].near, nearby.run.solved.combinations
    what, where = f"force that it attracts from {nearby.beam}", show(near.at, "length")
    if (most := float(np.max(R))) > FREE:
        worst, pad = int(np.argmax(R)), Pad()
        nearby.soft_modulus(pad)
        nearby.write_force(pad, worst, i)
        verdict: Verdict = "passes" if ask.carries else "fails" if sure else "refer"
        notes = [f"{show(most, 'force')} of {nearby.beam} {'rests' if sure else 'would rest'} on {ask.name}"]
        if ask.carries:
            notes[0] += ", which is meant to carry; it is never counted in favour of the beam"
        elif sure:
            notes[0] += f": it acts as a prop: {TREAT}"
        else:
            notes[0] += " if there is no gap: measure the gap, or free it"
        if near.pad is not None:
            notes.append(_pad_words(nearby, i))
        yield Check(
            ask.name, what, FORCE, verdict, "force", most, combination=combinations[worst].name, where=where,
            steps=tuple(pad.steps), notes=tuple(notes),
        )  # fmt: skip
    if (least := float(np.min(R_least))) < -FREE:
        text = f"fixed to {nearby.beam} as well, {ask.name} is pulled up with {show(-least, 'force')}: {TREAT}"
        yield Check(
            ask.name, f"pull from {nearby.beam}", FORCE, "refer" if ask.carries else "fails", "force", -least,
            combination=combinations[int(np.argmin(R_least))].name, where=where, notes=(text,),
        )  # fmt: skip


def _pad_words(nearby: Nearby, i: int) -> str:
    if nearby.padded(i):
        return "the pad is soft enough to count, but it passes force on all the same"
    if nearby.asks[i].near.pad_squeezes is None:
        return "how far the pad can be squeezed is not given (`pad_squeezes`): it is not counted"
    return "the pad is squeezed flat: it is not counted"


def _picture(nearby: Nearby, i: int, R: Array) -> GapPicture:
    ask, worst = nearby.asks[i], int(np.argmax(nearby.needed[:, i]))
    at_once = max(float(nearby.sink.lasting[worst, i]), 0.0)
    parts = [
        ("dead load", at_once), ("creep", float(nearby.sink.creep(nearby.K_cr)[worst, i])),
        ("all other load", max(float(nearby.sink.passing[worst, i] + min(nearby.sink.lasting[worst, i], 0.0)), 0.0)),
        ("had come down before", -float(nearby.before[worst, i])),
    ]  # fmt: skip
    steps = [*parts, *nearby.closing[i], ("tolerance", judgment("tolerance of a gap").value)]
    return GapPicture(
        ask.name, nearby.beam, 0.0 if ask.near.fixed_to_beam else ask.near.gap,
        tuple(Closing(what, size) for what, size in steps if abs(size) > 0.0), nearby.g_needed(i), float(np.max(R)),
    )  # fmt: skip


def _remedy(nearby: Nearby, i: int) -> str:
    """Gap and slots, rounded up to what a tape shows."""
    words = (
        f"leave {show(_up(nearby.g_needed(i)), 'length')} (or slot the upper fixing {_slot(nearby, i)} and let an "
        "engineer confirm that it slides)"
    )
    if nearby.asks[i].near.fixed_to_beam:
        return f"take out what fixes it to {nearby.beam}, and {words}"
    return words


def _slot(nearby: Nearby, i: int) -> str:
    """Slots that go with the gap as rounded."""
    return show(_up(_up(nearby.g_needed(i)) * nearby.slot_needed(i) / nearby.g_needed(i)), "length")


def _up(length: float) -> float:
    """Rounded up to the 1/16 in or mm in which lengths are shown."""
    unit = 1.0 / 25.4 if show(1.0, "length").endswith("mm") else 1.0 / 16.0
    return math.ceil(length / unit - 1e-9) * unit


def _assumptions(nearby: Nearby, i: int) -> Iterator[str]:
    near = nearby.asks[i].near
    yield from (SOFT, TOGETHER, STILL)
    if near.sagged is None:
        yield FITTED
    if near.slot is not None:
        yield SNUG
    if near.pad is not None:
        yield FILLED
