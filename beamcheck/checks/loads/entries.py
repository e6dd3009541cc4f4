"""What is asked of the loads of a piece as they stand in the job file: which, of which kind, and whether meant."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.loads import Load, sort_of
from ...model.pieces import Beam, Post, Rafter, Tie
from ...values.judgment import judgment
from ..core.question import PlausibleAnswer

WHAT, CLAUSE = "loads as given", "IRC R301.5, ASCE 7-16 chapter 4"
SQUARE_FOOT = 144.0  # in2
KIND_WORDS = {"dead": "dead load", "live": "live load", "roof_live": "roof live load", "snow": "snow", "wind": "wind"}

Loaded = Beam | Rafter | Tie | Post


def path_of(piece: Loaded, index: int) -> str:
    """The place of a load in the job file; `index` counts from 0."""
    return f"{type(piece).__name__.casefold()}.{piece.name}.carries.{index + 1}"


def spread_entry(piece: Loaded) -> str | None:
    """The first load that is given per area and can take more kinds; None where there is none."""
    for index, load in enumerate(piece.carries):
        if sort_of(load) == "area" and load.measured != "slope":
            return path_of(piece, index)
    return None


def with_kind(piece: Loaded, kind: str) -> Iterator[tuple[int, Load]]:
    """The loads that hold that kind and are not said to be meant so."""
    for index, load in enumerate(piece.carries):
        if getattr(load, kind) is not None and not is_meant(kind, piece, load):
            yield index, load


def is_meant(field: str, piece: Loaded, load: Load) -> bool:
    """Said at the load itself or at the piece that carries it."""
    return load.insists_on(field) or piece.insists_on(field)


def of_area(load: Load, kind: str) -> float:
    """A load per area, lbf/in2; 0 where it is none."""
    amount = getattr(load, kind)
    return float(amount[0]) if amount is not None and amount[1] == "area" else 0.0


def psf(area: float) -> str:
    """A load per area as a job file writes it."""
    return f"{area * SQUARE_FOOT:.4g} psf"


def judged_load(name: str) -> float:
    """A load per area of `tables/judgment_loads.csv`, which has psf, in lbf/in2."""
    return judgment(name).value / SQUARE_FOOT


def moved(piece: Loaded, index: int, load: Load, kind: str, to: str, says: str) -> PlausibleAnswer:
    """The answer that a load is of another kind."""
    path = path_of(piece, index)
    together = of_area(load, kind) + of_area(load, to)
    return PlausibleAnswer(says, ((f"{path}.{to}", psf(together)), (f"{path}.{kind}", None)))


def as_it_is(piece: Loaded, index: int, field: str, says: str) -> PlausibleAnswer:
    """The answer that the figure is meant, with the reason that goes beside it."""
    return PlausibleAnswer(says, ((f"{path_of(piece, index)}.meant.{field}", says),))
