"""From the checks of one piece to its result: words, tables, drawing, and what it hands to the pieces below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from ..analysis.carried import Arrival
from ..analysis.loading import KINDS, Applied
from ..model.pieces import Beam, Load, Post, Rafter, Stick, Stock, Tie
from ..units import show
from ..values.lumber import DesignValues, read_size
from .advise import beam_remedies
from .beam import BeamRun, beam_length, check_beam
from .context import Around
from .demand import stated
from .figure import kind_words, load_words, roof_figure, straight_figure
from .post import check_post
from .result import Check, Figure, PieceResult, Table, worst
from .roof import check_roof, stick_of
from .screen import screen, screening_woods
from .wood import Sharing, Wood, is_unknown, reference_values, wood_of

GENERAL = (
    "Allowable values already include the safety of the standard; none is added and none is taken off.",
    "Own weight is always counted.",
)
SEATS = (
    "`at` is the middle of a seat; spans run from middle to middle, which is not less than the span of NDS 2018 3.2.1."
)
SHEAR_SAG = "Deflection includes shear with G = E/16 (common practice) on the tabulated E, which is on the safe side."


@dataclass(frozen=True)
class Reactions:
    """What a piece puts on the pieces below it. `rows`: (support, forces by kind, largest, least) in lbf."""

    name: str
    rows: tuple[tuple[str, dict[str, tuple[float, float]], float, float], ...] = ()
    arrivals: tuple[tuple[str, Arrival], ...] = ()


@dataclass
class _Draft:
    """A result in the making."""

    name: str
    kind: str
    title: str
    checks: list[Check] = field(default_factory=list)
    inputs: list[tuple[str, str]] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    assumptions: list[str] = field(default_factory=list)
    remedies: tuple[str, ...] = ()
    figure: Figure | None = None

    def done(self) -> PieceResult:
        return PieceResult(
            self.name, self.kind, self.title, worst(check.verdict for check in self.checks), tuple(self.checks),
            tuple(self.inputs), tuple(self.tables), tuple(dict.fromkeys(self.assumptions)), self.remedies, self.figure,
        )  # fmt: skip


def beam_result(beam: Beam, around: Around) -> tuple[PieceResult, Reactions]:
    """Check a beam."""
    stock = around.stock(beam.stock)
    draft = _Draft(beam.name, "beam", f"{_wood_words(stock)}, {show(beam_length(beam), 'length')}")
    draft.inputs = [*_stock_inputs(stock, beam), *_beam_inputs(beam)]
    sharing = Sharing(beam.members, beam.spacing or 0.0, bool(beam.shared_by.strip()))

    def make(values: DesignValues) -> Wood:
        return wood_of(stock, values, laid=beam.laid, sharing=sharing)

    if is_unknown(stock):
        draft.checks, table, screened = screen(beam.name, stock, make, lambda wood: check_beam(beam, wood, around)[1])
        draft.tables.append(table)
        wood = max((one for _, one in screening_woods(stock, make)), key=lambda one: float(one.density))
        run, _ = check_beam(beam, wood, around)
    else:
        wood = make(reference_values(stock))
        run, draft.checks = check_beam(beam, wood, around)
        draft.remedies = beam_remedies(beam, stock, make, around, draft.checks)
    draft.checks += _unknown_arrivals(beam.name, around)
    draft.assumptions = [*wood.notes, SEATS, SHEAR_SAG, *GENERAL]
    if run is None:
        below = tuple((support.on, Arrival(beam.name, {}, unknown=True)) for support in beam.supports)
        return draft.done(), Reactions(beam.name, (), below)
    _beam_tables(draft, run)
    supports = [(support.at, support.on, support.holds) for support in beam.supports]
    draft.figure = straight_figure(run.straight, float(run.section.d), supports, run.regions, float(wood.K_cr.value))
    return draft.done(), _beam_reactions(run)


def _beam_reactions(run: BeamRun) -> Reactions:
    rows, below = [], []
    for index, support in enumerate(run.beam.supports):
        by_kind = run.straight.reaction_by_kind(index)
        combined = run.straight.reactions(index)
        rows.append((support.on, by_kind, float(np.max(combined)), float(np.min(combined))))
        on_top = support.holds == "rests"
        arrival = Arrival(
            run.beam.name, by_kind, at=support.lands_at, applied="top" if on_top else "side",
            bearing=float(run.section.b) if on_top else None,
        )  # fmt: skip
        below.append((support.on, arrival))
    return Reactions(run.beam.name, tuple(rows), tuple(below))


def post_result(post: Post, around: Around) -> tuple[PieceResult, Reactions]:
    """Check a post."""
    stock = around.stock(post.stock)
    draft = _Draft(post.name, "post", f"{_wood_words(stock)} post, {show(post.height, 'length')} high")
    draft.inputs = [
        *_stock_inputs(stock, None), ("height", show(post.height, "length")), ("stands on", post.on),
        ("top", post.top_restraint), ("foot", post.base_restraint),
        ("load off centre", "not given" if post.eccentricity is None else show(post.eccentricity, "length")),
    ]  # fmt: skip

    def make(values: DesignValues) -> Wood:
        return wood_of(stock, values)

    if is_unknown(stock):
        draft.checks, table, _ = screen(post.name, stock, make, lambda wood: check_post(post, wood, around)[1])
        draft.tables.append(table)
        wood = max((one for _, one in screening_woods(stock, make)), key=lambda one: float(one.density))
        run, _ = check_post(post, wood, around)
    else:
        wood = make(reference_values(stock))
        run, draft.checks = check_post(post, wood, around)
    draft.checks += _unknown_arrivals(post.name, around)
    draft.assumptions = [*wood.notes, *GENERAL]
    if run is None:
        return draft.done(), Reactions(post.name, (), ((post.on, Arrival(post.name, {}, unknown=True)),))
    draft.tables.append(_loads_table(run.loads))
    draft.tables.append(_forces_table([c.name for c in run.combinations], run.C_D, {"P": (run.P, "force")}))
    by_kind = run.by_kind()
    arrival = Arrival(post.name, by_kind, at=post.lands_at, applied="top", bearing=float(run.section.d))
    row = (post.on, by_kind, float(np.max(run.P)), float(np.min(run.P)))
    return draft.done(), Reactions(post.name, (row,), ((post.on, arrival),))


def roof_results(rafter: Rafter, around: Around) -> list[tuple[PieceResult, Reactions]]:
    """Check a rafter and its tie, which are one frame."""
    stock = around.stock(rafter.stock)
    named = around.under(rafter.tie) if rafter.tie else None
    tie = named if isinstance(named, Tie) and rafter.ridge == "board" else None
    tie_stock = around.stock(tie.stock) if tie is not None else None
    draft = _Draft(rafter.name, "rafter", f"{_wood_words(stock)} rafter, run {show(rafter.run, 'length')}")
    draft.inputs = [*_stock_inputs(stock, rafter), *_rafter_inputs(rafter)]
    other = (
        _Draft(tie.name, "tie", f"{_wood_words(tie_stock)} tie") if tie is not None and tie_stock is not None else None
    )
    if other is not None and tie is not None and tie_stock is not None:
        other.inputs = [*_stock_inputs(tie_stock, tie), ("height above the wall", show(tie.height, "length"))]
    unknown = [one for one in (stock, tie_stock) if one is not None and is_unknown(one)]
    if unknown:
        for one in filter(None, (draft, other)):
            one.checks = [stated(one.name, "wood of unknown grade", "IRC R502.1", "refer",
                                 f"the wood of stock {unknown[0].name!r} is not known; a grader or engineer must say what it is")]  # fmt: skip
        below = [(rafter.wall.on, Arrival(rafter.name, {}, unknown=True))]
        below += [(rafter.ridge_on, Arrival(rafter.name, {}, unknown=True))] if rafter.ridge_on else []
        found = [(draft.done(), Reactions(rafter.name, (), tuple(below)))]
        return [*found, *([(other.done(), Reactions(other.name))] if other else [])]
    sharing = Sharing(rafter.members, rafter.spacing, bool(rafter.shared_by.strip()))
    wood = wood_of(stock, reference_values(stock), laid=rafter.laid, sharing=sharing)
    tie_wood = (
        wood_of(tie_stock, reference_values(tie_stock), laid=tie.laid)
        if tie is not None and tie_stock is not None
        else None
    )
    run, draft.checks, tie_checks = check_roof(rafter, wood, tie, tie_wood, around)
    draft.assumptions = [*wood.notes, SHEAR_SAG, *GENERAL,
                         "The frame is one pair: hinges at ridge, walls and tie; vertical loads on plan unless measured on the slope."]  # fmt: skip
    if run is None:
        return [(draft.done(), Reactions(rafter.name, (), ((rafter.wall.on, Arrival(rafter.name, {}, unknown=True)),)))]
    names, combos = [c.name for c in run.combinations], run.C_D
    line = run.rafter_line()
    draft.tables.append(_roof_loads(rafter, rafter.carries))
    draft.tables.append(_line_forces(names, combos, line))
    wood_stick = stick_of(rafter, wood, around)
    dead = np.array([float(wood.K_cr.value) if case.kind == "D" else 1.0 for case in run.cases])
    bent = run.solution.combine(run.factors * dead)
    supports = [(run.tail, rafter.wall.on, "rests"), (float(line.length), rafter.ridge_on or "ridge", "rests")]
    draft.figure = roof_figure(
        run, line, type(line)(bent, run.left_bars), float(wood_stick.section.d), rafter.slope, supports, ()
    )
    up = run.wall_reactions()[:, 1]
    by_kind = run.by_kind(far=False)
    rows = [(rafter.wall.on, by_kind, float(np.max(up)), float(np.min(up)))]
    below = [(rafter.wall.on, Arrival(rafter.name, by_kind, spread=rafter.spacing))]
    if rafter.ridge_on:
        far = run.by_kind(far=True)
        top = run.combined.reactions[..., run.far_support, 1]
        rows.append((rafter.ridge_on, far, float(np.max(top)), float(np.min(top))))
        sides = 2.0 if rafter.pair else 1.0
        both = {kind: (sides * high, sides * low) for kind, (high, low) in far.items()}
        below.append((rafter.ridge_on, Arrival(rafter.name, both, spread=rafter.spacing)))
    found = [(draft.done(), Reactions(rafter.name, tuple(rows), tuple(below)))]
    if other is not None and tie is not None and tie_wood is not None:
        other.checks = tie_checks
        other.assumptions = [*tie_wood.notes, SHEAR_SAG, *GENERAL]
        other.tables = [_roof_loads(rafter, tie.carries), _line_forces(names, combos, run.tie_line())]
        tie_bent = type(line)(bent, run.tie_bars)
        stick = stick_of(tie, tie_wood, around)
        ends = [(0.0, rafter.name, "hung"), (float(run.tie_line().length), rafter.name, "hung")]
        other.figure = roof_figure(run, run.tie_line(), tie_bent, float(stick.section.d), 0.0, ends, ())
        found.append((other.done(), Reactions(tie.name)))
    return found


def _unknown_arrivals(name: str, around: Around) -> list[Check]:
    """Loads that were not worked out, or that arrive at no known place, keep a piece from passing."""
    found = []
    for arrival in around.arrivals:
        if (
            not arrival.unknown
            and arrival.at is None
            and arrival.spread is None
            and isinstance(around.under(name), Beam)
        ):
            found.append(stated(name, f"place of {arrival.from_piece}", "load path", "refer",
                                f"where {arrival.from_piece} lands is not given; midspan is taken (`lands_at`)"))  # fmt: skip
        if arrival.unknown:
            found.append(stated(name, f"load from {arrival.from_piece}", "load path", "refer",
                                f"{arrival.from_piece} could not be worked out, so its load here is not known"))  # fmt: skip
    return found


def _wood_words(stock: Stock) -> str:
    return f"{stock.size} {stock.species} {stock.grade}"


def _stock_inputs(stock: Stock, stick: Stick | None) -> list[tuple[str, str]]:
    size = read_size(stock.size)
    if size.surface == "round":
        actual = f"{show(size.d, 'length')} diameter"
    else:
        actual = f"{show(size.b, 'length')} x {show(size.d, 'length')}"
    rows = [
        ("stock", stock.name), ("size as named", stock.size), ("size counted", actual),
        ("size class", size.size_class.replace("_", " ")), ("species", stock.species), ("grade", stock.grade),
        ("grade comes from", stock.grade_from or "not said"), ("evidence", stock.evidence or "none given"),
        ("moisture", stock.moisture + (f", metered at {stock.measured_moisture:g} %" if stock.measured_moisture else "")),
        ("treatment", ", ".join(filter(None, ("treated" if stock.treated else "", "incised" if stock.incised else ""))) or "none"),
    ]  # fmt: skip
    if stock.values is not None:
        rows.append(("design values", f"given: {stock.values.source}"))
    if stick is not None:
        held = stick.top_held if isinstance(stick.top_held, str) else f"every {show(stick.top_held, 'length')}"
        below = (
            stick.bottom_held if isinstance(stick.bottom_held, str) else f"every {show(stick.bottom_held, 'length')}"
        )
        rows += [
            ("plies", str(stick.plies)), ("laid", stick.laid), ("top edge held", held), ("bottom edge held", below),
            ("finish that cracks", stick.finish),
        ]  # fmt: skip
        if stick.limit_why:
            rows.append(("own deflection limits", stick.limit_why))
        if stick.members > 1:
            rows.append(
                ("shares load", f"{stick.members} members at {show(stick.spacing or 0.0, 'length')}: {stick.shared_by}")
            )
        rows += [("cut", f"{cut.kind}, {show(cut.depth, 'length')} at {show(cut.at, 'length')}") for cut in stick.cuts]
    return rows


def _beam_inputs(beam: Beam) -> list[tuple[str, str]]:
    rows = [("length", show(beam_length(beam), "length")), ("service", beam.service)]
    for index, support in enumerate(beam.supports):
        seat = f", seat {show(support.bearing, 'length')}" if support.bearing else ", seat not given"
        upright = {True: ", held upright", False: ", not held upright", None: ""}[support.restrained]
        rows.append(
            (f"support {index + 1}", f"{support.holds} on {support.on} at {show(support.at, 'length')}{seat}{upright}")
        )
    return rows


def _rafter_inputs(rafter: Rafter) -> list[tuple[str, str]]:
    return [
        ("run", show(rafter.run, "length")), ("slope", show(rafter.slope, "slope")),
        ("spacing", show(rafter.spacing, "length")), ("ridge", rafter.ridge),
        ("upper end on", rafter.ridge_on or "the opposite rafter"), ("wall", rafter.wall.on),
        ("tie", rafter.tie or "none"), ("seat cut", show(rafter.seat_cut, "length") if rafter.seat_cut else "not given"),
    ]  # fmt: skip


def _beam_tables(draft: _Draft, run: BeamRun) -> None:
    straight = run.straight
    draft.tables.append(_loads_table(straight.loads))
    rows = []
    for index, support in enumerate(run.beam.supports):
        by_kind, combined = straight.reaction_by_kind(index), straight.reactions(index)
        rows.append((support.on, *(_range(by_kind.get(kind)) for kind in KINDS),
                     show(float(np.max(combined)), "force"), show(float(np.min(combined)), "force")))  # fmt: skip
    heads = ("support", *KINDS, "largest", "least")
    draft.tables.append(
        Table(
            "Reactions, up on the piece",
            heads,
            tuple(rows),
            "by kind unfactored; largest and least over all combinations",
        )
    )
    names = [combination.name for combination in straight.combinations]
    draft.tables.append(_line_forces(names, straight.C_D, straight.combined.line))


def _range(found: tuple[float, float] | None) -> str:
    if found is None:
        return "–"
    high, low = found
    if low < 0.0 < high or (low < 0.0 and high == 0.0):
        return f"{show(high, 'force')} to {show(low, 'force')}"
    return show(high, "force")


def _loads_table(loads: Sequence[Applied]) -> Table:
    rows = tuple(
        (load.what, kind_words(load), load_words(load).rpartition(", ")[2],
         show(load.start, "length") if load.is_point else f"{show(load.start, 'length')} to {show(load.end, 'length')}",
         load.applied if load.what != "self weight" else "–")
        for load in loads
    )  # fmt: skip
    return Table("Loads as they act", ("what", "kind", "amount", "where", "applied"), rows)


def _roof_loads(rafter: Rafter, entries: Sequence[Load]) -> Table:
    rows = []
    for load in entries:
        for field_ in ("dead", "live", "roof_live", "snow", "wind"):
            amount = getattr(load, field_)
            if amount is not None:
                along = "square to the slope" if field_ == "wind" else (
                    "along the slope" if field_ == "dead" and load.measured != "plan" else "on plan")  # fmt: skip
                rows.append((load.what, field_.replace("_", " "), show(amount, "load"), along,
                             show(load.width or rafter.spacing, "length") if amount[1] == "area" else "–"))  # fmt: skip
    note = "own weight is added; snow and roof live load on plan; a dead load not said to be on plan counts along the slope"
    return Table("Loads as given", ("what", "kind", "amount", "measured", "width"), tuple(rows), note)


def _line_forces(names: Sequence[str], C_D: np.ndarray, line) -> Table:  # type: ignore[no-untyped-def]
    M_low, _, M_high, _ = line.extremes("M")
    V_low, _, V_high, _ = line.extremes("V")
    N_low, _, N_high, _ = line.extremes("N")
    columns: dict[str, tuple[np.ndarray, str]] = {
        "V": (np.maximum(np.abs(V_low), np.abs(V_high)), "force"),
        "M, bottom pulled": (np.maximum(M_high, 0.0), "moment"),
        "M, top pulled": (np.maximum(-M_low, 0.0), "moment"),
    }
    if float(np.max(np.abs(N_low))) > 1.0 or float(np.max(np.abs(N_high))) > 1.0:
        columns |= {"compression": (np.maximum(-N_low, 0.0), "force"), "tension": (np.maximum(N_high, 0.0), "force")}
    return _forces_table(names, C_D, columns)


def _forces_table(names: Sequence[str], C_D: np.ndarray, columns: dict[str, tuple[np.ndarray, str]]) -> Table:
    rows = tuple(
        (name, f"{float(C_D[i]):g}", *(show(float(values[i]), kind) for values, kind in columns.values()))
        for i, name in enumerate(names)
    )
    return Table("Forces under each combination", ("combination", "C_D", *columns), rows)
