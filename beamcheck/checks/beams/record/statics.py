"""The statics of a level beam: in closed form where one span under a uniform load allows it, else by stations."""

from __future__ import annotations

import math

import numpy as np

from ....analysis.beams.combinations import Loaded
from ....analysis.beams.load_cases import DRIES, KIND_WORDS, SLIVER, Applied
from ....analysis.beams.solved_beam import BENDING_ONLY, SolvedBeam
from ....calc.pad import Pad, SilentPad
from ....formulas.wood import deflection as df
from ....units import show
from ...core.pictures.beams import Figure, Table
from ...core.statics import (
    BY_FRAME,
    BY_HAND,
    FOOT,
    Statics,
    StaticsLine,
    force_line,
    four,
    load_line,
    moment_line,
    sag_line,
    terms,
)
from ...core.wood.material import modulus_prime
from ..beam_run import BeamRun

CLOSE = 0.005  # relative: a closed form that is farther from the solution than this is not shown
SIMPLE = "One span under a uniform load: these lines give what the analysis gives. Pounds and feet; sag in inches."
BY_STATIONS = "Solved by the frame analysis: {why}. Envelopes over all combinations at the places that matter."


def beam_statics(run: BeamRun, figure: Figure, *, known: bool) -> Statics:
    """How the forces of a beam can be done again; of wood that is not `known` the sag is that of no one candidate."""
    pad = Pad()
    if known and run.wood.made != "steel":
        modulus_prime(pad, run.wood)
    why = _not_by_hand(run.solved)
    lines = () if why else _closed(run, known)
    if lines:
        return Statics(BY_HAND, SIMPLE, lines, steps=tuple(pad.steps))
    why = why or "the closed form does not give the same"
    return Statics(BY_FRAME, BY_STATIONS.format(why=why), stations=stations(figure), steps=tuple(pad.steps))


def stations(figure: Figure) -> Table:
    """Shear and moment at the supports and at the extremes: what the drawing shows, as figures."""
    places: dict[float, str] = {support.at: support.name for support in figure.supports}
    for mark in figure.marks:
        where = min(figure.x, key=lambda x: abs(x - mark.at))
        places.setdefault(where, f"largest {mark.curve.partition('_')[0]}: {mark.text}")
    rows = []
    for place, name in sorted(places.items()):
        near = [i for i, x in enumerate(figure.x) if abs(x - place) < SLIVER]
        if near:
            V = (max(figure.V_high[i] for i in near), min(figure.V_low[i] for i in near))
            M = (max(figure.M_high[i] for i in near), min(figure.M_low[i] for i in near))
            rows.append((show(place, "length"), name, *(show(v, "force") for v in V), *(show(m, "moment") for m in M)))
    return Table("Stations", ("at", "place", "V max", "V min", "M max", "M min"), tuple(rows))


def _not_by_hand(solved: SolvedBeam) -> str:
    """Why the closed form of a simple beam does not hold; '' where it does."""
    supports = sorted(solved.supports, key=lambda one: one.x)
    if len(supports) != 2 or any(one.kind == "fixed" for one in supports):
        return "more than one span, or an end that cannot turn"
    if supports[0].x > SLIVER or supports[1].x < solved.length - SLIVER:
        return "the piece reaches beyond a support"
    if any(one.settles or one.gives or one.sags for one in supports):
        return "supports come down"
    if any(load.moves or load.P_low is not None for load in solved.loads):
        return "a load moves, or may lift"
    if not all(_whole(load, solved.length) for load in solved.loads):
        return "loads that are not uniform over the whole span"
    if any(load.kind == "W" for load in solved.loads):
        return "wind acts on it"
    return ""


def _whole(load: Applied, length: float) -> bool:
    uniform = not load.is_point and math.isclose(load.w_start, load.w_end, abs_tol=1e-12)
    return uniform and load.start <= SLIVER and load.end >= length - SLIVER


