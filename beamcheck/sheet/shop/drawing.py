"""The drawing on a shop sheet: a stick with its seats and cuts, a bracket, or an anchor's holes, to scale."""

from __future__ import annotations

import re
from collections.abc import Sequence
from textwrap import wrap

from ...checks.core.pictures.beams import CutMark
from ...checks.core.pictures.others import FramePicture, JointPicture, PostPicture, RafterPicture
from ...checks.core.result import Figure, PieceResult
from ...errors import BeamcheckError
from ...model.beams import Beam
from ...model.brackets.bracket import Bracket
from ...units import show
from ..figures.anchor import hole_figure
from ..figures.frame import frame_figure
from ..figures.joint import joint_figure
from ..figures.svg import GRAY, INK, PAPER, TEXT, Board, clipped, letters_in, text_width, tied
from ..templates.geometry import Point
from ..templates.shapes import Drawn, bracket_drawn
from .sticks import POST_CAPTION, RAFTER_CAPTION, post_on_the_bench, rafter_on_the_bench

WIDTH, SIDE = 440.0, 14.0
HIGHEST = 300.0  # drawing units
WOOD = "#f1f1f1"
_AT = re.compile(r" at [0-9][^,;]*")  # a place that counts from the calculated end
_ROW = 17.0  # from one row of lettering to the next


def piece_drawing(piece: PieceResult, given: object, units: str, key: str) -> tuple[str, str]:
    """The drawing as an `<svg>` element, and its caption; two empty texts where there is nothing to draw."""
    if piece.drawing is not None:
        return hole_figure(piece.drawing, piece.name, units, key), "To one scale; the figures count, not the paper."
    if isinstance(given, Bracket):
        try:
            drawn = bracket_drawn(given)
        except BeamcheckError:
            return "", ""
        said = "To one scale; the figures count, not the paper. Full size: the template of this bracket."
        return bracket_figure(drawn, piece.name, key), said
    for picture in piece.pictures:
        if isinstance(picture, PostPicture):
            return post_on_the_bench(picture, piece.name, units, key), POST_CAPTION
        if isinstance(picture, FramePicture):
            return frame_figure(
                picture, piece.name, units, key
            ), "To scale. Lengths run between the points, not the ends."
        if isinstance(picture, JointPicture):
            return joint_figure(picture, piece.name, units, key), "To scale, where the axes cross. The figures count."
        if isinstance(picture, RafterPicture):
            return rafter_on_the_bench(picture, piece.name, units, key), RAFTER_CAPTION
    if piece.figure is not None and piece.figure.length > 0.0:
        before, after = beyond(given) if isinstance(given, Beam) else (0.0, 0.0)
        drawn_stick = stick_figure(piece.figure, piece.name, units, key, before, after)
        return (
            drawn_stick,
            "To scale. Distances run from the real left end of the stick; a triangle is the middle of a seat.",
        )
    return "", ""


def bracket_figure(drawn: Drawn, name: str, key: str) -> str:
    """Side view and wall face with running dimensions from the top edge and from the wall."""
    places = [point for contour in drawn.contours for point in contour.points()]
    x0, x1 = min(x for x, _ in places), max(x for x, _ in places)
    y0, y1 = min(y for _, y in places), max(y for _, y in places)
    beside = 62.0  # for the lettering at the left
    scale = min((WIDTH - beside - 74.0) / max(x1 - x0, 1e-6), (HIGHEST - 70.0) / max(y1 - y0, 1e-6))
    across = {
        one.end for one in drawn.measures if one.axis == "x" and one.start <= 0.0 and 0.0 < one.end <= drawn.reach
    }
    heights = {y1 - one.start for one in drawn.measures if one.axis == "y" and one.end >= y1 - 1e-6}
    heights |= {y1 - hole.y for hole in drawn.holes}
    said = [f"{show(value, 'length')} out from the wall" for value in sorted(across)]
    said += [f"{show(value, 'length')} down from the top" for value in sorted(heights)]
    board = Board(WIDTH, key, f"{name}: side view and holes", f"Running dimensions: {', '.join(said)}.")

    def at(point: Point) -> Point:
        return beside + scale * (point[0] - x0), 34.0 + scale * (y1 - point[1])

    for contour in drawn.contours:
        points = [at(point) for point in contour.points()]
        solid = contour.closed and not contour.dashed
        board.shape(points, fill=WOOD if solid else "none", width=1.0 if contour.dashed else 1.8,
                    dash="5 3" if contour.dashed else "", closed=contour.closed)  # fmt: skip
    for arrow in drawn.grain:
        board.line(at(arrow.start), at(arrow.end), width=1.2)
        for tip in (arrow.start, arrow.end):
            board.disc(*at(tip), 3.0)
        tip = max(arrow.start, arrow.end, key=lambda one: one[1])
        board.lettering(at(tip)[0] + 6, at(tip)[1] + 12, "grain")
    for hole in drawn.holes:
        x, y = at((hole.x, hole.y))
        board.ring(x, y, max(0.5 * scale * (hole.drill or hole.size), 2.0), fill=PAPER, width=1.4)
        if hole.bore:
            board.ring(x, y, 0.5 * scale * hole.bore, fill="none", dash="3 2")
    top, left = at((x0, y1))[1], at((x0, y1))[0]
    _down(board, [(value, top + scale * value) for value in sorted(heights)], top, left - 10)
    foot = at((x0, y0))[1] + 18
    end = _along(board, [(value, at((value, 0.0))[0]) for value in (0.0, *sorted(across))], foot)
    if drawn.holes:
        board.lettering(WIDTH - 4, 18, "wall face from the front", anchor="end")
    return board.done(end + 4)


