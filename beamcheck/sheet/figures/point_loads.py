"""Point loads over a beam: each arrow with its words beside it, which cross no other arrow."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from textwrap import wrap

from ...checks.core.pictures.beams import LoadMark
from ...records import dataclass
from .svg import INK, Board, clipped, letters_in, tied

LANE, LOWER, MOST_LINES = 19.0, 15.0, 4  # of a load, of each line more of its words, and how many lines it has
CLEAR = 14.0  # beside an arrow and its words together
TRIED = 12  # arrows for which the sides are tried out
LIFTING = " up"  # a kind that ends so lifts, such as "wind up"


@dataclass(frozen=True)
class Said:
    """One load with its words in lines; `right`: they stand to the right of its arrow."""

    x: float
    text: str
    lines: tuple[str, ...]
    right: bool
    lifts: bool


def load_label(text: str, kind: str) -> str:
    """'dead: from B4, 120 lb'."""
    return f"{kind}{' ↑' if kind.endswith(LIFTING) else ''}: {text}"


def draw_point_loads(board: Board, loads: Sequence[LoadMark], to_x: Callable[[float], float], top: float) -> float:
    """Draw them under `top`, their points on what lies below; returns where that is."""
    said = _placed([(to_x(one[0]), load_label(one[2], one[3]), one[3].endswith(LIFTING)) for one in loads], board.width)
    foot = top + sum(LANE + LOWER * (len(one.lines) - 1) for one in said) + 16
    for one in said:
        if one.lifts:
            board.line((one.x, top + 9), (one.x, foot), width=1.6)
            board.shape(((one.x - 4, top + 10), (one.x + 4, top + 10), (one.x, top + 2)), fill=INK)
        else:
            board.line((one.x, top + 2), (one.x, foot - 7), width=1.6)
            board.shape(((one.x - 4, foot - 9), (one.x + 4, foot - 9), (one.x, foot - 1)), fill=INK)
        for number, line in enumerate(one.lines):
            board.lettering(one.x + 7 if one.right else one.x - 7, top + 13 + LOWER * number, line,
                            anchor="start" if one.right else "end", tip=one.text)  # fmt: skip
        top += LANE + LOWER * (len(one.lines) - 1)
    return foot


def _placed(loads: Sequence[tuple[float, str, bool]], width: float) -> list[Said]:
    """From the top down: some from the right edge inwards with words to the left, the others from the left edge.

    An arrow begins beside its own words, so that words cross only arrows that began above them: none where each side is
    worked inwards. How many stand on which side is chosen so that least lines break. Where words would be cut off
    between so many arrows, they run over them.
    """
    places = sorted({x for x, _, _ in loads})
    middle = sum(x < width / 2 for x in places)
    splits = range(len(places) + 1) if len(places) <= TRIED else (middle,)

    def cost(split: int) -> tuple[int, int, int]:
        said = _split(loads, places, split, width)
        return _cut_off(said), sum(len(one.lines) for one in said), abs(split - middle)

    said = _split(loads, places, min(splits, key=cost), width)
    return _split(loads, places, middle, width, over=True) if _cut_off(said) else said


def _cut_off(said: Sequence[Said]) -> int:
    return sum(one.lines[-1].endswith("…") for one in said)


def _split(
    loads: Sequence[tuple[float, str, bool]], places: Sequence[float], split: int, width: float, *, over: bool = False
) -> list[Said]:
    """The first `split` places have their words to the right, below those of the others, to the left."""
    edge = width if over or split == len(places) else places[split]
    made = []
    for x in [*reversed(places[split:]), *places[:split]]:
        right = x in places[:split]
        room = (edge - x if right else x) - CLEAR
        for at, text, lifts in loads:
            if at == x:
                lines = [clipped(line, room) for line in _lines(text, room)[:MOST_LINES]] or [""]
                made.append(Said(x, text, tuple(lines), right, lifts))
    return made


def _lines(text: str, room: float) -> list[str]:
    lines = wrap(tied(text), max(letters_in(room), 6))
    return lines if len(lines) <= MOST_LINES else [*lines[: MOST_LINES - 1], " ".join(lines[MOST_LINES - 1 :])]
