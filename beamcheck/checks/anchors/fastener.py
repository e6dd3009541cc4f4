"""The fastener of a group as the formulas want it: diameters, bending yield strength, tip; looked up by its size."""

from __future__ import annotations

from typing import Literal, get_args

from ...calc.core import Number
from ...calc.pad import Pad
from ...errors import OutOfRange
from ...formulas.connections import dowel_lengths as ln
from ...formulas.connections import tear_out as tear
from ...model.anchors.anchor import Fastener
from ...provenance import Source
from ...records import dataclass
from ...values.hardware import fasteners
from ...values.hardware.connections import THIN
from ..core.asking.question import PlausibleAnswer
from .unsaid import NotSaid, Open

FAMILIES: dict[str, fasteners.Family] = {
    "bolt": "bolt", "pin": "drift pin", "lag screw": "lag screw", "wood screw": "wood screw", "nail": "nail",
}  # fmt: skip
SHEET = "data sheet of the maker, its number and year"
THREADED = "threads count: the root bears (NDS 2018 12.3.7)"
SMOOTH = "full body: no threads where it bears (NDS 2018 12.3.7)"


@dataclass(frozen=True)
class Dowel:
    """A fastener: nominal diameter `D`, diameter `D_calc` of the yield equations, in; `F_yb` psi.

    `E_tip` is the tip that does not hold (0 for bolts and pins), `head` the diameter of the head of a nail or screw.
    `length` is None for a bolt whose length is not given. `thread` is the length of the thread of a bolt or lag screw,
    the least that its standard gives, or as measured; None where it is not known.
    """

    kind: str
    D: float
    D_calc: float
    D_r: float
    F_yb: float
    why_F_yb: str
    source_F_yb: Source | None
    source: Source
    E_tip: float
    head: float | None
    length: float | None
    washer: float | None
    washer_thickness: float
    doubts: tuple[Open, ...]
    why_D: str
    thread: float | None = None

    @property
    def through(self) -> bool:
        """Goes through all members in a drilled hole and bears over their whole thickness."""
        return self.kind in ("bolt", "pin")

    @property
    def large(self) -> bool:
        """1/4 in and more: angle to grain, C_g, C_delta and the distances of 12.5.1 count."""
        return self.D >= THIN

    @property
    def smooth(self) -> bool:
        """Whether the full diameter bears."""
        return self.D_calc == self.D

    @property
    def hole(self) -> float:
        """Diameter deducted from the wood, in."""
        return float(tear.bolt_hole(self.D)) if self.through else self.D

    def main_length(self, pad: Pad, p: Number) -> Number:
        """Bearing length in the member that holds the point, half the tip left out, in."""
        if self.kind == "lag screw":
            return pad(ln.main_length_lag, p=p, E_tip=self.E_tip)
        return pad(ln.main_length_nail, p=p, D=self.D)

    def least_penetration(self, pad: Pad) -> Number:
        """Below it there is no lateral value, in."""
        if self.kind == "lag screw":
            return pad(ln.least_penetration_lag, D=self.D, E_tip=self.E_tip)
        return pad(ln.least_penetration_nail, D=self.D)

    @property
    def penetration_clause(self) -> str:
        return {"lag screw": ln.LAG, "wood screw": ln.SCREW}.get(self.kind, ln.NAIL)


