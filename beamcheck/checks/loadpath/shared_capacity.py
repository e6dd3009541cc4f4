"""Several pieces on one wall, pad or footing: what they bring together against the figure stated for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ...model.existing import Existing
from ...model.job import Job
from ...units import show
from ...values.loads import asd_combinations
from ..core.asking.question import ask
from ..core.draft import Reactions, SupportForces
from ..core.result import Check, judge

Kinds = Mapping[str, float]
ID, CLAUSE = "seat.takes_together", "load path"


def shared_capacity_checks(job: Job, reactions: Sequence[Reactions]) -> dict[str, list[Check]]:
    """By piece: whether what is stated for an [[existing]] entry holds all that rests on it.

    A figure said to be for each seat is checked at each seat. One said to be for all together takes all seats, and of a
    row all its members; how many they are is asked where it is not said. Where it is not said what the figure is for,
    each piece, of a row each member, counts with its heaviest seat: if the sum is too much while each alone is not, it
    is asked.
    """
    found: dict[str, list[Check]] = {}
    members = {one.name: one.members for one in (*job.beam, *job.rafter) if one.spacing is not None}
    members |= {frame.name: 1 for frame in job.frame if frame.spacing is not None}
    for under in job.existing:
        if under.takes is None or under.takes_for == "each seat":
            continue
        on_it = {one.name: rows for one in reactions if (rows := [row for row in one.rows if row.on == under.name])}
        for name, check in _of(under, under.takes, on_it, members):
            found.setdefault(name, []).append(check)
    return found


def _of(
    under: Existing, takes: float, on_it: Mapping[str, Sequence[SupportForces]], members: Mapping[str, int]
) -> list[tuple[str, Check]]:  # fmt: skip
    together = under.takes_for == "all together"
    if sum(members.get(name, 1) for name in on_it) < 2 and not together:
        return []
    counted: list[tuple[SupportForces, int]] = []
    for name, rows in on_it.items():
        chosen = list(rows) if together else [max(rows, key=lambda row: row.largest)]
        counted += [(row, members.get(name, 1)) for row in chosen]
    force, combination = _largest(counted)
    what, names = f"what {under.name} takes together", " and ".join(_called(name, members) for name in on_it)
    made = [(name, _how_many(under, name, takes)) for name in on_it if together and members.get(name) == 1]
    for name in on_it:
        if together:
            text = f"on it: {names}; the figure is for all together"
            check = Check.of_ratio(
                ID, name, what, CLAUSE, text, demand=force, capacity=takes, kind="force", combination=combination
            )
        elif judge(force / takes) == "passes":
            continue
        else:
            text = (
                f"on {under.name}: {names}, which bring {show(force, 'force')} together, where "
                f"{show(takes, 'force')} is stated: whether that is for each seat or for all of them is not said"
            )
            asked = ask("takes_for", under.name, f"existing.{under.name}.takes_for", takes=show(takes, "force"))
            check = Check.refers(ID, name, what, CLAUSE, text, ask=asked)
        made.append((name, check))
    return made


def _largest(rows: Sequence[tuple[SupportForces, int]]) -> tuple[float, str]:
    """The most that they come to under one combination, lbf, and which it is."""
    sums: dict[str, float] = {}
    for row, times in rows:
        for kind, (high, _) in row.by_kind.items():
            sums[kind] = sums.get(kind, 0.0) + times * high
    most, name = 0.0, ""
    for one in asd_combinations():
        total = sum(factor * sums.get(kind, 0.0) for kind, factor in one.factors.items())
        if total > most:
            most, name = total, one.name
    return most, name


def _called(name: str, members: Mapping[str, int]) -> str:
    return f"{members[name]} of {name}" if members.get(name, 1) > 1 else name


def _how_many(under: Existing, row: str, takes: float) -> Check:
    """A row of which one is counted, for nobody has said how many stand there."""
    text = f"{row} stands for a row, and how many of it rest on {under.name} is not said: one is counted"
    asked = ask("row_on_all", under.name, f"existing.{under.name}.takes_for", row=row, takes=show(takes, "force"))
    return Check.refers(ID, row, f"how many of {row} rest on {under.name}", CLAUSE, text, ask=asked)
