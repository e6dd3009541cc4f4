"""From the loads of a job file to loads on a straight piece: kinds by their symbols, per inch, with own weight."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ...model.loads import Load
from .load_cases import SLIVER, Applied

KIND_OF_FIELD = {"dead": "D", "live": "L", "roof_live": "Lr", "snow": "S", "wind": "W"}
SELF_WEIGHT = "self weight"


@dataclass(frozen=True)
class TransferredLoad:
    """What one piece puts on another: per kind of load the largest and the least force, lbf, down positive.

    `spread` is the length over which one of several repeated pieces acts (rafters at 24 in): then the force arrives as
    a line load along the whole carrier. Otherwise it is a point load at `at`. `applied`: does it bear on the top?
    """

    from_piece: str
    forces: dict[str, tuple[float, float]]
    at: float | None = None
    spread: float | None = None
    applied: str = "unknown"
    bearing: float | None = None  # along the carrier
    unknown: bool = False  # the piece could not be worked out: its load is not known
    off: float | None = None  # of a bracket on a post: how far its load stands off the post's face
    pull: float | None = None  # of a bracket: the largest pull on its top row of fasteners, lbf
    perhaps: str = ""  # what may come as well, and is not among the forces because it is not known, in a sentence


def applied_loads(entries: Sequence[Load], length: float) -> list[Applied]:
    """The loads of a job file on a level piece of the given length; what is not said about their place is 'unknown'."""
    found = []
    for entry in entries:
        for field, kind in KIND_OF_FIELD.items():
            amount = getattr(entry, field)
            if amount is None or amount[0] == 0.0:  # a load that is not there must not lend its C_D
                continue
            value, sort = amount
            applied = entry.applied or "unknown"
            if sort == "point":
                place = min(entry.at, length) if entry.at is not None else 0.5 * length
                found.append(
                    Applied(kind, place, place, P=value, what=entry.what, applied=applied, bearing=entry.bearing,
                            moves=entry.moves and kind == "L")
                )  # fmt: skip
                continue
            start = entry.start if entry.start is not None else 0.0
            end = min(entry.end, length) if entry.end is not None else length
            w = value * (entry.width or 0.0) if sort == "area" else value
            if end - start > SLIVER:
                found.append(Applied(kind, start, end, w_start=w, w_end=w, what=entry.what, applied=applied))
            else:  # too short to be spread: the same force in one place
                place = min(start, length)
                found.append(Applied(kind, place, place, P=w * max(end - start, 0.0), what=entry.what, applied=applied))
    return found


def transferred_loads(transfers: Sequence[TransferredLoad], length: float) -> list[Applied]:
    """Loads that other pieces put on a level piece."""
    return [load for transfer in transfers for load in _transferred(transfer, length)]


def _transferred(transfer: TransferredLoad, length: float) -> Iterator[Applied]:
    place = 0.5 * length if transfer.at is None else min(transfer.at, length)
    for kind, (high, low) in transfer.forces.items():
        here = Applied(
            kind, place, place, what=f"from {transfer.from_piece}", applied=transfer.applied, bearing=transfer.bearing,
            from_piece=True,
        )  # fmt: skip
        # dead load always acts; of the others each sign is a load of its own, for it may act without the other
        forces = [high] if kind == "D" else [max(high, 0.0), min(low, 0.0)]
        if transfer.spread is not None:
            for force in filter(None, forces):
                w = force / transfer.spread
                yield replace(here, start=0.0, end=length, w_start=w, w_end=w, bearing=None)
        elif kind == "W" or kind == "D":
            for force in filter(None, forces):
                yield replace(here, P=force)
        elif any(forces):
            yield replace(here, P=forces[0], P_low=forces[1])


def self_weight(density: float, area: float, length: float) -> Applied:
    """Own weight: always on. `density` in lbf/in3, `area` in in2."""
    w = density * area
    return Applied("D", 0.0, length, w_start=w, w_end=w, what=SELF_WEIGHT, own=True)
