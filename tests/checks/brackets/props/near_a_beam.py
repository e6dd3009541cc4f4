"""A beam with brackets near it: its sag by the closed forms of brackets.md sec. f, and what is asked of it."""

from __future__ import annotations

import copy

import numpy as np

from beamcheck.analysis.beams.member_loads import TransferredLoad
from beamcheck.checks.beams.result import beam_result
from beamcheck.checks.brackets.props.prop import PropAsk, PropResult, prop_result
from beamcheck.checks.core.context import Context, Structure
from beamcheck.checks.core.result import Check
from beamcheck.model.brackets.near import Near
from beamcheck.model.reading.reader import job_from_data

from ...beams import beams

L, B, H = 144.0, 5.5, 11.5  # 6x12 dressed
E, G_OVER = 1.4e6, 16.0
SOFT = 1.0 - 1.645 * 0.25  # NDS 2018 Appendix F, visually graded (memory)
EI, GA_S = SOFT * E * B * H**3 / 12, SOFT * E / G_OVER * B * H / 1.2
OWN = 5.0 / 1728.0 * B * H  # 5 pcf
DEAD, LIVE = 5.0 + OWN, 20.0  # lb/in: 10 and 40 psf on 6 ft
K_CR, TOL = 1.5, 0.0625


def sag(w: float, x: float = 24.0) -> float:
    """brackets.md sec. f, with shear (derived)."""
    return w * x * (L**3 - 2 * L * x**2 + x**3) / (24 * EI) + w * x * (L - x) / (2 * GA_S)


def unit(x: float = 24.0) -> float:
    return x**2 * (L - x) ** 2 / (3 * EI * L) + x * (L - x) / (GA_S * L)


def across(x: float = 24.0) -> float:
    """Sinking at x under a force at L - x: that of the pair, x^2 (3 L - 4 x)/(6 EI), less f_xx; shear x x/(G A_s L)."""
    return x**2 * (3 * L - 4 * x) / (6 * EI) - x**2 * (L - x) ** 2 / (3 * EI * L) + x * x / (GA_S * L)


DELTA = K_CR * sag(DEAD) + sag(LIVE)
NEEDED = DELTA + TOL


def context(*made: beams.Data, **more: object) -> Context:
    more = {"wood": beams.known("6x12 dressed", E=E), **more}
    job = job_from_data(copy.deepcopy(beams.job(*made, **more)))  # type: ignore[arg-type]
    pieces = {piece.name: piece for piece in (*job.beam, *job.existing)}
    structure = Structure({one.name: one for one in job.stock}, pieces, {one.name: one for one in job.anchor})
    come: dict[str, list[TransferredLoad]] = {}
    for piece in job.beam:  # what rests on a beam is written before it
        _, handed = beam_result(piece, Context(structure, tuple(come.get(piece.name, ()))))
        for under, load in handed.transfers:
            come.setdefault(under, []).append(load)
    return Context(structure)


def near(at: str = "2 ft", **more: object) -> Near:
    return Near.model_validate({"beam": "B", "at": at, "closing": [], **more})


def ask(name: str = "K1", k: float = 8000.0, **more: object) -> PropAsk:
    own = {key: more.pop(key) for key in ("k_low", "height_above_fixing", "species", "carries") if key in more}
    return PropAsk(name, near(**more), own.pop("k_low", k), k, **own)  # type: ignore[arg-type]


def asked(place: Context, *asks: PropAsk) -> PropResult:
    return prop_result(asks, asks[0].name, place)


def find(result: PropResult, begins: str) -> Check:
    found = [check for check in result.checks if check.what.startswith(begins)]
    assert len(found) == 1, [check.what for check in result.checks]
    return found[0]


def verdicts(result: PropResult) -> dict[str, str]:
    return {check.what: check.verdict for check in result.checks}


def largest(result: PropResult) -> float:
    return float(np.max(result.R))


def floor(stays: bool | None) -> list[beams.Data]:
    return [beams.floor(dead="10 psf", live="40 psf", width="6 ft", **({} if stays is None else {"stays": stays}))]


def midspan(P: float, w: float) -> float:
    """Sag of a girder of 12 ft under P in its middle and w along it: P L^3/(48 EI) + P L/(4 G A), and those of w."""
    bent = P * L**3 / (48 * EI) + 5 * w * L**4 / (384 * EI)
    return bent + P * L / (4 * GA_S) + w * L**2 / (8 * GA_S)
