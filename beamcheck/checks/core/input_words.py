"""The inputs of a piece as labels and texts, so that a reader can compare them with the real house."""

from __future__ import annotations

from ...model.base import Insisting
from ...model.pieces import Beam, Cut, Post, Rafter, Stick, Stock, Tie
from ...model.rules import beam_length
from ...units import show
from ...values.lumber import read_size

Rows = list[tuple[str, str]]


def wood_words(stock: Stock) -> str:
    """'6x12 dressed Douglas Fir-Larch No.1'."""
    return f"{stock.size} {stock.species} {stock.grade}"


def stock_inputs(stock: Stock) -> Rows:
    """What is known of the wood, and from whom."""
    size = read_size(stock.size)
    if size.surface == "round":
        actual = f"{show(size.d, 'length')} diameter"
    else:
        actual = f"{show(size.b, 'length')} x {show(size.d, 'length')}"
    metered = f", metered at {show(stock.measured_moisture, 'moisture')}" if stock.measured_moisture is not None else ""
    treatment = ("treated" * stock.treated, "incised" * stock.incised)
    rows = [
        ("stock", stock.name), ("size as named", stock.size), ("size counted", actual),
        ("size class", size.size_class.replace("_", " ")), ("species", stock.species), ("grade", stock.grade),
        ("grade comes from", stock.grade_from or "not said"), ("evidence", stock.evidence or "none given"),
        ("moisture", stock.moisture + metered), ("treatment", ", ".join(filter(None, treatment)) or "none"),
    ]  # fmt: skip
    if stock.values is not None:
        rows.append(("design values", f"given: {stock.values.source}"))
    return [*rows, *_meant_rows(stock)]


def stick_inputs(stick: Stick) -> Rows:
    """What beams, rafters and ties have in common."""
    rows = [
        ("plies", str(stick.plies)), ("laid", stick.laid), ("top edge held", _held(stick.top_held)),
        ("bottom edge held", _held(stick.bottom_held)), ("finish that cracks", stick.finish),
    ]  # fmt: skip
    if stick.limit_why:
        rows.append(("own deflection limits", stick.limit_why))
    if stick.members > 1:
        rows.append(
            ("shares load", f"{stick.members} members at {show(stick.spacing or 0.0, 'length')}: {stick.shared_by}")
        )
    return [*rows, *_cut_rows(stick.cuts), *_meant_rows(stick, *stick.carries)]


def beam_inputs(beam: Beam) -> Rows:
    """Length and supports."""
    rows = [("length", show(beam_length(beam), "length")), ("service", beam.service)]
    for index, support in enumerate(beam.supports):
        seat = f", seat {show(support.bearing, 'length')}" if support.bearing else ", seat not given"
        upright = {True: ", held upright", False: ", not held upright", None: ""}[support.restrained]
        where = f"{support.holds} on {support.on} at {show(support.at, 'length')}"
        rows.append((f"support {index + 1}", f"{where}{seat}{upright}"))
    return rows


def rafter_inputs(rafter: Rafter) -> Rows:
    """The shape of the roof and how the rafter is held."""
    wall = rafter.wall
    rows = [
        ("run", show(rafter.run, "length")), ("slope", show(rafter.slope, "slope")),
        ("spacing", show(rafter.spacing, "length")), ("ridge", rafter.ridge),
        ("upper end on", rafter.ridge_on or "the opposite rafter"),
        ("other side", "a rafter leans on the ridge there too" if rafter.pair else "none"),
        ("wall", f"{wall.holds} on {wall.on}"), ("tail beyond the wall", show(wall.at, "length")),
        ("tie", rafter.tie or "none"),
        ("seat cut", show(rafter.seat_cut, "length") if rafter.seat_cut else "not given"),
        ("level seat", show(wall.bearing, "length") if wall.bearing else "not given"),
    ]  # fmt: skip
    if rafter.thrust_resisted_by:
        rows.append(("thrust said to be resisted by", rafter.thrust_resisted_by))
    return rows


def tie_inputs(tie: Tie) -> Rows:
    """Where the tie is and how it is joined."""
    return [("height above the wall", show(tie.height, "length")), ("joints at its ends", tie.end_connection)]


def post_inputs(post: Post) -> Rows:
    """Height, ends, braces, and where the load comes down."""
    offsets = [
        "not given" if e is None else show(abs(e), "length") for e in (post.eccentricity, post.eccentricity_weak)
    ]
    braces = [
        show(e, "length") if e is not None else "none, whole height" for e in (post.braced_strong, post.braced_weak)
    ]
    return [
        ("height", show(post.height, "length")), ("stands on", post.on), ("top", post.top_restraint),
        ("foot", post.base_restraint), ("plies", f"{post.plies}, joined: {post.plies_joined}"),
        ("braced the deep way", braces[0]), ("braced the thin way", braces[1]),
        ("load off center the deep way", offsets[0]), ("load off center the thin way", offsets[1]),
        ("metal plate at the ends", "yes" if post.bearing_plate else "no"), *_cut_rows(post.cuts),
        *_meant_rows(post, *post.carries),
    ]  # fmt: skip


def _held(held: str | float) -> str:
    return held if isinstance(held, str) else f"every {show(held, 'length')}"


def _cut_rows(cuts: tuple[Cut, ...]) -> Rows:
    return [("cut", f"{cut.kind}, {show(cut.depth, 'length')} at {show(cut.at, 'length')}") for cut in cuts]


def _meant_rows(*tables: Insisting) -> Rows:
    """Odd figures that are meant, with the reason."""
    return [(f"{field.replace('_', ' ')} is meant", why) for one in tables for field, why in one.meant.items()]
