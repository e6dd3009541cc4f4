"""What one anchor group takes out of the section of the wood that it holds: slots, holes, bores.

A slot goes through the full depth and takes breadth, each row of holes goes through the breadth and takes depth. All
rows are counted in one section, wherever along the piece they stand.
"""

from __future__ import annotations

from typing import Literal

from ....calc.core import Number
from ....calc.pad import Pad
from ....errors import OutOfRange
from ....formulas.wood import section as sc
from ....formulas.wood import shear as sh
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from .strength import Section

NET = "NDS 2018 3.1.2"


@dataclass(frozen=True)
class Void:
    """Wood that one row of holes or bores takes: middle above the bottom edge, height, breadth, inches."""

    y: float
    height: float
    breadth: float


@dataclass(frozen=True)
class GroupCut:
    """All that one anchor group takes away, inches. The names of the fields are those of a `Cut` of the job file.

    `at` is the middle along the piece, `width` the breadth of the slot (0: none), `voids` what the rows take besides.
    `depth` and `from_bottom` say what a drawing shows.
    """

    by: str
    at: float
    length: float
    width: float
    voids: tuple[Void, ...]
    depth: float
    from_bottom: float
    kind: Literal["slot"] = "slot"
    face: Literal["side"] = "side"
    made_by: Literal["anchor", "joint"] = "anchor"
    called: str = ""  # what it is, where it is no slot with holes

    @property
    def words(self) -> str:
        """What it is, in a carpenter's words."""
        if self.called:
            return f"{self.called} at {show(self.at, 'length')}"
        parts = [f"slot {show(self.width, 'length')} wide"] if self.width else []
        if self.voids:
            parts.append("holes" + (" and bores" if len({void.y for void in self.voids}) < len(self.voids) else ""))
        long = f", {show(self.length, 'length')} along the piece" if self.length else ""
        return f"{' with '.join(parts)}{long} at {show(self.at, 'length')}, cut by {self.made_by} {self.by}"


def broadest() -> float:
    """Share of the breadth that a slot may take without an engineer's word."""
    return judgment("slot, share of the breadth").value


def highest() -> float:
    """Share of the depth that rows of holes may take without an engineer's word."""
    return judgment("rows of holes, share of the depth").value


def breadth_left(section: Section, cut: GroupCut) -> float:
    """Beside the slot, inches."""
    return float(section.b) - cut.width


def height_lost(cut: GroupCut) -> float:
    """Of all rows together, bores counted as high as they are, inches."""
    rows: dict[float, float] = {}
    for void in cut.voids:
        rows[void.y] = max(rows.get(void.y, 0.0), void.height)
    return sum(rows.values())


def nothing_is_left(section: Section, cut: GroupCut) -> bool:
    """Whether the slot takes all breadth or the rows all depth."""
    return height_lost(cut) >= section.d or _area(section, cut) <= 0.0


def _area(section: Section, cut: GroupCut) -> float:
    return breadth_left(section, cut) * float(section.d) - sum(void.breadth * void.height for void in cut.voids)


def slot_net(pad: Pad, section: Section, cut: GroupCut) -> tuple[Number, Number, Number, Number]:
    """Lesser section modulus (in3), area (in2), depth (in), second moment of area (in4) of what is left.

    Raises OutOfRange if the rows and bores overlap so much that nothing stiff is left.
    """
    b_n, d = pad.take("b_n", breadth_left(section, cut), "in", note="breadth beside the slot"), float(section.d)
    if not cut.voids:
        left = Section(b_n, section.d, b_n)
        return left.modulus(pad), left.area(pad), section.d, left.inertia(pad)
    A = pad.take("A_n", _area(section, cut), "in2", clause=NET, note="less all rows of holes, in one section")
    first = float(b_n) * d * d / 2.0 - sum(void.breadth * void.height * void.y for void in cut.voids)
    y_bar = pad.take("y_bar", first / float(A), "in", note="centroid above the bottom edge")
    own = float(pad(sc.rectangle_inertia, symbol="I", b=b_n, d=section.d))
    I_n = own + float(b_n) * d * (0.5 * d - float(y_bar)) ** 2 - sum(
        void.breadth * (void.height**3 / 12.0 + void.height * (void.y - float(y_bar)) ** 2) for void in cut.voids
    )  # fmt: skip
    if I_n <= 0.0:
        raise OutOfRange(f"the holes and bores of anchor {cut.by} overlap: no section is left", NET)
    I_net = pad.take("I_n", I_n, "in4", clause=NET, note="of what is left")
    S = I_n / max(float(y_bar), d - float(y_bar))
    return pad.take("S_n", S, "in3", clause=NET, note="the smaller of bottom and top"), A, section.d, I_net


def slot_shear(pad: Pad, section: Section, cut: GroupCut, V: Number) -> Number:
    """Shear stress at the group, psi: 3/2 of the mean on what is left. NDS 2018 3.4.3.3 is asked in the group."""
    b_n = pad.take("b_n", breadth_left(section, cut), "in", note="breadth beside the slot")
    lost = sum(void.breadth * void.height for void in cut.voids) / float(b_n)
    d_n = pad.take("d_n", float(section.d) - lost, "in", note="depth less the rows of holes")
    return pad(sh.shear_stress, V=V, b=b_n, d=d_n)
