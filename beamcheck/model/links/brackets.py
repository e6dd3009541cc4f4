"""Brackets and trim against the rest of the job: places, the beam above, what is hidden, stock, fasteners, steel."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, TypeGuard

from ...errors import BeamcheckError, nearest
from ...values.lumber import Size
from ..beams import Beam, beam_length
from ..brackets.bracket import Bracket, Trim
from ..fields.places import SAME_PLACE, Fault, Path, entries, feet, fields, inches
from ..posts import Post
from .hardware import diameter, fastener_faults, steel_faults

if TYPE_CHECKING:
    from .entries import Entry

Things = Mapping[str, "Entry"]


def bracket_links(
    found: Sequence[Entry], stocks: Things, things: Things, size_of: Callable[[Entry | None], Size | None]
) -> Iterator[Fault]:
    """All that is wrong between brackets or trim and the rest of the job."""
    for entry in found:
        if isinstance(entry.piece, Post):
            yield from near_faults(entry.path, entry.piece, things)
        if entry.kind not in ("bracket", "trim"):
            continue
        yield from _of_the_tables(entry)
        yield from _names(entry, stocks, things)
        if isinstance(entry.piece, (Bracket, Trim)):
            yield from _fasteners(entry.path, entry.piece)
        if isinstance(entry.piece, Trim):
            yield from near_faults(entry.path, entry.piece, things)
        if isinstance(entry.piece, Bracket):
            yield from _place(entry.path, entry.piece, things)
            yield from near_faults(entry.path, entry.piece, things)
            yield from _cut_from(entry.path, entry.piece, stocks, size_of)
            yield from _seat(entry.path, entry.piece, stocks, things, size_of)


def _names(entry: Entry, stocks: Things, things: Things) -> Iterator[Fault]:
    """Names of beams, anchors and stock within a bracket; on plain data, so that all of them come at once."""
    beams = [name for name, thing in things.items() if thing.kind == "beam"]
    anchors = [name for name, thing in things.items() if thing.kind in ("anchor", "joint")]
    beam = fields(entry.data.get("near")).get("beam")
    if _is_text(beam) and beam not in beams:
        what = _not_the_kind(beam, "beam", stocks, things)
        yield (*entry.path, "near", "beam"), f"{what}; {nearest(beam, beams)}"
    for i, name in enumerate(entries(fields(entry.data.get("cover")).get("hides"))):
        if _is_text(name) and name not in anchors:
            what = _not_the_kind(name, "anchor", stocks, things).replace("[[anchor]]", "[[anchor]] or [[joint]]")
            yield (*entry.path, "cover", "hides", i), f"{what}; {nearest(name, anchors)}"
    stock = fields(fields(entry.data.get("fixings")).get("other")).get("stock")
    if _is_text(stock) and stock not in stocks:
        text = f"there is no [[stock]] named {stock!r}; {nearest(stock, list(stocks))}"
        yield (*entry.path, "fixings", "other", "stock"), text


def _is_text(value: Any) -> TypeGuard[str]:
    return isinstance(value, str) and bool(value.strip())


def _not_the_kind(name: str, kind: str, stocks: Things, things: Things) -> str:
    if name in things:
        return f"{name!r} is the name of a [[{things[name].kind}]], not of a [[{kind}]]"
    if name in stocks:
        return f"{name!r} is a [[stock]], a kind of stick and not a [[{kind}]]"
    return f"there is no [[{kind}]] named {name!r}"


def _of_the_tables(entry: Entry) -> Iterator[Fault]:
    """Sizes and grades that the tables must know."""
    for parts in (("fixings",), ("shape", "legs_joint")):
        holder = entry.data
        for part in parts:
            holder = fields(holder.get(part))
        yield from fastener_faults((*entry.path, *parts, "fastener"), fields(holder.get("fastener")))
    yield from steel_faults((*entry.path, "shape", "steel"), fields(entry.data.get("shape")).get("steel"))


def _fasteners(path: Path, piece: Bracket | Trim) -> Iterator[Fault]:
    """Holes that overlap or leave the bracket, slots no longer than the fastener is thick."""
    if piece.fixings is None or piece.fixings.fastener is None:
        return
    try:
        D = diameter(piece.fixings.fastener.kind, piece.fixings.fastener.size)
    except BeamcheckError:
        return  # said already
    width = piece.shape.side_to_side if isinstance(piece, Bracket) else None
    rows = piece.fixings.rows
    for i, row in enumerate(rows):
        at: Path = (*path, "fixings", "rows", i)
        if row.slot is not None and row.slot <= D:
            text = f"{inches(row.slot)} is not longer than the fastener is thick, {inches(D)}: it cannot slide"
            yield (*at, "slot"), f"{text}; give the slot's length from end to end"
        if row.apart is not None and row.apart <= D:
            text = f"{inches(row.apart)} from middle to middle, but the fastener is {inches(D)} thick"
            yield (*at, "apart"), f"{text}: the holes overlap; move them apart"
        if row.below_top < 0.5 * D:
            text = f"the hole leaves the bracket at its top edge: the fastener is {inches(D)} thick"
            yield (*at, "below_top"), f"{text}; measure to the middle of the hole"
        if i and 0.0 < row.below_top - rows[i - 1].below_top <= D and (row.count, rows[i - 1].count) == (1, 1):
            text = f"{inches(row.below_top - rows[i - 1].below_top)} below row {i}"
            yield (*at, "below_top"), f"{text}, but the fastener is {inches(D)} thick: the holes overlap"
        if width is not None and width <= D:
            text = f"{inches(D)} thick, but the bracket is {inches(width)} thick: nothing is left beside the hole"
            yield (*path, "fixings", "fastener", "size"), text
            return


def _place(path: Path, bracket: Bracket, things: Things) -> Iterator[Fault]:
    """Where its foot stands on a post or a beam."""
    under = things.get(bracket.on)
    if under is None:
        return
    if under.kind == "beam" and bracket.at is None:
        text = f"missing: {bracket.on!r} is a beam; say where along it the bracket stands"
        yield (*path, "at"), f'{text}, from that beam\'s left end, for example at = "3 ft"'
    if bracket.at is None:
        return
    length = beam_length(under.piece) if isinstance(under.piece, Beam) else None
    if isinstance(under.piece, Post):
        length = under.piece.height
    if length is not None and bracket.at > length + SAME_PLACE:
        what = "long" if under.kind == "beam" else "high"
        text = f"{feet(bracket.at)} is beyond the end"
        yield (*path, "at"), f"{text}: the {under.kind} {bracket.on!r} is {feet(length)} {what}"


def near_faults(path: Path, piece: Bracket | Trim | Post, things: Things) -> Iterator[Fault]:
    """The beam above: its length, and that it is not what holds the piece, nor rests on it with a gap."""
    near, kind = piece.near, type(piece).__name__.lower()
    entry = things.get(near.beam) if near is not None else None
    if near is None or entry is None or entry.kind != "beam":
        return
    if near.beam == piece.on:
        text = f"{near.beam!r} is what the {kind} is fixed to, so it goes up and down with it"
        yield (*path, "near", "beam"), f"{text}: name the beam above it, or leave near out"
    if not isinstance(entry.piece, Beam):
        return
    length = beam_length(entry.piece)
    if near.at > length + SAME_PLACE:
        text = f"{feet(near.at)} is beyond the end: the beam {near.beam!r} is {feet(length)} long"
        yield (*path, "near", "at"), text
    for i, support in enumerate(entry.piece.supports, start=1):
        if support.on == piece.name and near.gap:
            text = f"support {i} of {near.beam!r} rests on this {kind}, so there is no gap of {inches(near.gap)}"
            yield (*path, "near", "gap"), f"{text}: leave near out, or take the support away"
            return


def _cut_from(
    path: Path, bracket: Bracket, stocks: Things, size_of: Callable[[Entry | None], Size | None]
) -> Iterator[Fault]:
    """A bracket is cut from its stock: its thickness lies along one side of it. Boards may be glued edge to edge."""
    size = size_of(stocks.get(bracket.stock or ""))
    if size is None or not bracket.shape.of_wood:
        return
    thin, broad = min(size.b, size.d), max(size.b, size.d)
    thickness = bracket.shape.thickness
    if thickness <= thin + SAME_PLACE:
        return
    text = f"{inches(thickness)} does not come out of its stock {bracket.stock!r}, {thin:g} x {broad:g} in"
    beside, what = bracket.shape.least_beside()
    if thickness > broad + SAME_PLACE:
        yield (*path, "shape", "thickness"), f"{text}: name the [[stock]] that it is cut from"
    elif beside > thin + SAME_PLACE:
        text += f" (along its broad side, where {inches(thin)} is left for a {what} of {inches(beside)})"
        yield (*path, "shape", "thickness"), f"{text}: name the [[stock]] that it is cut from"


def _seat(
    path: Path, bracket: Bracket, stocks: Things, things: Things, size_of: Callable[[Entry | None], Size | None]
) -> Iterator[Fault]:
    """The dap for a corbel's foot leaves wood in the post."""
    under = things.get(bracket.on)
    if under is None or not isinstance(under.piece, Post) or not bracket.shape.in_the_dap:
        return
    size = size_of(stocks.get(under.piece.stock))
    if size is not None and bracket.shape.in_the_dap >= max(size.b, size.d):
        text = f"{inches(bracket.shape.in_the_dap)} deep: nothing is left of the post {bracket.on!r}"
        yield (*path, "shape", "seat"), f"{text}, {size.b:g} x {size.d:g} in"
