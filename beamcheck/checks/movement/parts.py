"""Covers, panels, bolt rows and plaster lines: the room that their movement needs, and the room that is left for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from ...calc.pad import Pad
from ...errors import BeamcheckError
from ...formulas.movement import shrinkage as rules
from ...model.conditions.air import Climate
from ...model.conditions.movement import Movement
from ...model.fields.evidence import read_evidence
from ...model.job import Job
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.conditions.moisture import has_shrinkage, shrinkage
from ...values.found import Found
from ...values.judgment import judgment
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check, PieceResult
from .air import Lives, lives_in
from .timber import GREEN, movement_table

CLAUSE = "Wood Handbook ch. 13"
MOVING = {"one edge": 1.0, "middle": 0.5, "both edges": 1.0}  # share of the size that moves away from where it is fixed


@dataclass(frozen=True)
class Part:
    """A part with its movement, inches without sign: as it dries and as it takes on water."""

    given: Movement
    shrinks: float
    swells: float
    pad: Pad
    words: str


def with_movement(result: PieceResult, job: Job) -> PieceResult:
    """The result of a piece with its own movement, and with the parts on it that must have room."""
    parts = [one for one in job.movement if one.on == result.name]
    if job.job.air is None and not parts:
        return result
    stock = _stock_of(result.name, job)
    table = None if stock is None else movement_table(stock, job.job.air)
    tables = (*result.tables, *([] if table is None else [table]))
    carries = any(one.name == result.name and one.role == "carries" for one in job.bracket)
    checks = [check for part in parts for check in part_checks(part, stock, job.job.air, carries=carries)]
    return replace(result, tables=tables).with_checks((*result.checks, *checks))


def _stock_of(name: str, job: Job) -> Stock | None:
    pieces: tuple[Any, ...] = (*job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim)
    named = next((getattr(one, "stock", None) for one in pieces if one.name == name), None)
    return next((stock for stock in job.stock if stock.name == named), None)


def part_checks(
    given: Movement, stock: Stock | None, climate: Climate | None, *, carries: bool = False
) -> Iterator[Check]:  # fmt: skip
    """What one part needs. `carries`: of a bracket, whether it is meant to carry."""
    name, species = given.on, given.species or (None if stock is None or stock.species == "unknown" else stock.species)
    if species is None or not has_shrinkage(species):
        asked = ask("movement_species", given.name, f"movement.{given.name}.species", of_wood=species or "not said")
        text = (
            f"{given.name}: how {species or 'wood that is not named'} shrinks is in no table; the most of all is taken"
        )
        yield Check.refers("movement.species", name, "wood that moves", CLAUSE, text, ask=asked)
    known, lives = species is not None and has_shrinkage(species), lives_in(climate)
    part = moved(given, species, lives)
    if given.kind == "bolt row":
        yield _bolts(part, least_moved(given, lives) if not known else part)
        return
    if given.kind == "bracket":
        yield _bracket(part, carries=carries)
        return
    if given.kind == "boxed cover" and given.fixed == "both edges":
        yield _looks(part, "boxed cover fixed at both edges", max(part.shrinks, part.swells), 0.0,
                     "it cannot move: it cracks, or its miters open; fix it at one edge")  # fmt: skip
        return
    if given.kind == "boxed cover" and stock is not None and stock.metered is not None:
        wet = judgment("moisture under a closed cover").value
        if stock.metered > wet:
            asked = ask("movement_wet_core", given.name, f"stock.{stock.name}.measured_moisture")
            text = f"the timber inside was metered at {stock.metered:g} %: closed in, it stays wet and decays"
            yield Check.refers("movement.core", name, "timber inside a cover", CLAUSE, text, ask=asked)
    if given.kind in ("seam cover", "panel"):
        reserve = judgment("lap that stays over a seam").value
        shows = f"the seam shows in the dry season; a lap of {_up(part.shrinks + reserve)} or more hides it"
        yield _looks(
            part, f"{given.kind}: what opens in the dry season", part.shrinks + reserve, given.lap, shows, "lap"
        )
    needed = max(part.swells, part.shrinks if given.kind == "plaster line" else 0.0)
    if needed > 0.0:
        leave = f"it presses, or pulls a crack: leave {_up(needed)} or more"
        yield _looks(part, f"{given.kind}: room", needed, given.room, leave)


def moved(given: Movement, species: str | None, lives: Lives) -> Part:
    """The movement of a part, written down; of wood that no table knows, that of the wood that moves most."""
    try:
        found = shrinkage(species, given.way)[0]
    except BeamcheckError:
        found = shrinkage(None, given.way)[0]
    return _moved(given, found, lives)


def least_moved(given: Movement, lives: Lives) -> Part:
    """The same of the wood that moves least: what fails even so, fails whatever the wood is."""
    return _moved(given, shrinkage(None, given.way)[-1], lives)


def _moved(given: Movement, found: Found[float], lives: Lives) -> Part:
    pad = Pad()
    S = pad.take("S_pct", found.value, "%", note=found.reason, source=found.source)
    D = pad.take("D_i", given.across * MOVING[given.fixed], "in", note=f"fixed at {given.fixed}")
    start = min(given.built_at, GREEN)
    dry = pad(rules.movement_exact, S_pct=S, M_i=start, M_f=lives.low, D_i=D)
    damp = pad(rules.movement_exact, S_pct=S, M_i=start, M_f=min(lives.high, GREEN), D_i=D)
    ends = f"{lives.low:.3g}" + ("" if lives.high == lives.low else f" to {lives.high:.3g}")
    words = f"from {given.built_at:g} % to {ends} % ({lives.why})"
    return Part(given, max(-float(dry), -float(damp), 0.0), max(float(damp), float(dry), 0.0), pad, words)


def _up(x: float) -> str:
    """A length rounded up to the next sixteenth."""
    return show(-(-x * 16.0 // 1.0) / 16.0, "length")


def _bolts(part: Part, least: Part) -> Check:
    """Steel keeps its bolts where they are: the wood between them must be able to move, or it splits.

    Room or wood that was not said never fails it: `least` is the part made of the wood that moves least.
    """
    given, needed = part.given, max(part.shrinks, part.swells)
    id, what, clause = "movement.bolts", f"wood between the bolts of {given.name}", "NDS 2018 12.5.1.3"
    limit = judgment("bolts across the grain on one plate").value
    notes = [f"{given.name}: {part.words}", f"slots {_up(needed)} longer than the bolts are thick, or separate plates"]
    notes.append("a row in slots carries nothing across the grain: the others have to")
    if given.across > limit:
        notes.append(f"rows over {show(limit, 'length')} apart on one plate need it shown (NDS 2018 12.5.1.3)")
    said, there = "room" in given.model_fields_set, given.room
    if needed > there and (not said or max(least.shrinks, least.swells) <= there):
        asked = (
            ask("movement_slot", given.name, f"movement.{given.name}.room", answers=[_up(needed)])
            if not said
            else ask("movement_species", given.name, f"movement.{given.name}.species", of_wood="not in the tables")
        )
        text = f"{show(needed, 'small length')} needed, " + (
            "what its holes and slots give is not said" if not said else f"{show(there, 'small length')} there"
        )
        return Check.refers(id, given.on, what, clause, text, *notes, ask=asked)
    return Check.of_ratio(id, given.on, what, clause, *notes, demand=needed, capacity=there, kind="small length",
                          steps=part.pad.steps)  # fmt: skip


def _bracket(part: Part, *, carries: bool) -> Check:
    """Wood between a bracket and what it stands under or against.

    One that carries hangs in the air once the wood has shrunk, and takes nothing until what is above comes down on it;
    one that must not carry is wedged in once the wood has swelled.
    """
    given, id, clause = part.given, "movement.bracket", CLAUSE
    if not carries:
        what, needed = "gap to a bracket", part.swells
        text = f"{given.name}: the wood closes it by {show(needed, 'small length')}; {part.words}"
        if needed <= 0.0:
            return Check.keeps_rule(id, given.on, what, clause, text)
        found = Check.of_ratio(id, given.on, what, clause, text, demand=needed, capacity=given.room,
                               kind="small length", steps=part.pad.steps)  # fmt: skip
        if found.holds:
            return found
        asked = ask("movement_gap", given.name, f"movement.{given.name}.room", answers=[_up(needed)], of_piece=given.on)
        return Check.refers(id, given.on, what, clause, f"{text}: leave {_up(needed)} or more", ask=asked)
    opens, what = part.shrinks, "bearing of a bracket as the wood dries"
    shows = judgment("gap over a bracket that carries").value
    text = f"{given.name}: a gap of {show(opens, 'small length')} opens; {part.words}"
    if opens <= shows:
        return Check.keeps_rule(id, given.on, what, clause, text)
    if _accepted(given):
        return Check.keeps_rule(id, given.on, what, clause, f"{text}; {given.accepted}")
    asked = ask("movement_shim", given.name, f"movement.{given.name}.accepted", gap=show(opens, "small length"))
    return Check.refers(id, given.on, what, clause, f"{text}; it carries nothing until it is shimmed tight", ask=asked)


def _accepted(given: Movement) -> bool:
    """Whether somebody accepts it in words; words that take it back, or name nobody, accept nothing."""
    read = read_evidence(given.accepted)
    return bool(given.accepted and read.who and not read.doubt)


def _looks(part: Part, what: str, needed: float, there: float, otherwise: str, field: str = "room") -> Check:
    """What only shows or cracks: never a matter of carrying, so it asks, and may be accepted in words."""
    given, id = part.given, "movement.room"
    text = f"{given.name}: {show(needed, 'small length')} needed, {show(there, 'small length')} there; {part.words}"
    found = Check.of_ratio(id, given.on, what, CLAUSE, text, demand=needed, capacity=there, kind="small length",
                           steps=part.pad.steps)  # fmt: skip
    if found.holds:
        return found
    if _accepted(given):
        return Check.keeps_rule(id, given.on, what, CLAUSE, f"{text}; accepted: {given.accepted}")
    path = f"movement.{given.name}"
    best = PlausibleAnswer("one edge", ((f"{path}.fixed", "one edge"),)) if given.fixed == "both edges" else (
        PlausibleAnswer(_up(needed), ((f"{path}.{field}", _up(needed)),))
    )  # fmt: skip
    at = best.sets[0][0]
    asked = ask("movement_accepted", given.name, at, answers=[best], what=what, otherwise=otherwise)
    return Check.refers(id, given.on, what, CLAUSE, f"{text}: {otherwise}", ask=asked)
