"""The side view of each family of brackets as the lines of a template, and the holes in its wall face."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

from ...errors import BeamcheckError
from ...model.brackets.bracket import Bent, Braced, Bracket, Corbel, Fixings, Solid, SteelCore
from ...units import show, show_inches
from .geometry import (
    Arrow,
    Contour,
    Edge,
    Hole,
    Label,
    Measure,
    Point,
    Round,
    Straight,
    circle_arc,
    polygon,
    rectangle,
    slotted,
    solid_contour,
)

APART = 1.5  # in between the side view and the wall face beside it
OUTSIDE = 0.35  # in between a dimension and the edge it measures
BESIDE = 0.7  # in between upright dimensions, so that the figure of one stands clear of the next
LETTERS = 26
PATTERN = "wall face, seen from the front"


class Drawn:
    """What is drawn so far; `height` and `reach` of the side view (in)."""

    def __init__(self) -> None:
        self.contours: list[Contour] = []
        self.holes: list[Hole] = []
        self.grain: list[Arrow] = []
        self.measures: list[Measure] = []
        self.labels: list[Label] = []
        self.notes: list[str] = []
        self.height = self.reach = 0.0

    def arrow(self, angle: float | None, middle: Point, length: float) -> None:
        """Grain at an angle (deg above level, towards the nose)."""
        if angle is None:
            self.notes.append("The direction of the grain is not given: ask before you lay it out.")
            return
        dx, dy = 0.5 * length * math.cos(math.radians(angle)), 0.5 * length * math.sin(math.radians(angle))
        x, y = middle
        self.grain.append(Arrow((x - dx, y - dy), (x + dx, y + dy)))

    def across(self, start: float, end: float, at: float) -> None:
        self.measures.append(Measure("x", start, end, at, show_inches(abs(end - start))))

    def upright(self, start: float, end: float, at: float) -> None:
        self.measures.append(Measure("y", start, end, at, show_inches(abs(end - start))))


def bracket_drawn(bracket: Bracket) -> Drawn:
    """The side view of a bracket with its wall on the left at x = 0, and its wall face beside it.

    Raises BeamcheckError if the shape cannot be drawn; its text says why.
    """
    drawn, shape = Drawn(), bracket.shape
    _DRAWN_BY[type(shape)](drawn, shape)
    if bracket.fixings is not None and bracket.fixings.rows:
        _wall_face(drawn, bracket.fixings, shape.side_to_side)
    return drawn


def _solid(drawn: Drawn, shape: Solid) -> None:
    H, P = shape.height, shape.projection
    drawn.height, drawn.reach = H, P
    drawn.contours.append(solid_contour(shape))
    pocket = shape.pocket
    if pocket is not None and pocket.width is not None:
        low = H - pocket.top - pocket.height
        drawn.contours.append(rectangle("NOTES", 0.0, low, pocket.depth, low + pocket.height, dashed=True))
        drawn.notes.append(f"Dashed: a pocket {show_inches(pocket.width)} wide, cut from the wall face.")
    least = min(shape.foot, shape.nose)
    drawn.arrow(shape.grain, (0.5 * shape.foot + 0.35 * least, H - 0.5 * shape.nose - 0.35 * least), 1.2 * least)
    drawn.across(0.0, P, H + 2 * OUTSIDE)
    drawn.across(0.0, shape.foot, -OUTSIDE)
    drawn.upright(0.0, H, -2 * OUTSIDE)
    drawn.upright(H - shape.nose, H, P + OUTSIDE)
    if shape.sagitta is not None:
        drawn.notes.append(f"Soffit: a circular arc, {show_inches(shape.sagitta)} from the straight line.")


def _braced(drawn: Drawn, shape: Braced) -> None:
    """Legs and brace; the brace is cut where it meets the faces of the legs, without housings or tenons."""
    H, P, leg, top = shape.height, shape.projection, shape.wall_leg, shape.top_leg
    drawn.height, drawn.reach = H, P
    drawn.contours += [rectangle("CUT", 0.0, 0.0, leg, H), rectangle("CUT", leg, H - top, P, H)]
    drawn.contours.append(_brace(shape))
    out, down = shape.brace_out - leg, shape.brace_down - top
    middle = (leg + 0.5 * out, H - top - 0.5 * down)
    drawn.arrow(90.0, (0.5 * leg, 0.25 * H), 0.3 * H)
    drawn.arrow(0.0, (0.5 * (leg + P), H - 0.5 * top), 0.3 * P)
    drawn.arrow(math.degrees(math.atan2(down, out)), middle, 0.3 * math.hypot(out, down))
    drawn.across(0.0, P, H + 2 * OUTSIDE)
    drawn.across(0.0, shape.brace_out, H + OUTSIDE)
    drawn.upright(0.0, H, -2 * OUTSIDE)
    drawn.upright(H - shape.brace_down, H, -OUTSIDE)
    if shape.housing and not shape.sagitta:
        drawn.contours += _housings(shape)
        drawn.notes.append(
            f"Three pieces. Dashed: the housings, {show_inches(shape.housing)} deep into each leg; cut the brace that "
            "much longer at each end."
        )
    else:
        drawn.notes.append(
            "Three pieces. The brace is drawn to the faces of the legs: add the wood of housings, shoulders and tenons."
        )
    if shape.sagitta:
        drawn.notes.append("The edges of the brace are arcs about one middle.")


def _brace(shape: Braced) -> Contour:
    H, leg, top, half = shape.height, shape.wall_leg, shape.top_leg, 0.5 * shape.brace
    low, high = (leg, H - shape.brace_down), (shape.brace_out, H - top)
    dx, dy = high[0] - low[0], high[1] - low[1]
    c = math.hypot(dx, dy)
    if dx <= 0.0 or dy <= 0.0:
        raise BeamcheckError("the brace runs from the wall leg up to the top leg: its ends do not lie so")
    ux, uy = dx / c, dy / c
    nx, ny = uy, -ux  # to the lower right, away from the corner
    if not shape.sagitta:
        inner_low, inner_high = (leg, low[1] + half / ux), (high[0] - half / uy, high[1])
        outer_low, outer_high = (leg, low[1] - half / ux), (high[0] + half / uy, high[1])
        return polygon("CUT", outer_low, outer_high, inner_high, inner_low)
    s = shape.sagitta
    r = (0.25 * c * c + s * s) / (2.0 * s)
    center = (0.5 * (low[0] + high[0]) + (s - r) * nx, 0.5 * (low[1] + high[1]) + (s - r) * ny)
    ends = [_meet(center, r + side * half, leg, high[1], low, high) for side in (1.0, -1.0)]
    (outer_low, outer_high), (inner_low, inner_high) = ends
    return Contour(
        "CUT", outer_low,
        (circle_arc(outer_low, outer_high, center, left=True), Straight(inner_high),
         circle_arc(inner_high, inner_low, center, left=False), Straight(outer_low)),
    )  # fmt: skip


def _housings(shape: Braced) -> list[Contour]:
    """What of a straight brace lies in each leg, hidden."""
    deep = shape.housing or 0.0
    outer_low, outer_high, inner_high, inner_low = (
        edge.end for edge in (*_brace(shape).edges[-1:], *_brace(shape).edges[:-1])
    )
    dx, dy = outer_high[0] - outer_low[0], outer_high[1] - outer_low[1]
    into_wall, into_top = deep / dx, deep / dy

    def on(point: Point, share: float) -> Point:
        return point[0] + share * dx, point[1] + share * dy

    return [
        polygon("NOTES", outer_low, on(outer_low, -into_wall), on(inner_low, -into_wall), inner_low, dashed=True),
        polygon("NOTES", outer_high, on(outer_high, into_top), on(inner_high, into_top), inner_high, dashed=True),
    ]


def _meet(center: Point, r: float, x: float, y: float, low: Point, high: Point) -> tuple[Point, Point]:
    """Where a circle meets the face of the wall leg and the underside of the top leg, near the ends of the axis."""
    if r <= max(abs(x - center[0]), abs(y - center[1])):
        raise BeamcheckError("the edge of the curved brace does not reach both legs: check its sagitta and depth")
    half_x, half_y = math.sqrt(r * r - (x - center[0]) ** 2), math.sqrt(r * r - (y - center[1]) ** 2)
    first = min((center[1] + half_x, center[1] - half_x), key=lambda one: abs(one - low[1]))
    second = min((center[0] + half_y, center[0] - half_y), key=lambda one: abs(one - high[0]))
    return (x, first), (second, y)


def _bent(drawn: Drawn, shape: Bent) -> None:
    """The arc as it stands, upright at the wall; its middle lies on the level of the wall end."""
    inner, outer = shape.inner_radius, shape.inner_radius + shape.depth
    sweep = math.radians(shape.sweep)
    ends = [(outer - r * math.cos(sweep), r * math.sin(sweep)) for r in (outer, inner)]
    edges: tuple[Edge, ...] = (
        Round(ends[0], (outer, 0.0), (-outer, 0.0), (0.0, outer), 0.0, sweep),
        Straight(ends[1]),
        Round((shape.depth, 0.0), (outer, 0.0), (-inner, 0.0), (0.0, inner), sweep, 0.0),
        Straight((0.0, 0.0)),
    )
    contour = Contour("CUT", (0.0, 0.0), edges)
    drawn.contours.append(contour)
    points = contour.points()
    low, drawn.height = min(y for _, y in points), max(y for _, y in points)
    drawn.reach = max(x for x, _ in points)
    middle = outer - 0.5 * shape.depth
    at = (outer - middle * math.cos(0.5 * sweep), middle * math.sin(0.5 * sweep))
    drawn.arrow(math.degrees(0.5 * math.pi - 0.5 * sweep), at, 0.8 * shape.depth)
    drawn.across(0.0, shape.depth, low - OUTSIDE)
    drawn.across(0.0, drawn.reach, drawn.height + OUTSIDE)
    drawn.notes.append("Grain along the arc. Outer and inner edge are arcs about one middle; add wood for the joints.")


def _steel(drawn: Drawn, shape: SteelCore) -> None:
    t, H, P = shape.thickness, shape.down, shape.projection
    drawn.height, drawn.reach = H, P
    corners = ((0.0, 0.0), (t, 0.0), (t, H - t), (P, H - t), (P, H), (0.0, H))
    drawn.contours.append(polygon("NOTES", *corners))
    if shape.gusset_depth is not None:
        g = shape.gusset_depth
        drawn.contours.append(polygon("CUT", (t, H - t), (t, H - min(g, H)), (min(g, P), H - t)))
    drawn.across(0.0, P, H + OUTSIDE)
    drawn.upright(0.0, H, -2 * OUTSIDE)
    drawn.notes.append("Side view of the bent bar, its corner drawn sharp: a mark to bend and bed to, no line to cut.")


def _corbel(drawn: Drawn, shape: Corbel) -> None:
    H, P = shape.height, shape.projection
    drawn.height, drawn.reach = H, P
    drawn.contours.append(rectangle("CUT", -shape.seat, 0.0, P, H))
    if shape.seat:
        drawn.contours.append(polygon("NOTES", (0.0, 0.0), (0.0, H), closed=False, dashed=True))
        drawn.notes.append(f"Dashed: the face of the post; {show_inches(shape.seat)} of the block go into its dap.")
    drawn.arrow(shape.grain, (0.5 * P, 0.5 * H), 0.5 * min(P, H))
    drawn.across(-shape.seat, P, H + OUTSIDE)
    drawn.upright(0.0, H, P + OUTSIDE)


def _wall_face(drawn: Drawn, fixings: Fixings, wide: float) -> None:
    """The fasteners: axes in the side view, and the face they go through beside it, with every hole."""
    H, x0 = drawn.height, drawn.reach + APART
    size, drill, bore = fastener_sizes(fixings)
    drawn.contours.append(rectangle("NOTES", x0, 0.0, x0 + wide, H))
    drawn.labels.append(Label(x0, H + OUTSIDE + 0.1, PATTERN))
    for i, row in enumerate(fixings.rows, start=1):
        y = H - row.below_top
        through = fixings.through or 0.5 * wide
        drawn.contours.append(polygon("NOTES", (-0.25, y), (through + 0.25, y), closed=False, dashed=True))
        drawn.upright(y, H, x0 + wide + OUTSIDE + BESIDE * ((i - 1) % 3))
        for k, place in enumerate(row.places(wide)):
            x = x0 + place
            if row.slot is not None and size:
                drawn.contours.append(slotted(x, y, drill or size, row.slot))
            else:
                name = f"{i}{chr(ord('a') + k)}" if 1 < row.count <= LETTERS else f"{i}"
                last = k == row.count - 1  # what is drilled is said once a row, where no other hole is in the way
                drawn.holes.append(Hole(x, y, size, drill, drilled(name, drill) if last else name, bore))
    drawn.notes.append("Holes are named by their row, from the top, and a letter, from the left.")
    drawn.across(x0, x0 + wide, -OUTSIDE)
    fastener = fixings.fastener
    if fastener is not None and bore:
        deep = show_inches(fastener.counterbore_depth or 0.0)
        drawn.notes.append(f"Dashed rings: bores {show_inches(bore)} across, {deep} deep, from the front.")


def fastener_sizes(fixings: Fixings) -> tuple[float, float | None, float]:
    """Diameter of the fastener, of the hole for it in this piece (None: by the wood), of its counterbore (in)."""
    from ...checks.anchors.fastener import dowel_of

    fastener = fixings.fastener
    if fastener is None:
        return 0.0, None, 0.0
    try:
        dowel = dowel_of(fastener.model_copy(update={"F_yb": fastener.F_yb or 1.0}))
    except BeamcheckError:
        return 0.0, None, fastener.counterbore or 0.0
    return dowel.D, hole_diameter(dowel.kind, dowel.D), fastener.counterbore or 0.0


def drilled(name: str, drill: float | None) -> str:
    """What stands beside a hole: its name, and the drill in 1/64 in where it is one."""
    if drill is None:
        return name
    steps = round(drill * 64.0)
    exact = abs(drill * 64.0 - steps) < 1e-6
    size = f"{Fraction(steps, 64)} in" if exact and steps < 64 else show(drill, "small length")
    return f"{name}: drill {size}"


def hole_diameter(kind: str, D: float) -> float | None:
    """The drill for the piece that the fastener goes right through; None where it goes by the wood's density.

    Bolts: the widest step of 1/64 in that the standard lets pass; lag screws: as wide as the shank.
    """
    from ...values.hardware.connections import bolt_hole_over

    if kind == "bolt":
        low, high = bolt_hole_over("bolt").value
        widest = math.floor((D + high) * 64.0 + 1e-9) / 64.0
        return widest if widest >= D + low - 1e-9 else D + high
    return D if kind == "lag screw" else None


# how a shape is drawn; one more shape is one more row
_DRAWN_BY: Mapping[type, Callable[[Drawn, Any], None]] = {
    Solid: _solid, Braced: _braced, Bent: _bent, SteelCore: _steel, Corbel: _corbel,
}  # fmt: skip
