"""The load that rigid strips along the grain carry, as a linear programme: the lower-bound theorem of limit analysis.

Unknowns are pressures and one shear force on each line where strips touch, pressure of the wall, pull of the heads,
sideways force along the dowels, forces of rods, and the load, which is made as large as it goes. Each piece is in
equilibrium. A line with a full check passes no shear but what a lean of its pressure gives.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np

from ...errors import BeamcheckError
from ..frames.polynomial import Array
from .cut import Contact, Strips, cut
from .holds import Held

POINTS = 9  # of pressure on a line
UNDER = 24  # of pressure under the load
DOWEL = 20  # of sideways force along a dowel, at least
STEP = 0.5  # in: from one to the next at most
HEAD = 5
LEDGE = 8
BESIDE = 0.01  # in: lines so far to either side of heads and ends of bearings
NEAR_LEVEL = 3.0  # deg
UNEVEN = 1.5  # largest over mean shear on a line
STEP_OUT = 1e-3  # in: places on an edge are looked up so far inside
FREE = math.inf
NOTHING = 1e-7  # lbf


def levels_of(held: Held, grain: float) -> list[float]:
    """Further lines: beside the heads, the ends of bearings and, for level grain, beside the bores."""
    sin, cos = math.sin(math.radians(grain)), math.cos(math.radians(grain))
    places = [(row.head, row.y + k * row.washer) for row in held.rows for k in (-0.5, 0.5)]
    places += [(x, 0.0) for seat in held.seats for x in (seat.x0, seat.x1)]
    if held.ledge is not None:
        places += [(held.ledge.depth, held.H)]
    found = [x * sin + y * cos + k * BESIDE for x, y in places for k in (-1.0, 1.0)]
    found += [x * sin + y * cos for x, y in held.seen]
    if min(grain % 180.0, 180.0 - grain % 180.0) <= NEAR_LEVEL:
        found += [(row.y + k * 0.5 * row.bore) * cos for row in held.rows if row.bore for k in (-1.0, 1.0)]
    return found


class _Matrix:
    """Columns and rows of a linear programme as they come."""

    def __init__(self) -> None:
        self.low: list[float] = []
        self.high: list[float] = []
        self.row_low: list[float] = []
        self.row_high: list[float] = []
        self.i: list[int] = []
        self.j: list[int] = []
        self.v: list[float] = []

    def column(self, low: float, high: float) -> int:
        self.low.append(low)
        self.high.append(high)
        return len(self.low) - 1

    def row(self, low: float, high: float, terms: Sequence[tuple[int, float]] = ()) -> int:
        self.row_low.append(low)
        self.row_high.append(high)
        number = len(self.row_low) - 1
        for j, v in terms:
            self.put(number, j, v)
        return number

    def put(self, i: int, j: int, v: float) -> None:
        self.i.append(i)
        self.j.append(j)
        self.v.append(v)


class Acting(NamedTuple):
    """A force on a piece: what acts ('line', 'wall', 'load', 'heads', 'dowel', 'ledge', 'rod'), which of them, the
    unknown, and the force of one of it at a place."""

    what: str
    number: int
    piece: int
    column: int
    place: tuple[float, float]
    force: tuple[float, float]


class Programme:
    """The strips of one direction of the grain; `load` solves it for a checked line or for none."""

    def __init__(self, held: Held, grain: float, lines: int = 40) -> None:
        self.held = held
        self.strips: Strips = cut(held.outline, grain, lines, levels_of(held, grain))
        self.matrix = _Matrix()
        m = self.matrix
        self.equations = [[m.row(0.0, 0.0) for _ in range(3)] for _ in self.strips.area]
        self.load_column = m.column(0.0, FREE)
        self.acting: list[Acting] = []
        self._what = "line", 0
        self.leans: dict[int, list[int]] = {}  # of each line, shear less the lean of its pressure, either way
        for contact in self.strips.contacts:
            self._what = "line", contact.line
            self._line(contact)
        self._what = "wall", 0
        self._wall()
        self._seen()
        self._what = "load", 0
        self._load()
        for number, row in enumerate(held.rows):
            self._what = "heads", number
            self._row(row)
        self._what = "ledge", 0
        self._ledge()
        for number, rod in enumerate(held.rods):
            self._what = "rod", number
            self._rod(rod)
        self._solver: Any = None
        self.values: Array = np.zeros(0)  # of the unknowns, of the last answer

    # forces on pieces

    def _act(self, piece: int, column: int, place: Array, force: Array, factor: float = 1.0) -> None:
        """A force on a piece at a place, `factor` times the unknown."""
        x, y, moment = self.equations[piece]
        fx, fy = factor * float(force[0]), factor * float(force[1])
        if fx:
            self.matrix.put(x, column, fx)
        if fy:
            self.matrix.put(y, column, fy)
        turn = place[0] * fy - place[1] * fx
        if turn:
            self.matrix.put(moment, column, 0.1 * turn)
        self.acting.append(Acting(*self._what, piece, column, (float(place[0]), float(place[1])), (fx, fy)))

    def _line(self, contact: Contact) -> None:
        m, t = self.matrix, self.held.t
        along, across = self.strips.along, self.strips.across
        share = np.full(POINTS, 1.0 / (POINTS - 1))
        share[[0, -1]] *= 0.5
        columns = []
        for part, u in zip(share, np.linspace(contact.u0, contact.u1, POINTS), strict=True):
            place = u * along + contact.s * across
            p = m.column(0.0, self.held.F_c_perp * t * contact.length * part)
            self._act(contact.near, p, place, across, -1.0)
            self._act(contact.far, p, place, across, 1.0)
            columns.append(p)
        most = self.held.F_v * t * contact.length / UNEVEN
        q = m.column(-most, most)
        place = contact.u0 * along + contact.s * across
        self._act(contact.near, q, place, along, 1.0)
        self._act(contact.far, q, place, along, -1.0)
        pressed = [(p, -self.held.lean) for p in columns]
        self.leans.setdefault(contact.line, []).extend(
            m.row(-FREE, FREE, [(q, sign), *pressed]) for sign in (1.0, -1.0)
        )

    def _seen(self) -> None:
        """The lines of checks that are there already pass no shear in any run."""
        for place in self.held.seen:
            s = float(self.strips.across @ place)
            line = int(np.argmin(np.abs(self.strips.levels - s)))
            for row in self.leans.get(line, []):
                self.matrix.row_high[row] = 0.0
            self.leans[line] = []

    def _wall(self) -> None:
        """Level pressure on each piece that has a part of the wall face."""
        strips, held = self.strips, self.held
        step = held.H / 40.0
        cos = strips.across[1]
        crossed = [float(s / cos) for s in strips.levels] if abs(cos) > 1e-9 else []
        for y0, y1 in (one for low, high in wall_parts(held.outline) for one in _between(low, high, crossed)):
            piece = strips.piece_at(STEP_OUT * 0.01, 0.5 * (y0 + y1))
            n = max(2, math.ceil((y1 - y0) / step))
            dy = (y1 - y0) / n
            for y in y0 + (np.arange(n) + 0.5) * dy:
                p = self.matrix.column(0.0, held.F_wall * held.t * dy)
                self._act(piece, p, np.array([0.0, y]), np.array([1.0, 0.0]))

    def _load(self) -> None:
        m, down = self.matrix, np.array([0.0, 1.0])
        for seat in self.held.seats:
            places = seat.x0 + (np.arange(UNDER) + 0.5) / UNDER * (seat.x1 - seat.x0)
            if seat.x_R is None:
                for x in places:
                    piece = self.strips.piece_at(float(x), STEP_OUT * 0.01)
                    self._act(piece, self.load_column, np.array([x, 0.0]), down, seat.share / UNDER)
                continue
            sum_row = m.row(0.0, 0.0, [(self.load_column, -seat.share)])
            moment = m.row(0.0, 0.0, [(self.load_column, -seat.share * seat.x_R)])
            for x in [*places, seat.x_R]:  # and all of it in one place
                p = m.column(0.0, FREE)
                m.put(sum_row, p, 1.0)
                m.put(moment, p, float(x))
                self._act(self.strips.piece_at(float(x), STEP_OUT * 0.01), p, np.array([x, 0.0]), down)

    def _row(self, row: Any) -> None:
        """Heads pull towards the wall; dowels press up or down along their length; both share what they may take."""
        m, strips = self.matrix, self.strips
        level, upright = np.array([1.0, 0.0]), np.array([0.0, 1.0])
        pulls: list[tuple[int, float]] = []
        for k in (np.arange(HEAD) + 0.5) / HEAD - 0.5:
            place = np.array([row.head, row.y + k * row.washer])
            p = m.column(0.0, (row.T if row.B is None else row.B) / HEAD)
            self._act(strips.piece_at(row.head - STEP_OUT, float(place[1])), p, place, level, -1.0)
            pulls.append((p, 1.0 / row.T))
        share = m.column(0.0, 1.0)  # of the pull that the row may take
        m.row(0.0, 0.0, [*pulls, (share, -1.0)])
        if row.slotted or row.head <= 0.0:
            return
        self._what = "dowel", self._what[1]
        count = max(DOWEL, math.ceil(row.head / STEP))
        dx = row.head / count
        V: int | None = None  # shear and moment of the dowel at the plane before; beyond the last point nothing
        M: int | None = None
        for j in reversed(range(count)):
            x = (j + 0.5) * dx
            v = m.column(-row.q * dx, row.q * dx)
            self._act(strips.piece_at(x, row.y), v, np.array([x, row.y]), upright)
            V_here, M_here = m.column(-row.Z, row.Z), m.column(-row.M, row.M)
            V_beyond = [(V, 1.0)] if V is not None else []
            M_beyond = [(M, 1.0), (V, dx)] if M is not None and V is not None else []
            m.row(0.0, 0.0, [(V_here, -1.0), (v, 1.0), *V_beyond])
            m.row(0.0, 0.0, [(M_here, -1.0), (v, 0.5 * dx), *M_beyond])
            V, M = V_here, M_here
            if self.held.strict and j:
                for sign in (1.0, -1.0):
                    m.row(-FREE, 1.0, [(share, 1.0), (V, sign / row.Z)])
        assert V is not None and M is not None
        for a in (1.0, -1.0):
            m.row(-FREE, 1.0, [(share, 1.0), (V, a / row.Z)])
            for b in (1.0, -1.0):
                m.row(-FREE, 1.0, [(V, a / row.Z), (M, b / row.M)])

    def _ledge(self) -> None:
        held, ledge = self.held, self.held.ledge
        if ledge is None:
            return
        for x in (np.arange(LEDGE) + 0.5) / LEDGE * ledge.depth:
            p = self.matrix.column(0.0, ledge.F * held.t * ledge.depth / LEDGE)
            piece = self.strips.piece_at(float(x), held.H - STEP_OUT * 0.01)
            self._act(piece, p, np.array([x, held.H]), np.array([0.0, -1.0]))

    def _rod(self, rod: Any) -> None:
        """Tension in a rod at each line that it crosses; what changes from line to line is held by its bond."""
        m, strips = self.matrix, self.strips
        start, end = np.array(rod.start), np.array(rod.end)
        whole = float(np.hypot(*(end - start)))
        e = (end - start) / whole
        sideways = np.array([-e[1], e[0]])
        s0, s1 = float(strips.across @ start), float(strips.across @ end)
        places = sorted(t for s in strips.levels if abs(s1 - s0) > 1e-9 and 0.0 < (t := (s - s0) / (s1 - s0)) < 1.0)
        before: int | None = None
        last = 0.0
        pieces = [strips.piece_at(*(start + 0.5 * (a + b) * (end - start)))
                  for a, b in zip([0.0, *places], [*places, 1.0], strict=True)]  # fmt: skip
        for k, t in enumerate(places):
            place = start + t * (end - start)
            N, V = m.column(0.0, rod.steel), m.column(-rod.Z, rod.Z)
            for sign in (1.0, -1.0):
                m.row(-FREE, 1.0, [(N, 1.0 / rod.steel), (V, sign / rod.Z)])
            # in tension it draws the wood behind the line forward and the wood beyond it back
            self._act(pieces[k], N, place, e, 1.0)
            self._act(pieces[k + 1], N, place, e, -1.0)
            self._act(pieces[k], V, place, sideways, 1.0)
            self._act(pieces[k + 1], V, place, sideways, -1.0)
            most = rod.bond * (t - last) * whole
            if before is None:
                m.row(-FREE, most + rod.head_from, [(N, 1.0)])
            else:
                m.row(-most, most, [(N, 1.0), (before, -1.0)])
            before, last = N, t
        if before is not None:
            m.row(-FREE, rod.bond * (1.0 - last) * whole + rod.head_to, [(before, 1.0)])

    # solving

    @property
    def lines(self) -> range:
        return range(len(self.strips.levels))

    def _ready(self) -> Any:
        if self._solver is None:
            import highspy

            m = self.matrix
            order = np.lexsort((np.array(m.i), np.array(m.j)))
            j, i, v = np.array(m.j)[order], np.array(m.i)[order], np.array(m.v)[order]
            # one entry for each place: forces of one unknown on one piece add up
            first = np.ones(len(j), dtype=bool)
            first[1:] = (j[1:] != j[:-1]) | (i[1:] != i[:-1])
            group = np.cumsum(first) - 1
            value = np.zeros(int(group[-1]) + 1)
            np.add.at(value, group, v)
            j, i = j[first], i[first]
            lp = highspy.HighsLp()
            lp.num_col_, lp.num_row_ = len(m.low), len(m.row_low)
            cost = np.zeros(len(m.low))
            cost[self.load_column] = -1.0
            lp.col_cost_ = cost
            lp.col_lower_, lp.col_upper_ = np.array(m.low), np.array(m.high)
            lp.row_lower_, lp.row_upper_ = np.array(m.row_low), np.array(m.row_high)
            lp.a_matrix_.start_ = np.searchsorted(j, np.arange(len(m.low) + 1)).astype(np.int32)
            lp.a_matrix_.index_, lp.a_matrix_.value_ = i.astype(np.int32), value
            solver = highspy.Highs()
            solver.silent()
            solver.setOptionValue("threads", 1)
            solver.passModel(lp)
            self._solver = solver
        return self._solver

    def checked(self, line: int | None) -> tuple[float, set[int]]:
        """The load with a full check along one line, or with none, lbf; and the lines that could be checked as well.

        A statics that passes no shear over a line but by its lean stands with that line checked too.
        """
        import highspy

        solver = self._ready()
        rows = self.leans.get(line, []) if line is not None else []
        for row in rows:
            solver.changeRowBounds(row, -FREE, 0.0)
        solver.run()
        status = solver.getModelStatus()
        if status != highspy.HighsModelStatus.kOptimal:
            raise BeamcheckError(f"the statics of its strips found no answer ({solver.modelStatusToString(status)})")
        found = solver.getSolution()
        self.values = np.asarray(found.col_value)
        over = np.asarray(found.row_value)
        for row in rows:
            solver.changeRowBounds(row, -FREE, FREE)
        stands = {k for k in self.lines if all(over[row] <= NOTHING for row in self.leans.get(k, []))}
        return max(0.0, float(found.col_value[self.load_column])), stands


def wall_parts(outline: Array) -> list[tuple[float, float]]:
    """From where to where, down from the top, an outline lies on the wall face."""
    on = np.abs(outline[:, 0]) < 1e-9
    ends = zip(outline, np.roll(outline, -1, axis=0), on & np.roll(on, -1), strict=True)
    return sorted((float(min(p[1], q[1])), float(max(p[1], q[1]))) for p, q, both in ends if both)


def _between(low: float, high: float, crossed: Sequence[float]) -> list[tuple[float, float]]:
    places = [low, *sorted(y for y in crossed if low + 1e-9 < y < high - 1e-9), high]
    return list(pairwise(places))
