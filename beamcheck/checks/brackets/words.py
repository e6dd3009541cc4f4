"""A bracket in words: its title, its inputs, and the table of what it carries."""

from __future__ import annotations

from typing import Any

from ...model.brackets.bracket import Fixings
from ...model.brackets.near import Closing, Near
from ...units import show, show_inches
from ..core.context import Context
from ..core.result import Table
from ..core.understood import stock_inputs
from .family import Family, Rows
from .loads import BracketLoads

ROLE = {
    "carries": "meant to carry",
    "decorative": "decorative: meant to carry nothing but itself",
    "cover": "cover: hides hardware and carries nothing but itself",
}
ROLE_WORDS = {"carries": "declared to carry", "decorative": "declared decorative", "cover": "declared a cover"}


def bracket_title(family: Family[Any], context: Context) -> str:
    """'bracket cut from one piece, Douglas Fir-Larch No.2, declared decorative'."""
    bracket, words = family.bracket, family.words
    if bracket.stock is not None:
        stock = context.stock(bracket.stock)
        words += f", {stock.species} {stock.grade}"
    return f"{words}, {ROLE_WORDS[bracket.role]}"


def bracket_inputs(family: Family[Any], context: Context) -> Rows:
    """What the job file says about it."""
    bracket = family.bracket
    rows: Rows = [("role", ROLE[bracket.role]), ("fixed to", bracket.on)]
    if bracket.at is not None:
        rows.append(("its foot stands at", show(bracket.at, "length")))
    rows += family.inputs()
    if bracket.stock is not None:
        rows += stock_inputs(context.stock(bracket.stock))
    rows.append(("knots in the throat", bracket.knots or "not said"))
    rows += fixing_rows(bracket.fixings)
    if bracket.near is not None:
        rows += _near_rows(bracket.near)
    if bracket.accidental is not None:
        said = bracket.accidental if isinstance(bracket.accidental, str) else show(bracket.accidental, "force")
        by = f" (chosen by: {bracket.accidental_from})" if bracket.accidental_from else ""
        rows.append(("if somebody hangs on it", said + by))
    return rows


def fixing_rows(fixings: Fixings | None) -> Rows:
    """What holds it."""
    if fixings is None:
        return [("fixings", "not given")]
    rows: Rows = []
    if fixings.fastener is not None:
        length = f" x {show(fixings.fastener.length, 'length')}" if fixings.fastener.length else ""
        rows.append(("fasteners", f"{fixings.fastener.size}{length} {fixings.fastener.kind}"))
    for i, row in enumerate(fixings.rows, start=1):
        slot = f", slots {show(row.slot, 'length')} long" if row.slot else ""
        rows.append((f"row {i}", f"{row.count} at {show_inches(row.below_top)} below the top{slot}"))
    rows.append(("back presses against", fixings.wall or "not said"))
    if fixings.by_hand:
        rows.append(("held by", fixings.by_hand))
    if fixings.confirmed_by:
        rows.append(("fixings by others", f"confirmed: {fixings.confirmed_by}"))
    return rows


def _near_rows(near: Near) -> Rows:
    gap = "not given" if near.gap is None else show(near.gap, "length")
    rows = [("under", f"{near.beam}, {show(near.at, 'length')} from its left end"), ("gap as left", gap)]
    if near.pad is not None:
        rows.append(("pad in the gap", show(near.pad, "stiffness")))
    if near.closing is not None:
        rows.append(("closes the gap", "; ".join(map(_closing, near.closing)) or "nothing, it is said"))
    else:
        rows.append(("closes the gap", "not said"))
    return rows


def _closing(one: Closing) -> str:
    return f"{one.what}: {show(one.height, 'length')} across the grain, {show(one.change, 'moisture')}"


def loads_on_bracket(loads: BracketLoads) -> list[Table]:
    """What it carries."""
    rows = []
    for load in loads.loads:
        if load.is_point:
            where = f"at {show_inches(load.start)} from the wall"
            amount = show(load.P, "force")
        else:
            where = f"from {show_inches(load.start)} to {show_inches(load.end)}"
            amount = show(load.total, "force")
        rows.append((load.what or "load", load.kind, amount, where))
    own = [row for row in rows if row[0] == "self weight"]
    if len(own) > 1:
        total = sum(load.total for load in loads.loads if load.own)
        rows = [row for row in rows if row[0] != "self weight"]
        rows.append(("self weight", "D", show(total, "force"), "along the top edge, as it is thick there"))
    return [Table("Loads on it", ("what", "kind", "amount", "where"), tuple(rows))]
