"""The size of a piece: read from what the trade writes, with the dressed size looked up and the size class decided."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Literal

from ..errors import OutOfRange, UnitError
from ..provenance import Source
from ..records import dataclass
from ..units import read, show
from ..units.number_text import LONGEST_TEXT
from .loader import rows, source_of, weakest

SizeClass = Literal["dimension", "beams_and_stringers", "posts_and_timbers"]
Surface = Literal["dressed", "rough", "measured", "round"]

FORMS = (
    """write '2x10', '8x10 dressed', '8x10 rough', '7 1/4" x 9 3/4"' (measured), '184 mm x 248 mm' or '10 in round'"""
)
MEASURE_IT = "taken as sawn full, both sides as named: measure the least section and enter that"
MEASURED = Source("measured on the piece", "given")
HAIR = 1e-6  # inch; what a metric size loses on its way to inches

_BETWEEN = re.compile(r"\s*(?:[x×]|\bby\b)\s*", re.IGNORECASE)
_BARE = re.compile(r"[+-]?\d+(?:\.\d*)?|[+-]?\.\d+")
_FRACTION = re.compile(r"(?:\d+[\s-]+)?\d+/\d+")
_WORDS: Mapping[str, Surface] = MappingProxyType({
    "dressed": "dressed", "surfaced": "dressed", "planed": "dressed", "s4s": "dressed", "rough": "rough",
    "full sawn": "rough", "full-sawn": "rough", "rough sawn": "rough", "rough-sawn": "rough", "measured": "measured",
    "round": "round",
})  # fmt: skip
_ENDING = re.compile(rf"(.*?)[\s,]*\b({'|'.join(sorted(_WORDS, key=len, reverse=True))})", re.IGNORECASE)


@dataclass(frozen=True)
class Size:
    """Cross-section of a piece: actual thickness `b` and width `d`, b <= d, inches; a round piece: its diameter twice.

    `nominal_b` and `nominal_d` are None for a measured or round piece. `size_class` is that of NDS 2018 4.1.3: by
    nominal size when dressed, by the actual sides otherwise. `source` says where the actual size comes from.
    """

    b: float
    d: float
    nominal_b: float | None
    nominal_d: float | None
    surface: Surface
    size_class: SizeClass
    text: str
    source: Source
    notes: tuple[str, ...] = ()

    @property
    def proportion(self) -> float:
        """d/b as NDS 2018 4.4.1.2 means it: nominal when dressed, else actual (safe reading)."""
        if self.surface == "dressed" and self.nominal_b and self.nominal_d:
            return self.nominal_d / self.nominal_b
        return self.d / self.b

    @property
    def may_be_posts_and_timbers(self) -> bool:
        """Measured just beyond the limit to beams and stringers: perhaps a posts and timbers size sawn too wide."""
        limit = _limit("beam_width_excess") + _limit("sawing_tolerance")
        return (
            self.surface == "measured" and self.size_class == "beams_and_stringers" and self.d - self.b <= limit + HAIR
        )

    @property
    def table_width(self) -> float:
        """Nominal width for tables whose values fall with it: a measured piece takes the next one not below its own."""
        if self.nominal_d is not None:
            return self.nominal_d
        return next((width for width in nominal_widths() if width >= self.d - HAIR), math.inf)

    @property
    def table_width_below(self) -> float:
        """Nominal width for tables whose values rise with it: the widest whose dressed size the piece reaches."""
        if self.nominal_d is not None:
            return self.nominal_d
        return max((width for width in nominal_widths() if _dry("width", width) <= self.d + HAIR), default=0.0)

    @property
    def table_thickness(self) -> float:
        """Nominal thickness of dimension lumber; a measured piece counts by the dressed size that it reaches."""
        if self.nominal_b is not None:
            return self.nominal_b
        reached = (thick for thick in _dressed("dimension", "thickness") if _dry("thickness", thick) <= self.b + HAIR)
        return max(reached, default=2.0)


@lru_cache(maxsize=4096)
def read_size(text: str) -> Size:
    """Read a size.

    `text`: '2x10' (nominal, dressed dry: 2 to 4 in thick), '8x10 dressed', '8x10 rough' or '8x10 full sawn' (the actual
    sides are taken as named), '7 1/4" x 9 3/4"' or '184 mm x 248 mm' (measured), '10 in round'. Smaller side first.
    Returns actual sides in inches. Raises UnitError if the text is no size, or may mean two different ones; OutOfRange
    if the size is not that of a piece of sawn lumber.
    """
    if not isinstance(text, str) or not text.strip():
        raise UnitError(f"size {text!r} is not a size; {FORMS}")
    said = " ".join(text.split())
    if len(said) > LONGEST_TEXT:
        raise UnitError(f"size {said[:40]!r}... is too long for a size ({len(said)} letters); {FORMS}")
    ending = _ENDING.fullmatch(said)
    word = _WORDS[ending[2].casefold()] if ending else None
    body = ending[1].strip() if ending else said
    if word == "round":
        return _round(said, body)
    sides = _BETWEEN.split(body)
    if len(sides) != 2 or not all(sides):
        raise UnitError(f"size {said!r} is not two sides; {FORMS}")
    bare = [bool(_BARE.fullmatch(side)) for side in sides]
    if all(bare):
        return _nominal(said, float(sides[0]), float(sides[1]), word)
    if any(_FRACTION.fullmatch(side) for side in sides):
        raise UnitError(f"""size {said!r}: a measured size has a unit on each side, as in '7 1/4" x 9 3/4"'""")
    if any(bare):
        raise UnitError(f"size {said!r}: one side has a unit or a word that the other has not; {FORMS}")
    if word == "dressed":
        raise UnitError(
            f"size {said!r}: sides with a unit are measured, 'dressed' belongs to a nominal size; "
            f"""write '8x10 dressed' for nominal 8 by 10, or '7 1/2" x 9 1/2"' for the sides as measured"""
        )
    b, d = (_side(said, side) for side in sides)
    _check_sides(said, b, d)
    return Size(b, d, None, None, "measured", _class_by_sides(said, b, d), said, MEASURED)


def _nominal(said: str, b: float, d: float, word: Surface | None) -> Size:
    _check_sides(said, b, d)
    if word == "measured" or (b * 2) % 1 or (d * 2) % 1:
        raise UnitError(f"""size {said!r}: a measured size has a unit on each side, as in '7 1/4" x 9 3/4"'""")
    if b < _limit("thickness_dimension_from"):
        raise OutOfRange(
            f"size {said!r}: boards thinner than nominal 2 in have no design values here", "NDS 2018 4.1.3"
        )
    timber = b >= _limit("thickness_timber_from")
    if word is None and timber:
        raise UnitError(
            f"size {said!r}: dressed or rough? A piece 5 in or thicker comes both ways, and the difference decides; "
            f"write '{b:g}x{d:g} dressed', '{b:g}x{d:g} rough', or the sides as measured with their unit"
        )
    if word == "rough":
        source = Source("full-sawn size as named", "given", MEASURE_IT)
        return Size(b, d, b, d, "rough", _class_by_sides(said, b, d), said, source, (f"{said}: {MEASURE_IT}",))
    thick, b_source = _dressed_side(said, b, "timbers" if timber else "dimension", "thickness")
    wide, d_source = _dressed_side(said, d, "timbers" if timber else "dimension", "width")
    size_class: SizeClass = "dimension" if not timber else _timber_class(b, d)
    notes = _dressed_dry(said, (thick, wide), (b, d)) if timber else ()
    return Size(thick, wide, b, d, "dressed", size_class, said, weakest([b_source, d_source]), notes)


def _dressed_dry(said: str, taken: tuple[float, float], nominal: tuple[float, float]) -> tuple[str, ...]:
    """What to look out for: a timber dressed after it has dried is smaller than the size taken (PS 20)."""
    dry = (_dressed("timbers", "width")[side][0] for side in nominal)
    less = max(green - side for green, side in zip(taken, dry, strict=True))
    if not less:
        return ()
    return (
        f"{said}: taken as dressed green; dressed when dry it is up to {show(less, 'length', 'US')} less: measure it",
    )


def _round(said: str, body: str) -> Size:
    diameter = _side(said, body.strip(" ,"))
    least = _limit("measured_timber_from")
    if diameter < least - HAIR:
        raise OutOfRange(f"size {said!r}: round pieces count as timbers from {least:g} in up", "NDS 2018 4.1.3")
    if diameter > _limit("largest_side"):
        raise OutOfRange(f"size {said!r}: {diameter:.4g} in is no size of sawn lumber; check figure and unit")
    return Size(diameter, diameter, None, None, "round", "posts_and_timbers", said, MEASURED)


def _side(said: str, side: str) -> float:
    try:
        return read(side, "length")
    except UnitError as error:
        raise UnitError(f"size {said!r}: {error}; {FORMS}") from None


def _check_sides(said: str, b: float, d: float) -> None:
    if not (math.isfinite(b) and math.isfinite(d)) or b <= 0 or d <= 0:
        raise OutOfRange(f"size {said!r}: both sides must be above zero")
    if b > d + HAIR:
        raise OutOfRange(f"size {said!r}: the smaller side comes first; how the piece is laid is said elsewhere")
    if d > _limit("largest_side"):
        raise OutOfRange(f"size {said!r}: {d:.4g} in is no size of sawn lumber; check figure and unit")


def _class_by_sides(said: str, b: float, d: float) -> SizeClass:
    """The class of a rough or measured piece."""
    if b >= _limit("measured_timber_from") - HAIR:
        return _timber_class(b, d)
    if b < _limit("measured_dimension_from"):
        raise OutOfRange(
            f"size {said!r}: {b:.4g} in is thinner than dimension lumber (nominal 2 in, 1 1/2 in dressed), "
            "and boards have no design values here",
            "NDS 2018 4.1.3",
        )
    return "dimension"


def _timber_class(b: float, d: float) -> SizeClass:
    return "beams_and_stringers" if d - b > _limit("beam_width_excess") + HAIR else "posts_and_timbers"


def nominal_widths() -> tuple[float, ...]:
    """The standard nominal widths of dimension lumber, inches."""
    return tuple(_dressed("dimension", "width"))


def _dry(dimension: str, nominal: float) -> float:
    return _dressed("dimension", dimension)[nominal][0]


def _dressed_side(said: str, nominal: float, item: str, dimension: str) -> tuple[float, Source]:
    """Actual side: dimension lumber dressed dry; timbers dressed green (nominal less 1/2 in)."""
    table = _dressed(item, dimension)
    if nominal not in table:
        known = ", ".join(f"{size:g}" for size in table)
        raise OutOfRange(
            f"size {said!r}: nominal {nominal:g} in is no standard {dimension} ({known}); "
            """write a sawn piece as 'rough', or measured: '7 1/4" x 9 3/4"'""",
            "PS 20",
        )
    dry, green, source = table[nominal]
    return (green if item == "timbers" else dry), source


@cache
def _dressed(item: str, dimension: str) -> Mapping[float, tuple[float, float, Source]]:
    """Nominal side -> dry size, green size, source; ascending."""
    return MappingProxyType({
        float(row["nominal"]): (float(row["dry"]), float(row["green"]), source_of(row))
        for row in sorted(rows("ps20_dressed_sizes"), key=lambda row: float(row["nominal"]))
        if row["item"] == item and dimension in row["dimension"]
    })  # fmt: skip


@cache
def _limit(rule: str) -> float:
    return next(float(row["value"]) for row in rows("nds_2018_4_1_3_size_classes") if row["rule"] == rule)


_TIMBER_SIDES = (6, 8, 10, 12, 14, 16, 18, 20, 24)  # nominal; what yards list: common practice, no source


@cache
def listed_sizes_of(size_class: SizeClass, surface: Surface) -> tuple[str, ...]:
    """Names of the usual nominal sizes of a class, from the smallest area to the largest."""
    word = "dressed" if surface == "dressed" else "rough"
    if size_class == "dimension":
        names = [f"{b}x{d:g}" for b in (2, 3, 4) for d in nominal_widths() if d == int(d) and d % 2 == 0 and d > b]
    else:
        names = [f"{b}x{d} {word}" for b in _TIMBER_SIDES for d in _TIMBER_SIDES if d >= b]
    found = [(name, read_size(name)) for name in names]
    fitting = [(name, size) for name, size in found if size.size_class == size_class]
    return tuple(name for name, size in sorted(fitting, key=lambda item: (item[1].b * item[1].d, item[1].d)))


def listed_sizes(size: Size) -> tuple[str, ...]:
    """The usual sizes of the same class and surface as `size` (a measured piece: rough), smallest first."""
    return listed_sizes_of(size.size_class, size.surface)
