"""Whether what is said to come onto a roof can be all: people who repair it, snow, and water that cannot run off."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Case, spans_of
from ...model.beams import Beam, beam_length
from ...model.fields.evidence import vouched
from ...model.loads import Load
from ...model.roofs import Rafter
from ...units import show
from ...values.found import Found
from ...values.judgment import judgment
from ...values.loads import live_load, told
from ..core.asking.question import PlausibleAnswer, ask
from ..core.context import Site
from ..core.result import Check
from .entries import (
    KIND_WORDS,
    SQUARE_FOOT,
    WHAT,
    as_it_is,
    formed,
    is_floor,
    judged_load,
    moved,
    of_area,
    path_of,
    psf,
    roof_entries,
    roof_entry,
    with_kind,
)

PONDING = "ASCE 7-16 8.4"
_SLOPE = re.compile(r"\b[1-9]\d?(?::| ?/ ?| in )12\b")


def roof_checks(piece: Beam | Rafter, site: Site, cases: Sequence[Case] = ()) -> Iterator[Check]:
    """What makes the loads of a roof look incomplete; each keeps it from passing. Of a floor: those of its roof."""
    roof = roof_entries(piece)
    if not roof and is_floor(piece):
        return
    arrives = any(case.kind in ("Lr", "S") and any(load.from_piece for load in case.loads) for case in cases)
    if not arrives:
        yield from _people_or_snow(piece)
    yield from _too_many_people(piece)
    yield from _few_who_stay(piece)
    yield from _little_snow(piece, site)
    yield from _higher(piece, site)
    yield from _water(piece)


def earned(piece: Beam | Rafter) -> float:
    """The least roof live load of this piece, by its area of roof and its slope, lbf/in2 (ASCE 7-16 4.8.2)."""
    ordinary, least = live_load("roof").value, judged_load("least roof live load")
    widths = [load.width for _, load in roof_entries(piece) if load.width is not None]
    if isinstance(piece, Rafter):
        longest, slope = piece.run, float(piece.slope)
    else:
        spans = spans_of(beam_length(piece), [support.at for support in piece.supports])
        longest, slope = max(end - start for start, end in spans), piece.roof_slope or 0.0
    area = longest * max(widths, default=piece.spacing or 0.0) / SQUARE_FOOT
    rise = 12.0 * math.tan(math.radians(slope))
    over = max(area - judgment("area of roof from which roof live load is reduced").value, 0.0)
    steeper = max(rise - judgment("rise from which roof live load is reduced").value, 0.0)
    R_1 = 1.0 - judgment("reduction of roof live load by area").value * over
    R_2 = 1.0 - judgment("reduction of roof live load by slope").value * steeper
    return max(ordinary * max(R_1, 0.0) * max(R_2, 0.0), least)


def _people_or_snow(piece: Beam | Rafter) -> Iterator[Check]:
    """Men and material on the roof, where no snow is given that weighs as much."""
    ordinary, least = live_load("roof").value, earned(piece)
    roof = [load for _, load in roof_entries(piece)]
    people = sum(of_area(load, kind) for load in roof for kind in ("roof_live", "live"))
    snow = sum(of_area(load, "snow") for load in roof)
    other = any(getattr(load, kind) is not None and not of_area(load, kind)
                for load in roof for kind in ("roof_live", "live", "snow"))  # fmt: skip
    meant = any(load.insists_on("roof_live") for load in roof) or piece.insists_on("roof_live")
    if other or meant or people >= least * (1.0 - 1e-6) or snow >= least * (1.0 - 1e-6):
        return
    if people >= judged_load("least roof live load") * (1.0 - 1e-6):
        yield _reduced(piece, least)
        return
    path, answers = roof_entry(piece), []
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
            f"here at the most to {show((least, 'area'), 'load')}, where no such snow lies on it"
        )
    else:
        text = "neither snow nor roof live load is given, and a roof has one or the other"
    yield Check.refers("loads.roof", piece.name, WHAT, "ASCE 7-16 4.8, Table 4.3-1", text, ask=question)


def _reduced(piece: Beam | Rafter, least: float) -> Check:
    """A roof live load that was reduced further than area and slope of this piece allow."""
    index, load = next(
        (i, load) for i, load in roof_entries(piece) if of_area(load, "roof_live") or of_area(load, "live")
    )
    kind = "roof_live" if of_area(load, "roof_live") else "live"
    text = (
        f"{load.what}: {KIND_WORDS[kind]} of {show(getattr(load, kind), 'load')}; the area and the slope of this piece "
        f"reduce {show((live_load('roof').value, 'area'), 'load')} to {show((least, 'area'), 'load')} and no further"
    )
    field = f"{path_of(piece, index)}.{kind}"
    answers = [PlausibleAnswer(f"by none: {psf(least)}", ((field, psf(least)),)),
               as_it_is(piece, index, "roof_live", "reduced by the local code")]  # fmt: skip
    question = ask("reduced_roof_load", piece.name, field, answers=answers, least=psf(least))
    return Check.refers("loads.roof", piece.name, WHAT, "ASCE 7-16 4.8.2", text, ask=question)


def _who_stay(load: Load) -> str:
    """Words of a roof on which people stay, not only those who repair it; '' where there are none."""
    if found := told(load.what, "gathering"):
        return f"{found[0].words!r} is {found[0].says}"
    deck = told(load.what, "roof deck") or told(load.what, "outdoors")
    people = told(load.what, "people")
    return f"{people[0].words!r} stay on {deck[0].says}" if deck and people else ""


def _for_those(load: Load, *, least: bool = False) -> Found[float]:
    """The live load of a roof on which people stay: that of the use named, or of a deck."""
    used = (one.says for one in told(load.what, "use"))
    return live_load(load.room or next(used, "deck"), least=least)


def _too_many_people(piece: Beam | Rafter) -> Iterator[Check]:
    """More roof live load than repairs bring is people who stay there: live load, with its duration."""
    ordinary = live_load("roof").value
    for index, load in with_kind(piece, "roof_live"):
        stay = _who_stay(load)
        given = load.roof_live
        if given is None or (not stay and of_area(load, "roof_live") <= ordinary * (1.0 + 1e-9)):
            continue
        words = stay or "that is more than men who repair it"
        text = f"{load.what}: roof live load of {show(given, 'load')}; {words}"
        least = _for_those(load).value if stay else 0.0
        answers = [moved(piece, index, load, "roof_live", "live", "people stay there: live load", least),
                   as_it_is(piece, index, "roof_live", "only for repairs, by the local code")]  # fmt: skip
        question = ask("roof_terrace", piece.name, f"{path_of(piece, index)}.roof_live", answers=answers,
                       load=load.what)  # fmt: skip
        yield Check.refers("loads.roof", piece.name, WHAT, "ASCE 7-16 4.8.3; NDS 2018 2.3.2", text, ask=question)


def _few_who_stay(piece: Beam | Rafter) -> Iterator[Check]:
    """People who stay on a roof, with less than the live load of that use."""
    if is_floor(piece):
        return
    for index, load in with_kind(piece, "live"):
        least = _for_those(load, least=True)
        if load.live is None or load.live[1] != "area" or not _who_stay(load):
            continue
        if load.live[0] >= least.value * (1.0 - 1e-9):
            continue
        text = f"{load.what}: {_who_stay(load)}; {show((least.value, 'area'), 'load')} is the least for those"
        path = f"{path_of(piece, index)}.live"
        answers = [PlausibleAnswer(psf(least.value), ((path, psf(least.value)),))]
        question = ask("light_live_load", piece.name, path, answers=answers, load=load.what)
        yield Check.refers("loads.roof", piece.name, WHAT, "ASCE 7-16 4.8.3", text, ask=question)


def _little_snow(piece: Beam | Rafter, site: Site) -> Iterator[Check]:
    """Snow on the roof that is less than what ground snow makes of itself on a flat roof, and nobody answers for it."""
    if site.ground_snow is None or (site.snow is not None and vouched(site.snow.by, "structure")):
        return
    slope = piece.slope if isinstance(piece, Rafter) else piece.roof_slope
    if slope is not None and slope > judgment("steepest roof that holds all snow").value:
        return
    roof = roof_entries(piece)
    given = sum(of_area(load, "snow") for _, load in roof)
    entries = [(i, load) for i, load in with_kind(piece, "snow") if (i, load) in roof]
    open_below = any(told(load.what, "open") for _, load in roof)
    share = judgment("roof snow over ground snow, open below" if open_below else "roof snow over ground snow").value
    usual = share * site.ground_snow[0]
    if not entries or not given or given >= usual * (1.0 - 1e-6) or all(formed(load, "snow") for _, load in entries):
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
    known, by = (site.snow is not None and site.snow.higher is not None), ask("snow_by", "job", "job.snow.by")
    roof = [load for _, load in roof_entries(piece)]
    if (known and site.snow is not None and vouched(site.snow.by)) or all(
        load.snow is None or formed(load, "snow") for load in roof
    ):
        return
    for load in roof:
        found = told(load.what, "higher")
        if not found:
            continue
        text = f"{load.what}: that speaks of {found[0].says}; whether its drift is in the snow given is not said"
        asked = (by,) if known else (ask("snow_higher", "job", "job.snow.higher"), by)
        yield Check.refers("loads.snow", piece.name, WHAT, "ASCE 7-16 7.7", text, ask=asked)
        return


def _water(piece: Beam | Rafter) -> Iterator[Check]:
    """A roof without slope bends under water, which brings more water. That is not worked out here."""
    least = judgment("slope from which water runs off").value
    slope = piece.slope if isinstance(piece, Rafter) else piece.roof_slope
    flat = [one for _, load in roof_entries(piece) for one in told(load.what, "flat")]
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


def unsaid_slope_checks(beam: Beam) -> Iterator[Check]:
    """A joist of a roof, one of a row, whose words tell no slope and no lattice through which water falls.

    Of frames and span tables none is asked: there is no field that takes the answer.
    """
    words = [load.what for _, load in roof_entries(beam) if load.snow is not None or load.roof_live is not None]
    if beam.spacing is None or beam.roof_slope is not None or not words:
        return
    said = (*words, beam.called)
    if any(told(one, "flat") for one in words) or any(told(one, "slopes") or _SLOPE.search(one) for one in said):
        return
    text = "joists of a roof whose slope is not said: on a level one water stands, and more comes as it bends"
    question = ask("ponding_slope", beam.name, f"beam.{beam.name}.roof_slope")
    yield Check.refers("loads.ponding", beam.name, "ponding", PONDING, text, ask=question)
