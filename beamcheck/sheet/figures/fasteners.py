"""Bolts, screws, nails and rods seen from their side: head, washers, nut, to their length and size."""

from __future__ import annotations

import math

from ...checks.core.pictures.others import FastenerSize
from .svg import PAPER, Board

STEEL = "#c4c4c4"
HEAD, NUT, FLATS = 0.65, 0.875, 1.5  # of the diameter: heights of a hexagon head and nut, across flats
TIP = 0.8  # of the diameter: the cone of a point
HEADED = frozenset(("bolt", "lag screw"))
LEAST = 1.6  # drawing units: half of what is thinnest


def head_height(size: FastenerSize) -> float:
    """How far head and washer stand out of the face, inches."""
    if size.kind in HEADED:
        return HEAD * size.diameter + size.washer_thickness
    return 0.25 * size.head if size.head else 0.0


def nut_height(size: FastenerSize) -> float:
    """How far nut and washer stand out, inches."""
    return NUT * size.diameter + size.washer_thickness if size.kind in ("bolt", "rod") else 0.0


def reach(size: FastenerSize, thick: float) -> float:
    """How far it stands out of the face where its nut is, or its point where it is longer than `thick`, inches."""
    over = (size.length or 0.0) - size.washer_thickness * (size.kind in HEADED) - thick
    return max(nut_height(size), over)


def draw_fastener(
    board: Board, size: FastenerSize, y: float, start: float, stop: float, scale: float, towards: float = 1.0,
    stops: float = math.inf,
) -> None:  # fmt: skip
    """A level fastener: its head bears at `start`, its nut, if it has one, at `stop`; drawing units.

    `towards` is 1 where it points to the right. What has no nut is as long as it is, or goes to `stop` broken where
    its length is not known. Beyond `stops` it is broken off.
    """
    half = max(0.5 * size.diameter * scale, LEAST)
    thick = size.washer_thickness * scale
    washer = 0.5 * (size.washer or 0.0) * scale
    through = size.kind == "bolt"
    length = size.length * scale if size.length else 0.0
    under = start - towards * (thick if size.kind in HEADED else 0.0)  # the length counts from under the head
    end = under + towards * length if length else stop + towards * (nut_height(size) * scale if through else 0.0)
    end = min(end, stops)
    tip = 0.0 if end == stops or through or size.kind in ("pin", "rod") else TIP * size.diameter * scale
    known = bool(length) or through
    body = end - towards * tip
    board.shape(((under, y - half), (body, y - half), (end, y), (body, y + half), (under, y + half)) if tip else
                ((under, y - half), (end, y - half), (end, y + half), (under, y + half)),
                fill=PAPER, width=1.0, dash="" if known else "4 2")  # fmt: skip
    if size.kind in HEADED:
        _block(board, under, under + towards * thick, y, max(washer, half), STEEL)
        _block(board, under - towards * HEAD * size.diameter * scale, under, y, FLATS * half, PAPER)
    elif size.head:
        _block(board, start - towards * 0.25 * size.head * scale, start, y, max(0.5 * size.head * scale, half), PAPER)
    if through:
        _block(board, stop, stop + towards * thick, y, max(washer, half), STEEL)
        first = stop + towards * thick
        _block(board, first, first + towards * NUT * size.diameter * scale, y, FLATS * half, PAPER)


def draw_rod_end(board: Board, size: FastenerSize, x: float, face: float, scale: float, way: float) -> None:
    """Nut and washer of an upright rod at a face; `way` is 1 where they stand below it."""
    half = max(0.5 * size.diameter * scale, LEAST)
    thick = max(size.washer_thickness * scale, 1.2)
    wide = max(0.5 * (size.washer or 0.0) * scale, 2.0 * half)
    nut = NUT * size.diameter * scale
    for reach, y0, y1, fill in ((wide, face, face + way * thick, STEEL),
                                (FLATS * half, face + way * thick, face + way * (thick + nut), PAPER)):  # fmt: skip
        board.shape(((x - reach, y0), (x + reach, y0), (x + reach, y1), (x - reach, y1)), fill=fill, width=1.0)


def _block(board: Board, x0: float, x1: float, y: float, half: float, fill: str) -> None:
    if abs(x1 - x0) > 1e-6:
        board.shape(((x0, y - half), (x1, y - half), (x1, y + half), (x0, y + half)), fill=fill, width=1.0)
