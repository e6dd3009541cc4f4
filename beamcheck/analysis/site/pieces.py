"""From the loads of a roof or floor to those of one piece under it: its strip, its place beside a wall or ridge."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, TypeAlias

from ...calc.pad import SilentPad
from ...model.beams import Beam, beam_length
from ...model.classes import is_member
from ...model.loads import FormedLoad, Load
from ...model.posts import Post
from ...model.roofs import Rafter, Tie, slope_length
from ...model.site import FloorArea, RoofArea, Site
from ...values.loads import live_load, told
from ..beams.load_cases import spans_of
from .areas import Areas
from .heap import Heap
from .roofs import Formed, formed_floor, formed_roof, framing, roof_live

if TYPE_CHECKING:
    from ...model.frames.frame import FrameStick

Piece: TypeAlias = "Beam | Rafter | Tie | Post | FrameStick"
ROOT = 1e-9
AREA_FIELDS = ("dead", "live", "roof_live", "snow", "wind")


def areas_of(site: Site | None, roofs: Sequence[RoofArea], floors: Sequence[FloorArea]) -> Areas:
    """Work out every roof and floor of a job; a roof needs its site."""
    worked = {roof.name: (roof, formed_roof(site, roof)) for roof in roofs} if site is not None else {}
    return Areas(site, worked, {floor.name: (floor, formed_floor(site, floor)) for floor in floors})


def with_formed_loads(piece: Any, areas: Areas) -> Any:
    """The piece with the amounts of what it carries from roofs and floors filled in; the same one where none does."""
    sort = isinstance(piece, (Beam, Rafter, Tie, Post)) or is_member(piece)
    if not sort or not any(load.roof or load.floor for load in piece.carries):
        return piece
    main, more = [], []
    for number, load in enumerate(piece.carries):
        found = list(_formed(piece, number, load, areas))
        main.append(found[0] if found else load)
        more += found[1:]
    update: dict[str, Any] = {"carries": (*main, *more)}
    slopes = [areas.roofs[name][0].slope for load in piece.carries if (name := load.roof) in areas.roofs and name]
    if isinstance(piece, Beam) and slopes:
        given = [] if piece.roof_slope is None else [piece.roof_slope]
        update["roof_slope"] = min([*slopes, *given])
    return piece.model_copy(update=update)


def _formed(piece: Piece, number: int, load: Load, areas: Areas) -> Iterator[FormedLoad]:
    if load.roof in areas.roofs:
        roof, formed = areas.roofs[load.roof or ""]
        yield from _of_roof(piece, number, load, roof, formed)
    elif load.floor in areas.floors:
        floor, formed = areas.floors[load.floor or ""]
        amounts = {"dead": formed.dead + _framing(piece, floor), "live": formed.live, "snow": formed.even}
        yield _entry(number, load.model_copy(update={"room": load.room or _heaviest_use(load, floor)}), amounts)


def _heaviest_use(load: Load, floor: FloorArea) -> str:
    """The use of the floor, or a heavier one that the words of the load name: it is asked about then.

    Words with which the use itself begins name no other: 'attic' beside 'attic without storage'.
    """
    own = floor.use.casefold()
    said = (one.says for one in told(load.what, "use") if not own.startswith(one.words.casefold()))
    return max((floor.use, *said), key=lambda use: live_load(use, least=True).value)


def _of_roof(piece: Piece, number: int, load: Load, roof: RoofArea, formed: Formed) -> Iterator[FormedLoad]:
    width = load.width or piece_spacing(piece)
    frames = _framing(piece, roof)
    dead = formed.dead + frames
    even = formed.astride if load.astride else formed.even
    heap, balanced = formed.drifts, formed.balanced
    on_top: list[tuple[float, float, float, float, float]] = []  # start, end, psi, share at either end
    if heap is not None:
        if load.off_wall is not None and width:
            even = max(even, balanced + heap.on_strip(load.off_wall, width) / width)
        elif load.wall_at is not None:
            on_top += _beside(_above(heap, even - balanced), load.wall_at, _extent(piece, load), _lean(piece))
        else:
            even = max(even, balanced + heap.peak)
    if formed.ridge is not None:
        if isinstance(piece, Rafter) or (is_member(piece) and piece.to_ridge):
            top = _length(piece)
            on_top += _beside(_above(formed.ridge, even - balanced), top, (0.0, top), _lean(piece))
        elif not load.astride:
            even = max(even, balanced + formed.ridge.peak)
    amounts = {"dead": dead, "roof_live": roof_live(_area(piece, width), roof.slope), "snow": even}
    wind = _wind_on(piece, formed)
    if wind is not None:
        amounts["wind"] = wind[0] - (formed.dead - formed.least)  # what may be gone one day holds nothing down
    yield _entry(number, load, amounts)
    if load.wind is not None and load.wind[0] < 0.0 and load.dead is None and formed.dead > formed.least:
        yield _more(number, load, "wind", formed.least - formed.dead, _extent(piece, load, whole=True))
    if wind is not None and load.wind is None:
        yield _more(number, load, "wind", wind[1], _extent(piece, load, whole=True))
    if load.snow is None:
        for start, end, peak, first, last in on_top:
            yield _more(number, load, "snow", peak, (start, end), (first, last))


def _entry(number: int, load: Load, amounts: Mapping[str, float]) -> FormedLoad:
    """The entry with its amounts: what is stated stands, what is not follows from the site."""
    given = {name: getattr(load, name) for name in Load.model_fields}
    formed = {field: value for field, value in amounts.items() if value}
    for field, value in formed.items():
        if given[field] is None:
            given[field] = (value, "area")
    given["measured"] = "plan"  # what lies along the slope was turned already
    return FormedLoad.model_construct(**given, entry=number, formed=formed, snow_ends=(1.0, 1.0), more=False)


def _more(
    number: int, load: Load, field: str, value: float, extent: tuple[float | None, float | None],
    ends: tuple[float, float] = (1.0, 1.0),
) -> FormedLoad:  # fmt: skip
    """A load beside the main one of its entry."""
    given = {name: getattr(load, name) for name in Load.model_fields}
    given |= dict.fromkeys(AREA_FIELDS)
    given |= {field: (value, "area"), "start": extent[0], "end": extent[1]}
    if field == "snow":
        given["what"] = f"{load.what}, drift"
    return FormedLoad.model_construct(**given, entry=number, formed={}, snow_ends=ends, more=True)


def _above(heap: Heap, covered: float) -> Heap:
    """What of a heap stands out of snow that counts already, psi over the balanced load."""
    if covered >= heap.peak:
        return Heap(heap.kind, 0.0, 0.0)
    covered = max(covered, 0.0)
    return Heap(heap.kind, heap.peak - covered, heap.width * (1.0 - covered / heap.peak))


def _beside(
    heap: Heap, wall: float, extent: tuple[float, float], lean: float
) -> list[tuple[float, float, float, float, float]]:  # fmt: skip
    """A heap on both sides of a place along a piece: where from, where to, largest psi, share at either end."""
    found: list[tuple[float, float, float, float, float]] = []
    if heap.peak <= 0.0:
        return found
    reach = heap.width / lean
    for start, end in ((wall - reach, wall), (wall, wall + reach)):
        low, high = max(start, extent[0]), min(end, extent[1])
        if high - low < 0.01:
            continue
        at_low, at_high = (heap.peak * max(1.0 - abs(x - wall) / reach, 0.0) for x in (low, high))
        most = max(at_low, at_high)
        if most > ROOT:
            found.append((low, high, most, at_low / most, at_high / most))
    return found


def piece_spacing(piece: Piece) -> float | None:
    """The spacing of repeated pieces, where it is given."""
    return None if isinstance(piece, Post) else piece.spacing


def _framing(piece: Piece, area: RoofArea | FloorArea) -> float:
    """The joists or rafters that stand on a beam; one of a row weighs itself."""
    if area.assembly.strip() or isinstance(piece, Rafter):
        return 0.0
    if piece_spacing(piece) is not None and not is_member(piece):  # purlins or rafters stand on a frame
        return 0.0
    return framing(SilentPad(), area)


def _lean(piece: Piece) -> float:
    """Level length of an inch along the piece."""
    return math.cos(math.radians(piece.slope)) if isinstance(piece, Rafter) or is_member(piece) else 1.0


def _length(piece: Piece) -> float:
    if isinstance(piece, Beam):
        return beam_length(piece)
    if isinstance(piece, Rafter):
        return slope_length(piece)
    if is_member(piece):
        return piece.length
    return piece.height if isinstance(piece, Post) else math.inf


def _extent(piece: Piece, load: Load, *, whole: bool = False) -> Any:
    """Where the load begins and ends along the piece; as it is written with `whole`."""
    if whole:
        return load.start, load.end
    return load.start or 0.0, _length(piece) if load.end is None else load.end


def _wind_on(piece: Piece, formed: Formed) -> tuple[float, float] | None:
    """Wind up and down: of the roof as a whole; on one of a row (rafter, purlin) that of a part where it is more."""
    if formed.wind is None or not formed.parts or piece_spacing(piece) is None:
        return formed.wind
    span = _area(piece, 1.0)
    area = span * max(piece_spacing(piece) or 0.0, span / 3.0)  # effective wind area, ASCE 7-16 26.2
    up, down = next(wind for most, wind in formed.parts if area <= most)
    return min(up, formed.wind[0]), max(down, formed.wind[1])


def _area(piece: Piece, width: float | None) -> float:
    """Tributary area for the reduction of roof live load, in2: of the longest span."""
    if isinstance(piece, Rafter):
        return piece.run * (width or 0.0)
    if is_member(piece):
        return piece.length * _lean(piece) * (width or 0.0)
    if isinstance(piece, Beam):
        spans = spans_of(beam_length(piece), [support.at for support in piece.supports])
        return max(end - start for start, end in spans) * (width or 0.0)
    return 0.0
