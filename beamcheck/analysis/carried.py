"""From the loads of a job file to loads on a straight piece: kinds by their symbols, per inch, with own weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..model.pieces import Load
from .loading import Applied

KIND_OF_FIELD = {"dead": "D", "live": "L", "roof_live": "Lr", "snow": "S", "wind": "W"}
SELF_WEIGHT = "self weight"


@dataclass(frozen=True)
class Arrival:
    """What one piece puts on another: per kind of load the largest and the least force, lbf, down positive.

    `spread` is the length over which one of several repeated pieces acts (rafters at 24 in): then the force arrives as
    a line load along the whole carrier. Otherwise it is a point load at `at`. `applied` says whether it bears on the top.
    """

    from_piece: str
    forces: dict[str, tuple[float, float]]
    at: float | None = None
    spread: float | None = None
    applied: str = "unknown"
    bearing: float | None = None  # along the carrier
    unknown: bool = False  # the piece could not be worked out: its load is not known


def applied_loads(entries: Sequence[Load], length: float) -> list[Applied]:
    """The loads of a job file on a level piece of the given length; what is not said about their place is 'unknown'."""
    found = []
    for entry in entries:
        for field, kind in KIND_OF_FIELD.items():
            amount = getattr(entry, field)
            if amount is None:
                continue
            value, sort = amount
            applied = entry.applied or "unknown"
            if sort == "point":
                place = entry.at if entry.at is not None else 0.5 * length
                found.append(
                    Applied(kind, place, place, P=value, what=entry.what, applied=applied, bearing=entry.bearing,
                            moves=entry.moves and kind == "L")
                )  # fmt: skip
                continue
            start = entry.start if entry.start is not None else 0.0
            end = entry.end if entry.end is not None else length
            w = value * (entry.width or 0.0) if sort == "area" else value
            found.append(Applied(kind, start, end, w_start=w, w_end=w, what=entry.what, applied=applied))
    return found


def arrived_loads(arrivals: Sequence[Arrival], length: float) -> list[Applied]:
    """Loads that other pieces put on a level piece."""
    found = []
    for arrival in arrivals:
        for kind, (high, low) in arrival.forces.items():
            if high == 0.0 and low == 0.0:
                continue
            common = {"what": f"from {arrival.from_piece}", "applied": arrival.applied, "from_piece": True}
            if arrival.spread is not None:
                # one sign at a time: a line load cannot carry a range, so what lifts becomes a load of its own
                for force in {high, low} if kind == "W" else {high}:
                    if force:
                        w = force / arrival.spread
                        found.append(Applied(kind, 0.0, length, w_start=w, w_end=w, **common))
                continue
            place = 0.5 * length if arrival.at is None else arrival.at
            if kind == "W":
                found.extend(
                    Applied(kind, place, place, P=force, bearing=arrival.bearing, **common)
                    for force in (max(high, 0.0), min(low, 0.0)) if force
                )  # fmt: skip
            else:
                found.append(Applied(kind, place, place, P=high, P_low=low, bearing=arrival.bearing, **common))
    return found


def self_weight(density: float, area: float, length: float) -> Applied:
    """Own weight: always on. `density` in lbf/in3, `area` in in2."""
    w = density * area
    return Applied("D", 0.0, length, w_start=w, w_end=w, what=SELF_WEIGHT)
