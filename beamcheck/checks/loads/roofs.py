"""Whether what is said to come onto a roof can be all: people who repair it, snow, and water that cannot run off."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Case
from ...model.evidence import vouched
from ...model.pieces import Beam, Rafter
from ...units import show
from ...values.judgment import judgment
from ...values.load_words import told
from ...values.weights import live_load
from ..core.context import Site
from ..core.question import PlausibleAnswer, ask
from ..core.result import Check
from .entries import WHAT, as_it_is, judged_load, moved, of_area, path_of, psf, spread_entry, with_kind

PONDING = "ASCE 7-16 8.4"


def roof_checks(piece: Beam | Rafter, site: Site, cases: Sequence[Case] = ()) -> Iterator[Check]:
    """What makes the loads of a roof look incomplete; each keeps it from passing."""
    arrives = any(case.kind in ("Lr", "S") and any(load.from_piece for load in case.loads) for case in cases)
    if not arrives:
        yield from _people_or_snow(piece)
    yield from _too_many_people(piece)
    yield from _little_snow(piece, site)
    yield from _higher(piece, site)
    yield from _water(piece)


def _people_or_snow(piece: Beam | Rafter) -> Iterator[Check]:
    """Men and material on the roof, where no snow is given that weighs as much."""
    ordinary, least = live_load("roof").value, judged_load("least roof live load")
    people = sum(of_area(load, kind) for load in piece.carries for kind in ("roof_live", "live"))
    snow = sum(of_area(load, "snow") for load in piece.carries)
    other = any(getattr(load, kind) is not None and not of_area(load, kind)
                for load in piece.carries for kind in ("roof_live", "live", "snow"))  # fmt: skip
    meant = any(load.insists_on("roof_live") for load in piece.carries) or piece.insists_on("roof_live")
    if other or meant or people >= least * (1.0 - 1e-9) or snow >= ordinary * (1.0 - 1e-9):
        return
    path, answers = spread_entry(piece), []
    if path:
        answers = [PlausibleAnswer(f"men and material: {psf(ordinary)}", ((f"{path}.roof_live", psf(ordinary)),))]
    question = (
        ask("roof_load", piece.name, f"{path}.roof_live", answers=answers) if path
        else ask("roof_load_by_engineer", piece.name)
    )  # fmt: skip
    if people or snow:
        given = " and ".join(f"{show((value, 'area'), 'load')} of {what}"
                             for value, what in ((people, "live load"), (snow, "snow")) if value)  # fmt: skip
        text = (
            f"{given} is little: a roof bears men and material of {show((ordinary, 'area'), 'load')}, reduced "
            f"at the most to {show((least, 'area'), 'load')}, where no such snow lies on it"
        )
    else:
        text = "neither snow nor roof live load is given, and a roof has one or the other"
    yield Check.refers("loads.roof", piece.name, WHAT, "ASCE 7-16 4.8, Table 4.3-1", text, ask=question)


def _too_many_people(piece: Beam | Rafter) -> Iterator[Check]:
    """More roof live load than repairs bring is people who stay there: live load, with its duration."""
    ordinary = live_load("roof").value
    for index, load in with_kind(piece, "roof_live"):
        stay = told(load.what, "gathering")
        given = load.roof_live
        if given is None or (not stay and of_area(load, "roof_live") <= ordinary * (1.0 + 1e-9)):
            continue
        words = f"{stay[0].words!r} is {stay[0].says}" if stay else "that is more than men who repair it"
        text = f"{load.what}: roof live load of {show(given, 'load')}; {words}"
        answers = [moved(piece, index, load, "roof_live", "live", "people stay there: live load"),
                   as_it_is(piece, index, "roof_live", "only for repairs, by the local code")]  # fmt: skip
        question = ask("roof_terrace", piece.name, f"{path_of(piece, index)}.roof_live", answers=answers,
                       load=load.what)  # fmt: skip
        yield Check.refers("loads.roof", piece.name, WHAT, "ASCE 7-16 4.8.3; NDS 2018 2.3.2", text, ask=question)


def _little_snow(piece: Beam | Rafter, site: Site) -> Iterator[Check]:
    """Snow on the roof that is less than what ground snow makes of itself on a flat roof, and nobody answers for it."""
    if (
        site.ground_snow is None
        or site.ground_snow[0] <= 0.0
        or (site.snow is not None and vouched(site.snow.by, "structure"))
    ):
        return
    slope = piece.slope if isinstance(piece, Rafter) else piece.roof_slope
    if slope is not None and slope > judgment("steepest roof that holds all snow").value:
        return
    given = sum(of_area(load, "snow") for load in piece.carries)
    entries = list(with_kind(piece, "snow"))
    open_below = any(told(load.what, "open") for load in piece.carries)
    share = judgment("roof snow over ground snow, open below" if open_below else "roof snow over ground snow").value
    usual = share * site.ground_snow[0]
    if not entries or not given or given >= usual * (1.0 - 1e-6):
        return
    text = (
        f"{show((given, 'area'), 'load')} of snow, where {show(site.ground_snow, 'load')} lie on the ground: on a roof "
        f"that is not steep {show((usual, 'area'), 'load')} are usual; who allows less?"
    )
    path = f"{path_of(piece, entries[0][0])}.snow"
    answers = [PlausibleAnswer(psf(usual), ((path, psf(usual)),))]
    question = ask("little_snow", piece.name, path, answers=answers)
    by = ask("snow_by", "job", "job.snow.by")
    yield Check.refers("loads.snow", piece.name, WHAT, "ASCE 7-16 7.3", text, ask=(question, by))


def _higher(piece: Beam | Rafter, site: Site) -> Iterator[Check]:
    """Words that speak of something higher beside the roof: its drift has to be in the snow."""
    if isinstance(piece, Rafter):
        return  # asked of each rafter with snow, by snow.py of the roofs
    said = site.snow is not None and site.snow.higher is not None and bool(vouched(site.snow.by))
    for load in piece.carries:
        found = told(load.what, "higher")
        if not found or said or load.snow is None:
            continue
        text = f"{load.what}: that speaks of {found[0].says}; whether its drift is in the snow given is not said"
        asked = (ask("snow_higher", "job", "job.snow.higher"), ask("snow_by", "job", "job.snow.by"))
        yield Check.refers("loads.snow", piece.name, WHAT, "ASCE 7-16 7.7", text, ask=asked)
        return


def _water(piece: Beam | Rafter) -> Iterator[Check]:
    """A roof without slope bends under water, which brings more water. That is not worked out here."""
    least = judgment("slope from which water runs off").value
    slope = piece.slope if isinstance(piece, Rafter) else piece.roof_slope
    flat = [one for load in piece.carries for one in told(load.what, "flat")]
    if slope is None and not flat:
        return
    if slope is not None and slope >= least * (1.0 - 1e-9):
        return
    what = repr(flat[0].words) if slope is None else f"a slope of {show(slope, 'slope')}"
    text = f"{what}: water stands where it cannot run off, and more comes as the roof bends; that is not checked here"
    if slope is None:
        question = ask("ponding_slope", piece.name, f"beam.{piece.name}.roof_slope")
    else:
        question = ask("ponding", piece.name)
    yield Check.refers("loads.ponding", piece.name, "ponding", PONDING, text, ask=question)
