"""Small invented jobs for the tests of posts, roofs and whole houses: dictionaries with the keys of a job file."""

from __future__ import annotations

from typing import Any

from beamcheck.checks.core.result import Check, JobResult, PieceResult
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from .consistent import consistent

Data = dict[str, Any]

STAMP: Data = {"grade_from": "stamp", "evidence": "invented stamp, mill 12", "agency": "WCLIB"}
SIX_BY_SIX: Data = {
    "name": "6x6", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "6x6 dressed", "moisture": "dry",
    "measured_moisture": "15 %", **STAMP,
}  # fmt: skip
TWO_BY_TEN: Data = {
    "name": "2x10", "species": "Hem-Fir", "grade": "No.2", "size": "2x10", "moisture": "dry", **STAMP,
}  # fmt: skip
BEAM_STOCK: Data = {
    "name": "6x12", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "6x12 dressed", "moisture": "dry",
    "measured_moisture": "15 %", "graded_over": "whole length", **STAMP,
}  # fmt: skip
UNKNOWN: Data = {
    "name": "old", "species": "unknown", "candidates": ["Eastern White Pine", "Eastern Hemlock-Tamarack"],
    "grade": "unstamped", "size": "6x6 rough", "moisture": "dry",
}  # fmt: skip
UNKNOWN_JOIST: Data = {**UNKNOWN, "name": "old joist", "size": "2x10", "candidates": ["Hem-Fir", "Eastern White Pine"]}
FOOTING: Data = {
    "name": "footing", "what": "footing", "material": "concrete", "confirmed_by": "invented sheet S-1, engineer",
}  # fmt: skip
WALL: Data = {
    "name": "wall",
    "what": "wall",
    "material": "other",
    "confirmed_by": "invented sheet S-1, engineer",
}


def letter(**values: object) -> Data:
    """Design values as a letter gives them; what is not said is out of the way."""
    psi = {"F_b": 1000, "F_t": 600, "F_v": 150, "F_c_perp": 400, "F_c": 1000, "E": 1.4e6, "E_min": 5e5, **values}
    return {**{name: f"{value} psi" for name, value in psi.items()}, "source": "invented letter of a grader"}


def given_stock(size: str, name: str = "given", **values: object) -> Data:
    """Wood whose values come from a letter, dry, as light as the model admits."""
    return {
        "name": name, "species": "unknown", "grade": "unstamped", "size": size, "moisture": "dry",
        "measured_moisture": "12 %", "density": "5 pcf", "values": letter(**values),
    }  # fmt: skip


def post(**more: Any) -> Data:
    return {
        "name": "P", "stock": "6x6", "height": "8 ft", "on": "footing", "top_restraint": "pinned",
        "carries": [{"what": "floor", "dead": "2000 lb", "live": "6000 lb"}], "eccentricity": "0 in",
        "eccentricity_weak": "0 in", **more,
    }  # fmt: skip


def beam(*supports: Data, **more: Any) -> Data:
    return {
        "name": "B", "stock": "6x12", "service": "floor", "finish": "none", "top_held": "full length",
        "supports": list(supports),
        "carries": [{"what": "floor", "dead": "10 psf", "live": "40 psf", "width": "8 ft", "applied": "top"}], **more,
    }  # fmt: skip


def seat(at: str, on: str, **more: Any) -> Data:
    return {"at": at, "on": on, "bearing": "5 1/2 in", "restrained": True, **more}


def rafter(**more: Any) -> Data:
    wall = {"at": "0 ft", "on": "wall", "bearing": "3 1/2 in", "restrained": True, **more.pop("wall", {})}
    return {
        "name": "R", "stock": "2x10", "run": "8 ft", "slope": "6:12", "spacing": "16 in", "ridge": "board",
        "finish": "none", "top_held": "full length", "members": 10, "shared_by": "boards", "seat_cut": "1 1/2 in",
        "wall": wall, "carries": [{"what": "roof", "dead": "10 psf", "snow": "20 psf"}], **more,
    }  # fmt: skip


def tie(**more: Any) -> Data:
    return {"name": "T", "stock": "2x10", "height": "0 ft", "finish": "none", "top_held": "full length", **more}


def job(**pieces: list[Data]) -> Data:
    """A job with the usual stocks and ends; `stock` and `existing` are added to them."""
    usual = {"stock": [SIX_BY_SIX, TWO_BY_TEN, BEAM_STOCK, UNKNOWN, UNKNOWN_JOIST], "existing": [FOOTING, WALL]}
    about = {"title": "Test (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True}
    return {"job": about, **pieces, **{kind: [*found, *pieces.get(kind, [])] for kind, found in usual.items()}}


def checked(**pieces: list[Data]) -> JobResult:
    result = check_job(job_from_data(job(**pieces)))
    consistent(check for one in result.pieces for check in one.checks)
    return result


def piece(result: JobResult, name: str) -> PieceResult:
    return next(one for one in result.pieces if one.name == name)


def check(result: JobResult, name: str, what: str) -> Check:
    """The one check of a piece that has this name."""
    found = [one for one in piece(result, name).checks if one.what == what]
    assert len(found) == 1, [one.what for one in piece(result, name).checks]
    return found[0]


def said(result: JobResult, name: str, verdict: str) -> str:
    """Everything that a piece says under one verdict, as one text."""
    return "\n".join(
        f"{one.what}: {'; '.join(one.notes)}" for one in piece(result, name).checks if one.verdict == verdict
    )


def ratios(result: JobResult, name: str) -> dict[str, float]:
    return {one.what: one.ratio for one in piece(result, name).checks if one.ratio is not None}
