"""What a survey found missing of a timber, stretch by stretch: the least section that is left there.

Between two stations the lesser side of both counts. What is lost from faces is taken off whole; of wane only the corner
is. Behind decay and char some more is taken off (`tables/judgment_survey.csv`).
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal

from ....calc.core import Number
from ....calc.pad import Pad, SilentPad
from ....formulas.wood import section as sc
from ....model.conditions.survey import Loss, Survey
from ....model.stock import Stock
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from ....values.lumber import read_size
from .strength import Section

NET = "NDS 2018 3.1.2"
HAIR = 1e-6  # in; what is less is no loss
BEHIND = {"decay": "wood behind decay", "char": "wood behind char"}


@dataclass(frozen=True)
class Lost:
    """What one stretch has lost, inches. The names of the fields are those of a `Cut` of the job file.

    `at`, `length`: middle and extent along the piece. `width`, `depth`: taken off the breadth, and off the depth.
    `corners`: tuple of (leg, at the top): wane: legs of the triangles that are missing from the corners.
    """

    at: float
    length: float
    width: float
    depth: float
    corners: tuple[tuple[float, bool], ...]
    why: str
    kind: Literal["loss"] = "loss"
    face: Literal["side"] = "side"
    from_bottom: float | None = None

    @property
    def words(self) -> str:
        """What it is, in a carpenter's words."""
        first, last = self.at - 0.5 * self.length, self.at + 0.5 * self.length
        return f"the least section from {show(first, 'length')} to {show(last, 'length')} ({self.why})"


def left_of(section: Section, lost: Lost) -> tuple[float, float]:
    """Breadth and depth that are left, inches."""
    return float(section.b) - lost.width, float(section.d) - lost.depth


def all_is_lost(section: Section, lost: Lost) -> bool:
    """Whether no section is left that can be worked with."""
    return 2.0 * max([0.0, *(leg for leg, _ in lost.corners)]) >= min(left_of(section, lost))


def lost_net(pad: Pad, section: Section, lost: Lost) -> tuple[Number, Number, Number, Number]:
    """Lesser section modulus (in3), area (in2), depth (in), second moment of area (in4) of what is left."""
    b_n, d_n = left_of(section, lost)
    b = pad.take("b_n", b_n, "in", note="least breadth as surveyed")
    d = pad.take("d_n", d_n, "in", note="least depth as surveyed")
    if not lost.corners:
        left = Section(b, d, b)
        return left.modulus(pad), left.area(pad), d, left.inertia(pad)
    triangles = [(0.5 * leg**2, d_n - leg / 3.0 if top else leg / 3.0, leg) for leg, top in lost.corners]
    area = b_n * d_n - sum(A for A, _, _ in triangles)
    A_n = pad.take("A_n", area, "in2", clause=NET, note="less the corners that are missing")
    y = (b_n * d_n * 0.5 * d_n - sum(A * y for A, y, _ in triangles)) / area
    y_bar = pad.take("y_bar", y, "in", note="centroid above the bottom edge")
    whole = float(pad(sc.rectangle_inertia, symbol="I", b=b, d=d))
    left_I = whole + b_n * d_n * (0.5 * d_n - y) ** 2 - sum(
        leg**4 / 36.0 + A * (at - y) ** 2 for A, at, leg in triangles
    )  # fmt: skip
    I_n = pad.take("I_n", left_I, "in4", clause=NET, note="of what is left")
    S_n = pad.take("S_n", left_I / max(float(y_bar), d_n - y), "in3", clause=NET, note="the smaller of bottom and top")
    return S_n, A_n, d, I_n


def losses_of(stock: Stock) -> list[Lost]:
    """The stretches of a surveyed timber in which its section is less than its size; none without a survey."""
    survey = stock.survey
    if survey is None:
        return []
    size = read_size(stock.size)
    places = sorted(
        {0.0, survey.length, *(station.at for station in survey.stations)}
        | {min(end, survey.length) for loss in survey.losses or () for end in _reach(loss)}
    )
    found = []
    for start, end in pairwise(places):
        lost = _stretch(survey, size.b, size.d, start, end)
        if end - start > HAIR and (lost.width > HAIR or lost.depth > HAIR or lost.corners):
            found.append(lost)
    return found


