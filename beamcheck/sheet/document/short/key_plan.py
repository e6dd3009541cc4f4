"""The small key plan at the head of a member's page: the load path in little, with the member in black."""

from __future__ import annotations

from collections.abc import Iterable

from ....checks.core.pictures.beams import LoadPath
from ...figures.load_path_plan import Plan, heights, planned, width_needed
from ..rich_blocks import KeyPlan, PlanBar

FEWEST, MOST = 3, 40  # bars: fewer tell nothing, more cannot be told apart
_LEAST = 12.0  # units of the plan; width of a bar


def little_plan(path: LoadPath) -> Plan | None:
    """Where the bars stand; nothing where a plan would not help."""
    if not FEWEST <= len(path.nodes) <= MOST or not path.edges or heights(path) is None:
        return None
    least = dict.fromkeys((node.name for node in path.nodes), _LEAST)
    return planned(path, least, 0.0, width_needed(path, least))


def key_plan(plan: Plan | None, here: Iterable[str]) -> KeyPlan | None:
    """The plan with the bars of some names in black; nothing where none of them stands in it."""
    names = set(here)
    if plan is None or not any(bar.name in names for bar in plan.bars):
        return None
    left, right = min(bar.x0 for bar in plan.bars), max(bar.x1 for bar in plan.bars)
    wide = max(right - left, 1e-6)
    rows = 1 + max(bar.row for bar in plan.bars)

    def share(x: float) -> float:
        return round((x - left) / wide, 4)

    bars = tuple(
        PlanBar(share(bar.x0), share(bar.x1), rows - 1 - bar.row, bar.name in names, bar.row == 0) for bar in plan.bars
    )
    lines = tuple(
        (share(drop.x), rows - 1 - drop.upper.row, rows - 1 - drop.lower.row)
        for drop in plan.drops if drop.upper.row > drop.lower.row
    )  # fmt: skip
    return KeyPlan(bars, lines, rows)
