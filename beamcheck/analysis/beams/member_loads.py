"""From the loads of a job file to loads on a straight piece: kinds by their symbols, per inch, with own weight."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ...model.loads import FormedLoad, Load, ends_of
from ...records import dataclass
from .load_cases import SLIVER, Applied, Stretch

KIND_OF_FIELD = {"dead": "D", "live": "L", "roof_live": "Lr", "snow": "S", "wind": "W"}
SELF_WEIGHT = "self weight"

SAME = 1e-9  # two forces that differ by less, as a part, are one: rounding


@dataclass(frozen=True)
class TransferredLoad:
    """What one piece puts on another: per kind of load the largest and the least force, lbf, down positive.

    `spread` is the length over which one of several repeated pieces acts (rafters at 24 in): then the force arrives as
    a line load along `row`, or along the whole carrier where that is None. `single`: each of the row as a load of its
    own, for they stand few and far apart. Otherwise it is a point load at `at`. `applied`: does it bear on the top?
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
    by: str = ""  # what the piece is: 'beam', 'rafter', 'post', 'other'
    fastened: tuple[float, float] | None = None  # in the side: highest and lowest fastening under the top, in
    held_by: str = ""  # the anchor group that holds it there
    row: Stretch | None = None  # where the first and the last of the row land, in
    members: int = 1  # how many of them there are at least
    single: bool = False
    point: str = ""  # of a frame: where it rests


def applied_loads(entries: Sequence[Load], length: float) -> list[Applied]:
    """The loads of a job file on a level piece of the given length; what is not said about their place is 'unknown'."""
    found = []
    for place_in_file, entry in enumerate(entries):
        number = entry.entry if isinstance(entry, FormedLoad) else place_in_file
        for field, kind in KIND_OF_FIELD.items():
            amount = getattr(entry, field)
            if amount is None or amount[0] == 0.0:  # a load that is not there must not lend its C_D
                continue
            value, sort = amount
            here = Applied(
                kind, 0.0, 0.0, what=entry.what, applied=entry.applied or "unknown", entry=number,
                by=entry.comes_by or "",
                fastened=None if entry.fastened is None else (entry.fastened.highest, entry.fastened.lowest),
            )  # fmt: skip
            if sort == "point":
                place = min(entry.at, length) if entry.at is not None else 0.5 * length
                moves = entry.moves and kind == "L"
                found.append(replace(here, start=place, end=place, P=value, bearing=entry.bearing, moves=moves))
                continue
            start = entry.start if entry.start is not None else 0.0
            end = min(entry.end, length) if entry.end is not None else length
            w = value * (entry.width or 0.0) if sort == "area" else value
            if end - start > SLIVER:
                first, last = ends_of(entry, field)
                found.append(replace(here, start=start, end=end, w_start=first * w, w_end=last * w))
            else:  # too short to be spread: the same force in one place
                place = min(start, length)
                found.append(replace(here, start=place, end=place, P=w * max(end - start, 0.0)))
    return found


def transferred_loads(transfers: Sequence[TransferredLoad], length: float) -> list[Applied]:
    """Loads that other pieces put on a level piece."""
    return [load for transfer in transfers for load in _transferred(transfer, length)]


def _transferred(transfer: TransferredLoad, length: float) -> Iterator[Applied]:
    place = 0.5 * length if transfer.at is None else min(transfer.at, length)
    for kind, (high, low) in transfer.forces.items():
        here = Applied(
            kind, place, place, what=f"from {transfer.from_piece}", applied=transfer.applied, bearing=transfer.bearing,
            from_piece=True, by=transfer.by, fastened=transfer.fastened, held_by=transfer.held_by,
        )  # fmt: skip
        # of the others each sign is a load of its own, for it may act without the other
        forces = [dead_force(high, low)] if kind == "D" else [max(high, 0.0), min(low, 0.0)]
        if kind == "D":  # dead load always acts; but what of it holds down for ever is the least that there may be
            here = replace(here, dries=_may_go(high, low))
        if transfer.spread is not None:
            places = row_places(transfer, length) if transfer.single else None
            for force in filter(None, forces):
                if places is not None:
                    yield from (replace(here, start=x, end=x, P=force) for x in places)
                    continue
                w, (start, end) = force / transfer.spread, row_stretch(transfer, length)
                yield replace(here, start=start, end=end, w_start=w, w_end=w, bearing=None)
        elif kind == "W" or kind == "D":
            for force in filter(None, forces):
                yield replace(here, P=force)
        elif any(forces):
            yield replace(here, P=forces[0], P_low=forces[1])


def dead_force(high: float, low: float) -> float:
    """The dead force that always acts: the largest that presses, or lifts least; `_may_go` leads to the other end."""
    return high or low


def _may_go(high: float, low: float) -> float:
    """Part of a dead force that may be gone: the water of green wood, what a settlement or another way of bending
    brought. Over 1, or below 0, where the least of the force lifts."""
    return (high - low) / high if high and high - low > SAME * max(abs(high), abs(low)) else 0.0


def row_stretch(transfer: TransferredLoad, length: float) -> Stretch:
    """From where to where on a carrier a row acts as an even load: each of it over half its spacing to both sides."""
    if transfer.row is None or transfer.spread is None:
        return 0.0, length
    half = 0.5 * transfer.spread
    return max(transfer.row[0] - half, 0.0), min(transfer.row[1] + half, length)


def row_places(transfer: TransferredLoad, length: float) -> list[float]:
    """Where each piece of a row lands, inches."""
    first, last = transfer.row or (0.0, length)
    spread = transfer.spread or length
    count = int((last - first) / spread + 1e-6) + 1
    return [min(first + i * spread, length) for i in range(count)]


def self_weight(density: float, area: float, length: float, dry_density: float = 0.0) -> Applied:
    """Own weight: always on. Densities in lbf/in3, `area` in in2; that of dry wood is what holds down for ever."""
    w = density * area
    dries = 1.0 - dry_density / density if 0.0 < dry_density < density else 0.0
    return Applied("D", 0.0, length, w_start=w, w_end=w, what=SELF_WEIGHT, own=True, dries=dries)
