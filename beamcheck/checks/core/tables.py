"""The tables of one piece: loads, reactions, and the forces under each combination."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ...analysis.beams.combinations import Loaded
from ...analysis.beams.load_cases import KIND_WORDS, KINDS, Applied
from ...analysis.beams.solved_beam import SolvedBeam
from ...analysis.frames.member_line import Line
from ...model.loads import Load
from ...model.roofs import Rafter
from ...model.sticks import Support
from ...units import show
from .result import Table

LITTLE = 1.0  # lbf: axial force below this is rounding and gets no column
ALL_ROWS = 12  # up to so many combinations are all shown
Columns = dict[str, tuple[np.ndarray, str]]  # head -> values (combinations,), kind of quantity
MEASURED = {"wind": "square to the slope", "dead": "along the slope"}
LOAD_FIELDS = ("dead", "live", "roof_live", "snow", "wind")


def kind_words(load: Applied) -> str:
    """'dead', 'live', ..., 'wind up' for wind that lifts."""
    return KIND_WORDS[load.kind] + (" up" if load.total < 0 else "")


def amount_words(load: Applied) -> str:
    """'40 plf', '20 plf to 40 plf', '1,240 lb'."""
    if load.is_point:
        return show(load.P, "force")
    amount = show(load.w_start, "line load")
    return amount if load.w_end == load.w_start else f"{amount} to {show(load.w_end, 'line load')}"


def loads_table(loads: Sequence[Applied]) -> Table:
    """Every load as it acts on a level piece."""
    rows = tuple(
        (load.what, kind_words(load), amount_words(load), _where(load),
         load.applied if load.what != "self weight" else "–")
        for load in loads
    )  # fmt: skip
    return Table("Loads as they act", ("what", "kind", "amount", "where", "applied"), rows)


def post_loads_table(loads: Sequence[Applied]) -> Table:
    """Every load of a post, which all come down its axis."""
    rows = tuple((load.what, kind_words(load), show(load.total, "force"), _least(load)) for load in loads)
    note = "The least is that of a load that can lift; other loads may be absent."
    return Table("Loads as they act", ("what", "kind", "amount", "least"), rows, note)


def _least(load: Applied) -> str:
    return show(load.P_low, "force") if load.P_low is not None and load.P_low < 0.0 else "–"


def _where(load: Applied) -> str:
    if load.moves:
        return "anywhere"
    if load.is_point:
        return show(load.start, "length")
    return f"{show(load.start, 'length')} to {show(load.end, 'length')}"


def roof_loads_table(rafter: Rafter, entries: Sequence[Load], *, level: bool) -> Table:
    """The loads of a rafter or a (level) tie as given."""
    rows = []
    for load in entries:
        for name in LOAD_FIELDS:
            amount = getattr(load, name)
            if amount is None:
                continue
            measured = "level" if level else "on plan" if load.measured == "plan" else MEASURED.get(name, "on plan")
            width = show(load.width or rafter.spacing, "length") if amount[1] == "area" else "–"
            rows.append((load.what, name.replace("_", " "), show(amount, "load"), measured, width))
    note = "Own weight is added."
    if not level:
        note += (
            " Snow and roof live load are on plan; a dead load not said to be on plan counts along the slope. The "
            "loads stand on both rafters of a pair; all but dead load are also tried on one and without the tails."
        )
    return Table("Loads as given", ("what", "kind", "amount", "measured", "width"), tuple(rows), note)


def reactions_table(straight: SolvedBeam, supports: Sequence[Support]) -> Table:
    """What each support of a level piece takes."""
    rows = []
    for index, support in enumerate(supports):
        by_kind, combined = straight.reaction_by_kind(index), straight.reactions(index)
        rows.append(
            (support.on, *(_range(by_kind.get(kind)) for kind in KINDS),
             show(float(np.max(combined)), "force"), show(float(np.min(combined)), "force"))
        )  # fmt: skip
    note = "by kind unfactored; largest and least over all combinations"
    return Table("Reactions, up on the piece", ("support", *KINDS, "largest", "least"), tuple(rows), note)


def _range(found: tuple[float, float] | None) -> str:
    if found is None:
        return "–"
    high, low = found
    if low < 0.0 <= high:
        return f"{show(high, 'force')} to {show(low, 'force')}"
    return show(high, "force")


def line_forces_table(combinations: Sequence[Loaded], line: Line) -> Table:
    """Largest shear, moment and axial force along a piece."""
    M_low, _, M_high, _ = line.extremes("M")
    V_low, _, V_high, _ = line.extremes("V")
    N_low, _, N_high, _ = line.extremes("N")
    columns: Columns = {
        "V": (np.maximum(np.abs(V_low), np.abs(V_high)), "force"),
        "M, bottom pulled": (np.maximum(M_high, 0.0), "moment"),
        "M, top pulled": (np.maximum(-M_low, 0.0), "moment"),
    }
    if max(float(np.max(-N_low)), float(np.max(N_high))) > LITTLE:
        columns |= {"compression": (np.maximum(-N_low, 0.0), "force"), "tension": (np.maximum(N_high, 0.0), "force")}
    return forces_table(combinations, columns)


def forces_table(combinations: Sequence[Loaded], columns: Columns) -> Table:
    """Forces under each combination; of many, those that are the largest of their load duration in some column."""
    shown, note = list(range(len(combinations))), ""
    if len(combinations) > ALL_ROWS:
        shown = _leading(combinations, [values for values, _ in columns.values()])
        note = (
            f"{len(combinations)} combinations were worked out; those that are largest in no column for their C_D are "
            "left out here"
        )
    rows = tuple(
        (combinations[i].name, f"{combinations[i].C_D:g}",
         *(show(float(values[i]), kind) for values, kind in columns.values()))
        for i in shown
    )  # fmt: skip
    return Table("Forces under each combination", ("combination", "C_D", *columns), rows, note)


def _leading(combinations: Sequence[Loaded], columns: Sequence[np.ndarray]) -> list[int]:
    """Combinations that are the largest or the least in a column among those of the same C_D."""
    C_D = np.array([combination.C_D for combination in combinations])
    found: set[int] = set()
    for duration in set(C_D.tolist()):
        rows = np.flatnonzero(duration == C_D)
        for values in columns:
            found |= {int(rows[np.argmax(values[rows])]), int(rows[np.argmin(values[rows])])}
    return sorted(found)
