"""What must be seen or said before a bracket or trim is believed: knots, and what its fasteners go through and into."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.anchors.anchor import Other
from ...model.beams import Beam
from ...model.brackets.bracket import Bracket, Trim
from ...model.existing import Existing
from ...model.links.hardware import diameter
from ...model.posts import Post
from ...units import show
from ...values.hardware.connections import distance
from ...values.judgment import judgment
from ...values.lumber import read_size
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.context import Context
from ..core.result import Check
from .asking import ask_engineer, ask_for, path_of

INTO = "what the fasteners go into"
SKINS = ("plaster", "gypsum board")


def knots_seen(bracket: Bracket) -> Iterator[Check]:
    """Refers unless somebody has seen that there is none where it is thinnest."""
    id, what = "bracket.knots", "knots in the throat"
    if bracket.knots == "in the throat":
        text = "knots, checks or repairs where it is thinnest: there are some"
        asked = ask_engineer(bracket, "knot_allowed", why="There is a knot, a check or a repair where it is thinnest.")
        yield Check.refers(id, bracket.name, what, "judgment", text, ask=asked)
    elif bracket.knots != "none in the throat":
        said = "is not said (`knots`)" if bracket.knots is None else "nobody looked"
        text = f"knots, checks and repairs where it is thinnest: {said}"
        yield Check.refers(id, bracket.name, what, "judgment", text, ask=ask_for(bracket, "knots", "knots"))


def sinking_not_given(bracket: Bracket) -> Check:
    """How far the nose may sink is for the user to say."""
    text = "how far the nose may sink is not given (`deflects`)"
    asked = ask_for(bracket, "deflects", "deflects")
    return Check.refers("bracket.sinking", bracket.name, "sinking of the nose", "judgment", text, ask=asked)


def material_of(other: Other) -> str:
    """What fasteners go into, in words."""
    return f"wood, stock {other.stock!r}" if other.material == "wood" and other.stock else other.material


def into_checks(piece: Bracket | Trim, context: Context) -> Iterator[Check]:
    """That what the fasteners are said to go into is what the piece is fixed to, and as thick as its stock."""
    fixings = piece.fixings
    if fixings is None or fixings.fastener is None or fixings.other is None:
        return
    name, other, under = piece.name, fixings.other, context.under(piece.on)
    into = material_of(other)
    at, text = path_of(piece, "fixings.other"), ""
    answers: list[PlausibleAnswer | str] = []
    if isinstance(under, Existing):
        at = f"existing.{under.name}.material"
        if other.material == "wood":
            answers = [other.material]
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
        at = path_of(piece, "fixings.other.stock")
        answers = [under.stock] if under.stock is not None else []
    if text:
        asked = ask("hold_in", name, at, answers=answers, on=piece.on)
        yield Check.refers("bracket.into", name, INTO, "load path", text, ask=asked)
    if fixings.wall in ("masonry", "steel") and other.material == "wood":
        text = f"its back presses against {fixings.wall}, but the fasteners are said to go into {into}: look again"
        asked = ask_for(piece, "wall", "fixings.wall")
        yield Check.refers("bracket.wall_and_fasteners", name, "wall and fasteners", "load path", text, ask=asked)
    if fixings.wall in SKINS and fixings.gap == 0.0:
        text = f"its back presses against {fixings.wall}, which the fasteners go through: give how thick it is (`gap`)"
        asked = ask_for(piece, "skin", "fixings.gap", wall=fixings.wall)
        yield Check.refers("bracket.skin", name, "thickness of the skin", "NDS 2018 12", text, ask=asked)
    if other.material == "wood" and other.stock is not None:
        size = read_size(context.stock(other.stock).size)
        thinner, thicker = (judgment(f"stated thickness {way} than its stock").value for way in ("thinner", "thicker"))
        if not any(side - thinner <= other.thickness <= side + thicker for side in (size.b, size.d)):
            text = (
                f"the thickness given for it, {show(other.thickness, 'length')}, is that of neither side of its stock "
                f"{size.text!r}"
            )
            sides = [f"{side:g} in" for side in dict.fromkeys((float(size.d), float(size.b)))]
            asked = ask_for(piece, "thickness_behind", "fixings.other.thickness", sides, stock=other.stock, on=piece.on)
            yield Check.refers("bracket.wood_behind", name, "wood behind", "geometry", text, ask=asked)


def rows_on_the_post(bracket: Bracket, height: float, context: Context) -> Iterator[Check]:
    """That each row meets the post on which it stands, as far from its ends as is said; `height`: of its back, in."""
    fixings, post = bracket.fixings, context.under(bracket.on)
    if fixings is None or fixings.fastener is None or not isinstance(post, Post) or bracket.at is None:
        return
    id, what, top = "bracket.rows_on_post", "rows on the post", bracket.at + height
    D = diameter(fixings.fastener.kind, fixings.fastener.size)
    places = [top - row.below_top for row in fixings.rows]
    room = min(min(place, post.height - place) for place in places)
    if room <= 0.5 * D:
        text = (
            f"its foot stands {show(bracket.at, 'length')} up {post.name}, {show(post.height, 'length')} high: not "
            "every row of fasteners meets the post"
        )
        yield Check.breaks_rule(id, bracket.name, what, "geometry", text)
        return
    end = fixings.other.end if fixings.other is not None else None
    far = distance("end", "along", "tension softwood").value.full or 0.0  # diameters: farther it no longer matters
    slack = judgment("stated thickness thicker than its stock").value
    if end is not None and end > room + slack and room < far * D:
        text = (
            f"{show(end, 'length')} is given from the end of the post to the first fastener (`other.end`), but where "
            f"the bracket stands (`at`) only {show(room, 'length')} is left"
        )
        asked: Question = ask_for(bracket, "end_behind", "fixings.other.end", [f"{room:g} in"], on=post.name)
        yield Check.refers(id, bracket.name, what, "geometry", text, ask=asked)
