"""Many simple beams under uniform load at once, by the very checks that fill a sheet.

What is proportional to the load is worked out once, for 1 lbf/in, and not once a combination: moment, shear, reaction
and sag, and with them the ratios. What depends on the load duration factor is worked out once for each of its values.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import compress

import numpy as np

from ..analysis.beams.combinations import Loaded, combine
from ..analysis.beams.load_cases import PATTERNED, Applied, Case
from ..analysis.beams.member_loads import self_weight
from ..calc.core import Number, largest, smallest, where
from ..calc.pad import SilentPad
from ..calc.ranges import NotNegative, Positive, PositiveOrInfinite, checked
from ..checks.core.result import within
from ..checks.core.wood.material import WoodMaterial, modulus_prime
from ..checks.core.wood.strength import Bracing, Section, bearing, bending, shear
from ..errors import OutOfRange, UnknownName
from ..formulas.wood import deflection as df
from ..records import dataclass
from ..values.factors import effective_length
from .batch_rows import Array, Rows, bare_wood, column, numbers_of, taken

KINDS = ("D", *PATTERNED)  # kinds of load; wind is for `check_job`
LIVE, ROOF = "deflection under live load", "deflection under snow or roof live load"
TOTAL = "total deflection"
CHECKS = ("bending", "shear", "bearing", LIVE, ROOF, TOTAL)
NONE = -1  # index of the combination of a check that does not arise: its ratio is 0
PAD = SilentPad()
BLOCK = 1 << 15  # rows worked on at a time: a block's arrays stay in the processor's cache


@dataclass(frozen=True, eq=False)
class Beams:
    """A batch of simple beams. Each value is one number for all of them, or an array (n,).

    `section`: rectangles [in]. `wood`: from `wood_of`, or `stacked` from several. `span`: from middle to middle of the
    seats [in]. `seat`: length of each seat along the beam [in]. `loads`: mapping of str to float or array: load along
    the beam by kind: 'D', 'L', 'Lr', 'S'; own weight is added to D [lbf/in]. `held`: the top edge is held, or the
    section needs no holding: C_L = 1. `braces`: spacing of what holds the top edge sideways; infinite where only the
    ends do [in]. `limit_live`, `limit_roof`, `limit_total`: deflection limits: span over this number. Live load; snow
    or roof live load; all together. `dead_counts`: what the dead-load deflection is multiplied with in the last: the
    code's share, or the creep factor. `total_at_most`: a cap on the last in inches. `near_seats`: leave the load within
    d of the seats' faces out of the shear (NDS 2018 3.4.3.1): for loads on the top of a beam that rests on seats and
    has no cut there. A beam too short for that keeps its full shear.
    """

    section: Section
    wood: WoodMaterial
    span: Number
    seat: Number
    loads: Mapping[str, Number]
    held: bool | Array
    limit_live: Number
    limit_roof: Number
    limit_total: Number
    dead_counts: Number = 1.0
    braces: Number = math.inf
    total_at_most: Number = math.inf
    near_seats: bool = False


@dataclass(frozen=True, eq=False)
class Ratios:
    """What a batch comes to.

    `worst[k]` (n,) is the governing ratio of `CHECKS[k]` and `under[k]` the index of its combination in `combinations`
    (`NONE` and ratio 0 where no such load is there). NaN stands for a row that lies outside the limits of a rule: it
    never fits.
    """

    worst: Array
    under: Array
    combinations: tuple[str, ...]

    @property
    def ratio(self) -> Array:
        """(n,) the governing ratio of each beam; NaN outweighs every number."""
        return np.asarray(np.max(self.worst, axis=0))

    @property
    def governs(self) -> Array:
        """(n,) index in `CHECKS` of the governing check."""
        return np.asarray(np.argmax(self.worst, axis=0))

    @property
    def fits(self) -> Array:
        """(n,) whether no check is over 1. That is arithmetic and no verdict: evidence and supports are not judged."""
        return np.asarray(within(self.ratio))

    def words(self, row: int) -> tuple[str, str]:
        """The governing check and combination of one beam."""
        check = int(self.governs[row])
        index = int(self.under[check, row])
        return CHECKS[check], "" if index == NONE else self.combinations[index]


@dataclass(frozen=True, eq=False)
class EachRatio:
    """Every check under every combination: `ratios` (checks, combinations, n), 0 where a load is not there."""

    ratios: Array
    combinations: tuple[str, ...]


def check_simple(beams: Beams) -> Ratios:
    """Check a batch. Results are those of `check_job` for the same beams, one by one.

    Raises OutOfRange if a value that holds for the whole batch is outside a rule, or shapes do not fit together. A
    single row that is outside a rule gets NaN and stops nothing; UnknownName for a kind of load that is not among
    `KINDS`.
    """
    columns, n = _columns(beams)
    names: dict[str, int] = {}
    worst, under = np.empty((len(CHECKS), n)), np.empty((len(CHECKS), n), dtype=np.int8)
    with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
        for rows, plan in _parts(columns, n, names, each=False):
            for check, largest in enumerate(_governing(_block(columns, rows, beams.near_seats), plan)):
                worst[check, rows], under[check, rows] = largest.value, largest.which
    return Ratios(worst, under, tuple(names))


def each_combination(beams: Beams) -> EachRatio:
    """Every check of a batch under every combination; parameters and errors are those of `check_simple`."""
    columns, n = _columns(beams)
    names: dict[str, int] = {}
    parts = list(_parts(columns, n, names, each=True))
    ratios = np.zeros((len(CHECKS), len(names), n))
    with np.errstate(over="ignore", invalid="ignore", divide="ignore"):
        for rows, plan in parts:
            block = _block(columns, rows, beams.near_seats)
            units = _unit_ratios(block, plan)
            for one in plan.combinations:
                load = _combined(block, one)
                found = {
                    "bending": load.whole * units.bending[one.C_D_index],
                    "shear": load.whole * units.shear[one.C_D_index],
                    "bearing": load.whole * units.bearing,
                    ROOF if one.roof else LIVE: load.variable * (units.roof if one.roof else units.live),
                    TOTAL: load.long * units.total,
                }
                for check, ratio in found.items():
                    ratios[CHECKS.index(check), one.index, rows] = ratio
    return EachRatio(ratios, tuple(names))


# ---- which rows go together ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Combination:
    """A combination: its place among the names, that of its C_D among the values of C_D, and its factors."""

    index: int
    C_D_index: int
    dead: float
    variable: tuple[tuple[str, float], ...]
    roof: bool  # what varies is on a roof alone


@dataclass(frozen=True)
class _Plan:
    """What rows with the same kinds of load and the same bracing have in common."""

    combinations: tuple[_Combination, ...]
    C_D: tuple[float, ...]
    held: bool
    ends_only: bool

    @property
    def limits(self) -> list[str]:
        """The deflection limits that count: of live load, and of a roof's loads, only where there are any."""
        varying = {ROOF if one.roof else LIVE for one in self.combinations if one.variable}
        return [TOTAL, *sorted(varying)]


