"""The forms of frame that the trade has names for, as plans to be solved; sticks that act one way only."""

from __future__ import annotations

from dataclasses import replace

from ...errors import OutOfRange, UnknownName
from ...model.frames.forms import Measures, form
from .plan import Plan


def trade_form(name: str, measures: Measures) -> Plan:
    """The plan of a form by its name; raises as `form`."""
    return Plan.of(form(name, measures))


def one_way(plan: Plan, push: tuple[str, ...], pull: tuple[str, ...]) -> Plan:
    """The plan with sticks that only push (dry shoulders) or only pull (rods, straps).

    Raises BeamcheckError: an unknown stick, one named twice, one that runs through a point and so cannot drop out.
    """
    names = [stick.name for stick in plan.sticks]
    for name in (*push, *pull):
        if name not in names:
            raise UnknownName("stick", name, names)
        if name in push and name in pull:
            raise OutOfRange(f"{name!r} cannot both only push and only pull", "frame")
    sticks = []
    for stick in plan.sticks:
        acts = "push" if stick.name in push else "pull" if stick.name in pull else stick.acts
        if acts != "both" and len(stick.points) > 2 and stick.hinged != "all":
            raise OutOfRange(f"{stick.name!r} runs through a joint: it cannot act one way only", "frame")
        sticks.append(replace(stick, acts=acts))
    return replace(plan, sticks=tuple(sticks))
