"""Fasteners by trade size: bolts, washers, lag screws, wood screws, nails, and the bending yield strength of each.

All lengths in inches, stresses in psi. Sizes are written as the trade writes them: '1/2', 'No. 10', '16d'.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, get_args

from ...errors import OutOfRange, UnknownName
from ...records import dataclass
from ..found import Found
from ..loader import known, listed, numbers, row_of, rows, source_of
from ..species import folded

NailKind = Literal["common", "box", "sinker"]
Family = Literal["bolt", "drift pin", "lag screw", "wood screw", "nail", "hardened nail"]


@dataclass(frozen=True)
class Bolt:
    """A hex bolt: nominal and root diameter; thread length of bolts up to 6 in long, and of longer ones."""

    size: str
    D: float
    D_r: float
    thread_to_6: float
    thread_over_6: float

    def thread(self, length: float) -> float:
        """Thread length of a bolt so long."""
        return self.thread_to_6 if length <= 6 else self.thread_over_6


@dataclass(frozen=True)
class LagScrew:
    """A lag screw with reduced body: nominal and root diameter, length of the tapered tip."""

    size: str
    D: float
    D_r: float
    E_tip: float


@dataclass(frozen=True)
class WoodScrew:
    """A wood screw with rolled thread: nominal and root diameter, head. The tip may be taken 2 D long."""

    size: str
    D: float
    D_r: float
    D_H: float


@dataclass(frozen=True)
class Nail:
    """A nail: length, diameter, head. The tip may be taken 2 D long."""

    kind: NailKind
    size: str
    L: float
    D: float
    D_H: float


@dataclass(frozen=True)
class Washer:
    """A round washer: hole, outer diameter, thickness."""

    inner: float
    outer: float
    thickness: float


def bolt_sizes() -> tuple[str, ...]:
    """The sizes that `bolt` and `washer` know."""
    return listed("nds_2018_l1_bolts", "size")


def bolt(size: str) -> Found[Bolt]:
    """A hex bolt by its size, such as '1/2': NDS 2018 Table L1.

    Raises UnknownName if the table does not list the size.
    """
    row = row_of("nds_2018_l1_bolts", "size", size, "bolt size", _spelled)
    made = Bolt(row["size"], *numbers(row, "D", "D_r", "T_to_6", "T_over_6"))
    return Found(made, source_of(row), f"{row['size']} in bolt, root {row['D_r']} in")


def washer(size: str) -> Found[Washer]:
    """The standard cut washer of a bolt or lag screw by the fastener's size: NDS 2018 Table L6.

    Raises UnknownName if the table does not list the size.
    """
    row = row_of("nds_2018_l6_washers", "size", size, "washer size", _spelled)
    made = Washer(*numbers(row, "inner", "outer", "thickness"))
    return Found(made, source_of(row), f"cut washer of a {row['size']} in bolt, {row['outer']} in across")


def lag_screw_sizes() -> tuple[str, ...]:
    """The sizes that `lag_screw` knows."""
    return listed("nds_2018_l2_lag_screws", "size")


def lag_screw(size: str) -> Found[LagScrew]:
    """A lag screw by its size, such as '3/8': NDS 2018 Table L2, reduced body.

    Raises UnknownName if the table does not list the size.
    """
    row = row_of("nds_2018_l2_lag_screws", "size", size, "lag screw size", _spelled)
    made = LagScrew(row["size"], *numbers(row, "D", "D_r", "E_tip"))
    return Found(made, source_of(row), f"{row['size']} in lag screw, root {row['D_r']} in, tip {row['E_tip']} in")


def lag_thread(length: float) -> Found[float]:
    """Least thread length of a lag screw so long (in), tip included: NDS 2018 Table L2.

    A length between two of the table has the thread of the shorter one. Where older editions are recalled with less
    thread (10 and 11 in), that is taken until the print is seen.

    Raises OutOfRange if it is shorter than the shortest of the table.
    """
    table = rows("nds_2018_l2_lag_threads")
    shorter = [row for row in table if float(row["L"]) <= length]
    if not shorter:
        raise OutOfRange(f"a lag screw {length:g} in long: the table begins at {table[0]['L']} in", table[0]["source"])
    row = shorter[-1]
    same = "" if float(row["L"]) == length else f" (as for {row['L']} in, the next shorter of the table)"
    doubt = f"; in doubt: recalled as {row['T']} in as well" if row["T_older"] else ""
    value = row["T_older"] or row["T"]
    return Found(float(value), source_of(row), f"lag screw {length:g} in long, thread {value} in{same}{doubt}")


def wood_screw_sizes() -> tuple[str, ...]:
    """The sizes that `wood_screw` knows."""
    return listed("nds_2018_l3_wood_screws", "size")


def wood_screw(size: str) -> Found[WoodScrew]:
    """A wood screw by its number, such as 'No. 10' or '10': NDS 2018 Table L3, rolled thread.

    Raises UnknownName if the table does not list the size.
    """
    row = row_of("nds_2018_l3_wood_screws", "size", size, "wood screw size", lambda one: folded(one).removeprefix("no"))
    made = WoodScrew(row["size"], *numbers(row, "D", "D_r", "D_H"))
    return Found(made, source_of(row), f"{row['size']} wood screw, rolled thread, root {row['D_r']} in")


def nail_sizes(kind: NailKind) -> tuple[str, ...]:
    """The pennyweights of a kind that `nail` knows. Raises UnknownName for another kind of nail."""
    known(kind, get_args(NailKind), "kind of nail")
    return tuple(row["size"] for row in rows("nds_2018_l4_nails") if row["kind"] == kind)


def nail(kind: NailKind, size: str) -> Found[Nail]:
    """A nail by kind and pennyweight, such as 'common', '16d': NDS 2018 Table L4.

    Raises UnknownName if the table does not list the kind or the size.
    """
    if folded(size) not in map(folded, nail_sizes(kind)):
        raise UnknownName(f"size of a {kind} nail", size, nail_sizes(kind))
    table = rows("nds_2018_l4_nails")
    row = next(row for row in table if row["kind"] == kind and folded(row["size"]) == folded(size))
    made = Nail(kind, row["size"], *numbers(row, "L", "D", "D_H"))
    return Found(made, source_of(row), f"{row['size']} {kind} nail, {row['L']} in long, {row['D']} in thick")


def bending_yield(family: Family, D: float) -> Found[float]:
    """F_yb of a fastener by its nominal diameter: NDS 2018 Table I1. Low to medium carbon steel only.

    Raises UnknownName for another family; OutOfRange if the table has no band for the diameter. Stainless, brass and
    drywall screws are in none: the maker's value.
    """
    known(family, get_args(Family), "family of fasteners")
    bands = [row for row in rows("nds_2018_i1_bending_yield") if family in row["families"].split("; ")]
    for row in bands:
        low, high = float(row["D_from"]), float(row["D_up_to"])
        if low < D <= high or (low == D and row["from_included"] == "yes"):
            return Found(float(row["F_yb"]), source_of(row), f"{family} {D:g} in thick: {low:g} to {high:g} in")
    raise OutOfRange(
        f"no bending yield strength for a {family} {D:g} in thick: the table goes from {bands[0]['D_from']} to "
        f"{bands[-1]['D_up_to']} in. Enter the maker's F_yb, else there is no lateral value",
        bands[0]["source"],
    )


@lru_cache(maxsize=1024)
def _spelled(size: str) -> str:
    """'1-1/4', '1 1/4' and '1 1/4 in' are one."""
    text = size.casefold().strip().removesuffix("inch").removesuffix("in").removesuffix('"')
    return " ".join(re.sub(r"(?<=\d)-(?=\d)", " ", text).split())  # a dash before a number is a minus