_Part = tuple[Rows, _Plan]


def _columns(beams: Beams) -> tuple[dict[str, Number], int]:
    """Every value as a float or as an array of the same length, by name; the span always as an array."""
    if beams.section.round:
        raise OutOfRange("a batch is of rectangular sections; a round piece is checked by itself")
    for kind in beams.loads:
        if kind not in KINDS:
            raise UnknownName("kind of load in a batch", kind, KINDS)
    if np.asarray(beams.held).dtype != bool:
        raise OutOfRange("held must be True or False, for all beams or for each: a number is neither")
    given: dict[str, Number] = {
        "b": beams.section.b,
        "d": beams.section.d,
        "breadth_alone": beams.section.breadth_alone,
        "span": beams.span,
        "seat": beams.seat,
        "held": beams.held,
        "braces": beams.braces,
        LIVE: beams.limit_live,
        ROOF: beams.limit_roof,
        TOTAL: beams.limit_total,
        "at most": beams.total_at_most,
        "dead counts": beams.dead_counts,
        **beams.loads,
        **numbers_of(beams.wood),
    }
    n = max((np.size(value) for value in given.values() if np.ndim(value)), default=1)
    columns = {name: column(name, value, n) for name, value in given.items()}
    if not isinstance(columns["span"], np.ndarray):
        columns["span"] = np.full(n, columns["span"])
    return columns, n


