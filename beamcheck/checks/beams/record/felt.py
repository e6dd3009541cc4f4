"""What a floor is like to live on, and what the code's own table says of the same stick: information, no verdict.

No code of the USA limits vibration. A span of a table is no permission: seats, cuts, shear and the wood are not in it.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....calc.pad import SilentPad
from ....formulas.loads import floor as fl
from ....model.beams import Beam
from ....model.loads import sort_of
from ....model.stock import Stock
from ....units import show
from ....values.judgment import judgment
from ....values.limits import code_joist_span
from ...core.context import Context
from ..beam_run import BeamRun

KILONEWTON = 224.809  # lbf


def floor_words(run: BeamRun, context: Context) -> list[str]:
    """Sentences for a floor beam of one span; nothing for pieces of several spans."""
    if not run.simple:
        return []
    return [*_felt(run, context), *_code_span(run.beam, context.stock(run.beam.stock), run)]


def _felt(run: BeamRun, context: Context) -> Iterator[str]:
    f = frequency(run)
    if f is None:
        return
    span = run.spans[0].length
    under = float(fl.sag_under_a_force(P=KILONEWTON, L=span, E=run.E, I=float(run.section.inertia(SilentPad()))))
    text = (
        f"For information, no verdict: under what lies on it for good it swings with {_hertz(f)} "
        f"(from {judgment('frequency of a floor that few feel').value:g} Hz few complain)"
    )
    joists = [g for one in context.structure.beams_on(run.beam.name) if (g := _of(one, context)) is not None]
    if joists:
        both = float(fl.system_frequency(f_j=min(joists), f_g=f))
        text += f", together with the joists on it with {_hertz(both)}"
    if run.beam.spacing is not None:
        most = float(fl.allowed_under_1_kn(L=span))
        text += (
            f"; 225 lb in its middle bend one alone by {show(under, 'small length')}, where a Canadian rule asks for "
            f"{show(most, 'small length')} with what neighbors help"
        )
    yield f"{text}. What can be felt when somebody walks is no matter of strength."


def _of(joist: Beam, context: Context) -> float | None:
    found = context.structure.runs.get(joist.name)
    return None if found is None or not found.simple or joist.service != "floor" else frequency(found)


def frequency(run: BeamRun) -> float | None:
    """Hz, with own weight and dead load and nobody on it; None where nothing lies on it."""
    weight = sum(load.total for load in run.solved.loads if load.kind == "D" and load.total > 0.0)
    if weight <= 0.0 or not np.isfinite(run.E):
        return None
    I = float(run.section.inertia(SilentPad()))  # noqa: E741
    return float(fl.floor_frequency(E=run.E, I=I, W=weight, L=run.spans[0].length))


def _hertz(f: float) -> str:
    return f"{f:.1f} Hz" if f < 100.0 else "more than 100 Hz"


def _code_span(beam: Beam, stock: Stock, run: BeamRun) -> Iterator[str]:
    """What the table of the code allows for the same stick, where it has it."""
    areas = [load for load in beam.carries if sort_of(load) == "area"]
    if stock.made != "sawn" or beam.plies > 1 or beam.spacing is None or len(areas) != 1 or len(beam.carries) != 1:
        return
    load = areas[0]
    live, dead = ((amount or (0.0, ""))[0] * 144.0 for amount in (load.live, load.dead))
    if load.width is None or abs(load.width - beam.spacing) > 0.01 * beam.spacing:
        return
    found = code_joist_span(stock.species, stock.grade, stock.size, beam.spacing, live, dead)
    if found is None:
        return
    seats = sorted(run.seats, key=lambda seat: seat.x)
    clear = seats[-1].start - seats[0].end
    where = "within it" if clear <= found.value else "beyond it"
    yield (
        f"For information, no permission: the code's table allows {show(found.value, 'length')} clear for this stick "
        f"({found.reason}; {found.source.document}, known by: {found.source.how}); here it is {show(clear, 'length')} "
        f"clear, {where}. The table looks at bending and at live-load deflection alone."
    )
