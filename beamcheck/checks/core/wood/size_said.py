"""Sizes that evidence names beside the size of the entry: the same stick by another of its names, or another stick."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ....errors import BeamcheckError
from ....units import show
from ....values.judgment import judgment
from ....values.lumber import Size, read_size

MM = 1.0 / 25.4
_SIDE = r"(\d{1,4}(?:\.\d{1,3})?(?:[ -]\d{1,2}/\d{1,2})?)"
_UNIT = r"""(?: ?("|in\b\.?|inch(?:es)?\b|mm\b|cm\b))?"""
_SIZE = re.compile(rf"(?<![\w/.]){_SIDE}{_UNIT} ?(?:[x×]|by\b) ?{_SIDE}{_UNIT}(?![\d/]|\.\d)", re.IGNORECASE)
_WORDS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "twelve": 12}
_IN_WORDS = re.compile(rf"\b({'|'.join(_WORDS)}) ?-? ?(?:by|x) ?-? ?({'|'.join(_WORDS)})\b", re.IGNORECASE)
_SCALE = {"mm": MM, "cm": 10.0 * MM}
Sides = tuple[float, float]


def other_size(text: str, size: Size) -> tuple[str, str]:
    """A size that words name where none of those named is that of the piece, and how a job file writes it; else ''."""
    found = list(_said(text))
    if not found or size.surface == "round":
        return "", ""
    own = [(size.b, size.d)]
    if size.nominal_b is not None and size.nominal_d is not None:
        own.append((size.nominal_b, size.nominal_d))
    if any(_alike(one, other) for _, forms, _ in found for one in forms for other in own):
        return "", ""
    words, _, written = found[0]
    return words, written


def _said(text: str) -> Iterator[tuple[str, list[Sides], str]]:
    """Each size named: its words, its sides as they may be meant, smaller first, and as a job file writes it."""
    in_figures = _IN_WORDS.sub(lambda two: "x".join(str(_WORDS[one.casefold()]) for one in two.groups()), text)
    widest = judgment("side from which a bare size is in millimeters").value
    for match in _SIZE.finditer(" ".join(in_figures.split())):
        first, unit, second, other = match.groups()
        units = {(one or "").casefold().rstrip(".") for one in (unit, other)}
        sides = sorted((_number(first), _number(second)))
        metric = next((one for one in units if one in _SCALE), "mm" if units == {""} and sides[1] > widest else "")
        b, d = (side * _SCALE.get(metric, 1.0) for side in sides)
        bare = units == {""} and not metric and "/" not in match.group()
        measured = f"{show(b, 'length', 'US')} x {show(d, 'length', 'US')}"
        forms, written = [(b, d)], measured
        for name in (f"{b:g}x{d:g}", f"{b:g}x{d:g} dressed") if bare else (measured,):
            try:
                read = read_size(name)
            except BeamcheckError:
                continue
            forms.append((read.b, read.d))
            written = name
            break
        yield match.group(), forms, written


def _number(side: str) -> float:
    whole, _, fraction = side.replace("-", " ").partition(" ")
    if not fraction:
        return float(whole)
    over, under = map(float, fraction.split("/"))
    return float(whole) + (over / under if under else 0.0)


def _alike(one: Sides, other: Sides) -> bool:
    """Within what dressing, drying and another way of naming make of the same stick, side by side."""
    thick = judgment("side from which a timber is named roughly").value
    fine, coarse = judgment("sizes of the same stick").value, judgment("sizes of the same timber").value
    return all(abs(a - b) <= (coarse if min(a, b) >= thick else fine) for a, b in zip(one, other, strict=True))
