"""The break points of a quantity: between answers that end differently, to the step of the tape, on the safe side."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

from ...errors import BeamcheckError
from ...units import read, show
from ..core.asking.open_questions import OpenQuestion, WorkedAnswer
from ..core.asking.question import PlausibleAnswer
from ..core.result import PieceResult
from .trial import Trial

HAIR = 1e-6  # of a step: rounding of units
# what a question's kind is read as, and the step of what it is measured with
STEPS: Mapping[str, tuple[str, float]] = {
    "length": ("length", 1.0 / 16.0), "percent": ("moisture", 1.0), "force": ("force", 10.0),
}  # fmt: skip


def threshold(trial: Trial, one: OpenQuestion) -> str:
    """'5/16 in or more: K1 passes'; '' where the answers end alike or are no quantities."""
    if one.question.kind not in STEPS:
        return ""
    kind, step = STEPS[one.question.kind]
    known = sorted(filter(None, (_number(answer, kind) for answer in one.answers)), key=lambda each: each[0])
    found = []
    for (low, below), (high, above) in pairwise(known):
        path = below.answer.sets[0][0]
        for piece in one.pieces if above.answer.sets[0][0] == path else ():
            ends = _verdict(below.effects, piece), _verdict(above.effects, piece)
            if ends[0] == ends[1] or "passes" not in ends:
                continue
            passing_above = ends[1] == "passes"
            place = _between(trial, path, piece, low, high, kind, step, passing_above=passing_above)
            found.append(f"{show(place, kind)} or {'more' if passing_above else 'less'}: {piece} passes")
    return "; ".join(dict.fromkeys(found))


def _number(worked: WorkedAnswer, kind: str) -> tuple[float, WorkedAnswer] | None:
    if len(worked.answer.sets) != 1 or not isinstance(worked.answer.sets[0][1], str):
        return None
    try:
        return float(read(worked.answer.sets[0][1], kind)), worked
    except BeamcheckError:
        return None


def _verdict(effects: Sequence[object], piece: str) -> str:
    return next((one.verdict for one in effects if one.piece == piece), "")  # type: ignore[attr-defined]


def _between(
    trial: Trial, path: str, piece: str, low: float, high: float, kind: str, step: float, *, passing_above: bool
) -> float:  # fmt: skip
    """The last place on the passing side, a whole number of steps."""
    fails, passes = (low, high) if passing_above else (high, low)
    while abs(passes - fails) > step * 1.001:
        middle = round(0.5 * (passes + fails) / step) * step
        after = trial.tried([_answer(path, middle, kind)])
        if after is None:
            break
        if _passes(after, piece):
            passes = middle
        else:
            fails = middle
    steps = passes / step  # an answer may lie between two of them
    return (math.ceil(steps - HAIR) if passing_above else math.floor(steps + HAIR)) * step


def _passes(after: Mapping[str, PieceResult], piece: str) -> bool:
    return piece in after and after[piece].verdict == "passes"


def _answer(path: str, value: float, kind: str) -> PlausibleAnswer:
    text = {"length": f"{value:.6f} in", "moisture": f"{value:g} %"}.get(kind, f"{value:.0f} lb")
    return PlausibleAnswer(text, ((path, text),))