def dowel_of(fastener: Fastener) -> Dowel:
    """Look the fastener up.

    Raises UnknownName, OutOfRange if the tables do not list the size, or give no bending yield strength for it; NotSaid
    if a maker's value or a length is needed and not given.
    """
    kind, size, length = fastener.kind, fastener.size, fastener.length
    doubts: list[Open] = []
    head: float | None = None
    thread = fastener.thread_length
    E_tip = washer = thickness = 0.0
    why = THREADED
    if kind in ("bolt", "pin"):
        bolt = fasteners.bolt(size)
        D, D_r, source = bolt.value.D, bolt.value.D_r, bolt.source
        clear = fastener.threads == "clear of it" or (kind == "pin" and fastener.threads is None)
        D_calc, why = (D, SMOOTH) if clear else (D_r, THREADED)
        if kind == "bolt" and thread is None and length is not None:
            thread = bolt.value.thread(length)
    elif kind == "lag screw":
        lag = fasteners.lag_screw(size)
        D, D_r, E_tip, source = lag.value.D, lag.value.D_r, lag.value.E_tip, lag.source
        D_calc = D_r
    elif kind == "wood screw":
        screw = fasteners.wood_screw(size)
        D, D_r, head, source = screw.value.D, screw.value.D_r, screw.value.D_H, screw.source
        D_calc, E_tip = D_r, 2.0 * screw.value.D
    else:
        nail_kind, pennyweight = _nail(size)
        nail = fasteners.nail(nail_kind, pennyweight)
        D = D_r = D_calc = nail.value.D
        head, source, E_tip = nail.value.D_H, nail.source, 2.0 * nail.value.D
        why = "a smooth nail bears with its full diameter (NDS 2018 12.3.7)"
        if length is not None and length > nail.value.L + 1e-6:
            raise OutOfRange(f"a {size} nail is {nail.value.L:g} in long, not {length:g} in", source.document)
        length = nail.value.L if length is None else length
    if kind == "lag screw" and thread is None and length is not None:
        thread = fasteners.lag_thread(length).value
    if kind in ("bolt", "lag screw"):
        standard = fasteners.washer(size).value
        washer, thickness = standard.outer, standard.thickness
    F_yb, why_F, source_F = _bending_yield(fastener, D, doubts)
    return Dowel(
        kind, D, D_calc, D_r, F_yb, why_F, source_F, source, E_tip, head, length, fastener.washer or washer or None,
        thickness, tuple(doubts), why, thread,
    )  # fmt: skip


def _nail(size: str) -> tuple[fasteners.NailKind, str]:
    """'16d common' as kind and pennyweight; a box nail is thinner than a common one, so the kind must be said."""
    words = size.casefold().replace("nail", " ").replace("s ", " ").split()
    kinds: dict[str, Literal["common", "box", "sinker"]] = {kind: kind for kind in get_args(fasteners.NailKind)}
    found = [kinds[word] for word in words if word in kinds]
    rest = [word for word in words if word not in kinds]
    if len(found) != 1 or len(rest) != 1:
        text = f"nail {size!r}: say pennyweight and kind, such as '16d common' (common, box or sinker)"
        raise NotSaid(text, "nail_kind", "fastener.size")
    return found[0], rest[0]


def _bending_yield(fastener: Fastener, D: float, doubts: list[Open]) -> tuple[float, str, Source | None]:
    if fastener.F_yb is not None:
        if not fastener.F_yb_from.strip():
            text = "the maker's bending yield strength comes without its document (`F_yb_from`)"
            doubts.append(Open(text, "maker_document", "fastener.F_yb_from"))
        return fastener.F_yb, f"by its maker: {fastener.F_yb_from or 'no document named'}", None
    if fastener.coating == "stainless":
        text = "stainless fasteners have no bending yield strength in Table I1: enter the maker's (`F_yb`)"
        said = fastener.model_dump(exclude_defaults=True)  # numbers in it are lengths
        kept = {key: f"{value:g} in" if isinstance(value, float) else value for key, value in said.items()}
        usual = fasteners.bending_yield(FAMILIES[fastener.kind], D).value  # of plain steel, and somewhat less
        answers = tuple(
            PlausibleAnswer(strength, (("fastener", {**kept, "F_yb": strength, "F_yb_from": SHEET}),))
            for strength in (f"{usual:,.0f} psi", f"{0.8 * usual:,.0f} psi")
        )
        raise NotSaid(text, "maker_bending_yield", "fastener.F_yb", answers)
    found = fasteners.bending_yield(FAMILIES[fastener.kind], D)
    return found.value, found.reason, found.source
