"""Small invented anchor groups for the tests: built by hand, no job around them."""

from __future__ import annotations

from typing import Any

import numpy as np

from beamcheck.analysis.beams.combinations import Loaded
from beamcheck.checks.anchors.couple import Couple
from beamcheck.checks.anchors.fasteners.axial import axial_checks
from beamcheck.checks.anchors.fasteners.lateral import lateral_checks
from beamcheck.checks.anchors.fasteners.layout import layout_checks
from beamcheck.checks.anchors.fasteners.spread import spread_of
from beamcheck.checks.anchors.fasteners.tear_out import tear_out_checks
from beamcheck.checks.anchors.group import Forces, Group, hole_places
from beamcheck.checks.anchors.manners.base import Fastened
from beamcheck.checks.anchors.manners.registry import connect, manner_of, resolved
from beamcheck.checks.anchors.steel.bolts import steel_checks
from beamcheck.checks.core.result import Check
from beamcheck.checks.core.wood.material import WoodMaterial, is_unknown, reference_values, rows_to_screen, wood_of
from beamcheck.checks.core.wood.strength import Section
from beamcheck.model.anchors.anchor import Anchor
from beamcheck.model.stock import Stock
from beamcheck.values.factors import load_duration
from beamcheck.values.lumber import read_size

from ..consistent import consistent

Data = dict[str, Any]
HALF = {"kind": "bolt", "size": "1/2 in", "threads": "clear of it"}
A36 = {"steel": "A36", "thickness": "1/4 in", "width": "6 in", "length": "10 in", "slot": "5/16 in"}
PLATE = {key: value for key, value in A36.items() if key != "slot"}
OTHER: Data = {"stock": "wood", "thickness": "1 1/2 in", "grain": "across", "end": "6 in", "edge": "5 in"}
DEEP: Data = {**OTHER, "thickness": "5 1/2 in", "end": "30 in", "edge": "2 3/4 in"}
ONE: Data = {"rows": 1, "columns": 1, "end": "4 in", "edge": "5 5/8 in"}
NAIL: Data = {"kind": "nail", "size": "16d common"}


def stock(size: str = "2x12 dressed", **more: Any) -> Stock:
    """Douglas Fir-Larch (G 0.50), stamped and metered dry."""
    return Stock.model_validate({
        "name": "wood", "species": "Douglas Fir-Larch", "grade": "No.1", "size": size, "moisture": "dry",
        "measured_moisture": "12 %", "grade_from": "stamp", "evidence": "invented stamp: agency mark, mill 12", **more,
    })  # fmt: skip


TIMBER = stock("6x12 dressed")


def made(stock: Stock) -> WoodMaterial:
    return wood_of(stock, rows_to_screen(stock)[0] if is_unknown(stock) else reference_values(stock))


def loaded(name: str, kind: str = "L") -> Loaded:
    """A combination with the C_D of one kind of load ('L': 1.0, 'S': 1.15, 'W': 1.6)."""
    found = load_duration(kind)
    return Loaded(name, (1.0,), found.value, kind, (kind,), "invented", found)


def group(
    across: list[float] | None = None, along: list[float] | None = None, *, held: Stock | None = None,
    into: Stock | None = None, holes: Data | None = None, kinds: str = "L", **anchor: Any,
) -> Group:  # fmt: skip
    """One 1/2 in bolt in two pieces of 2x12, the other one's grain across; forces in lbf."""
    count = max(len(across or []), len(along or []), 1)
    held = held or stock()
    size, wood = read_size(held.size), made(held)
    data: Data = {
        "name": "A", "manner": "wood side", "fastener": HALF, "seasoned": "dry", "split": "none seen", "into": "post",
        "arm": "0 in", "holes": holes or {"rows": 1, "columns": 1, "end": "4 in", "edge": "6 in"},
        "other": OTHER,
        **anchor,
    }  # fmt: skip
    made_of = Anchor.model_validate(data)
    other = made_of.other
    into = into or (stock() if other is not None and other.material == "wood" and other.stock else None)
    x, y = hole_places(made_of.holes)
    combinations = tuple(loaded(f"case {i + 1}", kinds[i % len(kinds)]) for i in range(count))
    other_wood = made(into) if into else None
    forces = Forces(
        combinations, np.array(across or [0.0] * count, float), np.array(along or [0.0] * count, float)
    )  # fmt: skip
    return Group(
        made_of, "B", "left", 0.0, held, wood, Section(size.b, size.d, size.b), None, into, other_wood,
        forces, x, y,
    )  # fmt: skip


def find(checks: list[Check], what: str) -> Check:
    """The one check whose name begins like this."""
    found = [check for check in checks if check.what.startswith(what)]
    assert len(found) == 1, [check.what for check in checks]
    return found[0]


def those(checks: list[Check], id: str, words: str = "") -> list[Check]:
    """The checks of that id whose names have these words."""
    return [check for check in checks if check.id == id and words in check.what]


def said(checks: list[Check], verdict: str) -> str:
    return "\n".join(f"{check.what}: {'; '.join(check.notes)}" for check in checks if check.verdict == verdict)


def step(check: Check, symbol: str) -> float:
    """The last value written down under a symbol."""
    return [each.value for each in check.steps if each.symbol == symbol][-1]


# ---- the checks of one group, each kind by itself --------------------------------------------------------------------


def _sound(found: list[Check]) -> list[Check]:
    consistent(found)
    return found


def lateral(made: Group) -> list[Check]:
    found = resolved(made)
    return _sound([found] if isinstance(found, Check) else lateral_checks(found))


def layout(made: Group) -> list[Check]:
    return _sound(layout_checks(connect(made)))


def tear_out(made: Group) -> list[Check]:
    return _sound(tear_out_checks(connect(made)))


def axial(made: Group, pull: list[float]) -> list[Check]:
    return _sound(axial_checks(connect(made), pull))


def couple(made: Group) -> Couple | None:
    manner = manner_of(made.anchor)
    assert isinstance(manner, Fastened)
    return manner.couple(made)


def beside(made: Group) -> list[Check]:
    """What a load beside the joint asks of the wood."""
    manner = manner_of(made.anchor)
    assert isinstance(manner, Fastened)
    return _sound(manner.beside(connect(made), manner.couple(made)))


def steel(made: Group) -> list[Check]:
    found = resolved(made)
    clear = not isinstance(found, Check) and found.joint.threads_clear
    return _sound(steel_checks(made, spread_of(made), couple(made), threads_clear=clear))
