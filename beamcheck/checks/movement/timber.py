"""What a timber does across its grain as it dries to where it lives: each side, at most and as expected."""

from __future__ import annotations

from ...errors import BeamcheckError
from ...formulas.movement import shrinkage as rules
from ...model.conditions.air import Climate
from ...model.stock import Stock
from ...records import dataclass
from ...units import show
from ...values.conditions.moisture import shrinkage
from ...values.judgment import judgment
from ...values.lumber import Size, read_size
from ..core.result import Table
from .air import Lives, lives_in

GREEN = 30.0  # percent: fiber saturation; over it nothing moves


@dataclass(frozen=True)
class Moves:
    """Change of one side, inches, smaller is negative: at most as it dries, as expected, and at most as it swells."""

    side: str
    size: float
    at_most: float
    expected: float
    swells: float


@dataclass(frozen=True)
class TimberMoves:
    """Both sides of a timber, the moisture it starts from and why, and how wide its checks may open."""

    start: float
    why: str
    lives: Lives
    sides: tuple[Moves, ...]
    check: float
    species: str


def starts_at(stock: Stock, size: Size) -> tuple[float, str]:
    """Moisture at the beginning: as metered, else on the safe side."""
    if stock.metered is not None:
        return min(stock.metered, GREEN), f"metered at {stock.metered:g} %"
    if stock.made in ("glulam", "composite") and stock.moisture == "dry":  # its wood is dried before it is glued
        glued = judgment("wettest glued laminated timber that counts as dry").value
        return glued, f"glued of dry wood, at {glued:g} % at most"
    thin = judgment("thickness that is dried as sold").value
    if stock.moisture == "dry" and size.b <= thin:
        return judgment("wettest wood that counts as dry").value, "sold dry, at 19 % at most"
    return GREEN, "not metered: as green, 30 %"


def change(S: float, M_i: float, M_f: float, D: float) -> float:
    """Wood Handbook eq. 13-3, in; both moistures no more than at fiber saturation."""
    return float(rules.movement_exact(S_pct=S, M_i=min(M_i, GREEN), M_f=min(M_f, GREEN), D_i=D))


def timber_moves(stock: Stock, climate: Climate | None) -> TimberMoves | None:
    """None where no table knows how its wood shrinks, or it is round."""
    try:
        size = read_size(stock.size)
        species = None if stock.species == "unknown" else stock.species
        S_T, S_R = shrinkage(species)[0].value, shrinkage(species, "radial")[0].value
    except BeamcheckError:
        return None
    if size.surface == "round":
        return None
    lives, (start, why) = lives_in(climate), starts_at(stock, size)
    sides = []
    for side, D in (("breadth", size.b), ("depth", size.d)):
        most, expected = change(S_T, start, lives.low, D), change(0.5 * (S_T + S_R), start, lives.mean, D)
        sides.append(Moves(side, D, min(most, 0.0), expected, max(change(S_T, start, lives.high, D), 0.0)))
    across = max(size.b, size.d)
    T, R = (change(S, start, lives.low, across) for S in (S_T, S_R))
    opens = float(rules.check_opening(Delta_t=max(-T, 0.0), Delta_R=min(max(-R, 0.0), max(-T, 0.0))))
    return TimberMoves(start, why, lives, tuple(sides), opens, species or "any species")


def movement_line(stock: Stock, climate: Climate | None) -> str:
    """One line for whoever builds: how much each side shrinks or swells."""
    moves = timber_moves(stock, climate)
    if moves is None:
        return "How this wood moves is in no table: leave room, and ask."
    parts = [
        f"{one.side} {show(one.size, 'length')} shrinks {show(-one.at_most, 'small length')} at most, "
        f"{show(max(-one.expected, 0.0), 'small length')} expected"
        + (f", swells {show(one.swells, 'small length')}" if one.swells > 0.0 else "")
        for one in moves.sides
    ]
    return (
        f"Movement from {moves.start:g} % ({moves.why}) to {moves.lives.low:.3g} to {moves.lives.high:.3g} % "
        f"({moves.lives.why}): {'; '.join(parts)}."
    )


def movement_table(stock: Stock, climate: Climate | None) -> Table | None:
    """The same as a table, for the sheet."""
    moves = timber_moves(stock, climate)
    if moves is None:
        return None
    rows = tuple(
        (one.side, show(one.size, "length"), show(one.at_most, "small length"), show(one.expected, "small length"),
         show(one.swells, "small length"))
        for one in moves.sides
    )  # fmt: skip
    note = (
        f"From {moves.start:g} % ({moves.why}) to {moves.lives.low:.3g} to {moves.lives.high:.3g} % "
        f"({moves.lives.why}), {moves.species}. At most: flat-sawn all through, the driest piece; expected: rings both "
        f"ways, the mean. Wood Handbook eq. 13-3 and Table 4-3. All checks on its faces together may open "
        f"{show(moves.check, 'small length')} at most: that is drying, no damage, unless one runs along bolts, from a "
        "notch or through to the other side. A big timber takes months to follow the air."
    )
    heads = ("side", "size", "shrinks at most", "expected", "swells at most")
    return Table("Movement across the grain", heads, rows, note)
