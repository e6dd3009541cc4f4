"""What the drawing of a piece needs, taken from its solution."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..analysis.line import Line
from ..analysis.loading import KIND_WORDS, Applied
from ..analysis.roof_frame import RoofRun
from ..analysis.straight import Straight
from ..units import show
from .cuts import Region
from .result import Figure

STATIONS = 61  # points of the drawn curves, besides both sides of every jump


def straight_figure(
    straight: Straight, depth: float, supports: Sequence[tuple[float, str, str]], regions: Sequence[Region], K_cr: float
) -> Figure:
    """Envelopes of a level piece. `sag` is the largest total deflection with creep at each place."""
    loads = tuple(
        (load.start, load.end, load_words(load), kind_words(load), "point" if load.is_point else "line")
        for load in straight.loads
    )
    cuts = tuple(
        (r.start, r.end, 0.0 if r.cut.face == "bottom" else depth - r.cut.depth if r.cut.face == "top" else r.bottom_of_void,
         r.cut.depth, r.text)
        for r in regions
    )  # fmt: skip
    dead = np.array([K_cr if case.kind == "D" else 1.0 for case in straight.cases])
    still = [i for i, combination in enumerate(straight.combinations) if "W" not in combination.kinds]
    bent = straight.cases_run.line.combine((straight.factors * dead)[still])
    names = [combination.name for combination in straight.combinations]
    return _figure(straight.length, depth, 0.0, tuple(supports), loads, cuts, straight.combined.line, bent, names)


def roof_figure(run: RoofRun, line: Line, bent: Line, depth: float, slope: float, supports: Sequence[tuple[float, str, str]],
                loads: Sequence[Applied]) -> Figure:  # fmt: skip
    """Envelopes of a rafter (drawn at its slope) or a tie."""
    drawn = tuple(
        (load.start, load.end, load_words(load), kind_words(load), "point" if load.is_point else "line")
        for load in loads
    )
    names = [combination.name for combination in run.combinations]
    return _figure(float(line.length), depth, slope, tuple(supports), drawn, (), line, bent, names)


def kind_words(load: Applied) -> str:
    """'dead', 'live', ..., 'wind up' for wind that lifts."""
    return KIND_WORDS[load.kind] + (" up" if load.total < 0 else "")


def load_words(load: Applied) -> str:
    """'plaster ceiling, 40 plf'."""
    if load.is_point:
        return f"{load.what}, {show(load.P, 'force')}"
    amount = show(load.w_start, "line load")
    if load.w_end != load.w_start:
        amount += f" to {show(load.w_end, 'line load')}"
    return f"{load.what}, {amount}"


def _figure(
    length: float, depth: float, slope: float, supports: tuple[tuple[float, str, str], ...],
    loads: tuple[tuple[float, float, str, str, str], ...], cuts: tuple[tuple[float, float, float, float, str], ...],
    line: Line, bent: Line, names: Sequence[str],
) -> Figure:  # fmt: skip
    x, V = line.sample("V", np.linspace(0.0, length, STATIONS))
    _, M = line.sample("M", np.linspace(0.0, length, STATIONS))
    x_v, v = bent.sample("v", x)
    down = np.max(-v, axis=0)
    sag = np.interp(x, x_v, down)
    marks = []
    for name in ("V", "M"):
        low, s_low, high, s_high = line.extremes(name)  # type: ignore[arg-type]
        for values, places, pick in ((high, s_high, np.argmax), (low, s_low, np.argmin)):
            i = int(pick(values))
            if abs(float(values[i])) > 1e-6 * max(1.0, float(np.max(np.abs(high)))):
                marks.append((name, float(places[i]), names[i]))
    return Figure(
        length, depth, slope, supports, loads, cuts, _tuple(x), _tuple(np.maximum(V.max(axis=0), 0.0)),
        _tuple(np.minimum(V.min(axis=0), 0.0)), _tuple(np.maximum(M.max(axis=0), 0.0)),
        _tuple(np.minimum(M.min(axis=0), 0.0)), _tuple(sag), tuple(marks),
    )  # fmt: skip


def _tuple(values: np.ndarray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
