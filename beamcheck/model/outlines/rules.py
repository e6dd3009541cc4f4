"""Rules of a solid bracket's outline: its box, its soffit, arcs and points, and the pocket in its wall face."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol

import numpy as np

from ..fields.places import SAME_PLACE, Fault, inches
from .geometry import TOUCH, Array, SideView, dense, first_crossing, soffit_of

LEAST_WOOD = 1.0 / 16.0  # in; less than that between a pocket and the soffit no saw leaves
STEP = 0.02  # in, between the points at which a pocket is compared with the soffit
_ARCS = ("hollow arc", "full arc")
_QUARTERS = ("concave", "convex", "ogee")


class Hollow(Protocol):
    """Wood cut out of the wall face."""

    @property
    def top(self) -> float: ...
    @property
    def height(self) -> float: ...
    @property
    def depth(self) -> float: ...
    @property
    def width(self) -> float | None: ...


class Block(SideView, Protocol):
    """A solid bracket with its thickness and pocket."""

    @property
    def thickness(self) -> float: ...
    @property
    def pocket(self) -> Hollow | None: ...


def outline_faults(shape: Block) -> Iterator[Fault]:
    """All that is wrong with the outline; what needs a sound outline is looked at only when there is one."""
    found = [*_box(shape), *_goes_with_the_soffit(shape)]
    if not found:
        found = [*_arc_in_box(shape)] if shape.soffit in _ARCS else [*_points(shape)] if shape.points else []
    yield from found
    if shape.pocket is not None:
        yield from _pocket(shape, shape.pocket, sound=not found)


def _box(shape: SideView) -> Iterator[Fault]:
    """Foot and nose within projection and height; a curve from foot to nose needs room both ways."""
    both = shape.foot == shape.projection and shape.nose == shape.height
    for field, side, what in (("foot", "projection", "stands out"), ("nose", "height", "is high")):
        size, most = getattr(shape, field), getattr(shape, side)
        if size > most:
            text = f"the {field} is {inches(size)} deep, but the bracket {what} only {inches(most)}"
            yield (field,), f"{text}: it may be no more than that"
        elif size == most and (both or shape.soffit in _QUARTERS):
            text = f"the {field} is as deep as the bracket {what}: nothing is left for a {shape.soffit} soffit"
            yield (field,), f"{text} (a plain block on a post is a corbel)"
            return


def _goes_with_the_soffit(shape: SideView) -> Iterator[Fault]:
    if shape.soffit in _ARCS:
        chord = float(np.hypot(shape.projection - shape.foot, shape.height - shape.nose))
        if shape.sagitta is None:
            text = f"missing: a {shape.soffit} needs its height over the straight line between its ends"
            yield ("sagitta",), f'{text}, for example sagitta = "{inches(0.2 * chord)}"'
        elif shape.sagitta > 0.5 * chord:
            text = f"{inches(shape.sagitta)} is more than half the {inches(chord)} between the ends of the soffit"
            yield ("sagitta",), f"{text}: an arc is at most half a circle"
    elif shape.sagitta is not None:
        text = f'a {shape.soffit} soffit has no sagitta: leave it out, or write soffit = "hollow arc" or "full arc"'
        yield ("sagitta",), text if shape.soffit != "points" else text.replace("a points soffit", "a soffit by points")
    if shape.soffit != "points" and shape.points:
        yield ("points",), f'a {shape.soffit} soffit has no points: leave them out, or write soffit = "points"'
    if shape.soffit == "points" and len(shape.points) < 2:
        a, H, P, b = (inches(size) for size in (shape.foot, shape.height, shape.projection, shape.nose))
        text = f"{'missing' if not shape.points else 'one point is no line'}: a soffit by points needs both its ends"
        yield ("points",), f'{text}, for example points = [{{ x = "{a}", y = "{H}" }}, {{ x = "{P}", y = "{b}" }}]'


def _arc_in_box(shape: SideView) -> Iterator[Fault]:
    x, y = soffit_of(shape).T
    P, H = shape.projection, shape.height
    if min(x.min(), y.min()) <= LEAST_WOOD:
        edge, at = ("wall face", y[x.argmin()]) if x.min() <= y.min() else ("top edge", x[y.argmin()])
        where = f"{inches(float(at))} {'below the top' if edge == 'wall face' else 'out from the wall'}"
        text = f"the hollow comes to the {edge} {where}: nothing of the throat is left"
        yield ("sagitta",), f"{text}; make the sagitta smaller"
    elif (over := float(max(x.max() - P, y.max() - H))) > SAME_PLACE:
        edge = "beyond the nose" if x.max() - P >= y.max() - H else "below the foot"
        text = f"with {inches(shape.sagitta or 0.0)} the soffit bulges {inches(over)} {edge}"
        yield ("sagitta",), f'{text}; make it smaller, or draw it and write soffit = "points"'


def _points(shape: SideView) -> Iterator[Fault]:
    points, ends = soffit_of(shape), [(shape.foot, shape.height), (shape.projection, shape.nose)]
    if all(np.hypot(*(points[i] - ends[1 + i])) <= SAME_PLACE for i in (0, -1)):
        yield ("points",), "they run from the nose to the foot: write them the other way round, from foot to nose"
        return
    found = False
    for i, what, fields, end in ((0, "first", "foot, height", ends[0]), (-1, "last", "projection, nose", ends[1])):
        gap = float(np.hypot(*(points[i] - end)))
        if gap > SAME_PLACE:
            found = True
            text = f"the {what} point ({_at(points[i])}) does not meet the end of the soffit ({_at(end)}: {fields})"
            yield ("points", i % len(points)), f"{text}: the outline is open there by {inches(gap)}"
    outside = False
    for i, (x, y) in enumerate(points):
        if x <= TOUCH or y <= TOUCH:
            edge = "wall face" if x <= TOUCH else "top edge"
            yield ("points", i), f"({_at((x, y))}) lies on the {edge}: nothing of the throat is left there"
            outside = True
        elif x > shape.projection + SAME_PLACE or y > shape.height + SAME_PLACE:
            edge = "beyond the nose" if x > shape.projection + SAME_PLACE else "below the foot"
            box = f"{inches(shape.projection)} out and {inches(shape.height)} down"
            yield ("points", i), f"({_at((x, y))}) lies {edge}, outside of the bracket: it reaches {box}"
            outside = True
    if not found and not outside:
        yield from _simple(shape, points)


def _simple(shape: SideView, points: Array) -> Iterator[Fault]:
    for i in np.flatnonzero(np.hypot(*np.diff(points, axis=0).T) <= TOUCH):
        yield ("points", int(i) + 1), f"({_at(points[i + 1])}) is the point before once more: leave it out"
        return
    ends = [(shape.projection, 0.0), (0.0, 0.0), (0.0, shape.height)]
    crossing = first_crossing(np.vstack((points, ends)))
    if crossing is not None:
        one, two, x, y = crossing
        text = f"the outline crosses or touches itself at ({_at((x, y))})"
        yield ("points", min(one, len(points) - 1)), f"{text}, where {_edge(one, points)} meets {_edge(two, points)}"


def _edge(i: int, points: Array) -> str:
    last = len(points) - 1
    if i < last:
        return f"the line from point {i + 1} to point {i + 2}"
    return ("the nose", "the top edge", "the wall face", "the foot")[min(i - last, 3)]


def _at(point: Array | tuple[float, float]) -> str:
    return f"x = {point[0]:.5g} in, y = {point[1]:.5g} in"


def _pocket(shape: Block, pocket: Hollow, *, sound: bool) -> Iterator[Fault]:
    """It lies in the wall face and leaves wood between itself and the soffit."""
    if pocket.width is not None and pocket.width > shape.thickness + SAME_PLACE:
        text = f"{inches(pocket.width)} is more than the thickness of the bracket, {inches(shape.thickness)}"
        yield ("pocket", "width"), f"{text}: leave width out for a pocket right through"
    bottom = pocket.top + pocket.height
    if bottom > shape.height + SAME_PLACE:
        text = f"it reaches down to {inches(bottom)} from the top, but the foot is at {inches(shape.height)}"
        yield ("pocket", "height" if pocket.top < shape.height else "top"), f"{text}: make it shorter, or move it up"
        return
    if not sound:
        return
    line = dense(np.vstack((soffit_of(shape), [(shape.projection, 0.0)])), STEP)
    points = np.vstack((line, _at_heights(line, (pocket.top, bottom))))
    x, y = points.T
    away = np.hypot(np.maximum(x - pocket.depth, 0.0), np.maximum(np.maximum(pocket.top - y, y - bottom), 0.0))
    beside = (y >= pocket.top) & (y <= bottom)
    thin = int(np.argmin(np.where(beside, x, np.inf))) if beside.any() else int(away.argmin())
    if beside.any() and x[thin] - pocket.depth <= LEAST_WOOD:
        left = max(float(x[thin]) - pocket.depth, 0.0)
        text = f"{inches(y[thin])} below the top the bracket is {inches(x[thin])} deep"
        text += f" and the pocket {inches(pocket.depth)}: {_left(left)} is left of the throat"
        yield ("pocket", "depth"), f"{text}; make the pocket shallower, or move it"
    elif (left := float(away.min())) <= LEAST_WOOD:
        where = _at(points[away.argmin()])
        text = f"{_left(left)} is left between its corner and the soffit at ({where})"
        yield ("pocket", "depth"), f"{text}: make the pocket shallower, or move it"


def _at_heights(line: Array, heights: tuple[float, ...]) -> Array:
    """Where a line passes these heights exactly."""
    found = []
    for height in heights:
        below, above = line[:-1], line[1:]
        through = (below[:, 1] - height) * (above[:, 1] - height) < 0.0
        share = (height - below[through, 1]) / (above[through, 1] - below[through, 1])
        x = below[through, 0] + share * (above[through, 0] - below[through, 0])
        found.append(np.column_stack((x, np.full(len(x), height))))
    return np.vstack(found)


def _left(wood: float) -> str:
    return "nothing" if wood < 0.0005 else f"only {wood:.3f} in"