def _parts(columns: Mapping[str, Number], n: int, names: dict[str, int], *, each: bool) -> Iterator[_Part]:
    """Blocks of rows, each with the plan that they share. The names of combinations are gathered in `names`."""
    present = [kind for kind in PATTERNED if kind in columns]
    flags = [columns[kind] != 0.0 for kind in present]  # NaN counts as a load
    flags += [columns["held"] != 0.0, columns["braces"] == math.inf]
    pattern = np.zeros(n, dtype=np.uint8)
    for bit, flag in enumerate(flags):
        pattern |= np.asarray(flag, dtype=np.uint8) << bit
    counts = np.bincount(pattern)
    for code in np.flatnonzero(counts).tolist():
        *loaded, held, ends_only = (bool(code >> bit & 1) for bit in range(len(flags)))
        plan = _plan(tuple(compress(present, loaded)), held, ends_only, names, each)
        rows = None if counts[code] == n else np.flatnonzero(pattern == code)  # None: all of them, and views will do
        for start in range(0, counts[code], BLOCK):
            end = min(start + BLOCK, counts[code])
            yield slice(start, end) if rows is None else rows[start:end], plan


def _plan(kinds: tuple[str, ...], held: bool, ends_only: bool, names: dict[str, int], each: bool) -> _Plan:
    found = _combinations(kinds)
    if not each:
        found = tuple(one for one in found if not any(_outweighs(other, one) for other in found))
    durations = tuple(sorted({one.C_D for one in found}))
    made = []
    for one in found:
        factors = dict(zip(("D", *kinds), one.factors, strict=True))
        dead = factors.pop("D")
        variable = tuple((kind, factor) for kind, factor in factors.items() if factor)
        roof = "L" not in one.kinds  # as in checks/deflect.py
        index = names.setdefault(one.name, len(names))
        made.append(_Combination(index, durations.index(one.C_D), dead, variable, roof))
    return _Plan(tuple(made), durations, held, ends_only)


@lru_cache(maxsize=64)
def _combinations(kinds: tuple[str, ...]) -> tuple[Loaded, ...]:
    """The combinations of own weight with these kinds of load on a single span."""
    cases = [Case(kind, "", (Applied(kind, 0.0, 1.0),)) for kind in ("D", *kinds)]
    return tuple(combine(cases))


def _outweighs(one: Loaded, other: Loaded) -> bool:
    """Whether `other` can never govern beside `one`: no load larger, and no shorter duration."""
    if one is other or one.C_D > other.C_D:
        return False
    return all(mine >= theirs for mine, theirs in zip(one.factors, other.factors, strict=True))


# ---- the checks of one block --------------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class _Block:
    """Some rows of the batch."""

    columns: Mapping[str, Number]
    section: Section
    wood: WoodMaterial
    loads: Mapping[str, Number]
    near_seats: bool


@dataclass(frozen=True, eq=False)
class _Units:
    """Ratios under 1 lbf/in: bending and shear for each C_D of the plan; deflections under the load that counts."""

    bending: Number
    shear: Number
    bearing: Number
    live: Number
    roof: Number
    total: Number


@dataclass(frozen=True, eq=False)
class _Load:
    """Loads of one combination: all of it, what varies, and all of it as its deflection counts. [lbf/in]"""

    whole: Number
    variable: Number
    long: Number


def _block(columns: Mapping[str, Number], rows: Rows, near_seats: bool) -> _Block:
    cut = {name: taken(value, rows) for name, value in columns.items()}
    section, wood = Section(cut["b"], cut["d"], cut["breadth_alone"]), bare_wood(cut)
    # the kernels see a unit load: what they would refuse of the real one is refused here
    loads = {kind: checked(f"load {kind}", cut[kind], NotNegative) for kind in KINDS if kind in cut}
    own = self_weight(checked("density", wood.density, NotNegative), section.area(PAD), 1.0).w_start
    loads["D"] = loads["D"] + own if "D" in loads else own
    return _Block(cut, section, wood, loads, near_seats)


