"""A surveyed stock is one timber: one stick is made of it, of one ply, no longer than it was measured."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ...errors import nearest
from ..beams import Beam, beam_length
from ..fields.places import Fault, entries, feet, fields
from ..posts import Post
from ..roofs import Rafter, Tie, slope_length
from ..stock import Stock
from .entries import Entry

NEARLY = 0.5  # in; what two readings of a tape over a whole timber may differ


def survey_links(found: Sequence[Entry], stocks: Mapping[str, Entry]) -> Iterator[Fault]:
    """What does not fit between surveys and the pieces made of the timber."""
    for name, entry in stocks.items():
        stock = entry.piece
        if not isinstance(stock, Stock) or stock.survey is None:
            continue
        users = [one for one in found if one.text("stock") == name]
        if len(users) > 1:
            names = " and ".join(repr(one.text("name")) for one in users)
            text = f"a survey is of one timber, and {names} are all made of it"
            yield (*entry.path, "survey"), f"{text}: give each its own [[stock]] with its own survey"
        for user in users:
            over = [one.piece for one in found if isinstance(one.piece, Rafter) and one.piece.tie == user.text("name")]
            yield from _of_one(user, stock, over[0] if over else None)


def movement_links(job: Any, things: Mapping[str, Entry]) -> Iterator[Fault]:
    """A part that moves is on a piece that there is."""
    names = [name for name, entry in things.items() if entry.kind not in ("existing", "roof", "floor")]
    for i, part in enumerate(entries(fields(job).get("movement"))):
        on = fields(part).get("on")
        if isinstance(on, str) and on not in names:
            yield ("movement", i, "on"), f"there is no piece named {on!r} in the job; {nearest(on, names)}"
        elif fields(part).get("kind") == "bracket" and isinstance(on, str) and things[on].kind != "bracket":
            yield ("movement", i, "on"), f"{on!r} is no bracket: name the bracket whose gap or bearing moves"


def _of_one(user: Entry, stock: Stock, over: Rafter | None) -> Iterator[Fault]:
    piece, survey = user.piece, stock.survey
    if piece is None or survey is None:
        return
    path = (*user.path, "stock")
    if not isinstance(piece, (Beam, Post, Rafter, Tie)):
        text = "a survey is counted for beams, posts, rafters and ties only"
        yield path, f"{text}: have this timber graded, and enter the certificate in a stock without a survey"
        return
    if piece.plies > 1:
        yield path, f"a survey is of one timber, and this piece has {piece.plies} plies: survey each by itself"
    if not isinstance(piece, Post) and piece.laid == "flat":
        yield path, "a surveyed timber that lies flat is for an engineer: its faces change places"
    long = _long(piece, over)
    if long > survey.length + NEARLY:
        text = f"the piece is {feet(long)} long, and the survey looked at {feet(survey.length)}"
        yield path, f"{text}: look at the rest, or correct survey.length"


def _long(piece: Beam | Post | Rafter | Tie, over: Rafter | None) -> float:
    """Inches; a tie reaches from rafter to rafter at its height."""
    if isinstance(piece, Beam):
        return beam_length(piece)
    if isinstance(piece, Post):
        return piece.height
    if isinstance(piece, Rafter):
        return slope_length(piece)
    slope = 0.0 if over is None else math.tan(math.radians(over.slope))
    return 2.0 * (over.run - piece.height / slope) if over is not None and slope > 0.0 else 0.0
