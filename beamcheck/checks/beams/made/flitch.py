"""A flitch beam: its plate, and the bolts that carry load into it and out of it again; the wood is checked as ever."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ....calc.core import Number, smallest
from ....calc.pad import Pad, SilentPad
from ....errors import BeamcheckError
from ....formulas.connections import adjustment as adj
from ....formulas.connections import lateral
from ....formulas.connections import plies as rows_of
from ....formulas.connections.ranges import LONGEST_LASTING
from ....formulas.steel import bending as bars
from ....formulas.steel import flitch
from ....model.fields.evidence import doubt_in
from ....model.made.plate import FlitchPlate
from ....model.stock import Stock
from ....units import show
from ....values.hardware.connections import connection_temperature
from ....values.hardware.fasteners import bending_yield, bolt
from ....values.hardware.steels import other_bearing, steel
from ....values.judgment import judgment
from ....values.refused import in_trade_words
from ....values.species import specific_gravity
from ...core.asking.question import PlausibleAnswer, ask
from ...core.context import Context
from ...core.result import Check
from ...core.wood.govern import Criterion, at, duration, govern
from ...core.wood.made.flitch_section import FlitchSection
from ...core.wood.material import is_unknown
from ...core.wood.strength import Outcome
from ...core.wood.wood_doubts import differs, made_grades, names_grade
from ..beam_run import BeamRun
from .plies import bolts_apart, moist

CLAUSE, BOLTS = "AISC 360-16 F11", "NDS 2018 11.3, 12.3"
HAIR = 1e-6
PLATE = "A36 plate, hot-rolled, 1/4 in and thicker"


def flitch_checks(run: BeamRun, context: Context) -> Iterator[Check]:
    """What a plate between two plies asks for besides the wood."""
    section, name = run.section, run.beam.name
    assert isinstance(section, FlitchSection)
    assert section.plate is not None
    id, what = "beam.flitch", "plate and bolts of the flitch beam"
    stock = context.stock(run.beam.stock)
    yield from _of_that_steel(name, section.plate)
    if why := "; ".join(_for_an_engineer(run)):
        yield Check.refers(id, name, what, CLAUSE, why, ask=ask("flitch_engineer", name, why=why))
    if broken := "; ".join((*_broken(section), *_beside_the_seat(run, section))):
        yield Check.breaks_rule(id, name, what, "NDS 2018 12.5, AISC 360-16 F11", broken)
        return
    yield Check.keeps_rule(id, name, what, "NDS 2018 12.5, AISC 360-16 F11", "distances within the rules")
    try:
        G = run.wood.G if run.wood.G is not None or is_unknown(stock) else specific_gravity(stock.species)[0]
        if G is None:
            raise BeamcheckError("the specific gravity of the wood is not known")
        parts = _Bolted(run, section, float(G), stock)
    except BeamcheckError as error:
        why = in_trade_words(error)
        yield Check.refers(id, name, what, BOLTS, why, ask=ask("flitch_engineer", name, why=why))
        return
    yield _plate_bends(parts)
    yield _into_the_plate(parts)
    yield from _out_of_the_plate(parts)


def _of_that_steel(name: str, plate: FlitchPlate) -> Iterator[Check]:
    """Something says of what steel the plate is: its yield point decides."""
    id, what, path = "beam.flitch.steel", "evidence for the plate", f"beam.{name}.flitch.evidence"
    said = plate.evidence.strip()
    if doubt := doubt_in(said):
        text = f"its evidence says {doubt!r}: that is no answer yet"
    elif differs("steel", plate.grade, said):
        text = f"it is entered as {plate.grade}, and its evidence says {' or '.join(made_grades('steel', said))}"
    elif names_grade("steel", plate.grade, said):
        yield Check.keeps_rule(id, name, what, "AISC 360-16 A3.1", f"{plate.grade}, by {said}")
        return
    else:
        text = f"it is entered as {plate.grade}, and " + (f"{said!r} does not name that" if said else "nothing says so")
    paper = f"mill certificate no. 1234, ASTM {plate.grade}"
    answers = [PlausibleAnswer(f"a certificate says {plate.grade}", ((path, paper),))]
    asked = ask("plate_grade", name, path, answers=answers, grade=plate.grade)
    yield Check.refers(id, name, what, "AISC 360-16 A3.1", text, ask=asked)


def _for_an_engineer(run: BeamRun) -> Iterator[str]:
    if any(load.is_point for load in run.solved.loads):
        yield "a single force needs bolts of its own where it comes on"
    if run.beam.cuts or any(support.held_by for support in run.beam.supports):
        yield "cuts and anchor groups in a flitch beam are not run here"
    if run.beam.fire is not None:
        yield "a flitch beam in a fire is not run here"
    if not run.simple:
        yield "a flitch beam of several spans, overhanging or clamped, is not run here"


def _broken(section: FlitchSection) -> Iterator[str]:
    plate = section.plate
    assert plate is not None
    D, d, ply = bolt(plate.bolt).value.D, float(section.d), float(section.breadth_alone)
    inset = 0.5 * (d - plate.depth)
    for words, there, least in (
        ("from the edge of the wood", plate.edge, 4.0 * D), ("in a row", plate.spacing, bolts_apart(ply, D)),
        ("from the end", plate.end, 4.0 * D), ("from the edge of the plate", plate.edge - inset, 1.5 * D),
        ("from row to row", plate.row_spacing if plate.row_spacing is not None else 5.0 * D, 5.0 * D),
    ):  # fmt: skip
        if there < least - HAIR:
            yield f"{show(max(there, 0.0), 'length')} {words}: {show(least, 'small length')} is needed"
    if (plate.rows - 1) * (plate.row_spacing or 0.0) > d - 2.0 * plate.edge + HAIR:
        yield "the rows do not fit between the edges"
    F_y = steel(plate.grade).value.F_y
    slender = float(bars.lateral_slenderness(L_b=plate.spacing, d=plate.depth, t=plate.thickness))
    most = float(flitch.slenderness_at_first_yield(E_steel=judgment("modulus of steel").value, F_y=F_y))
    if slender > most:
        yield f"between bolts the plate may turn over: L_b d/t^2 is {slender:.0f}, at most {most:.0f} (AISC 360-16 F11)"


def _beside_the_seat(run: BeamRun, section: FlitchSection) -> Iterator[str]:
    """End bolts stand over the seat, where the wood takes the force on; what is not over it brings it in beside."""
    plate = section.plate
    assert plate is not None
    in_a_row = math.ceil(plate.end_bolts / plate.rows)
    need = plate.end + (in_a_row - 1) * bolts_apart(float(section.breadth_alone), bolt(plate.bolt).value.D)
    for seat in run.seats:
        long = seat.support.bearing
        if long is not None and need > long + HAIR:
            yield (
                f"{plate.end_bolts} end bolts in rows of {in_a_row} reach {show(need, 'length')} in from the end, and "
                f"{seat.name} is {show(long, 'length')} long: they do not stand over it"
            )


class _Bolted:
    """What the checks share: the shares of wood and steel, and the value of one bolt."""

    def __init__(self, run: BeamRun, section: FlitchSection, G: float, stock: Stock) -> None:
        assert section.plate is not None
        self.run, self.section, self.plate, self.G = run, section, section.plate, G
        self.steel, self.bolt = steel(self.plate.grade), bolt(self.plate.bolt).value
        self.F_yb = bending_yield("bolt", self.bolt.D)
        self.C_M = moist(run.wood, stock, self.bolt.D, self.plate.rows == 1)
        self.C_t = connection_temperature(stock.temperature, not run.wood.dry)

    def share(self, pad: Pad) -> Number:
        """Share of the steel, the wood softened by creep."""
        E = judgment("modulus of steel")
        I_plate = pad.take("I_plate", self.section.plate_inertia(SilentPad()), "in4", note="less the holes")
        I_wood = pad.take("I_wood", self.section.wood_inertia(SilentPad()), "in4", note="less the holes")
        K_cr = pad.take("K_cr", self.run.wood.K_cr.value, note=self.run.wood.K_cr.why, source=self.run.wood.K_cr.source)
        return pad(
            flitch.steel_share, E_steel=pad.take("E_steel", E.value, "psi", source=E.source), I_plate=I_plate,
            E_wood=self.section.E, K_cr=K_cr, I_wood=I_wood,
        )  # fmt: skip

    def value(self, pad: Pad, which: int | slice) -> Number:
        """Z' of one bolt across the grain, in both plies, the plate between them."""
        D, ply = self.bolt.D, float(self.section.breadth_alone)
        F_es = float(lateral.wood_bearing(pad, G=pad.take("G", self.G, note=self.run.wood.label), D_nom=D, theta=90.0))
        found = other_bearing(PLATE)
        F_em = pad.take("F_em", found.value, "psi", note=found.reason, source=found.source)
        F_yb = pad.take("F_yb", self.F_yb.value, "psi", source=self.F_yb.source)
        Z = lateral.double_shear(
            pad, D=D, D_nom=D, l_m=self.plate.thickness, l_s=ply, F_em=F_em, F_es=F_es, F_yb=F_yb, theta=90.0
        ).Z
        C_g = judgment("group action of bolts through plies")
        return pad(
            adj.adjusted_lateral, Z=Z,
            C_D=smallest(duration(pad, self.run.solved.combinations, which), LONGEST_LASTING),
            C_M=pad.take("C_M", self.C_M.value, note=self.C_M.reason, source=self.C_M.source),
            C_t=pad.take("C_t", self.C_t.value, note=self.C_t.reason, source=self.C_t.source),
            C_g=pad.take("C_g", C_g.value, note=C_g.reason, source=C_g.source), C_delta=1.0, C_eg=1.0, C_di=1.0,
            C_tn=1.0,
        )  # fmt: skip


