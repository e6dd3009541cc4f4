"""The load path of 500 pieces: roles, graph, trace of all loads at once, drawing. Run: pytest tests/benchmarks -s"""

from __future__ import annotations

from time import process_time
from typing import Any

import pytest

from beamcheck.checks import job as whole_job
from beamcheck.checks import pieces as piece_runs
from beamcheck.model.reading.reader import job_from_data
from beamcheck.sheet.figures.load_path import drawable, path_figure

PIECES, BAYS = 500, 125


def job_data() -> dict[str, Any]:
    """Bays of a joist on a girder on two posts."""
    stock = {
        "name": "timber", "species": "Douglas Fir-Larch", "grade": "No.1", "size": "6x12 dressed", "moisture": "dry",
        "grade_from": "stamp", "evidence": "invented stamp, mill 12",
    }  # fmt: skip
    ends = [{"name": name, "what": name, "material": "concrete", "confirmed_by": "invented sheet S-1, engineer"}
            for name in ("wall", "footing")]  # fmt: skip
    load = [{"what": "floor", "dead": "10 psf", "live": "40 psf", "width": "4 ft", "applied": "top"}]
    common = {"stock": "timber", "service": "floor", "finish": "none", "top_held": "full length"}

    def seat(at: str, on: str, **more: str) -> dict[str, Any]:
        return {"at": at, "on": on, "bearing": "5 1/2 in", "restrained": True, **more}

    beams: list[dict[str, Any]] = []
    posts: list[dict[str, Any]] = []
    for i in range(BAYS):
        over = [seat("0 ft", "wall"), seat("8 ft", f"G{i}", lands_at="5 ft")]
        beams.append({"name": f"J{i}", "supports": over, "carries": load, **common})
        under = [seat("0 ft", f"P{i}"), seat("10 ft", f"Q{i}")]
        beams.append({"name": f"G{i}", "supports": under, "carries": load, **common})
        for name in (f"P{i}", f"Q{i}"):
            posts.append(
                {"name": name, "stock": "timber", "height": "8 ft", "on": "footing", "top_restraint": "pinned"}
            )
    about = {"title": "Row of bays (invented)", "standard": "NDS 2018", "loads": "ASCE 7-16", "invented": True}
    return {"job": about, "stock": [stock], "existing": ends, "beam": beams, "post": posts}


def test_load_path_of_500_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    """Prints what the path takes of the whole check; nothing is asserted about time."""
    spent: dict[str, float] = {}

    def timed(module: Any, name: str) -> None:
        wanted = getattr(module, name)

        def call(*given: Any) -> Any:
            start = process_time()
            found = wanted(*given)
            spent[name] = spent.get(name, 0.0) + process_time() - start
            return found

        monkeypatch.setattr(module, name, call)

    for name in ("ways_of", "role_checks"):
        timed(piece_runs, name)
    for name in ("load_path", "load_path_table", "totals_table"):
        timed(whole_job, name)
    job = job_from_data(job_data())
    start = process_time()
    result = whole_job.check_job(job)
    whole = process_time() - start
    assert result.path is not None and len(result.pieces) == PIECES
    assert all(abs(arriving / applied - 1.0) < 1e-9 for _, applied, arriving in result.path.totals)
    start = process_time()
    parts, left_out = drawable(result.path)
    for part in parts:
        path_figure(part, "Load path")
    drawing = process_time() - start
    print(f"\ncheck of {PIECES} pieces: {whole:.2f} s, of it the load path {sum(spent.values()):.3f} s")
    print(", ".join(f"{name} {seconds * 1e3:.1f} ms" for name, seconds in spent.items()))
    print(f"drawing of {len(parts)} parts ({left_out} left to the table): {drawing * 1e3:.0f} ms")
