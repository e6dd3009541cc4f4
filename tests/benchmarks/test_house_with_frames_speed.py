"""A house of 500 pieces, most of them trusses with their joints. Printed, not asserted: pytest tests/benchmarks -s"""

from __future__ import annotations

import copy
import time
from typing import Any

from beamcheck.analysis.beams.solved_beam import _numbers
from beamcheck.checks.job import check_job
from beamcheck.model.reading.reader import job_from_data

from ..checks.frames.jobs import KING, stock
from ..checks.joints.test_framed import joints

TRUSSES, BAYS = 20, 55


def house() -> dict[str, Any]:
    """Twenty trusses of 24 ft, each a quarter inch longer than the one before, and 55 bays of joist, girder, posts."""
    data = copy.deepcopy(KING)
    (one,) = data["frame"]
    data["frame"], data["joint"] = [], []
    for k in range(TRUSSES):
        data["frame"].append({**copy.deepcopy(one), "name": f"T{k}", "span": f"{288 + 0.25 * k} in"})
        data["joint"] += [{**joint, "frame": f"T{k}", "name": f"T{k} {joint['name']}"} for joint in joints()]
    data["stock"].append(stock("6x12", "6x12 dressed"))
    load = [{"what": "floor", "dead": "10 psf", "live": "40 psf", "width": "4 ft", "applied": "top"}]
    common = {"stock": "6x12", "service": "floor", "finish": "none", "top_held": "full length", "carries": load}
    data["beam"], data["post"] = [], []
    for i in range(BAYS):
        for name, ends in ((f"J{i}", ("west wall", f"G{i}")), (f"G{i}", (f"P{i}", f"Q{i}"))):
            long = 96 + 0.25 * i
            seats = [{"at": at, "on": on, "bearing": "5 1/2 in", "restrained": True,
                      **({"lands_at": "4 ft"} if on == f"G{i}" else {})}
                     for at, on in zip(("0 ft", f"{long} in"), ends, strict=True)]  # fmt: skip
            data["beam"].append({"name": name, "supports": seats, **common})
        data["post"] += [{"name": f"{side}{i}", "stock": "6x12", "height": "8 ft", "on": "east wall",
                          "top_restraint": "pinned"} for side in "PQ"]  # fmt: skip
    return data


def test_house_of_500_pieces_with_frames() -> None:
    job = job_from_data(house())
    check_job(job)
    _numbers.cache_clear()  # what the first run left would not be there
    began = time.process_time()
    result = check_job(job)
    print(
        f"\n{len(result.pieces)} pieces with {TRUSSES} trusses: {time.process_time() - began:.2f} s of processor time"
    )
    assert len(result.pieces) == 14 * TRUSSES + 4 * BAYS
