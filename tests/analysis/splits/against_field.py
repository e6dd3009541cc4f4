"""The split test beside the plate with a free crack: run as a module it writes the table."""

from __future__ import annotations

import csv
import math
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np

from beamcheck.analysis.splits.holds import Held
from beamcheck.analysis.splits.split import allowed

from .crack_model import Hold, Plate, first_full
from .shapes import SHAPES, grains, held_shape

FILE = Path(__file__).parents[3] / "worked_examples" / "split_test_against_field_with_crack.csv"
TURN, MARGIN, LINES = 7.0, 1.3, 40
HEAD = [
    "shape", "grain", "grain_deg", "heads", "load_allowed_lb", "load_split_lb", "worst_check_s_in",
    "field_without_check_lb", "field_with_worst_check_lb", "field_least_lb", "field_least_at_s_in",
    "allowed_over_field_least",
]  # fmt: skip
F = 100.0


def field_load(held: Held, grain: float, crack: float | None, h: float = 0.4) -> float:
    """Load at which the first row reaches T/T' + V/Z' = 1 on the elastic plate, lbf; 0 where it falls."""
    rows = []
    for one in held.rows:
        count = 2 if one.q > 500.0 else 1
        D = (24.0 * one.M / (count * 45_000.0)) ** (1.0 / 3.0)  # root, from M' = F_yb D^3/24
        EI = count * 29e6 * math.pi * D**4 / 64.0
        rows.append(Hold(one.y, one.head, one.washer, 30_000.0 * count, EI, 250_000.0 * count))
    seat = held.seats[0]
    size = max(h, 0.035 * float(held.outline.max()))
    plate = Plate(held.outline, held.t, grain, rows, (seat.x0, seat.x1), crack=crack, h=size)
    return first_full(plate.solve(F), list(held.rows), F)


def row(name: str, grain: str, heads: str) -> dict[str, str]:
    """One case: strips, and the plate with no check, with the worst one of the strips, and with five more."""
    held, angle = replace(held_shape(name, heads), strict=True), grains(name)[grain]
    found = allowed(held, angle, TURN, MARGIN, LINES)
    own = found.splits[0]
    said = {"shape": name, "grain": grain, "grain_deg": f"{angle:.0f}", "heads": heads,
            "load_allowed_lb": f"{found.load:.0f}", "load_split_lb": f"{own.least:.0f}",
            "worst_check_s_in": "" if own.s is None else f"{own.s:.2f}"}  # fmt: skip
    if found.load <= 1.0:
        return said
    t = np.radians(angle)
    s = held.outline @ np.array([np.sin(t), np.cos(t)])
    even = [float(s.min() + part * np.ptp(s)) for part in (0.15, 0.3, 0.45, 0.6, 0.75)]
    lines = ([own.s] if own.s is not None else []) + even
    loads = {line: field_load(held, angle, line) for line in lines}
    whole = field_load(held, angle, None)
    least = min(loads, key=lambda line: loads[line])
    low = min(loads[least], whole)
    said |= {
        "field_without_check_lb": f"{whole:.0f}",
        "field_with_worst_check_lb": f"{loads[own.s]:.0f}" if own.s is not None else "",
        "field_least_lb": f"{low:.0f}", "field_least_at_s_in": f"{least:.2f}" if loads[least] <= whole else "",
        "allowed_over_field_least": f"{found.load / low:.2f}" if low > 0.0 else "inf",
    }  # fmt: skip
    return said


def cases() -> Iterator[tuple[str, str, str]]:
    for name in SHAPES:
        for grain in ("level", "upright", "strut"):
            for heads in ("deep", "front"):
                yield name, grain, heads


if __name__ == "__main__":
    with FILE.open("w", newline="") as file:
        out = csv.DictWriter(file, HEAD, lineterminator="\n")
        out.writeheader()
        for case in cases():
            found = row(*case)
            out.writerow(found)
            print(*found.values(), file=sys.stderr, flush=True)