def _plate_bends(of: _Bolted) -> Check:
    solved = of.run.solved
    low, _, high, _ = solved.moments(0.0, solved.length)
    M_all = np.maximum(np.abs(low), np.abs(high))
    criterion = Criterion(of.run.beam.name, "bending of the plate", CLAUSE, "moment", id="beam.flitch.plate")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        M = pad.take("M", at(M_all, which), "lbf*in", note="largest anywhere, from the analysis")
        s = of.share(pad)
        M_s = pad.take("M_plate", M * s, "lbf*in", note="M s_steel, what the plate takes of it")
        F_y = pad.take("F_y", of.steel.value.F_y, "psi", source=of.steel.source)
        I_plate = of.section.plate_inertia(SilentPad())
        M_a = pad(flitch.plate_at_first_yield, F_y=F_y, I_plate=I_plate, h_plate=of.plate.depth)
        return Outcome(M_s, M_a, M_s / M_a)

    return govern(criterion, solved.combinations, calculate)


def _into_the_plate(of: _Bolted) -> Check:
    solved = of.run.solved
    w_all = np.zeros(len(solved.combinations))
    for kind in {load.kind for load in solved.loads}:
        most = sum(max(abs(x.w_start), abs(x.w_end)) for x in solved.loads if x.kind == kind and not x.is_point)
        of_kind = np.array([case.kind == kind for case in solved.cases])
        w_all += most * np.max(np.abs(solved.factors) * of_kind, axis=1)
    criterion = Criterion(of.run.beam.name, "bolts into the plate", BOLTS, "line load", id="beam.flitch.bolts")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        w = pad.take("w", at(w_all, which), "lbf/in", note="all load along the beam")
        need = pad(flitch.load_into_the_plate, w=w, s_steel=of.share(pad))
        n, s = float(of.plate.rows), of.plate.spacing
        most = pad(rows_of.rows_of_fasteners, Z_prime=of.value(pad, which), n=n, s=s)
        return Outcome(need, most, need / most)

    return govern(criterion, solved.combinations, calculate)


def _out_of_the_plate(of: _Bolted) -> Iterator[Check]:
    for seat in of.run.seats:
        forces = np.maximum(np.abs(of.run.solved.pressing(seat.index)), np.abs(of.run.solved.lifting(seat.index)))
        what = f"bolts over {seat.name}"
        criterion = Criterion(of.run.beam.name, what, BOLTS, "force", seat.where, id="beam.flitch.bolts")

        def calculate(pad: Pad, which: int | slice, forces: np.ndarray = forces) -> Outcome:
            R = pad.take("R", at(forces, which), "lbf", note="reaction, from the analysis")
            need = pad(flitch.force_out_of_the_plate, R=R, s_steel=of.share(pad))
            most = pad(flitch.bolts_at_an_end, Z_prime=of.value(pad, which), n=float(of.plate.end_bolts))
            return Outcome(need, most, need / most)

        yield govern(criterion, of.run.solved.combinations, calculate)
