"""What would make a failing beam pass: the next size, a shorter span, less load. Every answer is checked before it is given."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..errors import BeamcheckError
from ..model.pieces import Beam, Load, Stock
from ..units import down_to_inch, show
from ..values.lumber import DesignValues, read_size
from ..values.sizes import listed_sizes
from .beam import beam_length, check_beam
from .context import Around, House
from .result import Check
from .wood import Wood, reference_values, wood_of

STEPS = 24  # halvings of the scale; the answer is rounded down to an inch or a percent afterwards


def beam_remedies(
    beam: Beam, stock: Stock, make: Callable[[DesignValues], Wood], around: Around, checks: Sequence[Check]
) -> tuple[str, ...]:
    """Sentences for a beam that fails; empty for one that does not, or whose failing has nothing to do with its size."""
    failing = [check for check in checks if check.verdict == "fails"]
    if not failing or all(check.ratio is None for check in failing):
        return ()
    found = [
        *_next_size(beam, stock, around),
        *_shorter(beam, make(reference_values(stock)), around),
        *_lighter(beam, make(reference_values(stock)), around),
    ]
    return tuple(found) or (
        "No listed size, shorter span or smaller load tried here makes it pass: an engineer must look at it.",
    )


def _holds(beam: Beam, wood: Wood, around: Around) -> bool:
    """Whether nothing fails (what is referred stays referred)."""
    try:
        return all(check.verdict != "fails" for check in check_beam(beam, wood, around)[1])
    except (BeamcheckError, ValueError):
        return False


def _next_size(beam: Beam, stock: Stock, around: Around) -> list[str]:
    size = read_size(stock.size)
    if size.surface == "round" or stock.values is not None:
        return []
    area = size.b * size.d
    for name in listed_sizes(size):
        other = read_size(name)
        if other.b * other.d <= area or other.b < size.b - 0.6 or other.size_class != size.size_class:
            continue
        bigger = stock.model_copy(update={"size": name})
        house = House({**around.house.stocks, stock.name: bigger}, around.house.pieces)
        try:
            wood = wood_of(bigger, reference_values(bigger), laid=beam.laid)
        except (BeamcheckError, ValueError):
            continue
        if _holds(beam, wood, Around(house, around.arrivals)):
            return [
                f"Next size that holds, same species and grade: {name} ({show(other.b, 'length')} x {show(other.d, 'length')})."
            ]
    return []


def _shorter(beam: Beam, wood: Wood, around: Around) -> list[str]:
    length = beam_length(beam)
    scale = _largest_scale(lambda factor: _holds(_scaled(beam, factor), wood, _arrivals_scaled(around, factor)))
    if scale is None:
        return []
    whole = down_to_inch(length * scale)
    if whole < 24.0 or not _holds(_scaled(beam, whole / length), wood, _arrivals_scaled(around, whole / length)):
        return []
    return [
        f"Same piece, shortened in proportion: holds up to {show(whole, 'length')} over all instead of {show(length, 'length')}."
    ]


def _lighter(beam: Beam, wood: Wood, around: Around) -> list[str]:
    def loaded(factor: float) -> Beam:
        return beam.model_copy(update={"carries": tuple(_less(load, factor) for load in beam.carries)})

    if around.arrivals or not beam.carries:
        return []
    scale = _largest_scale(lambda factor: _holds(loaded(factor), wood, around))
    if scale is None:
        return []
    percent = int(100.0 * scale)
    if percent < 1 or not _holds(loaded(percent / 100.0), wood, around):
        return []
    widths = {load.width for load in beam.carries}
    if len(widths) == 1 and (width := widths.pop()) is not None:
        narrow = down_to_inch(width * scale)
        if narrow > 0 and _holds(loaded(narrow / width), wood, around):
            return [
                f"Closer spacing: holds with a load width of {show(narrow, 'length')} instead of {show(width, 'length')}."
            ]
    return [f"Less load: holds with {percent} % of the loads given."]


def _largest_scale(holds: Callable[[float], bool]) -> float | None:
    """The largest factor below 1 that holds, by halving; None when even a quarter does not."""
    low, high = 0.25, 1.0
    if not holds(low):
        return None
    for _ in range(STEPS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if holds(middle) else (low, middle)
        if high - low < 0.002:
            break
    return low


def _scaled(beam: Beam, factor: float) -> Beam:
    """The beam with every place along it drawn closer; seats, widths and cuts keep their size."""
    supports = tuple(s.model_copy(update={"at": s.at * factor}) for s in beam.supports)
    loads = tuple(
        load.model_copy(
            update={name: None if (x := getattr(load, name)) is None else x * factor for name in ("at", "start", "end")}
        )
        for load in beam.carries
    )
    cuts = tuple(cut.model_copy(update={"at": cut.at * factor}) for cut in beam.cuts)
    length = None if beam.length is None else beam.length * factor
    return beam.model_copy(update={"supports": supports, "carries": loads, "cuts": cuts, "length": length})


def _arrivals_scaled(around: Around, factor: float) -> Around:
    from dataclasses import replace

    moved = tuple(replace(a, at=None if a.at is None else a.at * factor) for a in around.arrivals)
    return Around(around.house, moved)


def _less(load: Load, factor: float) -> Load:
    fields = ("dead", "live", "roof_live", "snow", "wind")
    return load.model_copy(
        update={
            name: None if (amount := getattr(load, name)) is None else (amount[0] * factor, amount[1])
            for name in fields
        }
    )
