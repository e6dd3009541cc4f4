"""The roofs and floors whose loads a piece carries, and the tables that say how those loads follow from the site."""

from __future__ import annotations

from collections.abc import Iterator

from ...analysis.site.areas import Areas
from ...analysis.site.roofs import Formed
from ...model.beams import Beam
from ...model.job import Job
from ...model.roofs import Rafter
from ...model.site import FloorArea, RoofArea, Site
from ...units import show
from ...values.loader import rows
from ..core.result import Table

HEADS = ("what", "value", "rule", "how known")


def areas_on(piece: Beam | Rafter, areas: Areas) -> tuple[list[RoofArea], list[FloorArea]]:
    """Each once."""
    roofs = dict.fromkeys(load.roof for load in piece.carries if load.roof in areas.roofs)
    floors = dict.fromkeys(load.floor for load in piece.carries if load.floor in areas.floors)
    return [areas.roofs[name][0] for name in roofs if name], [areas.floors[name][0] for name in floors if name]


def site_rows(site: Site) -> Iterator[tuple[str, str]]:
    """The place, for the design basis."""
    yield "ground snow", f"{show(site.ground_snow, 'load')}, {site.snow_edition or 'standard not said'}"
    yield "ground snow from", site.ground_snow_from or "not said"
    yield "risk category", site.risk_category
    yield "surroundings", f"{site.surroundings or 'not said'} (wind exposure {site.exposure})"
    yield "wind speed", f"{site.wind_speed or 'not given'}{f', {site.wind_speed_from}' if site.wind_speed_from else ''}"
    for label, words in (("frost depth", site.frost_depth), ("local rules", site.local_rules)):
        if words:
            yield label, words


def area_tables(job: Job, areas: Areas) -> Iterator[Table]:
    """One table a roof or floor: every step from the site to its loads."""
    for roof, formed in areas.roofs.values():
        yield _table(f"Loads of {roof.name}, from the site", formed)
    for floor, formed in areas.floors.values():
        yield _table(f"Loads of {floor.name}, from its use and layers", formed)


def _table(title: str, formed: Formed) -> Table:
    kinds = {row["name"]: row["kind"] for row in rows("nomenclature")}
    means = {row["name"]: row["meaning"] for row in rows("nomenclature")}
    found = []
    for step in formed.steps:
        kind = kinds.get(step.symbol, "ratio")
        what = ": ".join(filter(None, (means.get(step.symbol, step.symbol), step.note)))
        known = step.source.how if step.source is not None else step.formula.known if step.formula else "given"
        rule = step.clause or (step.source.document if step.source is not None else "–")
        found.append((what, show(step.value, kind), rule, known))
    found += [(f"snow: {name}", show((value, "area"), "load"), "–", "derived") for name, value in formed.cases]
    dead, least = (show((value, "area"), "load") for value in (formed.dead, formed.least))
    words = [f"Dead load {dead} on plan, of which {least} are sure to stay; beams bear joists or rafters on top of it."]
    if formed.cases:
        words.append("At each place a piece carries the largest of the cases, which are never added up.")
    words += [f"{note.capitalize()}." for note in formed.notes]
    return Table(title, HEADS, tuple(found), " ".join(words))
