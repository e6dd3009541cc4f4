"""Wind on a roof: without it the answer is for gravity only, and nobody has said what holds the roof down."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Case
from ...model.beams import Beam, beam_length
from ...model.fields.evidence import vouched
from ...model.loads import sort_of
from ...model.roofs import Rafter, slope_length
from ...units import show
from ...values.loads import told
from ..core.asking.question import PlausibleAnswer, ask
from ..core.context import HEAD, Site
from ..core.result import Check
from .entries import as_it_is, is_meant, judged_load, path_of, psf, roof_entries, roof_entry

ID, WHAT = "loads.wind", "wind on the roof"
OPEN, CLOSED = "ASCE 7-16 27.3.2", "IRC 2018 R802.11; ASCE 7-16 chapters 26 and 27"


def wind_checks(piece: Beam | Rafter, site: Site, cases: Sequence[Case] = ()) -> Iterator[Check]:
    """Whether wind that lifts is among the loads, and as much as is believed, or somebody answers for what holds."""
    roof = roof_entries(piece)
    if not roof:
        return
    winds = [load.wind[0] for load in piece.carries if load.wind is not None]
    arrives = any(case.kind == "W" and any(load.from_piece for load in case.loads) for case in cases)
    lifts, meant = _lifts(piece), any(is_meant("wind", piece, load) for load in piece.carries)
    words = [one for _, load in roof for one in told(load.what, "open")]
    least = judged_load(f"least net wind on {'an open' if words else 'a closed'} roof")
    if arrives or (winds and meant) or lifts >= least * (1.0 - 1e-6):
        return
    little = f"{show((lifts, 'area'), 'load')} of wind that lifts is given" if lifts else (
        "only wind that presses is given" if winds else "no wind is given")  # fmt: skip
    if words:
        yield _open(piece, words[0].says, little)
    elif vouched(site.wind_by, "structure"):
        yield Check.keeps_rule(ID, piece.name, WHAT, CLOSED, f"not checked here, by {site.wind_by}")
    elif lifts:
        text = f"{little}: less than {show((least, 'area'), 'load')} is believed nowhere, at strength level"
        answers = [_lifting(piece, least), *_as_given(piece)]
        path = f"{_entry(piece)}.wind" if _entry(piece) else "job.wind_by"
        question = ask("little_wind", piece.name, path, answers=filter(None, answers))
        yield Check.refers(ID, piece.name, WHAT, CLOSED, text, ask=question)
    else:
        text = f"{little}, and wind lifts roofs: the figures are for gravity only"
        yield Check.refers(ID, piece.name, WHAT, CLOSED, text, ask=ask("wind_by", HEAD, "job.wind_by"))


def _lifts(piece: Beam | Rafter) -> float:
    """All wind that lifts, over the roof that the piece carries, lbf/in2; without end where that roof is not given."""
    length = beam_length(piece) if isinstance(piece, Beam) else slope_length(piece)
    width, found = _width(piece), 0.0
    for load in piece.carries:
        if load.wind is None or load.wind[0] >= 0.0:
            continue
        amount, sort = load.wind
        if sort != "area" and not width:
            return math.inf
        share = ((length if load.end is None else load.end) - (load.start or 0.0)) / length
        if sort == "area":
            found -= amount * share * (load.width / width if load.width is not None and width else 1.0)
        else:
            found -= amount * (share if sort == "line" else 1.0 / length) / (width or 1.0)
    return found


def _open(piece: Beam | Rafter, what: str, little: str) -> Check:
    """Wind gets under it as well: no table of the codes for houses covers that."""
    strength = judged_load("least net wind on an open roof")
    text = f"{what} is open below, and {little}: a light open roof is lifted from below as well"
    answer = _lifting(piece, strength)
    if answer is None:
        return Check.refers(ID, piece.name, WHAT, OPEN, text, ask=ask("open_roof_by_engineer", piece.name))
    answers = [answer, *_as_given(piece)]
    question = ask("open_roof", piece.name, f"{_entry(piece)}.wind", answers=answers)
    return Check.refers(ID, piece.name, WHAT, OPEN, text, ask=question)


def _entry(piece: Beam | Rafter) -> str | None:
    """The load that holds wind per area, or can take it."""
    given = (i for i, load in enumerate(piece.carries) if load.wind is not None and load.wind[1] == "area")
    index = next(given, None)
    return roof_entry(piece) if index is None else path_of(piece, index)


def _lifting(piece: Beam | Rafter, least: float) -> PlausibleAnswer | None:
    """The answer that the wind lifts with the least that is believed."""
    path = _entry(piece)
    if path is None:
        return None
    says = f"{show((-least, 'area'), 'load', 'US')}, the least that is believed"
    sets = [(f"{path}.wind", f"-{psf(least)}")]
    load, width = piece.carries[int(path.rpartition(".")[2]) - 1], _width(piece)
    if load.width is not None and width and load.width < width:  # over all of the roof, not over a strip of it
        sets.append((f"{path}.width", f"{width:.6g} in"))
    return PlausibleAnswer(says, tuple(sets))


def _width(piece: Beam | Rafter) -> float | None:
    """Of the roof that the piece carries, in."""
    areas = [load for load in piece.carries if sort_of(load) == "area"]
    return max((load.width for load in areas if load.width is not None), default=piece.spacing)


def _as_given(piece: Beam | Rafter) -> list[PlausibleAnswer]:
    """The answer that the wind given is that of a sheet."""
    given = [i for i, load in enumerate(piece.carries) if load.wind is not None and load.wind[0] < 0.0]
    return [as_it_is(piece, i, "wind", "so little it is, by the sheet of the wind loads") for i in given[:1]]
