"""The inputs of an anchor group as labels and texts, so that a reader can compare them with the real thing."""

from __future__ import annotations

from ...model.anchors import Fastener, Plate
from ...units import show
from .group import Group

Rows = list[tuple[str, str]]


def anchor_inputs(group: Group) -> Rows:
    """Everything that the job says of the group, in the words of the trade."""
    anchor = group.anchor
    rows: Rows = [
        ("manner", anchor.manner), ("holds", f"{group.end} end of {group.piece}, at {show(group.place, 'length')}"),
        ("fastened to", group.into.name if group.into is not None else anchor.into or "not said"),
    ]  # fmt: skip
    if anchor.fastener is not None:
        rows += _fastener(anchor.fastener)
    if group.x.size:
        rows.append(("fasteners", f"{group.x.size} in {len(group.rows)} rows along the grain"))
    if anchor.plate is not None:
        rows += _plate(anchor.plate)
    if (other := anchor.other) is not None:
        of = other.stock or other.material
        rows.append(("other side", f"{of}, {show(other.thickness, 'length')} thick, grain {other.grain}"))
    if anchor.gap:
        rows.append(("gap between the faces", show(anchor.gap, "length")))
    if anchor.manner not in ("rated hardware", "by others", "holds nothing", "hanger rod"):
        rows += [
            ("arm", "not given" if anchor.arm is None else show(anchor.arm, "length")),
            ("wood when put together", anchor.seasoned or "not said"),
            ("checks and splits", anchor.split or "not said"),
        ]  # fmt: skip
    if (rating := anchor.rating) is not None:
        loads = [f"{show(load, 'force')} {word}" for word, load in
                 (("down", rating.down), ("up", rating.up), ("along", rating.along)) if load is not None]  # fmt: skip
        rows += [
            ("rating from", rating.source), ("rated loads", ", ".join(loads) or "none"),
            ("load duration", "in the figures already" if rating.duration == "included" else "C_D to be applied"),
            ("conditions", rating.conditions or "not written down"),
            ("conditions met", {True: "said to be met", False: "said not to be met", None: "not said"}[
                rating.conditions_met]),
        ]  # fmt: skip
    if anchor.manner == "by others":
        rows.append(("confirmed by", anchor.confirmed_by or "nobody"))
    return rows


def _fastener(fastener: Fastener) -> Rows:
    long = f", {show(fastener.length, 'length')} long" if fastener.length is not None else ""
    rows = [
        ("fastener", f"{fastener.kind} {fastener.size}{long}"), ("steel", fastener.steel or "grade not given"),
        ("threads", fastener.threads or "not said"), ("coating", fastener.coating or "not said"),
    ]  # fmt: skip
    if fastener.F_yb is not None:
        rows.append(("bending yield strength", f"{show(fastener.F_yb, 'stress')}: {fastener.F_yb_from or 'no source'}"))
    if fastener.washer is not None:
        rows.append(("washers", f"{show(fastener.washer, 'length')} across"))
    if fastener.counterbore is not None:
        plugged = ", plugged" if fastener.plugged else ""
        deep = show(fastener.counterbore_depth or 0.0, "length")
        rows.append(("bores", f"{show(fastener.counterbore, 'length')} across, {deep} deep{plugged}"))
    return rows


def _plate(plate: Plate) -> Rows:
    size = " x ".join(show(side, "length") for side in (plate.thickness, plate.width, plate.length))
    rows = [("plate", f"{plate.steel}, {size} (thickness, across, along the piece)")]
    if plate.slot is not None:
        long = f", {show(plate.slot_length, 'length')} from the end" if plate.slot_length is not None else ""
        rows.append(("slot", f"{show(plate.slot, 'length')} wide{long}"))
    rows.append(("weld", "not given" if plate.weld is None else f"{show(plate.weld, 'length')} fillet on both faces"))
    return rows