def _down(board: Board, stops: Sequence[tuple[float, float]], top: float, x: float) -> None:
    """Running dimensions downwards, on the left."""
    if not stops:
        return
    board.line((x, top), (x, max(y for _, y in stops)), width=0.8, stroke=GRAY)
    last = -1e9
    for value, y in ((0.0, top), *stops):
        board.line((x - 3, y + 3), (x + 3, y - 3), width=1.2)
        place = max(y + 4, last + TEXT)
        board.lettering(x - 6, place, show(value, "length") if value else "0", anchor="end")
        last = place


def _along(board: Board, stops: Sequence[tuple[float, float]], y: float) -> float:
    """Running dimensions to the right, under the drawing, in as many rows as they need; where the last row ends."""
    board.line((min(x for _, x in stops), y), (max(x for _, x in stops), y), width=0.8, stroke=GRAY)
    rows: list[float] = []
    for value, x in stops:
        text = show(value, "length") if value else "0"
        half = 0.5 * text_width(text) + 3
        board.line((x - 3, y + 3), (x + 3, y - 3), width=1.2)
        row = next((i for i, end in enumerate(rows) if x - half > end), len(rows))
        rows[row : row + 1] = [x + half]
        board.lettering(x, y + TEXT + 2 + _ROW * row, text, anchor="middle")
    return y + TEXT + 6 + _ROW * max(len(rows) - 1, 0)


def beyond(beam: Beam) -> tuple[float, float]:
    """How far the stick reaches beyond its calculated ends so that its end seats are covered, in."""
    first = min(beam.supports, key=lambda one: one.at)
    last = max(beam.supports, key=lambda one: one.at)
    length = max(beam.length or 0.0, last.at)
    before = max(0.5 * (first.bearing or 0.0) - first.at, 0.0)
    return before, max(0.5 * (last.bearing or 0.0) - (length - last.at), 0.0)


def stick_figure(
    figure: Figure, name: str, units: str, key: str, before: float = 0.0, after: float = 0.0
) -> str:  # fmt: skip
    """A stick from its side with its seats and cuts, and running dimensions from its left end.

    `before`, `after`: how far the stick reaches beyond the ends that were calculated with.
    """
    long = before + figure.length + after
    scale = (WIDTH - 2 * SIDE) / long
    deep = figure.depth * scale
    seats = ", ".join(f"{text} at {show(x + before, 'length', units)}" for x, text, *_ in figure.supports)
    cuts = [f"{_letter(i)}: {_cut(cut, before, units)}" for i, cut in enumerate(figure.cuts)]
    said = f"Seats: {seats or 'none'}. Cuts: {'; '.join(cuts) or 'none'}."
    board = Board(WIDTH, key, f"{name}: seats and cuts", said)
    top = 12.0
    foot = top + deep
    board.box(SIDE, top, long * scale, deep, fill=WOOD, stroke=1.8)
    stops: set[float] = {0.0, long}
    for i, (x0, x1, low, depth, _) in enumerate(figure.cuts):
        start, stop = max(x0 + before, 0.0), min(x1 + before, long)
        left, right = SIDE + scale * start, SIDE + scale * stop
        high, base = foot - scale * (low + depth), foot - scale * low
        board.shape(((left, high), (right, high), (right, base), (left, base)), fill=PAPER, width=1.2, dash="4 2")
        board.lettering(right + 4, 0.5 * (high + base) + TEXT / 3, _letter(i), bold=True, ground=WOOD)
        stops |= {start, stop}
    rows: list[float] = []
    for x, text, how, _ in sorted(figure.supports):
        at = SIDE + scale * (x + before)
        board.shape(
            ((at, foot), (at - 6, foot + 10), (at + 6, foot + 10)), fill=INK if how == "rests" else PAPER, width=1.2
        )
        shown = clipped(text, 0.45 * WIDTH)
        start = min(max(at - 0.5 * text_width(shown), 2.0), WIDTH - 2 - text_width(shown))
        row = next((i for i, end in enumerate(rows) if start > end + 6), len(rows))
        rows[row : row + 1] = [start + text_width(shown)]
        board.lettering(start, foot + 24 + _ROW * row, shown, tip=text)
        stops.add(x + before)
    end = _along(board, [(x, SIDE + scale * x) for x in sorted(stops)], foot + 34 + _ROW * max(len(rows), 1))
    for told in cuts:
        for line in wrap(tied(told), letters_in(WIDTH - 12), subsequent_indent="   "):
            end += _ROW
            board.lettering(8, end, clipped(line, WIDTH - 12))
    return board.done(end + 6)


def _letter(index: int) -> str:
    return chr(ord("a") + index) if index < 26 else str(index + 1)


def _cut(cut: CutMark, before: float, units: str) -> str:
    """What is cut, from where to where from the end of the stick, and how high above its bottom edge."""
    start, end = (show(max(x + before, 0.0), "length", units) for x in (cut.start, cut.end))
    high = show(cut.depth, "length", units)
    up = f", {show(cut.from_bottom, 'length', units)} up from the bottom" if cut.from_bottom > 0 else ""
    return f"{_AT.sub('', cut.text)}; from {start} to {end}, {high} high{up}"
