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
from ..denied import clauses, denied
from ..group import Group
from ..unsaid import Open

_SIZE = re.compile(
    r"(?:\b(?P<many>double|triple|[2-5][ -]ply) |\((?P<count>[2-5])\) ?)?"
    r"(?<![\w./])(?P<broad>\d{1,2}) ?x ?(?P<deep>\d{1,2})(?![\w.]|[ -]?\d{0,2}/)", re.IGNORECASE)  # fmt: skip
_PLIES = {"d": 2, "t": 3}  # double, triple
_THICK = re.compile(
    r"(?P<least>(?:\d{1,2}[ -])?\d{1,2}/\d{1,2}|\d{1,2}(?:\.\d{1,4})?) ?(?:in\b\.?|inch(?:es)?\b|\") ?"
    r"(?P<nominal>nominal )?(?:or more )?(?P<way>thick|wide|broad)\b(?P<after> nominal)?",
    re.IGNORECASE,
)
_AT_MOST = re.compile(r"\b(?:at most|no more than|not more than|up to|less than|maximum|max\.?|thinner than)(?: of)? $",
                      re.IGNORECASE)  # fmt: skip
_CARRIES = re.compile(r"\b(?:girders?|headers?|ledgers?|trimmers?|carrying|supporting)\b", re.IGNORECASE)
_ELSE = re.compile(r"\b(?:joists?|hangers?|hardware|seats?|flanges?|slabs?|walls?|concrete|masonry|subfloor|plywood|"
                   r"sheathing|plates?|washers?|steel|carried|held|supported)\b", re.IGNORECASE)  # fmt: skip
_USED = re.compile(r"\b(?:used|taken|entered)\b", re.IGNORECASE)
_ALLOWABLE = re.compile(r"\b(?:ASD|allowable)\b", re.IGNORECASE)
_PAIR = re.compile(r"\b(?:per|for (?:a|the|each)|of a) pair\b|\b(?:per|for) (?:two|2) hangers\b", re.IGNORECASE)
_HALF = re.compile(r"\b(?:half (?:of (?:it|that|this)|the figure|is|was|entered|counts)|halved)\b", re.IGNORECASE)
_THIRD = re.compile(  # allowable loads are a third of what tests give
    r"\b(?:third|1/3) of (?:the |its )?(?:average |mean |lowest |least )?(?:ultimate|breaking|failure|test)"
    r"(?: (?:test|loads?|capacity|strength)){0,2}|"
    r"\b(?:ultimate|breaking|failure|test)(?: (?:test|loads?|capacity|strength)){0,2} ?"
    r"(?:/|over|divided by) ?(?:3|three)\b|"
    r"\bfactor of (?:3|three) (?:on|to|over|against) (?:the )?(?:ultimate|breaking|failure|test)(?: loads?)?",
    re.IGNORECASE,
)


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
    if said := _not_allowable(words):
        text = f"it says {said!r}: allowable loads are wanted, those of a test or of LRFD are larger"
        yield group.refers("anchor.rated_figure", "published figure", clause, Open(text, "rating_figure"))
    if said := _for_several(words):
        text = f"it says {said!r}: what one of them takes is wanted, since each end here counts for itself"
        yield group.refers("anchor.rated_figure", "published figure", clause, Open(text, "rating_figure"))
    if rating.conditions_met is True and (less := _affirmed(rating.conditions, "holes not filled")):
        text = f"the conditions say {less[0][0]!r}: published loads are for every hole filled"
        yield group.refers(id, "conditions of the rating", clause, Open(text, "conditions_not_met"))
    elif rating.conditions_met is True and (other := _affirmed(rating.conditions, "other than the report")):
        text = f"the conditions say {other[0][0]!r}: published loads are for hardware and fasteners as listed"
        yield group.refers(id, "conditions of the rating", clause, Open(text, "conditions_not_met"))


def _affirmed(text: str, sort: str) -> list[tuple[str, str]]:
    """Words of a sort that a text does not deny, each with its clause: 'no drywall screws' says that there are none."""
    found = []
    for clause in clauses(text):
        for said in told(clause, sort):
            start = clause.casefold().find(said.words.casefold())
            if not denied(clause, start, start + len(said.words)):
                found.append((said.words, clause))
    return found


def _not_allowable(words: str) -> str:
    """The words by which a figure is none of allowable loads; a report may list both, and say which are used."""
    own = _THIRD.sub("", " ".join(words.split()))
    if found := _affirmed(own, "no allowable load"):
        return found[0][0]
    both = any(_ALLOWABLE.search(clause) and not re.search(r"\b(?:no|not)\b", clause) for clause in clauses(own))
    factored = _affirmed(own, "factored load")
    return next((said for said, clause in factored if not both or _USED.search(clause)), "")


def _for_several(words: str) -> str:
    """The words by which a figure is that of a pair; half of it may be what was entered, and the words say so."""
    for clause in clauses(words):
        if (found := _PAIR.search(clause)) and not denied(clause, *found.span()) and not _HALF.search(words):
            return found[0]
    return ""


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
        sizes = [(read_size(f"{one['broad']}x{one['deep']}"), _plies(one), one[0]) for one in _SIZE.finditer(words)]
    except BeamcheckError:
        return
    named = " and ".join(dict.fromkeys(said for _, _, said in sizes))
    wide = [float(size.d) for size, plies, _ in sizes if abs(float(size.b) * plies - b) <= near]
    least = judgment("depth of a hanger on its piece").value
    if sizes and not wide:
        yield f"it is for {named}, but {group.piece} is {show(b, 'length')} broad"
    elif wide and _comes_down(group) and not any(least * d <= deep <= d + near for deep in wide):
        yield f"it is for {named}, but {group.piece} is {show(d, 'length')} deep"


def _plies(size: re.Match[str]) -> int:
    many = (size["many"] or size["count"] or "1")[0].casefold()
    return _PLIES.get(many) or int(many)


def _too_thin(group: Group, words: str, context: Context | None) -> Iterator[str]:
    """A carrying piece thinner than the report asks for: its nails come out behind."""
    if context is None or not isinstance(group.into, Beam):
        return
    size = read_size(context.stock(group.into.stock).size)
    b = float(size.d if group.into.laid == "flat" else size.b * group.into.plies)
    for found in _THICK.finditer(words):
        if _AT_MOST.search(words[: found.start()]) or not _of_what_carries(found, words):
            continue
        nominal = found["nominal"] or found["after"] or words[: found.start()].casefold().endswith("nominal ")
        needed = read(f"{found['least']} in", "length") - (judgment("nominal over dressed").value if nominal else 0.0)
        if needed > b + judgment("hardware and its piece").value:
            yield f"it says {found[0]!r}, but {group.into.name} is {show(b, 'length')} thick"
            return


def _of_what_carries(found: re.Match[str], words: str) -> bool:
    """Whether a measure is that of the carrying piece; a joist, a seat or a slab has one of its own."""
    before, after = re.split(r"[,;]", words[: found.start()])[-1], words[found.end() :].lstrip()
    if _CARRIES.search(before) or _CARRIES.match(after):
        return True
    return found["way"].casefold() == "thick" and not _ELSE.search(before) and not _ELSE.match(after)


def _other_kind(group: Group, words: str) -> Iterator[str]:
    kind = _affirmed(words, "hardware that lifts")
    if kind and _comes_down(group):
        yield f"{kind[0][0]!r} is for what lifts, and {show(float(np.max(group.parts['down'])), 'force')} come down"


def _comes_down(group: Group) -> bool:
    return float(np.max(group.parts["down"])) > negligible()
