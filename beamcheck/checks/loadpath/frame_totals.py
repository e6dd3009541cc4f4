"""What is put on a frame and what its feet hand on, every load of a kind at once: a sum beside its analysis."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from ...analysis.beams.member_loads import KIND_OF_FIELD
from ...analysis.site.pieces import with_formed_loads
from ...calc.pad import SilentPad
from ...model.frames.frame import Frame, FrameStick
from ...model.loads import ends_of
from ..beams.beam import section_of
from ..core.context import Context, Structure
from ..core.draft import Reactions
from ..core.wood.material import WoodMaterial


def put_on_frame(frame: Frame, woods: Mapping[str, WoodMaterial], structure: Structure) -> Iterator[tuple[str, float]]:
    """(kind, lbf) of every load and of the wood; `woods` by stock."""
    context = Context(structure)
    for member in frame.sticks:
        formed: FrameStick = with_formed_loads(member, structure.areas)
        if not any(load.dead_includes_own_weight for load in formed.carries):
            area = float(section_of(context.size(member.stock), member.laid, member.plies).area(SilentPad()))
            yield "D", float(woods[member.stock].density) * area * member.length
        yield from _on_member(formed)
    for force in frame.carries:
        for field, kind in KIND_OF_FIELD.items():
            if value := getattr(force, field):
                yield kind, value


def _on_member(member: FrameStick) -> Iterator[tuple[str, float]]:
    level = math.cos(math.radians(member.slope))
    for load in member.carries:
        for field, kind in KIND_OF_FIELD.items():
            amount = getattr(load, field)
            if amount is None:
                continue
            value, sort = amount
            lean = level if kind == "W" else 1.0  # wind is square to the member
            if sort == "point":
                yield kind, value * lean
                continue
            start = load.start or 0.0
            end = member.length if load.end is None else min(load.end, member.length)
            on_plan = level if kind not in ("D", "W") or (kind == "D" and load.measured == "plan") else lean
            wide = (load.width or member.spacing or 0.0) if sort == "area" else 1.0
            yield kind, value * wide * max(end - start, 0.0) * on_plan * 0.5 * sum(ends_of(load, field))


def at_its_feet(handed: Reactions) -> list[dict[str, float]]:
    """The upright force of each foot by kind; wind that presses and wind that lifts are added up as they stand."""
    return [
        {kind: high + low if kind == "W" else high for kind, (high, low) in row.by_kind.items()} for row in handed.rows
    ]
