"""Strips of a roof or floor that are too narrow for the piece that carries them, and rules of the place."""

from __future__ import annotations

from collections.abc import Iterator

from ...analysis.site.areas import Areas
from ...analysis.site.pieces import piece_spacing
from ...model.beams import Beam, beam_length
from ...model.fields.evidence import vouched
from ...model.loads import FormedLoad
from ...model.roofs import Rafter
from ...model.site import Site
from ...units import show
from ...values.judgment import judgment
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check
from .entries import as_it_is, path_of

ID, CLAUSE = "loads.site", "tributary width; common practice, no source"


def local_rule_checks(piece: Beam | Rafter, site: Site) -> Iterator[Check]:
    """Rules of the place are text that nothing here reads: somebody has to say that the loads keep them."""
    if not site.local_rules.strip() or vouched(site.local_rules_by, "structure"):
        return
    text = f"{site.local_rules!r}: rules of the place are not read here; who says that the loads of this job keep them?"
    asked = ask("site_local_rules", "site", "site.local_rules_by")
    yield Check.refers(ID, piece.name, "rules of the place", "local code", text, ask=asked)


def strip_checks(piece: Beam | Rafter, areas: Areas) -> Iterator[Check]:
    """Each strip against the spacing of the piece, the half of its roof, or the narrowest that a lone beam has."""
    spacing = piece_spacing(piece)
    yield from _wider_than_its_roof(piece, areas)
    for load in piece.carries:
        if not isinstance(load, FormedLoad) or load.more or load.width is None or load.insists_on("width"):
            continue
        least, why = _least(load, areas, spacing)
        if not least or load.width >= least * (1.0 - judgment("strip that is narrower by a hair").value):
            continue
        text = f"{load.what}: a strip of {show(load.width, 'length')}, and {why} {show(least, 'length')}"
        field = f"{path_of(piece, load.entry)}.width"
        answers = [PlausibleAnswer(show(least, "length"), ((field, show(least, "length")),)),
                   as_it_is(piece, load.entry, "width", "measured: only that much of it comes here")]  # fmt: skip
        asked = ask("strip_width", piece.name, field, answers=answers, area=load.roof or load.floor or load.what)
        yield Check.refers(ID, piece.name, f"strip of {load.roof or load.floor}", CLAUSE, text, ask=asked)


def _wider_than_its_roof(piece: Beam | Rafter, areas: Areas) -> Iterator[Check]:
    """A strip of more roof than there is from eave to eave: one of the two figures is a slip.

    A beam that may run up the slope, being no longer than that, bears what lies along the eave.
    """
    if isinstance(piece, Rafter):
        return
    for load in piece.carries:
        if not isinstance(load, FormedLoad) or load.more or load.width is None or load.roof not in areas.roofs:
            continue
        roof = areas.roofs[load.roof or ""][0]
        slopes = 1.0 if roof.shape == "monoslope" else 2.0
        most = slopes * roof.eave_to_ridge
        across = min(load.width, beam_length(piece))
        if across <= most + judgment("rafter beyond its roof").value or load.insists_on("width"):
            continue
        reaches = show(load.width / slopes, "length", "US")
        text = f"{load.what}: a strip of {show(load.width, 'length')} of {roof.name}, which has {show(most, 'length')}"
        field, whole = f"{path_of(piece, load.entry)}.width", show(most, "length", "US")
        answers = [PlausibleAnswer(f"{roof.name} reaches {reaches} from eave to ridge",
                                   ((f"roof.{roof.name}.eave_to_ridge", reaches),)),
                   PlausibleAnswer(f"all of it comes here: {whole}", ((field, whole),)),
                   as_it_is(piece, load.entry, "width", "it runs up the slope: the strip lies along the eave"),
                   ]  # fmt: skip
        asked = ask("strip_width", piece.name, field, answers=answers, area=roof.name)
        yield Check.refers(ID, piece.name, f"strip of {roof.name}", CLAUSE, text, ask=asked)


def _least(load: FormedLoad, areas: Areas, spacing: float | None) -> tuple[float, str]:
    """The narrowest strip that is believed, in, and what it is held against; 0 where there is nothing to hold."""
    if spacing is not None:
        return spacing, "one of a row bears its spacing,"
    if load.roof in areas.roofs:
        whole = areas.roofs[load.roof or ""][0].eave_to_ridge
        if load.astride:
            return whole, "a ridge beam bears half of either slope, in all"
        return judgment("least of a roof on a lone beam").value * whole, "a beam under rafters bears at least"
    return judgment("least strip of a floor on a lone beam").value, "a beam under joists bears at least"
