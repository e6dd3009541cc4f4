"""A bracket near a beam: whether the beam stays clear of it, and what it means if it does not.

Clear means: the gap is known, is enough, and what may close it is stated; or slots let the bracket slide as far. What
is not known is referred; a gap that is known to be too small makes the bracket a prop.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....calc.pad import Pad
from ....errors import BeamcheckError
from ....formulas.brackets.brace import knee_thrust
from ....model.beams import Beam
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from ....values.loads import told
from ....values.refused import in_trade_words
from ...core.asking.question import PlausibleAnswer, Question, ask
from ...core.context import Context
from ...core.pictures.others import Closing, GapPicture
from ...core.result import Check
from ...core.wood.grade_asked import ask_grade
from ...core.wood.material import is_unknown
from ..asking import sentence
from .beam import effects
from .gap import Array, Nearby, PropAsk
from .supports import beams_of_others, live_that_stays, moving_supports

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
    open : what has to be known before it can be said whether it touches.
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
    open: tuple[Question, ...] = ()


def prop_result(asks: Sequence[PropAsk], mine: str, context: Context) -> PropResult:
    """Check one bracket near a beam, with the others near that beam.

    `asks`: sequence of PropAsk: all brackets near the beam, `mine` among them; those near other beams are left out.
    `mine`: the bracket that is asked for. Raises ValueError if `mine` is not among `asks`.
    """
    own = next((ask for ask in asks if ask.name == mine), None)
    if own is None:
        raise ValueError(f"{mine!r} is not among the brackets that are asked about")
    beam = own.near.beam
    run = context.structure.runs.get(beam)
    if run is None:
        text = f"{beam} could not be worked out, so how far it comes down is not known"
        return _refused(own, text, ask("beam_alone", beam))
    stock = context.stock(run.beam.stock)
    if is_unknown(stock):
        text = f"the wood of {beam} is not known, so how far it comes down is not known either: have it graded"
        return _refused(own, text, ask_grade(stock))
    together = [one for one in asks if one.near.beam == beam]
    i = together.index(own)
    try:
        stays, asked = live_that_stays(run.beam, context)
        supports, unknown = moving_supports(run.beam, context, live_stays=stays is True)
        if unknown:
            text = f"{unknown}, on which {beam} stands, could not be worked out, so how far it comes down is not known"
            return _refused(own, text, ask("beam_alone", unknown))
        nearby = Nearby(run, together, supports, live_stays=stays is True)
        found = _on_beams_of_others(_result(nearby, i, context), own, run.beam, context)
        if stays is not None or not nearby.clear(i):
            return found
        more, _ = moving_supports(run.beam, context, live_stays=True)
        stored = Nearby(run, together, more, live_stays=True)
        if stored.clear(i):
            return found
        text = f"{show(_up(stored.g_needed(i)), 'length')} of gap would be needed if that load stays for years"
        what, where = f"gap under {beam} if its load stays", show(own.near.at, "length")
        check = Check.refers("bracket.gap", own.name, what, GAP, text, ask=asked, where=where)
        return replace(found, checks=(*found.checks, check), free=False)
    except BeamcheckError as error:
        return _refused(own, in_trade_words(error), ask("nose_at", own.name, own.path("at"), beam=beam))


def _on_beams_of_others(found: PropResult, own: PropAsk, beam: Beam, context: Context) -> PropResult:
    """A gap that is enough on supports that stand still says nothing where one is a beam of somebody else."""
    under = beams_of_others(beam, context)
    if not under or not found.free:
        return found
    which, where = " and ".join(under), show(own.near.at, "length")
    text = (
        f"{beam.name} stands on {which}, by its words a beam of somebody else: how far that comes down is not known; "
        "write it as `settles` of the support, or an engineer answers for the gap"
    )
    asked = ask("sags_below", own.name, why=sentence(text), beam=beam.name, on=which)
    check = Check.refers("bracket.gap", own.name, f"gap under {beam.name}: {which}", GAP, text, ask=asked, where=where)
    return replace(found, checks=(*found.checks, check), free=False)


def _refused(own: PropAsk, text: str, asked: Question) -> PropResult:
    none = np.zeros(0)
    what, where = f"gap under {own.near.beam}", show(own.near.at, "length")
    check = Check.refers("bracket.gap", own.name, what, GAP, text, ask=asked, where=where)
    return PropResult((check,), None, none, none, (), None, touches=False, free=False, open=(asked,))


def _result(nearby: Nearby, i: int, context: Context) -> PropResult:
    own, near = nearby.asks[i], nearby.asks[i].near
    wide_enough, clear = nearby.wide_enough(i), nearby.clear(i)
    none = np.zeros(len(nearby.run.solved.combinations))
    R, R_least = (none, none) if clear else nearby.forces(i)
    rounding = judgment("force that is rounding").value
    acts = bool(np.max(R) > rounding or np.min(R_least) < -rounding)
    sure = near.fixed_to_beam or near.gap is not None
    waits = () if sure else (_gap_asked(nearby, i),)
    checks = [*_doubts(nearby, i)]
    checks.append(_slot_check(nearby, i) if nearby.slides(i) and not wide_enough else _gap_check(nearby, i, R))
    if acts:
        checks += _force_checks(nearby, i, R, R_least, waits)
        checks += effects(nearby.run, nearby.states(i), own, context, waits_for=waits)
    free = clear or (wide_enough and not acts)
    return PropResult(
        tuple(checks), _picture(nearby, i, R), R, R_least, nearby.run.solved.combinations, nearby.g_needed(i),
        touches=sure and not free, free=free and near.closing is not None,
        remedies=() if free else (_remedy(nearby, i),), assumptions=tuple(_assumptions(nearby, i)), open=waits,
    )  # fmt: skip


def _gap_asked(nearby: Nearby, i: int) -> Question:
    """How wide the gap is: what keeps it free, half of that, and none."""
    own, beam = nearby.asks[i], nearby.run.beam.name
    needed = _up(nearby.g_needed(i))
    answers = [f"{needed:g} in", f"{0.5 * needed:g} in", "0 in"]
    comes = show(float(np.max(nearby.long_term[:, i])), "small length")
    why = f"{beam} comes down {comes} there in time; {show(needed, 'length')} of gap keeps {own.name} free of it."
    return ask("gap", own.name, own.path("gap"), answers=answers, why=why, beam=beam)


def _doubts(nearby: Nearby, i: int) -> Iterator[Check]:
    """Evidence that is missing."""
    own, near, where = nearby.asks[i], nearby.asks[i].near, show(nearby.asks[i].near.at, "length")
    if near.closing is None:
        text = (
            "wood that shrinks or swells and closes the gap is not stated (`closing`): plates and sills under the "
            f"beam's supports, and the depth of {nearby.beam} where it hangs from its top; `[]` says that there is none"
        )
        at = own.path("closing")
        plates = {"what": "plates under the beam's supports", "height": "3 in", "change": "6 %"}
        answers = [PlausibleAnswer("no", ((at, []),)), PlausibleAnswer("yes, 3 in of plates", ((at, [plates]),))]
        asked, what = ask("closing", own.name, at, answers=answers, beam=nearby.beam), "movements that close the gap"
        yield Check.refers("bracket.closing", own.name, what, "Wood Handbook ch. 13", text, ask=asked, where=where)
    for n, one in enumerate(near.closing or (), 1):
        if filled := told(one.what, "fills a gap"):
            at, words, elsewhere = own.path(f"closing.{n}.what"), filled[0].words, "wood under the support of the beam"
            text = f"{one.what!r} is entered as wood that moves; left in the gap {words} carry at once"
            answers = [PlausibleAnswer(f"it is free: that is {elsewhere}", ((at, elsewhere),)),
                       PlausibleAnswer("it is filled", ((own.path("gap"), "0 in"),))]  # fmt: skip
            asked = ask("gap_filled", own.name, at, answers=answers, beam=nearby.beam, found=words)
            what = "what is left in the gap"
            yield Check.refers("bracket.closing", own.name, what, "statics", text, ask=asked, where=where)
    if nearby.crooked(i):
        text = (
            f"{nearby.beam} is said to have come down {show(near.sagged or 0.0, 'length')} there, which is more than "
            "its dead load explains: it is softer than taken here, bore more once, or was crooked from the start"
        )
        sags = [f"{math.floor(1000.0 * nearby.explained(i)) / 1000.0:g} in", "0 in"]
        asked = ask("sagged", own.name, own.path("sagged"), answers=sags, beam=nearby.beam)
        what = f"how far {nearby.beam} had come down"
        yield Check.refers("bracket.sagged", own.name, what, GAP, text, ask=asked, where=where)


def _gap_check(nearby: Nearby, i: int, R: Array) -> Check:
    own, near = nearby.asks[i], nearby.asks[i].near
    needed, worst = nearby.g_needed(i), int(np.argmax(nearby.needed[:, i]))
    id, what, where = "bracket.gap", f"gap under {nearby.beam}", show(near.at, "length")
    pad = Pad()
    nearby.soft_modulus(pad)
    nearby.movements(pad, own)
    nearby.gap(pad, worst, i)
    leave = f"{show(_up(needed), 'length')} keeps it free"
    slots = ""
    if near.slot is not None:
        slots = (
            f"; its slots of {show(near.slot, 'length')} do not free it; {_slot(nearby, i)} may, if an engineer "
            "confirms that it slides"
        )
    if near.fixed_to_beam:
        note = f"{own.name} is fixed to {nearby.beam} and to what is behind it, so it works both ways: {TREAT}"
        return Check.breaks_rule(id, own.name, what, GAP, note, where=where)
    if near.gap is None:
        note = f"the gap between {own.name} and {nearby.beam} is not known; {leave}{slots}"
        return Check.refers(id, own.name, what, GAP, note, ask=_gap_asked(nearby, i), where=where)
    if near.gap <= 0.0:
        note = f"there is no gap; {leave}{slots}"
        return Check.breaks_rule(id, own.name, what, GAP, note, where=where)
    if needed <= near.gap:
        note = leave
    elif float(np.max(R)) > judgment("force that is rounding").value:
        note = f"too small: {leave}{slots}"
    else:
        note = f"too small to be sure, though by the figures it just stays open; {leave}{slots}"
    return Check.of_ratio(
        id, own.name, what, GAP, note, demand=needed, capacity=near.gap, kind="small length",
        combination=nearby.run.solved.combinations[worst].name, where=where, steps=pad.steps,
    )  # fmt: skip


def _slot_check(nearby: Nearby, i: int) -> Check:
    """Slots that let it slide, where the gap alone does not keep it free."""
    own, near, worst = nearby.asks[i], nearby.asks[i].near, int(np.argmax(nearby.needed[:, i]))
    pad = Pad()
    nearby.soft_modulus(pad)
    nearby.movements(pad, own)
    nearby.gap(pad, worst, i)
    return Check.of_ratio(
        "bracket.gap", own.name, f"slots that free it from {nearby.beam}", GAP,
        "the slots are twice as long as the gap needed", SNUG, demand=nearby.slot_needed(i), capacity=near.slot or 0.0,
        kind="small length", combination=nearby.run.solved.combinations[worst].name, where=show(near.at, "length"),
        steps=pad.steps,
    )  # fmt: skip


def _force_checks(
    nearby: Nearby, i: int, R: Array, R_least: Array, waits_for: Sequence[Question]
) -> Iterator[Check]:  # fmt: skip
    """What the bracket attracts; and what pulls it up, where it is fixed to the beam."""
    own, near, combinations = nearby.asks[i], nearby.asks[i].near, nearby.run.solved.combinations
    id, what, where = "bracket.prop_force", f"force that it attracts from {nearby.beam}", show(near.at, "length")
    rounding = judgment("force that is rounding").value
    if (most := float(np.max(R))) > rounding:
        worst, pad = int(np.argmax(R)), Pad()
        nearby.soft_modulus(pad)
        nearby.write_force(pad, worst, i)
        notes = [f"{show(most, 'force')} of {nearby.beam} {'would rest' if waits_for else 'rests'} on {own.name}"]
        asked = tuple(waits_for)
        if waits_for:
            notes[0] += " if there is no gap: measure the gap, or free it"
        elif own.carries:
            notes[0] += (
                f": write it as a support of {nearby.beam}, so that its share is worked out; it is never counted in "
                "favor of the beam"
            )
            asked = (ask("share_of_beam", own.name, forces={"down": most}, beam=nearby.beam),)
        else:
            notes[0] += f": it acts as a prop: {TREAT}"
        if near.fixed_to_beam and own.rises is not None:
            thrust = float(pad(knee_thrust, R=most, beta_b=own.rises))
            notes.append(
                f"as a knee brace it pushes {nearby.beam} off its seat, and what it stands on back, with "
                f"{show(thrust, 'force')}: the end tie and the post are checked for that only as a joint or frame"
            )
        if near.pad is not None:
            notes.append(_pad_words(nearby, i))
        found = (
            Check.refers(id, own.name, what, FORCE, *notes, ask=asked, where=where) if asked
            else Check.breaks_rule(id, own.name, what, FORCE, *notes, where=where)
        )  # fmt: skip
        yield replace(
            found, kind="force", demand=most, combination=combinations[worst].name, steps=tuple(pad.steps)
        )  # fmt: skip
    if (least := float(np.min(R_least))) < -rounding:
        text = f"fixed to {nearby.beam} as well, {own.name} is pulled up with {show(-least, 'force')}: {TREAT}"
        found = Check.breaks_rule(id, own.name, f"pull from {nearby.beam}", FORCE, text, where=where)
        combination = combinations[int(np.argmin(R_least))].name
        yield replace(found, kind="force", demand=-least, combination=combination)


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
        ("supports come down", float(nearby.carried[i])), ("had come down before", -float(nearby.before[worst, i])),
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
