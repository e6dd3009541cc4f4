"""What the words of a report name against the job: other wood, another size or kind of hardware, thinner pieces."""

from __future__ import annotations

import re
from collections.abc import Iterator

import numpy as np

from ....errors import BeamcheckError
from ....model.beams import Beam
from ....units import read, show
from ....values.judgment import judgment
from ....values.loads import told
from ....values.lumber import read_size
from ....values.species import species_in
from ...core.context import Context
from ...core.result import Check
from ...core.trivial import negligible
from ...core.wood.material import is_unknown
from ..group import Group
from ..unsaid import Open

_SIZE = re.compile(r"(?<![\w.])(\d{1,2}) ?[xX] ?(\d{1,2})(?![\w.])")
_THICK = re.compile(
    r"(?P<least>(?:\d{1,2} )?\d{1,2}/\d{1,2}|\d{1,2}(?:\.\d{1,4})?) ?(?:in\b\.?|inch(?:es)?\b|\") ?"
    r"(?P<nominal>nominal )?(?:or more )?(?:thick|wide|broad)\b(?P<after> nominal)?",
    re.IGNORECASE,
)
_AT_MOST = re.compile(r"\b(?:at most|no more than|not more than|up to|less than|maximum|max\.?|thinner than)(?: of)? $",
                      re.IGNORECASE)  # fmt: skip


def said_of_others(group: Group, context: Context | None) -> Iterator[Check]:
    """What the report names against the job: another species, size or kind of hardware; holes not filled."""
    rating, id, clause = group.anchor.rating, "anchor.rated_fit", "evaluation report"
    if rating is None:
        return
    words = f"{rating.source}; {rating.conditions}"
    against = (
        *_other_species(group, words, context), *_other_size(group, words), *_too_thin(group, words, context),
        *_other_kind(group, words),
    )  # fmt: skip
    for text in against:
        yield group.refers(id, "what the report is for", clause, Open(text, "rated_for_another"))
    if said := told(words, "no allowable load"):
        text = f"it says {said[0].words!r}: allowable loads are wanted, those of a test or of LRFD are larger"
        yield group.refers("anchor.rated_figure", "published figure", clause, Open(text, "rating_figure"))
    if rating.conditions_met is True and (less := told(rating.conditions, "holes not filled")):
        text = f"the conditions say {less[0].words!r}: published loads are for every hole filled"
        yield group.refers(id, "conditions of the rating", clause, Open(text, "conditions_not_met"))
    elif rating.conditions_met is True and (other := told(rating.conditions, "other than the report")):
        text = f"the conditions say {other[0].words!r}: published loads are for hardware and fasteners as listed"
        yield group.refers(id, "conditions of the rating", clause, Open(text, "conditions_not_met"))


def _other_species(group: Group, words: str, context: Context | None) -> Iterator[str]:
    named = species_in(words)
    stocks = [(group.piece, group.stock)]
    carrier: str = getattr(group.into, "stock", None) or ""
    if context is not None and group.into is not None and carrier in context.structure.stocks:
        stocks.append((group.into.name, context.stock(carrier)))
    elif group.into_stock is not None:
        stocks.append((group.far, group.into_stock))
    for name, stock in stocks:
        if not named or is_unknown(stock) or not (own := species_in(stock.species)):
            continue
        if own[0] not in named:
            yield f"it names {' and '.join(named)}, but {name} is of {stock.species}"


def _other_size(group: Group, words: str) -> Iterator[str]:
    """Hardware is as wide as its piece; a hanger may be less deep, but no deeper, and not by as much as one likes."""
    b, d, near = float(group.section.b), float(group.section.d), judgment("hardware and its piece").value
    try:
        sizes = [read_size(f"{broad}x{deep}") for broad, deep in dict.fromkeys(_SIZE.findall(words))]
    except BeamcheckError:
        return
    named = " and ".join(size.text for size in sizes)
    wide = [float(size.d) for size in sizes if abs(float(size.b) - b) <= near]
    least = judgment("depth of a hanger on its piece").value
    if sizes and not wide:
        yield f"it is for {named}, but {group.piece} is {show(b, 'length')} broad"
    elif wide and _comes_down(group) and not any(least * d <= deep <= d + near for deep in wide):
        yield f"it is for {named}, but {group.piece} is {show(d, 'length')} deep"


def _too_thin(group: Group, words: str, context: Context | None) -> Iterator[str]:
    """A carrying piece thinner than the report asks for: its nails come out behind."""
    if context is None or not isinstance(group.into, Beam):
        return
    size = read_size(context.stock(group.into.stock).size)
    b = float(size.d if group.into.laid == "flat" else size.b * group.into.plies)
    for found in _THICK.finditer(words):
        if _AT_MOST.search(words[: found.start()]):
            continue
        nominal = found["nominal"] or found["after"]
        needed = read(f"{found['least']} in", "length") - (judgment("nominal over dressed").value if nominal else 0.0)
        if needed > b + judgment("hardware and its piece").value:
            yield f"it says {found[0]!r}, but {group.into.name} is {show(b, 'length')} thick"
            return


def _other_kind(group: Group, words: str) -> Iterator[str]:
    kind = told(words, "hardware that lifts")
    if kind and _comes_down(group):
        yield f"{kind[0].words!r} is for what lifts, and {show(float(np.max(group.parts['down'])), 'force')} come down"


def _comes_down(group: Group) -> bool:
    return float(np.max(group.parts["down"])) > negligible()