def _closed(run: BeamRun, known: bool) -> tuple[StaticsLine, ...]:
    """Load, reaction, moment, and the sag of each kind of load; nothing where they do not give what was solved."""
    solved = run.solved
    L = solved.length
    most = solved.moments(0.0, L)[2]
    index = int(np.argmax(most))
    combination = solved.combinations[index]
    parts = _parts(solved, combination)
    w = sum(factor * load.w_start for factor, load in parts)
    R, M = float(df.simple_uniform_shear(w, L)), float(df.simple_uniform_moment(w, L))
    pressing = float(np.max(solved.pressing(0)))
    if not (math.isclose(M, float(most[index]), rel_tol=CLOSE) and math.isclose(R, pressing, rel_tol=CLOSE)):
        return ()
    said, feet = four(w * FOOT), four(L / FOOT)
    amounts = terms([(factor, load.w_start * FOOT) for factor, load in parts])
    return (
        load_line("w", amounts, w, f"{combination.name}: {', '.join(load.what for _, load in parts)}"),
        force_line("R", "w L / 2", f"{said} × {feet} / 2", R),
        moment_line("M", "w L² / 8", f"{said} × {feet}² / 8", M),
        *(_sags(run) if known else ()),
    )


def _parts(solved: SolvedBeam, combination: Loaded) -> list[tuple[float, Applied]]:
    """The loads of a combination with their factors."""
    return [
        (factor, load)
        for factor, case in zip(combination.factors, solved.cases, strict=True)
        if factor
        for load in case.loads
    ]


def _sags(run: BeamRun) -> list[StaticsLine]:
    """The sag at midspan under each kind of load alone, in the way that governs."""
    solved, pad = run.solved, SilentPad()
    E, inertia, area = run.E, float(run.section.inertia(pad)), float(run.section.area(pad))
    if run.section.round:
        return []
    L = solved.length
    lines: list[StaticsLine] = []
    for kind, words in KIND_WORDS.items():
        w = sum(load.w_start for load in solved.loads if load.kind == kind)
        rows = np.array([[1.0 if case.kind == kind and not case.pattern else 0.0 for case in solved.cases]])
        if w <= 0.0 or not rows.any() or kind == DRIES:
            continue
        found = float(np.max(np.abs(solved.deflections(0.0, L, False, rows)[0])))
        bent = float(df.simple_uniform_deflection(w, L, E, inertia))
        said = f"5 × {four(w)} × {four(L)}⁴ / (384 × {four(E)} × {four(inertia)})"
        about = "" if lines else f"; L = {four(L)} in, E′ = {four(E)} psi, I = {four(inertia)} in⁴"
        note = f"{words}, {four(w)} lb/in{about}"
        if any(way.words == BENDING_ONLY for way in solved.others) and math.isclose(bent, found, rel_tol=CLOSE):
            formula = "" if lines else "5 w L⁴ / (384 E′ I)"
            lines.append(sag_line(f"Delta_{kind}", formula, said, bent, note))
            continue
        E_sf = E if run.wood.shear_free else float(df.shear_free_modulus(E))
        free, GA = float(df.simple_uniform_deflection(w, L, E_sf, inertia)), run.GA * area
        slid = w * L**2 / (8.0 * GA)
        if math.isclose(free + slid, found, rel_tol=CLOSE):
            said = (
                f"5 × {four(w)} × {four(L)}⁴ / (384 × {four(E_sf)} × {four(inertia)}) + "
                f"{four(w)} × {four(L)}² / (8 × {four(GA)})"
            )
            modulus = "E′" if run.wood.shear_free else "× 1.03 E′"
            formula = "" if lines else f"5 w L⁴ / (384 {modulus} I) + w L² / (8 GA)"
            note = note if lines else f"{note}, {_stiff_in_shear(run, area)}"
            lines.append(sag_line(f"Delta_{kind}", formula, said, free + slid, note))
    return lines


def _stiff_in_shear(run: BeamRun, area: float) -> str:
    """How GA comes about."""
    GA = f"{four(run.GA * area)} lb"
    if run.wood.made == "steel":
        return f"GA = E / 2.6 times the web: {GA}"
    if run.beam.flitch is not None:
        return f"GA = E′/16 × 5/6 of the wood: {GA}; I counts the plate as wood"
    return f"GA = E′/16 × 5/6 × {four(area)} in²: {GA}"
