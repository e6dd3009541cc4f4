"""What must be seen or said before a bracket or trim is believed: knots, and what its fasteners go through and into."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.anchor_links import diameter
from ...model.brackets import Bracket, Trim
from ...model.pieces import Beam, Existing, Post
from ...units import show
from ...values.lumber import read_size
from ..core.context import Context
from ..core.govern import stated
from ..core.result import Check

INTO = "what the fasteners go into"
SKINS = ("plaster", "gypsum board")
ENOUGH_END = 7.0  # diameters: farther from an end it no longer matters (NDS 2018 Table 12.5.1A, softwood, memory)
THINNER, THICKER = 0.25, 1.0 / 16.0  # in: a stated thickness may differ from its stock's side by so much; judgement


def knots_seen(bracket: Bracket) -> Iterator[Check]:
    """Refers unless somebody has seen that there is none where it is thinnest."""
    if bracket.knots != "none in the throat":
        said = {None: "is not said (`knots`)", "in the throat": "there are some"}.get(bracket.knots, "nobody looked")
        text = f"knots, checks and repairs where it is thinnest: {said}"
        yield stated(bracket.name, "knots in the throat", "judgement", "refer", text)


def into_checks(piece: Bracket | Trim, context: Context) -> Iterator[Check]:
    """That what the fasteners are said to go into is what the piece is fixed to, and as thick as its stock."""
    fixings = piece.fixings
    if fixings is None or fixings.fastener is None or fixings.other is None:
        return
    other, under = fixings.other, context.under(piece.on)
    into = f"wood, stock {other.stock!r}" if other.material == "wood" and other.stock else other.material
    text = ""
    if isinstance(under, Existing):
        if under.material == "other":
            text = f"what {under.name} is made of is not said (`material`), and the fasteners are to go into {into}"
        elif under.material != other.material:
            text = (
                f"the fasteners are said to go into {into}, but {under.name} is of {under.material}: say what they "
                "hold in"
            )
    elif other.material != "wood":
        text = f"the fasteners are said to go into {into}, but {under.name} is no such thing"
    elif isinstance(under, (Beam, Post, Bracket, Trim)) and other.stock is not None and under.stock != other.stock:
        of = f"of stock {under.stock!r}" if under.stock is not None else "of no stock that is named"
        text = f"the fasteners are said to go into stock {other.stock!r}, but {under.name} is {of}"
    if text:
        yield stated(piece.name, INTO, "load path", "refer", text)
    if fixings.wall in ("masonry", "steel") and other.material == "wood":
        text = f"its back presses against {fixings.wall}, but the fasteners are said to go into {into}: look again"
        yield stated(piece.name, "wall and fasteners", "load path", "refer", text)
    if fixings.wall in SKINS and fixings.gap == 0.0:
        text = f"its back presses against {fixings.wall}, which the fasteners go through: give how thick it is (`gap`)"
        yield stated(piece.name, "thickness of the skin", "NDS 2018 12", "refer", text)
    if other.material == "wood" and other.stock is not None:
        size = read_size(context.stock(other.stock).size)
        if not any(side - THINNER <= other.thickness <= side + THICKER for side in (size.b, size.d)):
            text = (
                f"the thickness given for it, {show(other.thickness, 'length')}, is that of neither side of its stock "
                f"{size.text!r}"
            )
            yield stated(piece.name, "wood behind", "geometry", "refer", text)


def rows_on_the_post(bracket: Bracket, height: float, context: Context) -> Iterator[Check]:
    """That each row meets the post on which it stands, as far from its ends as is said; `height`: of its back, in."""
    fixings, post = bracket.fixings, context.under(bracket.on)
    if fixings is None or fixings.fastener is None or not isinstance(post, Post) or bracket.at is None:
        return
    D, top = diameter(fixings.fastener.kind, fixings.fastener.size), bracket.at + height
    places = [top - row.below_top for row in fixings.rows]
    room = min(min(place, post.height - place) for place in places)
    if room <= 0.5 * D:
        text = (
            f"its foot stands {show(bracket.at, 'length')} up {post.name}, {show(post.height, 'length')} high: not "
            "every row of fasteners meets the post"
        )
        yield stated(bracket.name, "rows on the post", "geometry", "fails", text)
        return
    end = fixings.other.end if fixings.other is not None else None
    if end is not None and end > room + THICKER and room < ENOUGH_END * D:
        text = (
            f"{show(end, 'length')} is given from the end of the post to the first fastener (`other.end`), but where "
            f"the bracket stands (`at`) only {show(room, 'length')} is left"
        )
        yield stated(bracket.name, "rows on the post", "geometry", "refer", text)
