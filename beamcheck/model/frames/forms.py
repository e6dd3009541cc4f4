"""The forms of frame that the trade has names for, by their measures in inches, left heel at (0, 0).

x to the right, y up. Rafters, ties and posts of bents are one stick each; posts, struts, braces and collars are hinged
at both ends. No joint is taken to hold a moment.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise
from typing import Literal

from ...errors import OutOfRange, UnknownName
from ...records import dataclass

Measures = Mapping[str, float]
Point = tuple[float, float]
Acts = Literal["both", "push", "pull"]
NO_LENGTH, BENT = 1e-6, 1e-6  # in; part of the length


@dataclass(frozen=True)
class StickPath:
    """A stick through points, in their order.

    hinged : 'ends', or 'all' where it is cut at every point that it passes.
    slips : whether the joints at its ends give along it (a tie at its heels, posts, struts, braces, collars).
    acts, gap : 'push' for a dry shoulder, 'pull' for a rod or strap; how far it must close or stretch first.
    stations : points among them at which only a load begins or ends: it is whole there, however it is hinged.
    spliced : points among them at which two lengths of it meet in a splice, which holds no moment.
    """

    name: str
    points: tuple[str, ...]
    hinged: Literal["ends", "all", "none"] = "ends"
    slips: bool = False
    acts: Acts = "both"
    gap: float = 0.0
    stations: frozenset[str] = frozenset()
    spliced: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Shape:
    """Points, sticks and feet. `feet` are held up; the last one slides when the feet are free, unless `anchored`."""

    points: Mapping[str, Point]
    sticks: tuple[StickPath, ...]
    feet: tuple[str, ...]
    anchored: bool = False

    def stick(self, name: str) -> StickPath:
        """One stick by its name."""
        return next(one for one in self.sticks if one.name == name)

    def length(self, name: str) -> float:
        """From the first to the last point of a stick, inches."""
        points = self.stick(name).points
        return math.dist(self.points[points[0]], self.points[points[-1]])

    def slope(self, name: str) -> float:
        """Of a stick, degrees from level, 0 to 90."""
        first, last = (self.points[point] for point in (self.stick(name).points[0], self.stick(name).points[-1]))
        return math.degrees(math.atan2(abs(last[1] - first[1]), abs(last[0] - first[0])))

    def places(self, name: str) -> dict[str, float]:
        """How far along a stick each of its points lies, from the first, inches."""
        points = self.stick(name).points
        return {point: math.dist(self.points[points[0]], self.points[point]) for point in points}

    def troubles(self) -> Iterator[tuple[str, str]]:
        """What is wrong with it: the stick, point or '' that it is about, and a sentence."""
        names = [stick.name for stick in self.sticks]
        for name in sorted({name for name in names if names.count(name) > 1}):
            yield name, f"sticks: {name!r} is there twice; every stick has a name of its own"
        wrong = False
        for stick in self.sticks:
            for text in self._of_stick(stick):
                wrong = True
                yield stick.name, text
        reached = {point for stick in self.sticks for point in stick.points}
        for point in self.points:
            if point not in reached:
                yield point, f"point {point!r}: no stick reaches it; leave it out, or take a stick to it"
        for foot in self.feet:
            if foot not in self.points:
                yield foot, str(UnknownName("foot", foot, list(self.points)))
        if not self.feet:
            yield "", "the frame stands on nothing: name its feet"
        if not wrong:
            yield from self._same_way()

    def _of_stick(self, stick: StickPath) -> Iterator[str]:
        if len(stick.points) < 2:
            yield f"stick {stick.name!r} needs two points or more"
            return
        if unknown := [point for point in stick.points if point not in self.points]:
            yield str(UnknownName(f"point of stick {stick.name!r}", unknown[0], list(self.points)))
            return
        at = [self.points[point] for point in stick.points]
        short = [pair for pair, ends in zip(pairwise(stick.points), pairwise(at), strict=True)
                 if math.dist(*ends) < NO_LENGTH]  # fmt: skip
        if short:
            yield f"stick {stick.name!r} has no length between {short[0][0]!r} and {short[0][1]!r}"
            return
        (x, y), (x_end, y_end) = at[0], at[-1]
        length = math.dist(at[0], at[-1])
        if length < NO_LENGTH:
            yield f"stick {stick.name!r} ends where it starts"
            return
        c, s = (x_end - x) / length, (y_end - y) / length
        off = [abs((a - x) * s - (b - y) * c) for a, b in at]
        along = [(a - x) * c + (b - y) * s for a, b in at]
        if max(off) > BENT * length or any(after <= before for before, after in pairwise(along)):
            bent = stick.points[off.index(max(off))]
            yield f"stick {stick.name!r} is not straight at {bent!r}: make it two sticks there"

    def _same_way(self) -> Iterator[tuple[str, str]]:
        """Two sticks that run from the same point to the same point."""
        seen: dict[frozenset[str], str] = {}
        for stick in self.sticks:
            for pair in pairwise(stick.points):
                other = seen.setdefault(frozenset(pair), stick.name)
                if other != stick.name:
                    yield stick.name, f"sticks {other!r} and {stick.name!r} both run from {pair[0]!r} to {pair[1]!r}"


def king_post(m: Measures) -> Shape:
    """Rafters, tie, king post, and struts from mid-rafter to the foot of the post."""
    L, H = m["span"], m["rise"]
    points = {
        "left heel": (0.0, 0.0), "right heel": (L, 0.0), "foot of the king post": (L / 2, 0.0),
        "left rafter, middle": (L / 4, H / 2), "right rafter, middle": (0.75 * L, H / 2), "ridge": (L / 2, H),
    }  # fmt: skip
    sticks = (
        StickPath("left rafter", ("left heel", "left rafter, middle", "ridge")),
        StickPath("right rafter", ("right heel", "right rafter, middle", "ridge")),
        StickPath("tie", ("left heel", "foot of the king post", "right heel"), slips=True),
        StickPath("king post", ("foot of the king post", "ridge"), slips=True),
        StickPath("left strut", ("foot of the king post", "left rafter, middle"), slips=True),
        StickPath("right strut", ("foot of the king post", "right rafter, middle"), slips=True),
    )
    return Shape(points, sticks, ("left heel", "right heel"))


def queen_post(m: Measures) -> Shape:
    """Rafters to the heads of two posts, a straining beam between these, a tie that runs through."""
    L, H, a = m["span"], m["rise"], m["post_from_heel"]
    _less(a, L / 2, "post_from_heel", "half the span")
    points = {
        "left heel": (0.0, 0.0), "right heel": (L, 0.0), "left post, foot": (a, 0.0), "right post, foot": (L - a, 0.0),
        "left post, head": (a, H), "right post, head": (L - a, H),
    }  # fmt: skip
    sticks = (
        StickPath("left rafter", ("left heel", "left post, head")),
        StickPath("right rafter", ("right heel", "right post, head")),
        StickPath("straining beam", ("left post, head", "right post, head")),
        StickPath("tie", ("left heel", "left post, foot", "right post, foot", "right heel"), slips=True),
        StickPath("left post", ("left post, foot", "left post, head"), slips=True),
        StickPath("right post", ("right post, foot", "right post, head"), slips=True),
    )
    return Shape(points, sticks, ("left heel", "right heel"))


def scissor(m: Measures) -> Shape:
    """Chords from each heel to the middle of the far rafter, pinned where they cross; king post from there."""
    L, H = m["span"], m["rise"]
    points = {
        "left heel": (0.0, 0.0), "right heel": (L, 0.0), "left rafter, middle": (L / 4, H / 2),
        "right rafter, middle": (0.75 * L, H / 2), "ridge": (L / 2, H), "crossing": (L / 2, H / 3),
    }  # fmt: skip
    sticks = (
        StickPath("left rafter", ("left heel", "left rafter, middle", "ridge")),
        StickPath("right rafter", ("right heel", "right rafter, middle", "ridge")),
        StickPath("left chord", ("left heel", "crossing", "right rafter, middle"), hinged="all", slips=True),
        StickPath("right chord", ("right heel", "crossing", "left rafter, middle"), hinged="all", slips=True),
        StickPath("king post", ("crossing", "ridge"), slips=True),
    )
    return Shape(points, sticks, ("left heel", "right heel"))


def collar_tie(m: Measures) -> Shape:
    """A pair of rafters with a collar between them, or a tie at their feet where its height is 0."""
    L, H, h = m["span"], m["rise"], m["collar_height"]
    _less(h, H, "collar_height", "the rise")
    points = {"left heel": (0.0, 0.0), "right heel": (L, 0.0), "ridge": (L / 2, H)}
    ends = ("left heel", "right heel")
    left: tuple[str, ...] = ("left heel", "ridge")
    right: tuple[str, ...] = ("right heel", "ridge")
    if h > 0.0:
        x = L / 2 * h / H
        points |= {"left end of the collar": (x, h), "right end of the collar": (L - x, h)}
        ends = ("left end of the collar", "right end of the collar")
        left, right = (left[0], ends[0], "ridge"), (right[0], ends[1], "ridge")
    sticks = (
        StickPath("left rafter", left),
        StickPath("right rafter", right),
        StickPath("collar" if h > 0.0 else "tie", ends, slips=True),
    )
    return Shape(points, sticks, ("left heel", "right heel"))


def braced_bent(m: Measures) -> Shape:
    """Two posts pinned at foot and head, a beam over them, knee braces."""
    L, h, a, b = m["span"], m["height"], m["brace_on_beam"], m["brace_on_post"]
    _less(a, L / 2, "brace_on_beam", "half the span")
    _less(b, h, "brace_on_post", "the height")
    points = {
        "left foot": (0.0, 0.0), "left brace, foot": (0.0, h - b), "left head": (0.0, h),
        "left brace, head": (a, h), "right brace, head": (L - a, h), "right head": (L, h),
        "right brace, foot": (L, h - b), "right foot": (L, 0.0),
    }  # fmt: skip
    sticks = (
        StickPath("left post", ("left foot", "left brace, foot", "left head")),
        StickPath("right post", ("right foot", "right brace, foot", "right head")),
        StickPath("beam", ("left head", "left brace, head", "right brace, head", "right head"), hinged="none"),
        StickPath("left brace", ("left brace, foot", "left brace, head"), slips=True),
        StickPath("right brace", ("right brace, foot", "right brace, head"), slips=True),
    )
    return Shape(points, sticks, ("left foot", "right foot"), anchored=True)


FORMS: dict[str, tuple[Callable[[Measures], Shape], tuple[str, ...]]] = {
    "king post": (king_post, ("span", "rise")),
    "queen post": (queen_post, ("span", "rise", "post_from_heel")),
    "scissor": (scissor, ("span", "rise")),
    "collar tie": (collar_tie, ("span", "rise", "collar_height")),
    "braced bent": (braced_bent, ("span", "height", "brace_on_beam", "brace_on_post")),
}


def form(name: str, measures: Measures) -> Shape:
    """The shape of a form by its name.

    Raises BeamcheckError: an unknown form, a measure that it lacks or has no use for, one that is not positive or does
    not fit.
    """
    if name not in FORMS:
        raise UnknownName("form of frame", name, list(FORMS))
    make, wanted = FORMS[name]
    for each in wanted:
        if each not in measures:
            raise OutOfRange(f"a {name} needs its {each}: give {', '.join(wanted)}", name)
    for each, value in measures.items():
        if each not in wanted:
            raise OutOfRange(f"a {name} has no {each}: give {', '.join(wanted)}", name)
        if not value > 0.0 and not (each == "collar_height" and value == 0.0):
            raise OutOfRange(f"{each} is {value:g} in: it must be greater than zero", name)
    return make(measures)


def _less(value: float, limit: float, name: str, of: str) -> None:
    if not value < limit:
        raise OutOfRange(f"{name} is {value:g} in: it must be less than {of}, {limit:g} in", "frame")
