"""The tables of a frame: its loads, the forces of its members, what comes to its feet."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...analysis.trusses.record import SolvedFrame
from ...model.frames.frame import FORCES, Frame, FrameStick
from ...units import show
from ..core.result import Table
from ..core.tables import LOAD_FIELDS, MEASURED

NONE = "–"


def frame_loads_table(frame: Frame) -> Table:
    """The forces at its points, and what lies on its members, as given."""
    rows: list[tuple[str, ...]] = []
    for force in frame.carries:
        for field in FORCES:
            if (value := getattr(force, field)) is not None:
                rows.append((force.what, field.replace("_", " "), show(value, "force"), force.at, NONE))
    for member in frame.members:
        for load in member.carries:
            for field in LOAD_FIELDS:
                if (amount := getattr(load, field)) is not None:
                    wide = load.width or frame.spacing
                    width = show(wide, "length") if amount[1] == "area" and wide else NONE
                    sloped = MEASURED.get(field, "on plan") if load.measured != "plan" else "on plan"
                    rows.append((load.what, field, show(amount, "load"), f"{member.name}, {sloped}", width))
    note = "Own weight is added. Wind on members is square to them; all but dead load is tried on either half as well."
    return Table("Loads as given", ("what", "kind", "amount", "where", "width"), tuple(rows), note)


def forces_table(frame: Frame, solved: SolvedFrame) -> Table:
    """The largest of each member, with the combination and the run."""
    rows = []
    for path in frame.shape.sticks:
        one = solved.members[path.name]
        push, pull = int(np.argmax(one.pressed)), int(np.argmax(one.pulled))
        M = np.maximum(np.max(one.M_high, axis=1), -np.min(one.M_low, axis=1))
        rows.append((
            path.name, *_said(one.pressed, push, solved), *_said(one.pulled, pull, solved),
            show(float(np.max(M)), "moment"), show(float(np.max(one.V)), "force"),
        ))  # fmt: skip
    heads = ("member", "pushes up to", "under", "pulls up to", "under", "moment", "shear")
    return Table("Forces of the members", heads, tuple(rows), f"Runs: {'; '.join(filter(None, solved.runs)) or 'one'}.")


def _said(forces: np.ndarray, index: int, solved: SolvedFrame) -> tuple[str, str]:
    if forces[index] <= 0.0:
        return NONE, NONE
    return show(float(forces[index]), "force"), solved.combinations[index].name


def reactions_table(frame: Frame, solved: SolvedFrame) -> Table:
    """What each foot puts on what it stands on."""
    rows = []
    for foot in frame.feet:
        R = solved.nodes[foot.at].reaction
        rows.append((
            foot.at, foot.on, show(float(np.max(R[:, 1])), "force"), show(float(np.min(R[:, 1])), "force"),
            show(float(np.max(np.abs(R[:, 0]))), "force"),
        ))  # fmt: skip
    note = "largest and least over all combinations and runs; thrust either way"
    return Table("Reactions", ("foot", "stands on", "up, largest", "up, least", "thrust"), tuple(rows), note)


def member_forces_table(member: FrameStick, solved: SolvedFrame) -> Table:
    """The combinations under which a member is pressed, pulled, bent or sheared the most."""
    one = solved.members[member.stick]
    M = np.maximum(np.max(one.M_high, axis=1), -np.min(one.M_low, axis=1))
    V = np.max(one.V, axis=1)
    kept = dict.fromkeys(int(np.argmax(values)) for values in (one.pressed, one.pulled, M, V))
    rows = tuple(_row(solved, i, [one.pressed, one.pulled], M, V) for i in kept)
    heads = ("combination", "pushes", "pulls", "moment", "shear")
    return Table("Forces along the member", heads, rows, "the combinations in which one of them is largest")


def _row(
    solved: SolvedFrame, i: int, axial: Sequence[np.ndarray], M: np.ndarray, V: np.ndarray
) -> tuple[str, ...]:  # fmt: skip
    forces = (show(float(values[i]), "force") if values[i] > 0.0 else NONE for values in axial)
    return solved.combinations[i].name, *forces, show(float(M[i]), "moment"), show(float(V[i]), "force")
