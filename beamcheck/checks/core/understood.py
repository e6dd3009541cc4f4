"""What a piece was taken for: its inputs as labels, and a sentence in which a wrong unit or room shows first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from ...model.beams import Beam, beam_length
from ...model.classes import is_anchor, is_bracket, is_frame, is_joint, is_member, is_trim
from ...model.fields.base import Insisting
from ...model.job import Job
from ...model.loads import KINDS, Load
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...model.sticks import Cut, Stick
from ...model.stock import Stock
from ...units import show
from ...values.lumber import read_size
from .wood.moist import metered_wet

if TYPE_CHECKING:
    from ...model.anchors.anchor import Anchor
    from ...model.brackets.bracket import Bracket
    from ...model.frames.frame import Frame, FrameStick
    from ...model.joints.joint import Joint

Rows = list[tuple[str, str]]


def wood_words(stock: Stock) -> str:
    """'6x12 dressed Douglas Fir-Larch No.1'; glued or composite wood says so."""
    if stock.made == "steel":
        shape = stock.steel.shape if stock.steel is not None else None
        return f"steel {shape or stock.size} of {stock.grade}"
    made = "glulam, " if stock.made == "glulam" else ""
    return f"{stock.size} {made}{stock.species} {stock.grade}"


def stick_words(stick: Stick | Post, stock: Stock) -> str:
    """The wood of a piece, with how many plies it is made of and the plate between them."""
    plies = f"{stick.plies} plies of " if stick.plies > 1 else ""
    return f"{plies}{wood_words(stock)}{_plate_words(stick)}"


def _plate_words(stick: Stick | Post) -> str:
    plate = stick.flitch if isinstance(stick, Beam) else None
    return (
        f", with a {show(plate.thickness, 'length')} x {show(plate.depth, 'length')} steel plate between them"
        if plate is not None
        else ""
    )


def stock_inputs(stock: Stock) -> Rows:
    """What is known of the wood, and from whom."""
    size = read_size(stock.size)
    if size.surface == "round":
        actual = f"{show(size.d, 'length')} diameter"
    else:
        actual = f"{show(size.b, 'length')} x {show(size.d, 'length')}"
    metered = f", metered at {show(stock.metered, 'moisture')}" if stock.metered is not None else ""
    treatment = ("treated" * stock.treated, "incised" * stock.incised)
    rows = [
        ("stock", stock.name), *_made_rows(stock), ("size as named", stock.size), ("size counted", actual),
        *([("size class", size.size_class.replace("_", " "))] if stock.made == "sawn" else []),
        ("species", stock.species), ("grade", stock.grade),
        ("grade comes from", stock.grade_from or "not said"), ("evidence", stock.evidence or "none given"),
        ("moisture", stock.moisture + metered), ("treatment", ", ".join(filter(None, treatment)) or "none"),
    ]  # fmt: skip
    if stock.made == "steel":
        rows = [row for row in rows if row[0] not in ("species", "moisture", "treatment")]
    if stock.values is not None:
        rows.append(("design values", f"given: {stock.values.source}"))
    return [*rows, *_meant_rows(stock)]


def _made_rows(stock: Stock) -> Rows:
    """What is not sawn says what it is, and of which report all that is taken from it."""
    if stock.made == "sawn":
        return []
    rows = [("made", {"glulam": "glued laminated timber", "steel": "steel"}.get(stock.made, "composite lumber"))]
    if (report := stock.report) is None:
        return rows
    values = [f"{name} {show(value, 'stress')}" for name in ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")
              if (value := getattr(report, name)) is not None]  # fmt: skip
    depth = f"depth factor ({show(report.d_0, 'length')} over the depth) to the power {report.power:g}"
    return [*rows, ("the maker's report", f"{report.number}, {report.edition}"), ("it gives", ", ".join(values)),
            ("its factors", f"{depth}; C_r {report.C_r:g}")]  # fmt: skip


def stick_inputs(stick: Stick) -> Rows:
    """What beams, rafters and ties have in common."""
    rows = [
        ("plies", str(stick.plies)), ("laid", stick.laid), ("top edge held", _as_stated(stick.top_held)),
        ("bottom edge held", _as_stated(stick.bottom_held)), ("finish that cracks", stick.finish),
    ]  # fmt: skip
    if stick.limit_why:
        rows.append(("own deflection limits", stick.limit_why))
    if stick.members > 1:
        rows.append(
            ("shares load", f"{stick.members} members at {show(stick.spacing or 0.0, 'length')}: {stick.shared_by}")
        )
    return [*rows, *_cut_rows(stick.cuts), *_meant_rows(stick, *stick.carries)]


def _plate_rows(beam: Beam) -> Rows:
    plate = beam.flitch
    if plate is None:
        return []
    size = f"{show(plate.thickness, 'length')} x {show(plate.depth, 'length')} {plate.grade}"
    bolts = f"{plate.bolt}, {plate.rows} rows every {show(plate.spacing, 'length')}, {plate.end_bolts} over each seat"
    return [("steel plate between the plies", size), ("its bolts", bolts)]


def beam_inputs(beam: Beam) -> Rows:
    """Length and supports."""
    rows = [("length", show(beam_length(beam), "length")), ("service", beam.service)]
    for index, support in enumerate(beam.supports):
        seat = f", seat {show(support.bearing, 'length')}" if support.bearing else ", seat not given"
        upright = {True: ", held upright", False: ", not held upright", None: ""}[support.restrained]
        where = f"{support.holds} on {support.on} at {show(support.at, 'length')}"
        rows.append((f"support {index + 1}", f"{where}{seat}{upright}"))
    if (by := beam.plies_schedule) is not None:
        rows.append(("plies joined by", f"{by.size} {by.kind}s, {by.rows} rows every {show(by.spacing, 'length')}"))
    return [*rows, *_plate_rows(beam)]


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


def frame_inputs(frame: Frame) -> Rows:
    """Its form, its measures, what it stands on and what holds it upright."""
    rows = [("form", frame.kind), *((name.replace("_", " "), show(value, "length"))
                                    for name, value in frame.measures.items())]  # fmt: skip
    if frame.spacing:
        rows.append(("from frame to frame", show(frame.spacing, "length")))
    for foot in frame.feet:
        seat = f", seat {show(foot.bearing, 'length')}" if foot.bearing else ", seat not given"
        slides = f", slides: {foot.slides_by or 'by nobody'}" if foot.slides else ""
        rows.append((foot.at, f"on {foot.on}{seat}{slides}"))
    rows += [
        ("held upright by", frame.upright_by or "not said"), ("finish that cracks", frame.finish),
        ("softest joint", show(frame.joint_stiffness, "stiffness") if frame.joint_stiffness else "not said"),
    ]  # fmt: skip
    if frame.joint_play is not None:
        rows.append(("play of bolted joints", show(frame.joint_play, "length")))
    if frame.sway_held_by:
        rows.append(("held from swaying by", frame.sway_held_by))
    return [*rows, *_meant_rows(frame, *frame.carries)]


def member_inputs(member: FrameStick) -> Rows:
    """Its place in the frame and what holds it."""
    return [
        ("member of", member.frame), ("length", show(member.length, "length")), ("slope", show(member.slope, "angle")),
        ("upper edge held", _as_stated(member.top_held)), ("lower edge held", _as_stated(member.bottom_held)),
        *_cut_rows(member.cuts), *_meant_rows(member, *member.carries),
    ]  # fmt: skip


def _as_stated(held: str | float) -> str:
    return held if isinstance(held, str) else f"every {show(held, 'length')}"


def _cut_rows(cuts: tuple[Cut, ...]) -> Rows:
    return [("cut", f"{cut.kind}, {show(cut.depth, 'length')} at {show(cut.at, 'length')}") for cut in cuts]


def _figure(field: str) -> str:
    """What a field is called in a sentence."""
    return "place" if field == "at" else field.replace("_", " ")


def _meant_rows(*tables: Insisting) -> Rows:
    """Odd figures that are meant, with the reason."""
    return [(f"{_figure(field)} is meant", why) for one in tables for field, why in one.meant.items()]


_KIND = {"dead": "dead", "live": "live", "roof_live": "roof live", "snow": "snow", "wind": "wind"}
_FINISH = {"none": "", "flexible": "a finish that gives", "plaster": "plaster", "gypsum board": "gypsum board"}
_HOLDS = {"rests": "rests on", "hung": "hangs on", "fixed": "is clamped in"}


def understood(job: Job) -> Callable[[str], str]:
    """What gives the sentence for a piece or an anchor group of a job by its name; '' for what is none of both."""
    stocks = {stock.name: stock for stock in job.stock}
    members = [stick for frame in job.frame for stick in frame.sticks]
    every: tuple[Any, ...] = (
        *job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim, *job.anchor, *job.frame, *members,
        *job.joint,
    )  # fmt: skip
    pieces: dict[str, Any] = {}
    resting: dict[str, list[str]] = {}
    for one in every:
        pieces.setdefault(one.name, one)
        for under in dict.fromkeys(_rests_on(one)):
            resting.setdefault(under, []).append(one.name)

    def sentence(name: str) -> str:
        piece = pieces.get(name)
        if piece is None:
            return ""
        parts = [part for part in _parts(piece, stocks, job) if part]
        if above := resting.get(name):
            stands = "stand or hang" if len(above) > 1 else "stands or hangs"
            parts.append(f"{_listed(above)} {stands} on it")
        return f"{name} is {'; '.join(parts)}.{_meant(piece, stocks)}"

    return sentence


def _parts(piece: object, stocks: dict[str, Stock], job: Job) -> Sequence[str]:
    match piece:
        case Beam():
            return _beam(piece, stocks)
        case Rafter():
            return _rafter(piece, stocks)
        case _ if is_frame(piece):
            from ...model.frames.frame import said_length

            held = [f"its {foot.at} stands on {foot.on}{_seat(foot.bearing)}" for foot in piece.feet]
            return [
                f"a {piece.kind} frame of {len(piece.sticks)} members, {said_length(piece)} from foot to foot",
                *held,
            ]
        case _ if is_member(piece):
            return [f"the {piece.stick} of {piece.frame}, {_wood(piece, stocks)}", *_loads(piece.carries)]
        case Tie():
            return [
                f"a level tie of {_wood(piece, stocks)}",
                f"{show(piece.height, 'length')} above the wall supports",
                *_loads(piece.carries),
            ]
        case Post():
            return _post(piece, stocks)
        case _ if is_bracket(piece):
            return _bracket(piece, stocks)
        case _ if is_trim(piece):
            return [f"{piece.what}, for looks only", f"{show(piece.weight, 'force')} on {piece.on}"]
        case _ if is_anchor(piece):
            return _anchor(piece, job)
        case _ if is_joint(piece):
            return _joint(piece)
    return []


def _beam(beam: Beam, stocks: dict[str, Stock]) -> list[str]:
    places = sorted(support.at for support in beam.supports)
    spans = [show(right - left, "length") for left, right in pairwise(places)]
    held = [f"{_HOLDS[support.holds]} {support.on}{_seat(support.bearing)}" for support in beam.supports]
    span = f", {_listed(spans)} from middle to middle of its supports" if spans else ", out from its one support"
    finish = _FINISH.get(beam.finish, beam.finish)
    row = f", one of a row every {show(beam.spacing, 'length')}" if beam.spacing else ""
    return [
        f"a {beam.service} beam of {_wood(beam, stocks)}{row}",
        f"{show(beam_length(beam), 'length')} long{span}",
        f"it {_listed(held)}",
        f"with {finish} that cracks when it bends too far" if finish and beam.finish != "flexible" else "",
        f"its top edge is held {_held(beam.top_held)}",
        *_loads(beam.carries),
    ]


def _rafter(rafter: Rafter, stocks: dict[str, Stock]) -> list[str]:
    upper = f"hangs on {rafter.ridge_on}" if rafter.ridge_on else "leans on the opposite rafter"
    tie = f", tied by {rafter.tie}" if rafter.tie else ""
    return [
        f"{'a pair of rafters' if rafter.pair else 'a rafter'} of {_wood(rafter, stocks)}, "
        f"every {show(rafter.spacing, 'length')}",
        f"{show(rafter.run, 'length')} on plan at {show(rafter.slope, 'slope')}",
        f"its foot {_HOLDS[rafter.wall.holds]} {rafter.wall.on}{_seat(rafter.wall.bearing)}, its head {upper}{tie}",
        *_loads(rafter.carries),
    ]


def _post(post: Post, stocks: dict[str, Stock]) -> list[str]:
    plies = f"{post.plies} plies of " if post.plies > 1 else ""
    return [
        f"a post of {plies}{_named(post.stock, stocks)}",
        f"{show(post.height, 'length')} high, on {post.on}, {post.top_restraint} at the top and "
        f"{post.base_restraint} at the foot",
        *_loads(post.carries),
    ]


def _bracket(bracket: Bracket, stocks: dict[str, Stock]) -> list[str]:
    wood = f" of {_named(bracket.stock, stocks)}" if bracket.stock else ""
    meant = {"carries": "meant to carry", "decorative": "meant to bear nothing", "cover": "a cover over hardware"}
    near = bracket.near
    gap = (
        ""
        if near is None
        else "touching or not is not known"
        if near.gap is None
        else f"{show(near.gap, 'length')} clear"
    )
    return [
        f"a {bracket.shape.family.replace('_', ' ')} bracket{wood} on {bracket.on}, {meant[bracket.role]}",
        f"under {near.beam}, {gap}" if near is not None else "",
        *_loads(bracket.carries),
    ]


def _anchor(anchor: Anchor, job: Job) -> list[str]:
    holds = [stick.name for stick in job.beam if any(one.held_by == anchor.name for one in stick.supports)]
    holds += [rafter.name for rafter in job.rafter if rafter.wall.held_by == anchor.name]
    holds += [tie.name for tie in job.tie if tie.ends_held_by == anchor.name]
    fastener = anchor.fastener
    words = "" if fastener is None else f" with {fastener.kind}s {fastener.size or ''}".rstrip()
    into = f" into {anchor.into}" if anchor.into else ""
    return [
        f"a fastening, {anchor.manner}{words}{into}",
        f"it holds {_listed(holds)}" if holds else "it holds nothing here",
    ]


def _joint(joint: Joint) -> list[str]:
    fastener = joint.fastener
    words = "" if fastener is None else f" with {fastener.kind}s {fastener.size or ''}".rstrip()
    where = f" at the {joint.at} of {joint.frame}" if joint.frame else ""
    where += f" at the foot of {joint.post}" if joint.post else ""
    members = [f"{one.name} ({one.part})" if one.part else one.name for one in joint.members]
    return [
        f"a joint, {joint.kind}{words}{where}",
        f"it joins {_listed(members)}" if len(members) > 1 else f"of {members[0]}" if members else "",
        f"it is a splice of {joint.spliced}" if joint.spliced else "",
        f"the forces are those of {joint.forces_by}" if joint.forces_by else "",
        f"it stands on {joint.stands_on}" if joint.stands_on else "",
    ]


def _loads(loads: Sequence[Load]) -> list[str]:
    """'it carries floor, 10 psf dead and 40 psf live over 8 ft'."""
    found = []
    for load in loads:
        kinds = [f"{show(getattr(load, kind), 'load')} {_KIND[kind]}" for kind in KINDS if getattr(load, kind)]
        width = f" over {show(load.width, 'length')}" if load.width else ""
        found.append(f"{load.what}, {_listed(kinds)}{width}")
    return [f"it carries {'; and '.join(found)}"] if found else ["no load of its own is given"]


def _wood(stick: Stick, stocks: dict[str, Stock]) -> str:
    plies = f"{stick.plies} plies of " if stick.plies > 1 else ""
    flat = " laid flat" if stick.laid == "flat" else ""
    return f"{plies}{_named(stick.stock, stocks)}{_plate_words(stick)}{flat}"


def _named(name: str, stocks: dict[str, Stock]) -> str:
    stock = stocks[name]
    words = wood_words(stock)
    if "unknown" in (stock.species, stock.grade) or stock.grade == "unstamped":
        words = (
            f"{stock.size}, wood that nobody has graded" if stock.values is None else f"{stock.size}, values by letter"
        )
    return words if stock.made == "steel" else f"{words}, {_moist(stock)}"


def _moist(stock: Stock) -> str:
    """The moisture as said; where a reading says otherwise, what it is taken for."""
    if stock.moisture != "dry" or not metered_wet(stock):
        return stock.moisture
    return f"said to be dry, metered at {stock.metered:g} % and taken as wet"


def _seat(bearing: float | None) -> str:
    return f" ({show(bearing, 'length')} of seat)" if bearing else ""


def _held(held: str | float) -> str:
    words = {"full length": "all along", "at loads": "where loads come down", "ends only": "at its ends only"}
    return words.get(held, held) if isinstance(held, str) else f"every {show(held, 'length')}"


def _meant(piece: object, stocks: dict[str, Stock]) -> str:
    """Odd figures that the user insists on, with the reason."""
    of = [piece, *(one for one in [stocks.get(getattr(piece, "stock", None) or "")] if one is not None)]
    of += [*getattr(piece, "carries", ())]
    reasons = {field: why for one in of if isinstance(one, Insisting) for field, why in one.meant.items()}
    return f" Meant so: {'; '.join(f'{_figure(field)}, {why}' for field, why in reasons.items())}." if reasons else ""


def _rests_on(piece: object) -> list[str]:
    if isinstance(piece, Beam):
        return [support.on for support in piece.supports]
    if isinstance(piece, Rafter):
        return [piece.wall.on, *([piece.ridge_on] if piece.ridge_on else [])]
    if is_frame(piece):
        return [foot.on for foot in piece.feet]
    return [piece.on] if isinstance(piece, Post) or is_bracket(piece) or is_trim(piece) else []


def _listed(words: Sequence[str]) -> str:
    """'a, b and c'; the same words in a row once."""
    each = list(dict.fromkeys(words))
    return " and ".join([", ".join(each[:-1]), each[-1]]) if len(each) > 1 else "".join(each)
