"""Wood that is cut out of a post: what is left at a cut is taken to be all there is along its whole height.

NDS 2018 3.6.3 asks for the net section only where the cut lies in the part that buckles; which part that is need not be
decided when it is taken everywhere. What is left counts as one rectangle, all missing strips taken out and pushed
together: stiffer than that it is in any case. Where it is not centered, the load is off center by as much.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...calc.pad import Pad
from ...model.sticks import Cut
from ...records import dataclass
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.strength import Outcome, end_grain
from .post_run import PostRun

NET = "NDS 2018 3.6.3"
AS_ONE = "what is left there is taken along the whole height, as one rectangle"


@dataclass(frozen=True)
class Weak:
    """Cuts that count as one place.

    `words`: for people. `lost_d`, `lost_b`: of the deep and the thin side [in]. `area`: what is left there [in2].
    `off`: from the middle of the post to the middle of what is left, the deep way [in]. `length`: along the post [in].
    `cheek`: the thinnest of the parts that stand beside each other there [in].
    """

    words: str
    lost_d: float
    lost_b: float
    area: float
    off: float
    length: float
    cheek: float


def words(cut: Cut) -> str:
    """The cut in a carpenter's words."""
    size, place = show(cut.depth, "length"), show(cut.at, "length")
    long = f", {show(cut.length, 'length')} long" if cut.length else ""
    if cut.kind == "hole":
        return f"{size} hole{long} at {place}"
    return f"{cut.kind} {size} deep{long} at {place}"


def weak_places(run: PostRun) -> list[Weak]:
    """Where wood is missing; cuts near each other count as one place (NDS 2018 3.1.3)."""
    near = judgment("holes in one section").value
    groups: list[list[Cut]] = []
    for cut in sorted((*run.post.cuts, *_surveyed(run)), key=lambda cut: _extent(cut)[0]):
        if groups:
            last = max(_extent(other)[1] for other in groups[-1])
            room = near * max((one.depth for one in (*groups[-1], cut) if one.kind == "hole"), default=0.0)
            if _extent(cut)[0] - last < room:
                groups[-1].append(cut)
                continue
        groups.append([cut])
    return [_weak(run, group) for group in groups]


def _surveyed(run: PostRun) -> Sequence[Cut]:
    """What lies beyond the post is cut off it."""
    survey = run.context.stock(run.post.stock).survey
    cuts = () if survey is None else survey.cuts or ()
    return [cut for cut in cuts if _extent(cut)[0] < run.post.height]


def _extent(cut: Cut) -> tuple[float, float]:
    half = 0.5 * (max(cut.length, cut.depth) if cut.kind == "hole" else cut.length)
    return cut.at - half, cut.at + half


def _weak(run: PostRun, cuts: Sequence[Cut]) -> Weak:
    b, d = float(run.section.b), float(run.section.d)
    strips, lost_b, partial = [], 0.0, 0.0
    for cut in cuts:
        if cut.kind == "hole" and cut.face != "side":
            lost_b += cut.depth
            continue
        low, high = _strip(cut, d)
        if cut.kind == "mortise" and cut.width is not None and cut.width < b:
            partial += (b - cut.width) * (high - low)  # beside it wood is left, which the rectangle leaves out
        strips.append((low, high))
    merged = _merged(strips)
    lost_d = sum(high - low for low, high in merged)
    moment = sum((high - low) * (0.5 * (low + high) - 0.5 * d) for low, high in merged)
    left = d - lost_d
    off = abs(moment) / left if left > 0.0 else 0.0
    edges = [0.0, *(edge for strip in merged for edge in strip), d]
    parts = [high - low for low, high in zip(edges[::2], edges[1::2], strict=True) if high - low > 1e-9]
    cheek = min([*parts, *([0.5 * (b - lost_b)] if lost_b else [])], default=0.0)
    start, end = min(_extent(cut)[0] for cut in cuts), max(_extent(cut)[1] for cut in cuts)
    area = max((b - lost_b) * left, 0.0) + (partial if len(merged) == len(strips) and not lost_b else 0.0)
    return Weak(" and ".join(map(words, cuts)), lost_d, lost_b, area, off, end - start, cheek)


def _strip(cut: Cut, d: float) -> tuple[float, float]:
    """The height that it takes of the deep side, from the bottom edge."""
    if cut.kind in ("notch", "taper"):
        low, high = (0.0, cut.depth) if cut.face == "bottom" else (d - cut.depth, d)
    else:
        middle = 0.5 * d if cut.from_bottom is None else cut.from_bottom
        low, high = middle - 0.5 * cut.depth, middle + 0.5 * cut.depth
    return max(low, 0.0), min(high, d)


def _merged(strips: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for low, high in sorted(strips):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        elif high > low:
            found.append((low, high))
    return found


def cut_checks(run: PostRun) -> list[Check]:
    """The net section at each place against F_c* (NDS 2018 3.6.3), and what cannot be worked out there."""
    return [check for weak in weak_places(run) for check in _at(run, weak)]


def can_be_counted(run: PostRun, weak: Weak) -> bool:
    """Whether what is left is a rectangle of some thickness, of a post whose plies all lose alike."""
    left = run.section.d - weak.lost_d > 0.0 and run.section.b - weak.lost_b > 0.0
    return bool(left and not run.section.round and not (run.post.plies > 1 and weak.lost_b) and not _slim(weak))


def _slim(weak: Weak) -> bool:
    return weak.length > judgment("length of a cheek over its thickness").value * weak.cheek


def _at(run: PostRun, weak: Weak) -> Iterator[Check]:
    name, what = run.post.name, f"net section at {weak.words}"
    forces = {"comes down": float(max(run.pressed))}
    if run.section.round or (run.post.plies > 1 and weak.lost_b):
        why = "a round post" if run.section.round else "plies that do not all lose the same"
        asked = ask("post_cut", name, cut=weak.words, forces=forces)
        yield Check.refers("post.net_section", name, what, NET, f"{why}: what is left is not worked out", ask=asked)
        return
    if run.section.d - weak.lost_d <= 0.0 or run.section.b - weak.lost_b <= 0.0:
        yield Check.breaks_rule("post.net_section", name, what, NET, "nothing is left of the post there")
        return
    if _slim(weak):
        asked = ask("post_cheeks", name, cut=weak.words, forces=forces)
        text = f"the parts beside it, {show(weak.cheek, 'length')} thin, may buckle by themselves"
        yield Check.refers("post.net_section", name, what, NET, text, ask=asked)
        return

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(run.pressed, which), "lbf", note="all that arrives, own weight included")
        return end_grain(pad, run.wood, run.section, P=P, C_D=duration(pad, run.combinations, which), plate=True,
                         A_n=pad.take("A_n", weak.area, "in2", note="what is left"))  # fmt: skip

    yield govern(Criterion(name, what, NET, "ratio", id="post.net_section"), run.combinations, calculate)


def weakened(run: PostRun, weak: Weak) -> PostRun:
    """The same post, its section along the whole height that which is left at a cut."""
    column = run.column
    found = copy.copy(run)
    alone = min(float(column.breadth_alone), float(column.b) - weak.lost_b)
    found.column = replace(
        column, d=float(column.d) - weak.lost_d, b=float(column.b) - weak.lost_b, breadth_alone=alone
    )
    return found


def least_area(run: PostRun) -> float:
    """The smallest section of the post, in2."""
    whole = float(run.section.b) * float(run.section.d)
    if run.section.round:
        whole = 0.25 * math.pi * float(run.section.d) ** 2
    return min([whole, *(weak.area for weak in weak_places(run))])
