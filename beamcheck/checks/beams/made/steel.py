"""A plain steel beam beside timber: bending, shear, its web under forces, its flange over a seat (AISC 360-16, ASD).

Loads, supports, deflection and what it stands on are checked as of every beam; steel takes no C_D.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ....calc.pad import Pad, SilentPad
from ....formulas.steel import rolled
from ....formulas.wood import bearing as br
from ....model.existing import Existing
from ....model.stock import Stock
from ....provenance import Source
from ....records import dataclass
from ....units import show
from ....values.hardware.steels import Steel
from ....values.judgment import judgment
from ...core.asking.question import ask
from ...core.context import Context
from ...core.result import Check, worst_of
from ...core.seat import least_seat, wood_under
from ...core.trivial import negligible
from ...core.wood.govern import Criterion, at, govern
from ...core.wood.made.steel_section import AISC, RolledSection, steel_of
from ...core.wood.stated_capacity import enough
from ...core.wood.strength import Outcome
from ..beam_run import BeamRun
from ..bending import SMALL, ask_upright, rule_checks
from ..bracing import Span, bracing_of
from ..deflection import deflection_checks, finish_checks, limits_of
from ..ends import end_checks
from ..load_entry import seat_asks, unsaid_entry
from ..seats import Seat, ask_seat, contact_of

Array = np.ndarray
EVEN = "steel gets no credit for how its moment varies along it, which is on the safe side"
SIDEWAYS_ENDS = 1.7  # AISC 360-16 J10.4: slenderness from which the web does not sway


@dataclass(frozen=True)
class _Rolled:
    """What the checks of one steel beam share."""

    run: BeamRun
    section: RolledSection
    steel: Steel
    source: Source

    def F_y(self, pad: Pad) -> float:
        return float(pad.take("F_y", self.steel.F_y, "psi", note=f"steel {self.steel.grade}", source=self.source))

    def E(self, pad: Pad) -> float:
        found = judgment("modulus of steel")
        return float(pad.take("E_steel", found.value, "psi", source=found.source))


def section_words(section: RolledSection) -> str:
    """The measures and the section properties that the checks take."""
    plates, pad = section.plates, SilentPad()
    deep, broad, flange, web = (show(plates[name], "small length") for name in ("d", "b_f", "t_f", "t_web"))
    inertia, modulus = float(section.inertia(pad)), float(section.modulus(pad))
    return f"{deep} deep, flanges {broad} by {flange}, web {web}; I = {inertia:.4g} in⁴, S = {modulus:.4g} in³"


def steel_checks(run: BeamRun, context: Context) -> Iterator[Check]:
    """Every check of a steel beam but those of its loads, which are those of every beam."""
    assert isinstance(run.section, RolledSection)
    steel, source = steel_of(context.stock(run.beam.stock))
    of = _Rolled(run, run.section, steel, source)
    yield from _compact(of)
    yield from _bending(of)
    yield _shear(of)
    beam = run.beam
    limits = limits_of(beam, beam.service)
    yield from deflection_checks(beam.name, run.solved, run.spans, run.wood, limits, beam.sag_limits)
    yield from finish_checks(beam, beam.service)
    for seat in run.seats:
        yield from _at_seat(of, seat, context)
    yield from rule_checks(beam, context.stock(beam.stock), run.spans, run.size, run.section, run.seats)
    yield from _forces_on_top(of, context)
    yield from _for_an_engineer(of, context.stock(beam.stock))


def _compact(of: _Rolled) -> Iterator[Check]:
    """The rules hold for flanges and webs that do not fold first."""
    pad, name = Pad(), of.run.beam.name
    E, F_y, p = of.E(pad), of.F_y(pad), of.section.plates
    flange = float(pad(rolled.half_flange_over_thickness, b_f=p["b_f"], t_f=p["t_f"]))
    most = float(pad(rolled.compact_flange_limit, E_steel=E, F_y=F_y))
    stocky = float(pad(rolled.stocky_web_limit, E_steel=E, F_y=F_y))
    web = (p["d"] - 2.0 * p["t_f"]) / p["t_web"]
    id, what, clause = "steel.compact", "flanges and web that do not fold", "AISC 360-16 Table B4.1b, G2.1"
    text = f"flange {flange:.1f} of {most:.1f}, web {web:.0f} of {stocky:.0f}"
    if flange <= most and web <= stocky:
        yield Check.keeps_rule(id, name, what, clause, text)
    else:
        question = ask("steel_engineer", name, why=f"Its flange or web is slender: {text}.")
        yield Check.refers(id, name, what, clause, f"slender: {text}", ask=question)


def _bending(of: _Rolled) -> Iterator[Check]:
    run, beam = of.run, of.run.beam
    loose = [seat for seat in run.seats if seat.support.restrained is None]
    asks = (ask_upright(beam, loose),) if loose else ()
    for top in (True, False):
        found = []
        for span in run.spans:
            low, s_low, high, s_high = run.solved.moments(span.start, span.end)
            moments, places = (np.maximum(high, 0.0), s_high) if top else (np.maximum(-low, 0.0), s_low)
            if float(np.max(moments)) >= SMALL:
                found.append(_of_span(of, span, moments, places, asks, top=top))
        if found:
            yield worst_of(found)


def _of_span(of: _Rolled, span: Span, moments: Array, places: Array, asks: tuple, *, top: bool) -> Check:  # type: ignore[type-arg]
    run, p = of.run, of.section.plates
    held = bracing_of(run.beam, run.size, of.section, span, run.solved.loads, simple=run.simple, top=top)
    L_b = 0.0 if held.held else float(held.l_u)
    what = "bending" if top else "bending with the bottom edge pressed"
    where = f"from {show(span.start, 'length')} to {show(span.end, 'length')}"
    id = "beam.bending" if top else "beam.bending.below"
    criterion = Criterion(run.beam.name, what, f"{AISC} F2", "moment", where, (EVEN,), id=id, ask=asks)

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        note = "" if isinstance(which, slice) else f"from the analysis, at {show(float(places[which]), 'length')}"
        M = pad.take("M", at(moments, which), "lbf*in", note=note)
        F_y, E = of.F_y(pad), of.E(pad)
        Z_x = pad(rolled.shape_plastic_modulus, **p)
        S_x, I_y = of.section.modulus(pad), pad(rolled.shape_inertia_weak, **p)
        J, A = pad(rolled.shape_torsion, **p), of.section.area(pad)
        h_o = pad.take("h_o", p["d"] - p["t_f"], "in", note="between the middles of the flanges")
        r_y, r_ts = pad(rolled.weak_radius, I_y=I_y, A=A), pad(rolled.torsion_radius, I_y=I_y, h_o=h_o, S_x=S_x)
        braced = pad.take("L_b", L_b, "in", note=held.why)
        L_p = pad(rolled.plastic_length, r_y=r_y, E_steel=E, F_y=F_y)
        L_rs = pad(rolled.elastic_length, r_ts=r_ts, E_steel=E, F_y=F_y, J=J, S_x=S_x, h_o=h_o)
        twist = {"E_steel": E, "r_ts": r_ts, "J": J, "S_x": S_x, "h_o": h_o}
        F_cr = pad(rolled.lateral_buckling_stress, L_b=max(braced, L_p), **twist)
        M_a = pad(rolled.shape_bending, F_y=F_y, Z_x=Z_x, S_x=S_x, L_b=braced, L_p=L_p, L_rs=L_rs, F_cr=F_cr)
        return Outcome(M, M_a, M / M_a)

    return govern(criterion, run.solved.combinations, calculate)


def _shear(of: _Rolled) -> Check:
    run, p = of.run, of.section.plates
    low, _, high, _ = run.solved.shears(0.0, run.solved.length)
    V_all = np.maximum(np.abs(low), np.abs(high))
    criterion = Criterion(run.beam.name, "shear", f"{AISC} G2.1", "force", id="beam.shear")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        V = pad.take("V", at(V_all, which), "lbf", note="largest anywhere, from the analysis")
        V_a = pad(rolled.web_shear, F_y=of.F_y(pad), d=p["d"], t_web=p["t_web"])
        return Outcome(V, V_a, V / V_a)

    return govern(criterion, run.solved.combinations, calculate)


# ---- forces on a flange -----------------------------------------------------------------------------------------


def _at_seat(of: _Rolled, seat: Seat, context: Context) -> Iterator[Check]:
    """The web over a seat, the flange over it, the wood under it, and all that is asked of every end."""
    run, beam = of.run, of.run.beam
    pressing = np.maximum(run.solved.pressing(seat.index), 0.0)
    yield from end_checks(beam, run.solved, seat, context)
    under = context.under(seat.support.on)
    if isinstance(under, Existing):
        yield from enough(beam.name, f"what {under.name} takes", under, run.solved.combinations, pressing, seat.where)
    if float(np.max(pressing)) <= negligible() or seat.support.holds == "hung":
        return
    if seat.support.bearing is None:
        text = "the seat's length is not given"
        what = f"bearing at {seat.name}"
        yield Check.refers(
            "beam.bearing", beam.name, what, f"{AISC} J10", text, ask=ask_seat(beam, seat), where=seat.where
        )
        return
    contact = contact_of(beam, seat, of.section, context)
    yield from _web(of, seat.name, seat.where, pressing, contact.l_b)
    yield _flange(of, seat, pressing, float(contact.b), float(contact.l_b))
    for text, question in contact.doubts:
        size = f"size of the seat at {seat.name}"
        yield Check.refers("beam.seat_size", beam.name, size, f"{AISC} J10", text, ask=question, where=seat.where)
    shortest = f"least seat length at {seat.name}"
    yield from least_seat(beam.name, shortest, seat.support.bearing, under, "IRC R502.6 (memory)", where=seat.where)
    if seat.support.holds == "rests":
        yield from wood_under(
            beam.name, run.solved.combinations, pressing, contact.b, contact.l_b, under, context, where=seat.where
        )


def _web(of: _Rolled, what: str, where: str, forces: Array, l_b: float) -> Iterator[Check]:
    """The web under a force on a flange, as near an end: away from the ends it carries more."""
    run, p = of.run, of.section.plates
    yielding = Criterion(run.beam.name, f"web yields at {what}", f"{AISC} J10.2", "force", where, id="steel.web")
    folding = Criterion(run.beam.name, f"web folds at {what}", f"{AISC} J10.3", "force", where, id="steel.web")

    def yields(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(forces, which), "lbf")
        k = pad.take("k_des", p["t_f"], "in", note="the flange alone; its fillet is left out")
        R_a = pad(rolled.web_yielding, F_y=of.F_y(pad), t_web=p["t_web"], k_des=k, l_b=l_b)
        return Outcome(P, R_a, P / R_a)

    def folds(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(forces, which), "lbf")
        R_a = pad(
            rolled.web_crippling, F_y=of.F_y(pad), E_steel=of.E(pad), d=p["d"], t_f=p["t_f"], t_web=p["t_web"], l_b=l_b
        )
        return Outcome(P, R_a, P / R_a)

    yield govern(yielding, run.solved.combinations, yields)
    yield govern(folding, run.solved.combinations, folds)


def _flange(of: _Rolled, seat: Seat, forces: Array, b: float, l_b: float) -> Check:
    """The flange stands out beyond the web over a seat that presses evenly on it."""
    run, p = of.run, of.section.plates
    what = f"flange over {seat.name}"
    criterion = Criterion(run.beam.name, what, f"{AISC} F11", "small length", seat.where, id="steel.flange")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        R = pad.take("R", at(forces, which), "lbf", note="reaction, from the analysis")
        pressure = pad(br.bearing_stress, symbol="p_seat", R=R, b=b, l_b=l_b)
        n_out = pad.take("n_out", 0.5 * (min(b, p["b_f"]) - p["t_web"]), "in", note="beyond the web")
        need = pad(rolled.flange_over_seat, p_seat=pressure, n_out=n_out, F_y=of.F_y(pad))
        return Outcome(need, p["t_f"], need / p["t_f"])

    return govern(criterion, run.solved.combinations, calculate)


def _forces_on_top(of: _Rolled, context: Context) -> Iterator[Check]:
    """Point loads on the top flange: the web under them, and its swaying where the lower flange is free."""
    solved = of.run.solved
    for unsaid in {(load.what, load.entry): load for load in solved.loads if load.applied == "unknown"}.values():
        yield unsaid_entry(of.run.beam, unsaid)
    points = [load for load in solved.loads if load.is_point and load.applied in ("top", "unknown")]
    for x, what in dict.fromkeys((load.start, load.what) for load in points):
        here = [load for load in points if (load.start, load.what) == (x, what)]
        forces = of.run.solved.whole_force(here)
        lengths = [load.bearing for load in here if load.bearing]
        name = what.removeprefix("from ") or "a point load"
        where = "anywhere" if any(load.moves for load in here) else show(x, "length")
        if len(lengths) < len(here):
            text, asks = "the size of its seat is not given", seat_asks(of.run.beam, context, here)
            title = f"seat of {name} on the top"
            yield Check.refers("beam.load_seat", of.run.beam.name, title, f"{AISC} J10", text, ask=asks, where=where)
        else:
            yield from _web(of, name, where, forces, min(lengths))
        yield from _sways(of, name, where, forces)


def _sways(of: _Rolled, name: str, where: str, forces: Array) -> Iterator[Check]:
    run, p, silent = of.run, of.section.plates, SilentPad()
    longest = max(span.length for span in run.spans)
    h = p["d"] - 2.0 * p["t_f"]
    slender = float(rolled.web_over_flange(h_web=h, t_web=p["t_web"], L_b=longest, b_f=p["b_f"]))
    if slender > SIDEWAYS_ENDS:
        return
    low, _, high, _ = run.solved.moments(0.0, run.solved.length)
    M = float(np.max(np.maximum(np.abs(low), np.abs(high))))
    elastic = of.steel.F_y * float(of.section.modulus(silent)) > 1.5 * M
    criterion = Criterion(run.beam.name, f"web sways under {name}", f"{AISC} J10.4", "force", where, id="steel.web")

    def calculate(pad: Pad, which: int | slice) -> Outcome:
        P = pad.take("P", at(forces, which), "lbf")
        C = pad.take("C_sway", 960e6 if elastic else 480e6, "psi", note="below first yield" if elastic else "beyond it")
        h_web = pad.take("h_web", h, "in", note="between the flanges")
        L_b = pad.take("L_b", longest, "in", note="the lower flange is free from support to support")
        r = pad(rolled.web_over_flange, h_web=h_web, t_web=p["t_web"], L_b=L_b, b_f=p["b_f"])
        R_a = pad(rolled.web_sidesway, C_sway=C, t_web=p["t_web"], t_f=p["t_f"], h_web=h_web, slender_web=r)
        return Outcome(P, R_a, P / R_a)

    yield govern(criterion, run.solved.combinations, calculate)


def _for_an_engineer(of: _Rolled, stock: Stock) -> Iterator[Check]:
    """What is not run for steel."""
    beam = of.run.beam
    aside = sorted({load.what for load in of.run.solved.loads if load.applied in ("side", "below", "rod")})
    for text in (
        f"{', '.join(aside)}: what is fastened to the web or hangs below needs a connection" if aside else "",
        "cuts and holes in a steel beam are not run here" if beam.cuts else "",
        "what a fire does to steel is not run here" if beam.fire is not None else "",
    ):
        if text:
            question = ask("steel_engineer", beam.name, why=f"{text[0].upper()}{text[1:]}.")
            yield Check.refers("steel.engineer", beam.name, "for an engineer of steel", AISC, text, ask=question)
