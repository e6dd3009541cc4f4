"""Whether a rafter and the roof that it carries describe one roof, and whether that roof has a covering."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...model.beams import Beam
from ...model.loads import FormedLoad
from ...model.roofs import Rafter
from ...model.site import Higher, RoofArea
from ...units import show
from ...values.judgment import judgment
from ...values.loads import told
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.result import Check
from .entries import path_of

ID, CLAUSE = "loads.site", "ASCE 7-16 7.4, 7.6"


def fit_checks(rafter: Rafter, roof: RoofArea) -> Iterator[Check]:
    """A steeper, shorter, wider or simpler roof than the rafter has would shed snow, or gather less."""
    for text, question in (*_slope_and_length(rafter, roof), *_shape(rafter, roof)):
        yield Check.refers(ID, rafter.name, f"rafter in {roof.name}", CLAUSE, text, ask=question)


def _slope_and_length(rafter: Rafter, roof: RoofArea) -> Iterator[tuple[str, Question]]:
    apart = abs(rafter.slope - roof.slope) > judgment("slope that a rating must name").value
    beyond = rafter.run > roof.eave_to_ridge + judgment("rafter beyond its roof").value
    if apart or beyond:
        text = (
            f"{roof.name} rises at {roof.slope:.1f} degrees over {show(roof.eave_to_ridge, 'length')}, the rafter at "
            f"{rafter.slope:.1f} degrees over {show(rafter.run, 'length')}: they do not belong together"
        )
        field = f"rafter.{rafter.name}.slope"
        as_drawn, as_cut = f"{roof.slope:.4g} deg", f"{rafter.slope:.4g} deg"
        of_the_roof = [(field, as_drawn)] if apart else []
        of_the_rafter = [(f"roof.{roof.name}.slope", as_cut)] if apart else []
        if beyond:
            length, run = (show(one, "length", "US") for one in (roof.eave_to_ridge, rafter.run))
            of_the_roof.append((f"rafter.{rafter.name}.run", length))
            of_the_rafter.append((f"roof.{roof.name}.eave_to_ridge", run))
        answers = [
            PlausibleAnswer(f"those of {name}: {' over '.join(value for _, value in sets)}", tuple(sets))
            for name, sets in ((roof.name, of_the_roof), (rafter.name, of_the_rafter))
        ]
        yield text, ask("rafter_of_roof", rafter.name, field, answers=answers, roof=roof.name)
        return
    level = rafter.run + rafter.wall.at * math.cos(math.radians(rafter.slope))
    share = judgment("least of its roof that a rafter spans").value
    if roof.shape == "hip" or rafter.insists_on("run") or level >= share * roof.eave_to_ridge:
        return
    text = (
        f"{roof.name} reaches {show(roof.eave_to_ridge, 'length')} from eave to ridge, the rafter with its tail "
        f"{show(level, 'length')}: one of the two is a slip, or something else carries the rest"
    )
    path, run = f"rafter.{rafter.name}", show(roof.eave_to_ridge - (level - rafter.run), "length")
    why = "measured: another piece carries the rest of the slope"
    answers = [PlausibleAnswer(f"its run is {run}", ((f"{path}.run", run),)),
               PlausibleAnswer(why, ((f"{path}.meant.run", why),))]  # fmt: skip
    yield text, ask("rafter_short", rafter.name, f"{path}.run", answers=answers, roof=roof.name)


def _shape(rafter: Rafter, roof: RoofArea) -> Iterator[tuple[str, Question]]:
    """One slope or two, and what they meet at."""
    field = f"roof.{roof.name}"
    if roof.shape == "monoslope" and rafter.pair:
        text = f"{roof.name} has one slope, and another rafter is said to lean on the ridge from the other side"
        answers = [PlausibleAnswer("one slope: no rafter leans against it", ((f"rafter.{rafter.name}.pair", False),)),
                   PlausibleAnswer("two slopes", ((f"{field}.shape", "gable"),))]  # fmt: skip
        yield text, ask("roof_slopes", rafter.name, f"rafter.{rafter.name}.pair", answers=answers, roof=roof.name)
    elif roof.shape != "monoslope" and roof.ridge not in (None, rafter.ridge):
        text = f"the rafters of {roof.name} are said to meet at {roof.ridge}, and this one at a ridge {rafter.ridge}"
        answers = [PlausibleAnswer(f"a {rafter.ridge}", ((f"{field}.ridge", rafter.ridge),))]
        yield text, ask("roof_ridge", rafter.name, f"{field}.ridge", answers=answers, roof=roof.name)


def covering_checks(piece: str, roof: RoofArea) -> Iterator[Check]:
    """Among the layers is one that keeps the rain out, of the kind that the snow is said to lie on."""
    if roof.assembly.strip() or roof.insists_on("layers"):
        return
    kinds = [one.says for layer in roof.layers for one in told(layer, "covering")]
    field, first = f"roof.{roof.name}.layers", list(roof.layers)
    if not kinds:
        usual = "asphalt shingles, one layer"
        text = f"{roof.name}: none of its layers ({', '.join(roof.layers)}) covers it"
        why = "there is no covering"
        answers = [PlausibleAnswer(f"with {usual} on top", ((field, [usual, *first]),)),
                   PlausibleAnswer(why, ((f"roof.{roof.name}.meant.layers", why),))]  # fmt: skip
        asked = ask("roof_covering", roof.name, field, answers=answers)
        yield Check.refers(ID, piece, f"covering of {roof.name}", "weights of its layers", text, ask=asked)
    elif roof.slippery and roof.surface not in kinds:
        text = f"{roof.name}: snow is said to slide off {roof.surface}, and its layers say {' and '.join(kinds)}"
        field, best = f"roof.{roof.name}.surface", "shingles" if "shingles" in kinds else "other"
        asked = ask("roof_surface", roof.name, field, answers=(best,))
        yield Check.refers(ID, piece, f"surface of {roof.name}", "ASCE 7-16 7.4", text, ask=asked)


def beside_checks(piece: Beam | Rafter, roof: RoofArea) -> Iterator[Check]:
    """Something higher beside a roof shelters it from the wind, and stands no further away than the roof is long."""
    higher = roof.higher
    if isinstance(piece, Beam) and roof.ridge in ("board", "ties or trusses"):
        yield from _astride(piece, roof)
    if not isinstance(higher, Higher):
        return
    if roof.exposed == "fully exposed" and not roof.insists_on("exposed"):
        field = f"roof.{roof.name}.exposed"
        text = f"{roof.name} is said to be fully exposed, and {higher.what} stands higher beside it"
        asked = ask("roof_exposed", roof.name, field, answers=("partially exposed", "sheltered"), what=higher.what)
        yield Check.refers(ID, piece.name, f"exposure of {roof.name}", "ASCE 7-16 Table 7.3-1", text, ask=asked)
    for load in piece.carries:
        if not isinstance(load, FormedLoad) or load.more or load.roof != roof.name or load.off_wall is None:
            continue
        if load.off_wall <= higher.lower_length * (1.0 + 1e-6):
            continue
        field, near = f"{path_of(piece, load.entry)}.off_wall", show(higher.lower_length, "length")
        text = (
            f"{load.what} stands {show(load.off_wall, 'length')} off the wall, and {roof.name} is {near} long away "
            "from it"
        )
        asked = ask("off_wall", piece.name, field, answers=(near,), what=higher.what, roof=roof.name)
        yield Check.refers(ID, piece.name, f"place beside {higher.what}", "ASCE 7-16 7.7", text, ask=asked)


def _astride(beam: Beam, roof: RoofArea) -> Iterator[Check]:
    """Only a ridge beam takes half of either slope, and with it the mean of both sides."""
    for load in beam.carries:
        if isinstance(load, FormedLoad) and not load.more and load.roof == roof.name and load.astride:
            field = f"{path_of(beam, load.entry)}.astride"
            text = (
                f"{load.what} is said to be astride of the ridge, and the rafters of {roof.name} meet at {roof.ridge}"
            )
            asked = ask("astride", beam.name, field, answers=[PlausibleAnswer("no", ((field, False),))], roof=roof.name)
            yield Check.refers(ID, beam.name, f"ridge of {roof.name}", "ASCE 7-16 7.6.1", text, ask=asked)
