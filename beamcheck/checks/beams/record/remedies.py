"""What would make a failing beam pass: next size, shorter span, less load; each answer checked before it is given."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from ....analysis.beams.member_loads import TransferredLoad
from ....calc.pad import SilentPad
from ....errors import BeamcheckError
from ....model.beams import Beam
from ....model.loads import Load
from ....model.stock import Stock
from ....units import down_to_inch, show
from ....values.lumber import DesignValues, Size, read_size
from ....values.sizes import listed_sizes
from ...core.context import Context
from ...core.result import Check, judge
from ...core.wood.govern import figures_only
from ...core.wood.material import WoodMaterial, reference_values, sharing_of, wood_of
from ..beam import check_beam, largest_ratio
from ..beam_run import BeamRun, beam_length, section_of

LEAST = 0.25  # of the length or load: less is another beam
TRIES = 12
SHORTEST = 24.0  # in; a shorter beam is no remedy
MANY = 400  # combinations (a moving load on several spans): each try takes seconds
THINNER = 0.6  # in; a size thinner than the one at hand by more than this is another look
NEARLY = 0.97  # of the section that the figures ask for: smaller sizes need not be tried


def beam_remedies(
    beam: Beam, stock: Stock, make: Callable[[DesignValues], WoodMaterial], context: Context, checks: Sequence[Check],
    run: BeamRun | None,
) -> tuple[str, ...]:  # fmt: skip
    """Sentences for a beam that fails; empty for one that does not, or that fails for nothing that has a ratio."""
    failing = [check for check in checks if check.verdict == "fails"]
    if not failing or all(check.ratio is None for check in failing):
        return ()
    if run is not None and len(run.solved.combinations) > MANY:
        return ("So many places and patterns of load are tried on this piece that no remedy was searched for.",)
    wood, ratio = make(reference_values(stock)), largest_ratio(checks)
    with figures_only():
        found = [
            *_next_size(beam, stock, context, checks),
            *_shorter(beam, wood, context, ratio),
            *_lighter(beam, wood, context, ratio),
        ]
    if found:
        return tuple(found)
    rules = dict.fromkeys(check.what for check in failing if check.ratio is None)
    if rules:
        return (f"No size, span or load tried here makes it pass; first put right: {', '.join(rules)}.",)
    return ("No listed size, shorter span or smaller load tried here makes it pass: an engineer must look at it.",)


def _ratio(beam: Beam, wood: WoodMaterial, context: Context) -> float:
    """The governing ratio; infinite when something fails without one, or cannot be worked out."""
    try:
        run, checks = check_beam(beam, wood, context)
    except (BeamcheckError, ValueError):
        return math.inf
    return largest_ratio(checks) if run is not None else math.inf


def _holds(ratio: float) -> bool:
    """Judged where all ratios are."""
    return judge(ratio) == "passes"


def _next_size(beam: Beam, stock: Stock, context: Context, checks: Sequence[Check]) -> Iterator[str]:
    size = read_size(stock.size)
    if size.surface == "round" or stock.values is not None:
        return
    for name in listed_sizes(size):
        other = read_size(name)
        if other.b * other.d <= size.b * size.d or other.b < size.b - THINNER or other.size_class != size.size_class:
            continue
        if not _may_do(beam, size, other, checks):
            continue
        bigger = stock.model_copy(update={"size": name})
        structure = replace(context.structure, stocks={**context.structure.stocks, stock.name: bigger})
        try:
            wood = wood_of(bigger, reference_values(bigger), laid=beam.laid, sharing=sharing_of(beam))
        except (BeamcheckError, ValueError):
            continue
        if _holds(_ratio(beam, wood, replace(context, structure=structure))):
            sides = f"{show(other.b, 'length')} x {show(other.d, 'length')}"
            yield f"Next size that holds, same species and grade: {name} ({sides})."
            return


def _may_do(beam: Beam, size: Size, other: Size, checks: Sequence[Check]) -> bool:
    """Whether a size comes near what deflection asks for, and bending where nothing can buckle sideways."""
    pad, now, then = SilentPad(), section_of(size, beam.laid, beam.plies), section_of(other, beam.laid, beam.plies)
    for check in checks:
        if check.ratio is None or check.verdict != "fails":
            continue
        if check.kind == "small length" and then.inertia(pad) < NEARLY * check.ratio * now.inertia(pad):
            return False
        upright = any(step.symbol == "C_L" and step.value == 1.0 for step in check.steps)
        if check.what == "bending" and upright and then.modulus(pad) < NEARLY * check.ratio * now.modulus(pad):
            return False
    return True


def _shorter(beam: Beam, wood: WoodMaterial, context: Context, ratio: float) -> Iterator[str]:
    length = beam_length(beam)

    def at(factor: float) -> float:
        return _ratio(_scaled(beam, factor), wood, _arrivals_scaled(context, factor))

    scale = _largest_scale(at, ratio, 1.0 / length)
    if scale is None:
        return
    whole = down_to_inch(length * scale)
    if whole >= SHORTEST and _holds(at(whole / length)):
        now = show(length, "length")
        yield f"Same piece, shortened in proportion: holds up to {show(whole, 'length')} over all instead of {now}."


def _lighter(beam: Beam, wood: WoodMaterial, context: Context, ratio: float) -> Iterator[str]:
    def at(factor: float) -> float:
        carries = tuple(_less(load, factor) for load in beam.carries)
        return _ratio(beam.model_copy(update={"carries": carries}), wood, context)

    if context.transfers or not beam.carries:
        return
    scale = _largest_scale(at, ratio, 0.01)
    if scale is None:
        return
    widths = {load.width for load in beam.carries}
    width = widths.pop() if len(widths) == 1 else None
    narrow = down_to_inch(width * scale) if width is not None else 0.0
    if width is not None and narrow > 0.0 and _holds(at(narrow / width)):
        now = show(width, "length")
        yield f"Closer spacing: holds with a load width of {show(narrow, 'length')} instead of {now}."
        return
    percent = int(100.0 * scale)
    if _holds(at(percent / 100.0)):
        yield f"Less load: holds with {percent} % of the loads given."


def _largest_scale(ratio: Callable[[float], float], whole: float, step: float) -> float | None:
    """The largest factor below 1 that holds, short by at most `step`; None when even a quarter does not.

    `whole` is the ratio of the whole. Between two known points a ratio is taken to grow as a power of the factor: a
    guess that saves tries, while what holds is decided by trying.
    """
    low, high = LEAST, 1.0
    at_low, at_high = ratio(low), whole
    if not _holds(at_low):
        return None
    for _ in range(TRIES):
        if high - low <= step:
            break
        guess = 0.5 * (low + high)
        if 0.0 < at_low < at_high < math.inf:
            power = math.log(at_high / at_low) / math.log(high / low)
            guess = low * at_low ** (-1.0 / power)
        guess = min(max(guess, low + 0.9 * step), high - 0.9 * step) if high - low > 2 * step else 0.5 * (low + high)
        found = ratio(guess)
        if _holds(found):
            low, at_low = guess, found
        else:
            high, at_high = guess, found
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


def _arrivals_scaled(context: Context, factor: float) -> Context:
    moved = tuple(_moved(transfer, factor) for transfer in context.transfers)
    return replace(context, transfers=moved)


def _moved(transfer: TransferredLoad, factor: float) -> TransferredLoad:
    at = None if transfer.at is None else transfer.at * factor
    row = None if transfer.row is None else (transfer.row[0] * factor, transfer.row[1] * factor)
    return replace(transfer, at=at, row=row)


def _less(load: Load, factor: float) -> Load:
    fields = ("dead", "live", "roof_live", "snow", "wind")
    return load.model_copy(
        update={
            name: None if (amount := getattr(load, name)) is None else (amount[0] * factor, amount[1])
            for name in fields
        }
    )
