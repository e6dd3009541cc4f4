"""Wood outdoors: rain wets it, and what is neither treated nor durable rots."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...model.beams import Beam
from ...model.posts import Post
from ...model.stock import Stock
from ...values.loads import told
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check
from .entries import is_floor

ID, WET, ROT = "loads.weather", "NDS 2018 4.3.3", "IRC 2018 R317.1"


def weather_checks(piece: Beam | Post, stock: Stock) -> Iterator[Check]:
    """Of a floor or post whose words say that it stands outdoors: whether it stays dry, and what keeps it from rot."""
    if not (isinstance(piece, Post) or is_floor(piece)):
        return
    found = [one for load in piece.carries for one in told(load.what, "outdoors")]
    if not found:
        return
    path, place = f"stock.{stock.name}", found[0].words
    if stock.moisture == "dry" and not stock.insists_on("moisture"):
        text = f"{place!r} is outdoors, and its wood is said to stay dry: rain or snow makes it wet service"
        says = "it stays dry: a roof keeps rain and snow off"
        answers = [PlausibleAnswer("rain reaches it: wet in service", ((f"{path}.moisture", "wet"),)),
                   PlausibleAnswer(says, ((f"{path}.meant.moisture", says),))]  # fmt: skip
        question = ask("weather_wet", stock.name, f"{path}.moisture", answers=answers, place=place)
        yield Check.refers(ID, piece.name, "wet or dry in service", WET, text, ask=question)
    if not stock.treated and not stock.insists_on("treated"):
        text = f"{place!r} is outdoors, and its wood is not said to be treated: what keeps it from rot?"
        says = "heartwood of a kind that lasts outdoors"
        treated = PlausibleAnswer(
            "treated with preservative", ((f"{path}.treated", True), (f"{path}.treated_with", "preservative"))
        )
        answers = [treated, PlausibleAnswer(says, ((f"{path}.meant.treated", says),))]
        question = ask("weather_rot", stock.name, f"{path}.treated", answers=answers, place=place)
        yield Check.refers(ID, piece.name, "treated or durable outdoors", ROT, text, ask=question)
    elif inside := told(stock.evidence, "kept indoors"):
        text = f"{place!r} is outdoors, and its wood is treated for indoors: {inside[0].words}"
        other = re.sub(re.escape(inside[0].words), "UC4A", stock.evidence, flags=re.IGNORECASE)
        answers = [PlausibleAnswer("UC4A", ((f"{path}.evidence", other),))]
        question = ask("weather_class", stock.name, f"{path}.evidence", answers=answers, place=place)
        yield Check.refers(ID, piece.name, "treated for outdoors", ROT, text, ask=question)
