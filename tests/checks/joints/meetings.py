"""Members that meet in a joint, with forces given in numbers: for rules that are looked at one by one."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np

from beamcheck.checks.core.wood.strength import Section
from beamcheck.checks.joints.meeting import Arriving, Meeting, wood_here
from beamcheck.model.joints.parts import Member
from beamcheck.model.stock import Stock
from beamcheck.values.lumber import read_size

from ..anchors.anchors import loaded
from .jobs import SHEET, Data, wood

BEFORE, HERE = loaded("D", "D"), loaded("D + L", "L")
Numbers = tuple[float, ...]


def arriving(
    name: str, degrees: float, N: Numbers = (0.0,), down: Numbers = (0.0,), *, size: str = "4 in x 10 in",
    number: int = 1, stock: Data | None = None, M: float = 0.0, passes: bool = False, entry: Data | None = None,
    **more: Any,
) -> Arriving:  # fmt: skip
    """A member with its pull along it and its force square to it, one of each a combination; after one with nothing.

    Its wood is that of `jobs.wood`, its direction so many degrees from level; `more`: other fields of `Arriving`.
    """
    made = Stock.model_validate(stock or wood(f"wood of {name}", size))
    said = read_size(made.size)
    section = Section(float(said.b), float(said.d), float(said.b), said.surface == "round")
    direction = np.array([math.cos(math.radians(degrees)), math.sin(math.radians(degrees))])
    fields = {"name": name, "part": "", "arm": None, "holes": None, "plate": None, "seat": None, "on_girder": None,
              "shear": None, "plies": None, "forces": ()}  # fmt: skip
    given: Data = {**fields, **(entry or {})}
    of = Member.model_construct(**given)
    bare = Arriving(of, number, name, made, wood_here(made, name), section, direction, passes, np.zeros((1, 2)),
                    np.zeros(1))  # fmt: skip
    count = max(len(N), len(down))
    pull, press = (np.resize(np.array(one), count) for one in (N, down))
    force = np.outer(pull, direction) - np.outer(press, bare.up)
    force = np.vstack([np.zeros(2), force])
    return Arriving(bare.entry, number, name, made, bare.wood, section, direction, passes, force,
                    np.array([0.0, *[M] * count]), **more)  # fmt: skip


def meeting(*members: Arriving, reaction: tuple[float, float] = (0.0, 0.0), on: str = "", **joint: Any) -> Meeting:
    """They meet in joint 'J'."""
    count = len(members[0].force)
    fields: Data = {
        "name": "J", "kind": "rated", "bears_on": None, "row": None, "forces_by": SHEET, "confirmed_by": "",
        "stands_on": on, "rating": None, "fastener": None, "frame": None, "step": None, "tenon": None, "base": None,
        "cap": None, "strap": None, "gap": 0.0, "clamped": None, "split": "none seen", "seasoned": "dry",
        "screws": None, "twist_held_by": "", "embedded": None, "splices": None, "spliced": "", "splice_at": None,
        **joint,
    }  # fmt: skip
    one: Any = SimpleNamespace(**fields)
    beside = fields.pop("beside", None)
    outside = np.vstack([np.zeros(2), *[np.array(reaction)] * (count - 1)])
    combinations = (BEFORE, *[HERE] * (count - 1))
    return Meeting(one, combinations, members, outside, on, beside=beside)
