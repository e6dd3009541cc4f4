"""Posts and rafters on a shop sheet: lying on the bench, as long as the page is wide, to be laid out with a tape."""

from __future__ import annotations

import math
from textwrap import wrap

from ...checks.core.pictures.others import PostPicture, RafterPicture
from ...units import show
from ..figures.svg import GRAY, PAPER, TEXT, Board, Point, clipped, letters_in, text_width, tied

WIDTH, SIDE = 440.0, 16.0
WOOD = "#f1f1f1"
_ROW = 17.0  # from one row of lettering to the next
POST_CAPTION = "To scale, its foot at the left. Distances run from the foot."
RAFTER_CAPTION = "To scale, its tail at the left. Lengths run along the top edge from plumb line to plumb line."


def post_on_the_bench(picture: PostPicture, name: str, units: str, key: str) -> str:
    """A post from both sides, its foot at the left, with its cuts and the places of its braces."""
    sides = [way.side for way in picture.ways]
    ways = picture.ways if len(set(sides)) > 1 or picture.cuts else picture.ways[:1]
    scale = (WIDTH - 2 * SIDE) / max(picture.height, 1e-6)
    said = [f"{show(way.side, 'length', units)} side, {show(picture.height, 'length', units)} long" for way in ways]
    said += [f"{cut.text} from {show(cut.start, 'length', units)}" for cut in picture.cuts]
    board = Board(WIDTH, key, f"{name}: the post on the bench", f"{'. '.join(said)}. Foot on {picture.on}.")
    y = 8.0
    for number, way in enumerate(ways):
        board.lettering(SIDE, y + 12, f"{show(way.side, 'length', units)} side")
        y += 20
        deep = max(way.side * scale, 8.0)
        board.box(SIDE, y, picture.height * scale, deep, fill=WOOD, stroke=1.8)
        for cut in picture.cuts if number == 0 else ():
            low, high = (SIDE + scale * at for at in (cut.start, cut.end))
            board.box(low, y, max(high - low, 3.0), min(cut.depth * scale, deep), fill=PAPER, stroke=1.2)
        y += deep + 8
    stops = {0.0, picture.height, *(at for cut in picture.cuts for at in (cut.start, cut.end))}
    for way in picture.ways:
        if way.braced is not None and 0.0 < way.braced < picture.height:
            stops |= {way.braced * i for i in range(1, min(int(picture.height / way.braced) + 1, 40))}
    end = _running(board, [(at, SIDE + scale * at) for at in sorted(stops) if at <= picture.height], y, units)
    board.lettering(SIDE, end + 15, clipped(f"foot: on {picture.on}", 0.6 * WIDTH), bold=True)
    board.lettering(WIDTH - SIDE, end + 15, "top", anchor="end", bold=True)
    return board.done(end + 21)


def rafter_on_the_bench(picture: RafterPicture, name: str, units: str, key: str) -> str:
    """A rafter with its plumb cuts and its birdsmouth, the top edge up."""
    angle = math.radians(picture.slope)
    tan, cos = math.tan(angle), math.cos(angle)
    long = picture.tail + picture.run / max(cos, 1e-6)
    cut = picture.seat_cut or 0.0
    upper, lower = (picture.depth - cut) * tan, -cut * tan
    scale = (WIDTH - 2 * SIDE) / (long + upper - lower)
    top = 44.0

    def at(x: float, y: float) -> Point:
        """`x` along the stick from the tail's plumb line, `y` up from the heel of the birdsmouth."""
        return SIDE + scale * (x - lower), top + scale * (picture.depth - cut - y)

    heel: list[Point] = []
    if cut > 0.0:
        heel = [at(picture.tail + lower, -cut), at(picture.tail, 0.0), at(picture.tail + cut / max(tan, 1e-6), -cut)]
    ends = [at(long + lower, -cut), at(long + upper, picture.depth - cut), at(upper, picture.depth - cut)]
    stops = [(0.0, at(upper, 0.0)[0]), (long, at(long + upper, 0.0)[0])]
    if picture.tail > 0.0:
        stops.insert(1, (picture.tail, at(picture.tail + upper, 0.0)[0]))
    said = ", ".join(show(value, "length", units) for value, _ in stops[1:])
    texts = _rafter_words(picture, units)
    board = Board(WIDTH, key, f"{name}: the rafter on the bench", f"Along the top edge: {said}. {'. '.join(texts)}.")
    board.lettering(SIDE, 14, f"plumb cuts and seat: {show(picture.slope, 'slope', units)}")
    board.shape([at(lower, -cut), *heel, *ends], fill=WOOD, width=1.8)
    if picture.tail > 0.0:
        board.line(at(picture.tail, 0.0), at(picture.tail + upper, picture.depth - cut), width=1.0, dash="5 3")
    foot = at(0.0, -cut)[1]
    end = _running(board, stops, foot + 16, units)
    for text in texts:
        for line in wrap(tied(text), letters_in(WIDTH - 2 * SIDE), subsequent_indent="  "):
            end += _ROW
            board.lettering(SIDE, end, line)
    return board.done(end + 8)


def _rafter_words(picture: RafterPicture, units: str) -> list[str]:
    told = []
    if picture.seat_cut:
        level = f", level seat {show(picture.seat, 'length', units)}" if picture.seat is not None else ""
        told.append(f"birdsmouth: {show(picture.seat_cut, 'length', units)} square to the edge{level}")
    told.append(
        "at the ridge: take off half of its board, measured level" if picture.pair else f"top at {picture.ridge}"
    )
    return told


def _running(board: Board, stops: list[tuple[float, float]], y: float, units: str) -> float:
    """Running dimensions to the right, in as many rows as they need; where the last row ends."""
    board.line((min(x for _, x in stops), y), (max(x for _, x in stops), y), width=0.8, stroke=GRAY)
    rows: list[float] = []
    for value, x in stops:
        text = show(value, "length", units) if value else "0"
        half = 0.5 * text_width(text) + 3
        board.line((x - 3, y + 3), (x + 3, y - 3), width=1.2)
        left = min(max(x - half, 0.0), WIDTH - 2 * half)
        row = next((i for i, end in enumerate(rows) if left > end), len(rows))
        rows[row : row + 1] = [left + 2 * half]
        board.lettering(left + half, y + TEXT + 2 + _ROW * row, text, anchor="middle")
    return y + TEXT + 4 + _ROW * max(len(rows) - 1, 0)
