"""What the drawing of a piece needs, taken from its solution."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import starmap
from typing import TYPE_CHECKING, Literal

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....analysis.beams.load_cases import Applied, Case
from ....analysis.beams.solved_beam import SolvedBeam
from ....analysis.frames.member_line import Line
from ...core.pictures.beams import CurveMark, CutMark, Figure, LoadMark, SectionPart, SupportMark
from ...core.tables import amount_words, kind_words
from ...core.wood.lost import Lost
from ...core.wood.section import Section
from ..cuts import Region

if TYPE_CHECKING:
    from ....analysis.roofs.roof_frame import RoofRun

STATIONS = 61  # points of the drawn curves, besides both sides of every jump
CURVES: tuple[Literal["V"], Literal["M"]] = ("V", "M")


def beam_figure(
    solved: SolvedBeam, section: Section, supports: Sequence[SupportMark], regions: Sequence[Region], K_cr: float
) -> Figure:
    """Envelopes of a level piece. `sag` is the largest total deflection with creep at each place."""
    depth = float(section.d)
    cuts = tuple(
        (region.start, region.end, _lower_edge(region, depth), region.cut.depth, region.text)
        for region in regions
        if not isinstance(region.cut, Lost)  # a whole stretch with less of a section is no cut to draw
    )
    line = solved.cases_run.line
    bent = line.combine(_long_term(solved.combinations, solved.cases, solved.factors, K_cr))
    names = [combination.name for combination in solved.combinations]
    drawn = _drawn(solved.loads)
    made = _figure(solved.length, depth, 0.0, tuple(supports), drawn, cuts, solved.combined.line, bent, names)
    return replace(made, section=section_parts(section))


def section_parts(section: Section) -> tuple[SectionPart, ...]:
    """The section in parts, as it is drawn: plies beside each other, a plate between two, flanges and web."""
    b, d, ply = float(section.b), float(section.d), float(section.breadth_alone)
    if section.round:
        return (SectionPart(0.0, 0.0, d, d, "round"),)
    if (shape := getattr(section, "shape", None)) is not None:  # rolled steel; its file is loaded only where it is met
        flange, web = float(shape.t_f), float(shape.t_web)
        return (
            SectionPart(0.0, 0.0, b, flange, "steel"),
            SectionPart(0.5 * (b - web), flange, web, d - 2.0 * flange, "steel"),
            SectionPart(0.0, d - flange, b, flange, "steel"),
        )
    plies = max(round(b / ply), 1) if ply > 0.0 else 1
    if (plate := getattr(section, "plate", None)) is not None:
        t, h = float(plate.thickness), float(plate.depth)
        return (
            SectionPart(0.0, 0.0, ply, d, "wood"),
            SectionPart(ply, 0.5 * (d - h), t, h, "steel"),
            SectionPart(ply + t, 0.0, ply, d, "wood"),
        )
    return tuple(SectionPart(i * b / plies, 0.0, b / plies, d, "wood") for i in range(plies))


def roof_figure(
    run: RoofRun, line: Line, section: Section, slope: float, supports: Sequence[SupportMark], K_cr: float
) -> Figure:
    """Envelopes of a rafter (drawn at its slope) or a tie; the line is that under the combinations.

    The sag is measured from the straight line between the first and the last support.
    """
    bent = Line(run.solution.combine(_long_term(run.combinations, run.cases, run.factors, K_cr)), line.bars)
    names = [combination.name for combination in run.combinations]
    chord = (supports[0].at, supports[-1].at)
    made = _figure(float(line.length), float(section.d), slope, tuple(supports), (), (), line, bent, names, chord)
    return replace(made, section=section_parts(section))


def _drawn(loads: Sequence[Applied]) -> tuple[LoadMark, ...]:
    return tuple(
        LoadMark(
            load.start,
            load.end,
            f"{load.what}, {amount_words(load)}",
            kind_words(load),
            ("line", "point")[load.is_point],
        )
        for load in loads
    )


def _lower_edge(region: Region, depth: float) -> float:
    """Height of the lower edge of the missing wood."""
    if region.cut.face == "bottom":
        return 0.0
    return depth - region.cut.depth if region.cut.face == "top" else region.bottom_of_void


def _long_term(combinations: Sequence[Loaded], cases: Sequence[Case], factors: np.ndarray, K_cr: float) -> np.ndarray:
    """Factors of the cases, creep under dead load included, for the combinations without wind: (some, cases)."""
    creep = np.array([K_cr if case.kind == "D" else 1.0 for case in cases])
    still = [i for i, combination in enumerate(combinations) if "W" not in combination.kinds]
    return np.asarray((factors * creep)[still])


def _figure(
    length: float,
    depth: float,
    slope: float,
    supports: tuple[SupportMark, ...],
    loads: tuple[LoadMark, ...],
    cuts: tuple[tuple[float, float, float, float, str], ...],
    line: Line,
    bent: Line,
    names: Sequence[str],
    chord: tuple[float, float] | None = None,
) -> Figure:
    marks = []
    for name in CURVES:
        low, s_low, high, s_high = line.extremes(name)
        least = 1e-6 * max(1.0, float(np.max(np.abs(high))))
        for side, values, places, pick in (("high", high, s_high, np.argmax), ("low", low, s_low, np.argmin)):
            i = int(pick(values))
            if abs(float(values[i])) > least:
                marks.append(CurveMark(f"{name}_{side}", float(places[i]), names[i]))
    stations = sorted({*np.linspace(0.0, length, STATIONS).tolist(), *(place for _, place, _ in marks)})
    x, V = line.sample("V", stations)
    _, M = line.sample("M", stations)
    x_v, v = bent.sample("v", x)
    if chord is not None:
        a, b = (bent.at("v", s)[:, None] for s in chord)
        v = v - a - (b - a) * (x_v - chord[0]) / (chord[1] - chord[0])
    sag = np.interp(x, x_v, np.max(-v, axis=0))
    return Figure(
        length,
        depth,
        slope,
        supports,
        loads,
        tuple(starmap(CutMark, cuts)),
        _tuple(x),
        _tuple(np.maximum(V.max(axis=0), 0.0)),
        _tuple(np.minimum(V.min(axis=0), 0.0)),
        _tuple(np.maximum(M.max(axis=0), 0.0)),
        _tuple(np.minimum(M.min(axis=0), 0.0)),
        _tuple(sag),
        tuple(marks),
    )


def _tuple(values: np.ndarray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)
