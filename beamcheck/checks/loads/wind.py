"""Wind on a roof: without it the answer is for gravity only, and nobody has said what holds the roof down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...analysis.beams.load_cases import Case
from ...model.evidence import vouched
from ...model.pieces import Beam, Rafter
from ...units import show
from ...values.load_words import told
from ..core.context import HEAD, Site
from ..core.question import PlausibleAnswer, ask
from ..core.result import Check
from .entries import judged_load, psf, spread_entry

ID, WHAT = "loads.wind", "wind on the roof"
OPEN, CLOSED = "ASCE 7-16 27.3.2", "IRC 2018 R802.11; ASCE 7-16 chapters 26 and 27"


def wind_checks(piece: Beam | Rafter, site: Site, cases: Sequence[Case] = ()) -> Iterator[Check]:
    """Whether wind that lifts is among the loads, or somebody answers for what holds the roof down."""
    winds = [load.wind[0] for load in piece.carries if load.wind is not None]
    arrives = any(case.kind == "W" and any(load.from_piece for load in case.loads) for case in cases)
    if min(winds, default=0.0) < 0.0 or arrives:
        return
    words = [one for load in piece.carries for one in told(load.what, "open")]
    if words:
        yield _open(piece, words[0].says)
    elif vouched(site.wind_by, "structure"):
        yield Check.keeps_rule(ID, piece.name, WHAT, CLOSED, f"not checked here, by {site.wind_by}")
    else:
        how = "only wind that presses is given" if winds else "no wind is given"
        text = f"{how}, and wind lifts roofs: the figures are for gravity only"
        yield Check.refers(ID, piece.name, WHAT, CLOSED, text, ask=ask("wind_by", HEAD, "job.wind_by"))


def _open(piece: Beam | Rafter, what: str) -> Check:
    """Wind gets under it as well: no table of the codes for houses covers that."""
    strength = judged_load("least net wind on an open roof")
    text = f"{what} is open below, and no wind that lifts is given: a light open roof is lifted from below as well"
    path = spread_entry(piece)
    if path is None:
        return Check.refers(ID, piece.name, WHAT, OPEN, text, ask=ask("open_roof_by_engineer", piece.name))
    value = f"-{psf(strength)}"
    answers = [PlausibleAnswer(f"{show((-strength, 'area'), 'load', 'US')}, the least that is believed",
                               ((f"{path}.wind", value),))]  # fmt: skip
    return Check.refers(ID, piece.name, WHAT, OPEN, text, ask=ask("open_roof", piece.name, f"{path}.wind",
                        answers=answers))  # fmt: skip
