"""What is asked of the loads of a piece as they stand in the job file: which, of which kind, and whether meant."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.beams import Beam
from ...model.loads import FormedLoad, Load, sort_of
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...values.judgment import judgment
from ...values.loads import told
from ..core.asking.question import PlausibleAnswer

WHAT, CLAUSE = "loads as given", "IRC R301.5, ASCE 7-16 chapter 4"
SQUARE_FOOT = 144.0  # in2
KIND_WORDS = {"dead": "dead load", "live": "live load", "roof_live": "roof live load", "snow": "snow", "wind": "wind"}

Loaded = Beam | Rafter | Tie | Post


def path_of(piece: Loaded, index: int) -> str:
    """The place of a load in the job file; `index` counts from 0."""
    return f"{type(piece).__name__.casefold()}.{piece.name}.carries.{index + 1}"


def roof_entries(piece: Loaded) -> list[tuple[int, Load]]:
    """The loads that come from a roof: all of a piece of a roof; of a floor those whose words say so, people apart."""
    found = [(i, load) for i, load in enumerate(piece.carries) if not _beside(load)]
    return [(i, load) for i, load in found if is_of_a_roof(load)] if is_floor(piece) else found


def is_floor(piece: Loaded) -> bool:
    return isinstance(piece, Beam) and piece.service == "floor"


def is_of_a_roof(load: Load) -> bool:
    """Whether the words speak of a roof, and of no room or people under or on it."""
    if load.roof or load.floor:
        return load.roof is not None
    return bool(told(load.what, "roof")) and not told(load.what, "use") and not told(load.what, "people")


def spread_entry(piece: Loaded) -> str | None:
    """The first load that is given per area and can take more kinds; None where there is none."""
    for index, load in enumerate(piece.carries):
        if sort_of(load) == "area" and load.measured != "slope":
            return path_of(piece, index)
    return None


def roof_entry(piece: Loaded) -> str | None:
    """The same among the loads of a roof."""
    for index, load in roof_entries(piece):
        if sort_of(load) == "area" and load.measured != "slope":
            return path_of(piece, index)
    return None


def with_kind(piece: Loaded, kind: str) -> Iterator[tuple[int, Load]]:
    """The loads that hold that kind and are not said to be meant so."""
    for index, load in enumerate(piece.carries):
        if getattr(load, kind) is not None and not _beside(load) and not is_meant(kind, piece, load):
            yield index, load


def _beside(load: Load) -> bool:
    """Whether it is a drift, or wind the other way, beside an entry of the job file."""
    return isinstance(load, FormedLoad) and load.more


def formed(load: Load, kind: str) -> bool:
    """Whether that amount follows from the site."""
    return isinstance(load, FormedLoad) and (load.more or kind in load.formed)


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


def moved(piece: Loaded, index: int, load: Load, kind: str, to: str, says: str, least: float = 0.0) -> PlausibleAnswer:
    """The answer that a load is of another kind, and then at least so much."""
    path = path_of(piece, index)
    together = max(of_area(load, kind) + of_area(load, to), least)
    return PlausibleAnswer(says, ((f"{path}.{to}", psf(together)), (f"{path}.{kind}", None)))


def as_it_is(piece: Loaded, index: int, field: str, says: str) -> PlausibleAnswer:
    """The answer that the figure is meant, with the reason that goes beside it."""
    return PlausibleAnswer(says, ((f"{path_of(piece, index)}.meant.{field}", says),))
