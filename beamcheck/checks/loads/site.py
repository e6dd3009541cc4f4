"""Whether loads that follow from the site may be believed: what is not said of the place, what is stated below it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...analysis.site.areas import Areas
from ...analysis.site.roofs import beyond_envelope, sheds_warm
from ...model.beams import Beam
from ...model.fields.evidence import doubt_in, vouched
from ...model.loads import FormedLoad
from ...model.roofs import Rafter
from ...model.site import OPEN_USES, FloorArea, RoofArea, Site
from ...units import show
from ...values.judgment import judgment
from ...values.loads import point_load_of, told
from ...values.species import folded
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check
from .entries import KIND_WORDS, as_it_is, path_of, psf
from .fits import beside_checks, covering_checks, fit_checks
from .given_areas import areas_on
from .layers import layer_checks
from .strips import local_rule_checks, strip_checks

_PSF = re.compile(r"(?<!\d)(\d+(?:\.\d+)?)\s*psf\b", re.IGNORECASE)
_CASE = re.compile(r"\bcase[ -]stud(?:y|ies)\b|\bCS\b|\bspecial (?:snow )?regions?\b", re.IGNORECASE)
ID, SNOW, WIND = "loads.site", "ASCE 7-16 chapter 7", "ASCE 7-16 chapters 26 to 30"
WHAT = "loads from the site"


def site_checks(piece: Beam | Rafter, areas: Areas) -> Iterator[Check]:
    """All that keeps the formed loads of a piece from being believed."""
    roofs, floors = areas_on(piece, areas)
    if areas.site is not None and (roofs or any(floor.outdoors for floor in floors)):
        yield from _ground_snow(piece, areas.site)
    for floor in floors:
        yield from layer_checks(piece, floor)
    for roof in roofs:
        yield from layer_checks(piece, roof)
        if areas.site is not None:
            yield from covering_checks(piece.name, roof)
            yield from _beside(piece, roof, areas.site)
            yield from beside_checks(piece, roof)
            yield from _open_below(piece, roof, areas.site)
            yield from _ice(piece, roof, areas.site)
    if isinstance(piece, Rafter):
        for roof in roofs:
            yield from fit_checks(piece, roof)
    if areas.site is not None and (roofs or floors):
        yield from local_rule_checks(piece, areas.site)
    yield from strip_checks(piece, areas)
    for floor in floors:
        yield from _point_load(piece, floor)
        yield from _outdoors(piece, floor)
    yield from _stated_less(piece)
    if roofs or floors:
        formed = [load for load in piece.carries if isinstance(load, FormedLoad) and not load.more]
        words = "; ".join(f"{load.what}: {_amounts(load)}" for load in formed)
        text = f"{words}; how they follow from the site and the layers stands in the design basis"
        yield Check.keeps_rule(ID, piece.name, WHAT, SNOW, text)


def _amounts(load: FormedLoad) -> str:
    return ", ".join(f"{KIND_WORDS[kind]} {show((value, 'area'), 'load')}" for kind, value in load.formed.items())


def _ground_snow(piece: Beam | Rafter, site: Site) -> Iterator[Check]:
    asked = []
    if not vouched(site.ground_snow_from, "structure") or _names_another(site.ground_snow_from, site.ground_snow[0]):
        asked.append(ask("site_snow_from", "site", "site.ground_snow_from"))
    if site.snow_edition is None and site.ground_snow[0] > 0.0:
        asked.append(ask("site_snow_edition", "site", "site.snow_edition"))
    if site.ground_snow[0] > 0.0 and site.risk_category == "I" and not vouched(site.risk_by, "structure"):
        text = "risk category I takes a fifth off the snow: who says that people are hardly ever in it?"
        category = [PlausibleAnswer("II, as houses are", (("site.risk_category", "II"),))]
        one = ask("site_risk", "site", "site.risk_by", answers=category)
        yield Check.refers(ID, piece.name, "risk category of the site", "ASCE 7-16 Table 1.5-1", text, ask=one)
    least, p_g = judgment("least ground snow").value, site.ground_snow[0]
    if 0.0 < p_g * 144.0 < least:
        answers = (f"{psf(p_g * judgment('psf in a kilopascal').value)}", "0 psf")
        text = f"{show(site.ground_snow, 'load')} of ground snow is less than maps give: is it in other units, or none?"
        one = ask("site_little_snow", "site", "site.ground_snow", answers=answers)
        yield Check.refers(ID, piece.name, "ground snow of the site", SNOW, text, ask=one)
    if found := _CASE.search(f"{site.ground_snow_from}; {site.local_rules}"):
        text = f"{found.group()!r}: where the map gives no value the department has to give the figure for the place"
        paper = "building department, letter no. 12 with the figure for this place"
        best = [PlausibleAnswer("a letter gives the figure", (("site.ground_snow_from", paper),))]
        one = ask("site_case_study", "site", "site.ground_snow_from", answers=best)
        yield Check.refers(ID, piece.name, "ground snow of the site", SNOW, text, ask=one)
    if asked:
        text = (
            f"{show(site.ground_snow, 'load')} of ground snow: who says so, and for which standard; values of 7-16, of "
            "7-22 (strength level) and of the residential code are not interchangeable"
        )
        yield Check.refers(ID, piece.name, "ground snow of the site", SNOW, text, ask=asked)


def _names_another(said: str, pressure: float) -> bool:
    """Whether a paper names figures in psf, and none of them is the one that is given."""
    named = [float(number) / 144.0 for number in _PSF.findall(said)]
    return bool(named) and not any(abs(one - pressure) <= 0.01 * pressure for one in named)


def _beside(piece: Beam | Rafter, roof: RoofArea, site: Site) -> Iterator[Check]:
    """Drift and sliding are formed where something is there; that nothing is there has to be said."""
    if site.ground_snow[0] <= 0.0:
        return
    asked = []
    if roof.higher is None:
        asked.append(ask("roof_higher", roof.name, f"roof.{roof.name}.higher"))
    if roof.slides_from is None:
        asked.append(ask("roof_slides", roof.name, f"roof.{roof.name}.slides_from"))
    if asked:
        text = f"{roof.name}: whether snow drifts or slides onto it from something higher is not said"
        yield Check.refers(ID, piece.name, f"snow beside {roof.name}", "ASCE 7-16 7.7 to 7.9", text, ask=asked)
    if roof.parapet > 0.0:
        text = f"{roof.name}: a drift behind its parapet is not placed on the pieces here"
        asked_one = ask("roof_parapet", piece.name, roof=roof.name)
        yield Check.refers(ID, piece.name, f"parapet of {roof.name}", "ASCE 7-16 7.8", text, ask=asked_one)


def _open_below(piece: Beam | Rafter, roof: RoofArea, site: Site) -> Iterator[Check]:
    """An open roof takes the safe envelope or the wind of a sheet; where neither holds, an engineer has to say."""
    if roof.wind is not None:
        if not vouched(roof.wind.by, "structure"):
            text = f"{roof.name}: whose wind pressures these are is not said"
            asked = ask("roof_wind_by", roof.name, f"roof.{roof.name}.wind.by")
            yield Check.refers(ID, piece.name, f"wind on {roof.name}", WIND, text, ask=asked)
        return
    reason = beyond_envelope(site, roof) if roof.below == "open air" else ""
    if reason and any(load.wind is not None for load in piece.carries):
        return  # its own wind, which is looked at with the others
    if reason:
        text = f"{roof.name} is open below, and the safe envelope for small open roofs does not hold: {reason}"
        asked = ask("roof_wind", piece.name, why=text)
        yield Check.refers(ID, piece.name, f"wind on {roof.name}", WIND, text, ask=asked)
    elif roof.below == "open air":
        slow = judgment("least basic wind speed")
        if site.speed < slow.value:
            now = f"{round(judgment('basic wind speed over an allowable one').value * site.speed):g} mph"
            text = f"{site.wind_speed} is slower than any basic wind speed of ASCE 7-16: an older or an allowable one?"
            asked = ask("site_wind_slow", "site", "site.wind_speed", answers=(now,))
            yield Check.refers(ID, piece.name, "wind speed of the site", "ASCE 7-16 26.5", text, ask=asked)
        if not vouched(site.wind_speed_from, "structure"):
            text = f"{site.wind_speed}: who says so is not said"
            asked = ask("site_wind_from", "site", "site.wind_speed_from")
            yield Check.refers(ID, piece.name, "wind speed of the site", WIND, text, ask=asked)
        else:
            text = f"{roof.name}: the safe envelope of open roofs, all over the roof at once, up and down"
            yield Check.keeps_rule(ID, piece.name, f"wind on {roof.name}", "ASCE 7-16 27.3.2", text)


def _ice(piece: Beam | Rafter, roof: RoofArea, site: Site) -> Iterator[Check]:
    """Snow that melts over a heated room freezes on the cold overhang: it is not added to the tail here (7.4.5)."""
    tail = piece.wall.at if isinstance(piece, Rafter) else 0.0
    if roof.below != "heated" or site.ground_snow[0] <= 0.0 or tail <= judgment("overhang that bears ice").value:
        return
    if sheds_warm(roof):
        return
    text = f"{roof.name} is heated below and not insulated to R-30 (R-20 vented): ice may build up on its overhang"
    path = f"roof.{roof.name}.insulation"
    asked = ask("roof_insulation", roof.name, path, answers=[PlausibleAnswer("R-30 or more", ((path, 30),))])
    yield Check.refers(ID, piece.name, f"ice at the eave of {roof.name}", "ASCE 7-16 7.4.5", text, ask=asked)


def _point_load(piece: Beam | Rafter, floor: FloorArea) -> Iterator[Check]:
    """A use whose point load may be worse than its load per area: as an entry of its own."""
    uses = {"stair": "stair tread", "garage": "garage"}
    if floor.use not in uses:
        return
    found = point_load_of(uses[floor.use])
    given = [load.live[0] for load in piece.carries if load.live is not None and load.live[1] == "point"]
    if max(given, default=0.0) >= found.value * (1.0 - 1e-9):
        return
    text = f"{floor.name}: {found.reason}; no such load stands among the loads of this piece"
    asked = ask("point_load_of_use", piece.name, load=show(found.value, "force"))
    yield Check.refers(ID, piece.name, f"point load of {floor.name}", found.source.document, text, ask=asked)


def _outdoors(piece: Beam | Rafter, floor: FloorArea) -> Iterator[Check]:
    """A deck has snow on it unless somebody says that it stands under a roof."""
    if floor.outdoors is None and folded(floor.use) in OPEN_USES:
        text = f"{floor.name} is a {floor.use}, and whether snow lies on it is not said"
        asked = ask("floor_outdoors", floor.name, f"floor.{floor.name}.outdoors")
        yield Check.refers(ID, piece.name, f"snow on {floor.name}", "ASCE 7-16 7.2", text, ask=asked)


def _allowed(kind: str, piece: Beam | Rafter, load: FormedLoad) -> bool:
    """Whether somebody who may allows less than the site gives; less weight needs only a reason."""
    reason = load.meant.get(kind) or piece.meant.get(kind) or ""
    roles = {one.says for one in told(reason, "role")}
    return bool(reason) and not doubt_in(reason) and (kind == "dead" or bool(roles & {"structure", "grade"}))


def _stated_less(piece: Beam | Rafter) -> Iterator[Check]:
    """A figure typed beside one that follows from the site, and smaller."""
    share = judgment("least of a stated load beside that of the site").value
    for load in piece.carries:
        if not isinstance(load, FormedLoad) or load.more:
            continue
        for kind, formed in load.formed.items():
            stated = getattr(load, kind)[0]
            if kind == "wind":
                continue
            least = formed if kind == "dead" else share * formed
            if stated >= least * (1.0 - 1e-6) or _allowed(kind, piece, load):
                continue
            field = f"{path_of(piece, load.entry)}.{kind}"
            text = (
                f"{load.what}: {KIND_WORDS[kind]} of {show((stated, 'area'), 'load')} is stated, and "
                f"{show((formed, 'area'), 'load')} follow from the site and the layers"
            )
            answers = [PlausibleAnswer(f"that of the site: {psf(formed)}", ((field, None),)),
                       as_it_is(piece, load.entry, kind, "the letter of the department allows less")]  # fmt: skip
            asked = ask("stated_under_site", piece.name, field, answers=answers, kind=KIND_WORDS[kind])
            yield Check.refers(ID, piece.name, f"{KIND_WORDS[kind]} beside that of the site", WHAT, text, ask=asked)
