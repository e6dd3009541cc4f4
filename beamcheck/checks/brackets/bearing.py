"""What presses on the top edge of a bracket in one place, and what hangs on it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from ...analysis.beams.load_cases import Applied
from ...calc.core import Number
from ...calc.pad import Pad
from ...formulas.wood.bearing import bearing_at_angle, bearing_stress
from ...model.brackets.bracket import Bracket
from ...model.fields.places import SAME_PLACE
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import RULING, Question, ask
from ..core.result import Check
from ..core.wood.govern import Criterion, at, duration, govern
from ..core.wood.material import WoodMaterial, bearing_prime, compression_star
from ..core.wood.strength import Outcome
from .asking import ask_engineer, path_of
from .loads import ACCIDENTAL, BracketLoads

BEARING = "NDS 2018 3.10.3"
Part = tuple[float, float]  # of the top edge, from and to, in
FROM = "from "  # what a load that comes from another piece is called by


def bearing_under_loads(
    bracket: Bracket, loads: BracketLoads, wood: WoodMaterial, *, thickness: float, grain: float
) -> Iterator[Check]:
    """Bearing on the top edge, place by place; loads whose seats overlap press there together.

    The hand of somebody who hangs on it dents the edge at most, and is left out.

    `thickness`: of the edge, side to side, in. `grain`: of the wood under the load, degrees above level.
    """
    name, id = bracket.name, "bracket.bearing"
    theta = abs(90.0 - grain) % 180.0
    theta = min(theta, 180.0 - theta)
    out = loads.projection
    pressing = [load for load in loads.loads if _presses(load) and load.total > 0.0]
    for load in pressing:
        if load.is_point and load.bearing is None:
            text = "the length on which it bears is not given (`bearing`)"
            asked = _length_asked(bracket, load)
            what = f"bearing of {_called(load)} on the top edge"
            yield Check.refers(id, name, what, BEARING, text, ask=asked, where=show(load.start, "length"))
    for part, here in _places([load for load in pressing if _seat(load, out) is not None], out):
        what = f"bearing of {', '.join(dict.fromkeys(map(_called, here)))} on the top edge"
        length = min(high - low for low, high in (_seat(load, out) or (0.0, out) for load in here))
        R = np.array([
            sum(factor * _intensity(load, part, out) * length
                for factor, case in zip(one.factors, loads.straight.cases, strict=True)
                for load in case.loads if _presses(load))
            for one in loads.combinations
        ])  # fmt: skip

        def calculate(pad: Pad, which: int | slice, R: np.ndarray = R, length: float = length) -> Outcome:
            force = pad.take("R", np.maximum(at(R, which), 0.0), "lbf", note="all that presses on this length")
            f = pad(bearing_stress, R=force, b=thickness, l_b=length)
            F_star = compression_star(pad, wood, duration(pad, loads.combinations, which))
            F_perp = bearing_prime(pad, wood, 1.0)
            by_angle = pad(bearing_at_angle, F_c_star=F_star, F_c_perp_prime=F_perp, theta=theta)
            end_grain = judgment("end grain without a metal plate")
            allowed: Number = np.minimum(by_angle, end_grain.value * F_star)
            if not isinstance(which, slice) and allowed < by_angle:
                note = "as much as end grain takes without a metal plate"
                allowed = pad.take("0.75 F_c*", float(allowed), "psi", note=note, source=end_grain.source)
            return Outcome(f, allowed, f / allowed)

        yield govern(
            Criterion(name, what, BEARING, "stress", where=show(0.5 * sum(part), "length"), id=id),
            loads.combinations,
            calculate,
        )


def _called(load: Applied) -> str:
    """In words that follow 'bearing of': the name of the piece that it comes from, or what it is."""
    return load.what.removeprefix(FROM) or "a load"


def _presses(load: Applied) -> bool:
    return not load.own and load.what != ACCIDENTAL and load.applied not in ("side", "below")


def _seat(load: Applied, out: float) -> Part | None:
    """From where to where it lies on the bracket, in: centered on its place, ended at wall and nose."""
    if not load.is_point:
        return load.start, load.end
    if load.bearing is None:
        return None
    low, high = max(load.start - 0.5 * load.bearing, 0.0), min(load.start + 0.5 * load.bearing, out)
    return (low, high) if high > low else None


def _intensity(load: Applied, part: Part, out: float) -> float:
    """Force per length of one load on a part of the edge, lbf/in; of what is uneven the most."""
    seat = _seat(load, out)
    if seat is None or not _covers(seat, part):
        return 0.0
    return load.P / (seat[1] - seat[0]) if load.is_point else max(load.w_start, load.w_end)


def _covers(seat: Part, part: Part) -> bool:
    return seat[0] <= part[0] and part[1] <= seat[1]


def _places(pressing: Sequence[Applied], out: float) -> list[tuple[Part, list[Applied]]]:
    """Parts of the edge under different sets of loads; a set that is part of another one is no news."""
    seats = {i: seat for i, load in enumerate(pressing) if (seat := _seat(load, out)) is not None}
    edges = sorted({edge for seat in seats.values() for edge in seat})
    sets: dict[frozenset[int], Part] = {}
    for part in pairwise(edges):
        sets.setdefault(frozenset(i for i, seat in seats.items() if _covers(seat, part)), part)
    return [
        (part, [pressing[i] for i in sorted(one)])
        for one, part in sets.items() if not any(one < other for other in sets)
    ]  # fmt: skip


def hung_on_it(bracket: Bracket, loads: BracketLoads) -> Iterator[Check]:
    """Loads that hang below it or on its side: their fastening, the pull across the grain, the twist are not checked.

    The fastening of a piece of the job on its side is checked with that piece.
    """
    hung = [load for load in loads.loads if not load.own]
    below = [load for load in hung if load.applied == "below"]
    beside = [load for load in hung if load.applied == "side" and not load.from_piece]
    for id, key, group, clause, why in (
        ("bracket.hung_below", "hung_below", below, "NDS 2018 3.8.2",
         "what hangs below pulls on the wood, across its grain as a rule, at a fastening that is not checked"),
        ("bracket.hung_on_side", "hung_on_side", beside, "NDS 2018 11.1",
         "what hangs on its side twists it and pulls at a fastening, neither of which is checked"),
    ):  # fmt: skip
        if not group:
            continue
        called = ", ".join(dict.fromkeys(map(_called, group)))
        text = f"{called}: {why}; let it bear on the top edge, or let an engineer look at it"
        forces = {"down": sum(max(load.total, 0.0) for load in group)}
        asked = ask_engineer(bracket, key, why=f"{called}: {why}.", forces=forces, load=called)
        what = "hangs below it" if key == "hung_below" else "hangs on its side"
        yield Check.refers(id, bracket.name, what, clause, text, ask=asked)


def into_the_wall(bracket: Bracket) -> Iterator[Check]:
    """Loads whose seat would begin behind the face of the wall: measured to the near end, not to the middle."""
    for number, load in enumerate(bracket.carries, start=1):
        if load.at is None or load.bearing is None or load.at > 0.5 * load.bearing - SAME_PLACE:
            continue
        middle, field = show(0.5 * load.bearing, "length"), path_of(bracket, f"carries.{number}.at")
        text = (
            f"{load.what} with its middle {show(load.at, 'length')} out, on {show(load.bearing, 'length')}, would bear "
            f"inside the wall: `at` is to the middle of what bears; {middle} where that begins at the wall"
        )
        asked = ask("load_place", bracket.name, field, answers=[middle], load=load.what)
        asked = replace(asked, id=f"{asked.id} {number}")  # each load has a place of its own
        what = f"place of {load.what}"
        yield Check.refers("bracket.load_place", bracket.name, what, "statics", text, ask=asked)


def _length_asked(bracket: Bracket, load: Applied) -> Question:
    """On what length a load bears: its own entry says that; what comes from a piece has none."""
    at = RULING if load.entry is None else path_of(bracket, f"carries.{load.entry + 1}.bearing")
    asked = ask("bearing_length", bracket.name, at, load=_called(load))
    return asked if load.entry is None else replace(asked, id=f"{asked.id} {load.entry + 1}")
