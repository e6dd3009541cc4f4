"""Whether the layers of a roof or floor agree with what else is said: its use, the finish below, what carries them."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.beams import Beam
from ...model.roofs import Rafter
from ...model.site import FloorArea, RoofArea
from ...units import show
from ...values.judgment import judgment
from ...values.loads import live_load, told
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check

ID = "loads.site"


def layer_checks(piece: Beam | Rafter, area: RoofArea | FloorArea) -> Iterator[Check]:
    """All that the layers of one area say against what is said beside them."""
    yield from _framing(piece, area)
    yield from _finish(piece, area)
    if isinstance(area, FloorArea):
        yield from _finished_attic(piece, area)


def _framing(piece: Beam | Rafter, area: RoofArea | FloorArea) -> Iterator[Check]:
    """A beam under a roof or floor of layers bears the joists or rafters as well, which its layers leave out."""
    alone = isinstance(piece, Beam) and piece.spacing is None
    if not alone or area.framing.strip() or area.assembly.strip() or area.insists_on("framing"):
        return
    text = f"{area.name}: the joists or rafters under its layers weigh as well, and which they are is not said"
    field, why = (
        f"{'roof' if isinstance(area, RoofArea) else 'floor'}.{area.name}",
        "there are none: the layers span to the beam",
    )
    usual = f"2x10 at {judgment('usual spacing of joists').value:g} in"
    answers = [PlausibleAnswer(usual, ((f"{field}.framing", usual),)),
               PlausibleAnswer(why, ((f"{field}.meant.framing", why),))]  # fmt: skip
    asked = ask("area_framing", area.name, f"{field}.framing", answers=answers, of_piece=piece.name)
    yield Check.refers(ID, piece.name, f"framing of {area.name}", "ASCE 7-16 3.1", text, ask=asked)


def _finish(piece: Beam | Rafter, area: RoofArea | FloorArea) -> Iterator[Check]:
    """A ceiling among the layers hangs on the joists or rafters: it cracks where they bend too much."""
    in_a_row = isinstance(piece, Rafter) or piece.spacing is not None
    if not in_a_row or piece.finish != "none" or piece.insists_on("finish"):
        return
    kinds = [one.says for layer in area.layers for one in told(layer, "ceiling finish")]
    if not kinds or (isinstance(area, FloorArea) and "plaster" not in kinds):
        return  # a floor bends little enough for a ceiling of board
    best = "plaster" if "plaster" in kinds else kinds[0]
    field = f"{type(piece).__name__.casefold()}.{piece.name}"
    text = f"{area.name} has {best} among its layers, and nothing that cracks is said to be under {piece.name}"
    why = "the ceiling hangs on other joists"
    answers = [PlausibleAnswer(best, ((f"{field}.finish", best),)),
               PlausibleAnswer(why, ((f"{field}.meant.finish", why),))]  # fmt: skip
    asked = ask("ceiling_finish", piece.name, f"{field}.finish", answers=answers, area=area.name)
    yield Check.refers(ID, piece.name, f"finish under {area.name}", "IRC Table R301.7", text, ask=asked)


def _finished_attic(piece: Beam | Rafter, floor: FloorArea) -> Iterator[Check]:
    """Nobody lays carpet or tile in an attic that is not lived in."""
    live = live_load(floor.use).value
    if live > live_load("attic with limited storage").value * (1.0 + 1e-6) or floor.insists_on("use"):
        return
    found = [one.says for layer in floor.layers for one in told(layer, "floor finish")]
    if not found:
        return
    text = f"{floor.name} has {found[0]} and is entered as {floor.use}, with {show((live, 'area'), 'load')}"
    field, why = f"floor.{floor.name}", "looked at: nobody lives there"
    answers = [PlausibleAnswer("a room: 40 psf", ((f"{field}.use", "other room"),)),
               PlausibleAnswer(why, ((f"{field}.meant.use", why),))]  # fmt: skip
    asked = ask("finished_attic", floor.name, f"{field}.use", answers=answers)
    yield Check.refers(ID, piece.name, f"use of {floor.name}", "IRC Table R301.5", text, ask=asked)