def _reach(loss: Loss) -> tuple[float, float]:
    more = behind(loss)
    return max(loss.start - more, 0.0), loss.end + more


def behind(loss: Loss) -> float:
    """How much more than what is seen is taken off, inches."""
    return judgment(BEHIND[loss.what]).value if loss.what in BEHIND else 0.0


def _stretch(survey: Survey, b: float, d: float, start: float, end: float) -> Lost:
    places = [one.at for one in survey.stations]
    before, after = [at for at in places if at <= start], [at for at in places if at >= end]
    near = [one for one in survey.stations if one.at in (*sorted(before)[-1:], *sorted(after)[:1])]
    width = max([0.0, *(b - one.breadth for one in near)])
    depth = max([0.0, *(d - one.depth for one in near)])
    why = ["as measured"] if width > HAIR or depth > HAIR else []
    corners: list[tuple[float, bool]] = []
    by_face: dict[str, float] = {}
    for loss in survey.losses or ():
        first, last = _reach(loss)
        if not (first < end - HAIR and last > start + HAIR):
            continue
        why.append(f"{loss.what} {loss.where}")
        if " " in loss.where:
            corners.append((loss.depth, loss.where.startswith("top")))
        else:
            by_face[loss.where] = max(by_face.get(loss.where, 0.0), loss.depth + behind(loss))
    width += by_face.get("left", 0.0) + by_face.get("right", 0.0)
    depth += by_face.get("top", 0.0) + by_face.get("bottom", 0.0)
    return Lost(0.5 * (start + end), end - start, width, depth, tuple(corners), ", ".join(dict.fromkeys(why)))


def least_section(stock: Stock, section: Section) -> Section:
    """The least breadth and depth anywhere, of what stands upright: wane counts as lost breadth."""
    losses = losses_of(stock)
    if not losses:
        return section
    b = float(section.b) - max(lost.width for lost in losses)
    d = float(section.d) - max(lost.depth for lost in losses)
    b -= _off_the_breadth(stock, min(b, d))
    return Section(b, d, min(float(section.breadth_alone), b))


def _off_the_breadth(stock: Stock, side: float) -> float:
    """What breadth is taken off for wane, inches: the largest leg, or of large ones the largest on both sides.

    A breadth less by one leg is weaker than four corners less by that leg as long as the legs are small.
    """
    legs = {"left": 0.0, "right": 0.0}
    for loss in (stock.survey.losses or ()) if stock.survey is not None else ():
        if loss.what == "wane":
            of = loss.where.split()[1]
            legs[of] = max(legs[of], loss.depth)
    most = max(legs.values())
    return most if most <= judgment("wane that counts once").value * side else sum(legs.values())


def least_breadth(stock: Stock, start: float, end: float) -> float:
    """How much less broad than its size the bottom is over a stretch, inches."""
    found = 0.0
    for lost in losses_of(stock):
        if lost.at - 0.5 * lost.length < end and lost.at + 0.5 * lost.length > start:
            found = max(found, lost.width + sum(leg for leg, top in lost.corners if not top))
    return found


def share_lost(stock: Stock) -> Iterator[tuple[Lost, float, float]]:
    """Each stretch with the share of section modulus and of area that it has lost."""
    size = read_size(stock.size)
    whole = Section(size.b, size.d, size.b)
    pad = SilentPad()
    for lost in losses_of(stock):
        if all_is_lost(whole, lost):
            yield lost, 1.0, 1.0
            continue
        S, A, _, _ = lost_net(pad, whole, lost)
        yield lost, 1.0 - float(S) / float(whole.modulus(pad)), 1.0 - float(A) / float(whole.area(pad))


def one_sided(stock: Stock) -> tuple[float, float]:
    """How far off the middle the least section of an upright timber lies, the deep and the thin way, inches.

    Each face and corner by itself: what two of them would balance need not be at the same height.
    """
    deep = thin = 0.0
    for loss in (stock.survey.losses or ()) if stock.survey is not None else ():
        gone = 0.5 * (loss.depth + behind(loss))
        if loss.where in ("top", "bottom"):
            deep = max(deep, gone)
        else:
            thin = max(thin, gone)
    return deep, thin