def _unit_ratios(block: _Block, plan: _Plan) -> _Units:
    section, wood = block.section, block.wood
    L, seat, d = block.columns["span"], block.columns["seat"], section.d
    C_D: Number = plan.C_D[0] if len(plan.C_D) == 1 else np.array(plan.C_D)[:, None]
    V_end = PAD(df.simple_uniform_shear, w=1.0, L=L)
    V = V_end
    if block.near_seats:
        clear = L - seat
        V = where(2 * d < clear, PAD(df.shear_at_d, w=1.0, L=clear, d=d), V_end)
    M = PAD(df.simple_uniform_moment, w=1.0, L=L)
    E = modulus_prime(PAD, wood)
    inertia = section.inertia(PAD)
    bent = PAD(df.simple_uniform_deflection, w=1.0, L=L, E=E, I=inertia)
    E_sf, G_v = PAD(df.shear_free_modulus, E=E), PAD(df.shear_modulus_from_E, E=E)
    sag = PAD(df.simple_uniform_deflection, w=1.0, L=L, E=E_sf, I=inertia)
    sag = sag + PAD(df.simple_uniform_shear_deflection, w=1.0, L=L, G_v=G_v, A=section.area(PAD))
    sag = largest(bent, sag)  # as checks/beams does: the larger of the two ways
    allowed = {name: PAD(df.deflection_limit, L=L, n=block.columns[name]) for name in plan.limits}
    return _Units(
        bending=_by_C_D(bending(PAD, wood, section, _bracing(block, plan), M=M, C_D=C_D).ratio, plan),
        shear=_by_C_D(shear(PAD, wood, section, V=V, C_D=C_D).ratio, plan),
        bearing=bearing(PAD, wood, R=V_end, b=section.b, l_b=seat, near_end=True).ratio,
        live=sag / allowed[LIVE] if LIVE in allowed else 0.0,
        roof=sag / allowed[ROOF] if ROOF in allowed else 0.0,
        total=sag / smallest(allowed[TOTAL], checked("total_at_most", block.columns["at most"], PositiveOrInfinite)),
    )


def _by_C_D(ratio: Number, plan: _Plan) -> Number:
    return ratio if len(plan.C_D) > 1 else [ratio]


def _bracing(block: _Block, plan: _Plan) -> Bracing:
    """As checks/bracing.py words it for a simple span: held; braces at a spacing; or the ends only, uniform load."""
    if plan.held:
        return Bracing(True, "held")
    span = block.columns["span"]
    if plan.ends_only:
        return Bracing(False, "ends only", span, row=effective_length("simple_uniform").value)
    return Bracing(False, "braced", smallest(block.columns["braces"], span))


def _combined(block: _Block, one: _Combination) -> _Load:
    dead = block.loads["D"] if one.dead == 1.0 else one.dead * block.loads["D"]
    variable: Number = 0.0
    for kind, factor in one.variable:
        part = block.loads[kind] if factor == 1.0 else factor * block.loads[kind]
        variable = variable + part
    # the formula is linear in the deflections, so it may be fed the loads that cause them
    counts = checked("dead_counts", block.columns["dead counts"], Positive)
    long = PAD(df.dead_and_other_deflection, s_D=counts, Delta_LT=dead, Delta_ST=variable)
    return _Load(dead + variable, variable, long)


class _Largest:
    """The largest of the values put to it, row by row, and which it was. NaN outweighs every number."""

    def __init__(self) -> None:
        self.value: Number = 0.0
        self.which: Number = np.int8(NONE)

    def put(self, value: Number, which: Number) -> None:
        """A value of 0 or more, or NaN, and its index."""
        if np.ndim(self.which) == 0 and self.which == NONE:
            self.value, self.which = value, which
            return
        self.which = np.where(value > self.value, which, self.which)
        self.value = np.maximum(self.value, value)

    def times(self, unit: Number) -> _Largest:
        """The same multiplied by a positive number, or by NaN."""
        made = _Largest()
        made.value, made.which = self.value * unit, self.which
        return made


def _governing(block: _Block, plan: _Plan) -> tuple[_Largest, ...]:
    """The governing ratio of each check, in the order of `CHECKS`."""
    units = _unit_ratios(block, plan)
    whole = [_Largest() for _ in plan.C_D]
    live, roof, long = _Largest(), _Largest(), _Largest()
    for one in plan.combinations:
        load, index = _combined(block, one), np.int8(one.index)
        whole[one.C_D_index].put(load.whole, index)
        long.put(load.long, index)
        if one.variable:
            (roof if one.roof else live).put(load.variable, index)
    bent, sheared, heaviest = _Largest(), _Largest(), _Largest()
    for at, found in enumerate(whole):
        bent.put(found.value * units.bending[at], found.which)
        sheared.put(found.value * units.shear[at], found.which)
        heaviest.put(found.value, found.which)
    return (
        bent, sheared, heaviest.times(units.bearing), live.times(units.live), roof.times(units.roof),
        long.times(units.total),
    )  # fmt: skip
