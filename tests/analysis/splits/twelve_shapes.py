"""What twelve ordinary shapes are allowed, and what governs: `python -m tests.analysis.splits.twelve_shapes` writes it.

`load_before_lbf`: before the split test no sawn bracket on anchors passed at any load. `load_allowed_lbf`: as jobs are
checked, pull and sideways force of a row together at every plane; `..._at_the_wall_alone`: as the reference has it.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from beamcheck.analysis.splits.split import allowed

from .shapes import SHAPES, grains, held_shape

FILE = Path(__file__).parents[3] / "worked_examples" / "twelve_shapes_load_allowed.csv"
TURN, MARGIN, LINES = 7.0, 1.3, 40


def rows() -> Iterator[dict[str, str]]:
    """One a shape, direction of the grain and place of the heads."""
    for name in sorted(SHAPES):
        for grain, degrees in grains(name).items():
            for heads in ("deep", "front"):
                held = held_shape(name, heads)
                found = allowed(replace(held, strict=True), degrees, TURN, MARGIN, LINES)
                at_wall = allowed(held, degrees, TURN, MARGIN, LINES)
                worst = found.governing
                where = "no check lowers it" if worst.s is None else f"check at {worst.s:.2f} in across the grain"
                nothing = found.load <= 1.0
                yield {
                    "shape": name, "grain": grain, "degrees": f"{degrees:.0f}", "heads": heads, "load_before_lbf": "0",
                    "load_allowed_lbf": f"{found.load:.0f}",
                    "load_allowed_lbf_at_the_wall_alone": f"{at_wall.load:.0f}",
                    "governing_grain_degrees": f"{worst.grain:.0f}",
                    "governs": "nothing holds what is outside a check" if nothing else where,
                }  # fmt: skip


if __name__ == "__main__":
    found = list(rows())
    with FILE.open("w", encoding="utf-8", newline="") as file:
        out = csv.DictWriter(file, list(found[0]), lineterminator="\n")
        out.writeheader()
        out.writerows(found)
