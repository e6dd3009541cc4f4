"""Sizes that must meet: the wood of the tables, cuts within the wood, what lands on a beam or bracket, a tie."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ...errors import BeamcheckError, nearest
from ...values.lumber import Size, design_values, read_size
from ...values.species import species_name, specific_gravity
from ..beams import Beam, beam_length
from ..classes import is_bracket, is_frame
from ..fields.base import Piece
from ..fields.places import SAME_PLACE, Fault, Path, entries, feet, fields, inches
from ..posts import Post
from ..roofs import Rafter, Tie
from ..sticks import Cut, Stick, Support
from .entries import Entry, is_name, size_of


def of_the_wood(entry: Entry) -> Iterator[Fault]:
    """Size, species and grade, looked up in the tables; not when a letter gives the values."""
    size = None
    if (written := entry.text("size")) is not None:
        try:
            size = read_size(written)
        except BeamcheckError as error:
            yield (*entry.path, "size"), str(error)
    species, grade = entry.text("species"), entry.text("grade")
    if (made := entry.text("made") or "sawn") != "sawn":
        yield from _engineered(entry, made, species, grade, size)
        return
    known = species is not None and species.strip().casefold() != "unknown"
    if entry.data.get("values") is not None:
        yield from _weight(entry, species if known else None)
        return
    for i, candidate in enumerate(entries(entry.data.get("candidates"))):
        yield from _known_species((*entry.path, "candidates", i), candidate)
    if not known or species is None:
        return
    no_such_species = list(_known_species((*entry.path, "species"), species))
    yield from no_such_species
    if no_such_species or grade is None or size is None or grade.strip().casefold() == "unstamped":
        return
    try:
        design_values(species, grade, size, entry.text("agency") or "")
    except BeamcheckError as error:
        yield (*entry.path, "grade"), str(error)


def _engineered(entry: Entry, made: str, species: str | None, grade: str | None, size: Size | None) -> Iterator[Fault]:
    """A layup of the table with the wood of its outer laminations; a size as measured; a shape and grade of steel."""
    if made == "steel":
        yield from _steel(entry, grade)
        return
    from ...values.engineered import layup

    if size is not None and size.surface != "measured":
        text = "glued and composite wood is not sawn to nominal sizes: write the sides as measured"
        yield (*entry.path, "size"), f"{text}, for example '5 1/8 in x 12 in'"
    if made != "glulam" or grade is None:
        return
    try:
        found = layup(grade)
    except BeamcheckError as error:
        yield (*entry.path, "grade"), str(error)
        return
    if found.outer == "any" or species is None or "/" in species:
        return
    try:
        if species_name(species) != found.outer:
            yield (*entry.path, "species"), f"the outer laminations of {found.name} are {found.outer}, not {species}"
    except BeamcheckError as error:
        yield (*entry.path, "species"), str(error)


def _steel(entry: Entry, grade: str | None) -> Iterator[Fault]:
    from ...values.hardware.sections import w_shape
    from ...values.hardware.steels import steel

    shape = fields(entry.data.get("steel")).get("shape")
    for path, name, find in (("grade",), grade, steel), (("steel", "shape"), shape, w_shape):
        if not is_name(name):
            continue
        try:
            find(name)
        except BeamcheckError as error:
            yield (*entry.path, *path), str(error)


def _known_species(path: Path, name: Any) -> Iterator[Fault]:
    if is_name(name):
        try:
            species_name(name)
        except BeamcheckError as error:
            yield path, str(error)


def _weight(entry: Entry, species: str | None) -> Iterator[Fault]:
    """Given values still need a weight: from the letter's G, from a weighing, or from the species."""
    given = fields(entry.data["values"])
    if given.get("G") is not None or entry.data.get("density") is not None:
        return
    try:
        if species is not None:
            specific_gravity(species)
            return
    except BeamcheckError:
        pass
    yield (*entry.path, "values"), "the weight of this wood is not known: give G in the values, or density in the stock"


def _steel_beam(path: Path, beam: Beam) -> Iterator[Fault]:
    """A steel beam is one shape on edge, and groups of fasteners are for wood."""
    if beam.plies > 1:
        yield (*path, "plies"), "a steel beam is one shape: describe each as a beam of its own"
    if beam.laid == "flat":
        yield (*path, "laid"), "a steel beam laid flat is not run here: leave laid out"
    for i, support in enumerate(beam.supports):
        if support.held_by is not None:
            text = "an [[anchor]] group holds wood: say in tied_down what a steel beam is bolted to"
            yield (*path, "supports", i, "held_by"), text


def _flitch(path: Path, beam: Beam, size: Size | None, stock: Entry | None) -> Iterator[Fault]:
    """A plate within the depth of sawn plies, of a grade and with bolts that the tables list."""
    from ...values.hardware.fasteners import bolt
    from ...values.hardware.steels import steel

    plate = beam.flitch
    assert plate is not None
    if stock is not None and (stock.text("made") or "sawn") != "sawn":
        yield (*path, "flitch"), "a flitch plate is run between sawn plies only"
    if size is not None and (size.surface == "round" or plate.depth > size.d + SAME_PLACE):
        yield (*path, "flitch", "depth"), f"the plate is deeper than the wood, which has {inches(size.d)}"
    if plate.thickness < 0.25:
        yield (*path, "flitch", "thickness"), "a plate under 1/4 in has no bearing value here (NDS 2018 Table 12B)"
    for field, find in (("grade", steel), ("bolt", bolt)):
        try:
            find(getattr(plate, field))
        except BeamcheckError as error:
            yield (*path, "flitch", field), str(error)


def of_sizes(path: Path, piece: Piece, stocks: Mapping[str, Entry], things: Mapping[str, Entry]) -> Iterator[Fault]:
    if isinstance(piece, (Stick, Post)):
        yield from _cuts(path, piece.cuts, size_of(stocks.get(piece.stock)), flat=getattr(piece, "laid", "") == "flat")
    if isinstance(piece, Beam):
        if (stock := stocks.get(piece.stock)) is not None and stock.text("made") == "steel":
            yield from _steel_beam(path, piece)
        if piece.flitch is not None:
            yield from _flitch(path, piece, size_of(stock), stock)
        for i, support in enumerate(piece.supports):
            row = support.lands_from is not None
            at = (*path, "supports", i)
            yield from _landing((*at, "lands_at"), support.on, support.lands_at, things, needed=not row)
            yield from _on_frame((*at, "lands_on"), support, things.get(support.on))
            if row:
                yield from _landing((*at, "lands_to"), support.on, support.lands_to, things, needed=False)
    elif isinstance(piece, Post):
        yield from _landing((*path, "lands_at"), piece.on, piece.lands_at, things, needed=True)
    elif is_frame(piece):
        for i, foot in enumerate(piece.feet):
            yield from _landing((*path, "feet", i, "lands_at"), foot.on, foot.lands_at, things, needed=True)
        for i, member in enumerate(piece.members):
            yield from _cuts((*path, "members", i), member.cuts, size_of(stocks.get(member.stock)), flat=False)
    elif isinstance(piece, Rafter):
        # repeated rafters press on a beam all along; one that is named with its place presses there
        yield from _landing((*path, "wall", "lands_at"), piece.wall.on, piece.wall.lands_at, things, needed=False)
        yield from _landing((*path, "wall", "lands_to"), piece.wall.on, piece.wall.lands_to, things, needed=False)
        if piece.upper is not None and piece.ridge_on is not None:
            last = (*path, "upper", "lands_to")
            yield from _landing(last, piece.ridge_on, piece.upper.lands_to, things, needed=False)
        yield from _tie_of(path, piece, things)
        size = size_of(stocks.get(piece.stock))
        if piece.seat_cut is not None and size is not None and piece.seat_cut >= size.d:
            yield (*path, "seat_cut"), f"{piece.seat_cut:g} in deep: nothing is left of a rafter {size.d:g} in deep"


def _cuts(path: Path, cuts: Sequence[Cut], size: Size | None, *, flat: bool) -> Iterator[Fault]:
    if size is None:
        return
    depth = size.b if flat else size.d
    for i, cut in enumerate(cuts):
        if cut.depth >= depth:
            yield (*path, "cuts", i, "depth"), f"{cut.depth:g} in: nothing is left of a piece {depth:g} in deep"
        elif cut.from_bottom is not None and cut.from_bottom > depth:
            yield (
                (*path, "cuts", i, "from_bottom"),
                f"{cut.from_bottom:g} in is above the top of a piece {depth:g} in deep",
            )


def _landing(
    path: Path, on: str, lands_at: float | None, things: Mapping[str, Entry], *, needed: bool
) -> Iterator[Fault]:
    carrier = things.get(on)
    if carrier is None:
        return
    if carrier.kind == "bracket" and needed:  # no rafter rests on one, which is said already
        yield from _on_bracket(path, on, lands_at, carrier)
        return
    if carrier.kind != "beam":
        if lands_at is not None:
            yield path, f"only for a carrying beam or bracket, and {on!r} is not one: leave lands_at out"
        return
    if lands_at is None:
        if needed:
            text = f'missing: {on!r} is a beam; say where along it this piece lands, for example lands_at = "3 ft"'
            yield path, text
    elif isinstance(carrier.piece, Beam):
        length = beam_length(carrier.piece)
        if lands_at > length:
            yield path, f"{feet(lands_at)} is beyond the end: the beam {on!r} is {feet(length)} long"


def _on_frame(path: Path, support: Support, carrier: Entry | None) -> Iterator[Fault]:
    """The point of a frame on which something rests."""
    frame = carrier.piece if carrier is not None and is_frame(carrier.piece) else None
    if carrier is not None and carrier.kind != "frame" and support.lands_on is not None:
        yield path, f"only for a carrying frame, and {support.on!r} is not one: leave lands_on out"
    if frame is None:
        return
    points = list(frame.shape.points)
    if support.lands_on is None:
        text = f"missing: {support.on!r} is a frame; say on which of its points this rests"
        yield path, f"{text}, for example lands_on = {points[0]!r}".replace("'", '"')
    elif support.lands_on not in points:
        yield path, f"{support.on!r} has no point {support.lands_on!r}; {nearest(support.lands_on, points)}"


def _on_bracket(path: Path, on: str, lands_at: float | None, carrier: Entry) -> Iterator[Fault]:
    """Where on a bracket something rests: measured out from the wall, not beyond the nose."""
    out = carrier.piece.shape.stands_out if is_bracket(carrier.piece) else None
    if lands_at is None:
        text = f"missing: {on!r} is a bracket; say how far out from its wall face this piece rests"
        yield path, f'{text}, for example lands_at = "{inches(0.5 * out) if out is not None else "4 in"}"'
    elif out is not None and lands_at > out + SAME_PLACE:
        text = f"{inches(lands_at)} is beyond the nose: the bracket {on!r} stands out {inches(out)} from the wall"
        yield path, text


def _tie_of(path: Path, rafter: Rafter, things: Mapping[str, Entry]) -> Iterator[Fault]:
    """The tie lies below the ridge, and what hangs on it lies within its length between the pair."""
    entry = things.get(rafter.tie or "")
    if entry is None or not isinstance(entry.piece, Tie):
        return
    tie, rise = entry.piece, math.tan(math.radians(rafter.slope))
    if tie.height >= rafter.run * rise:
        ridge = feet(rafter.run * rise)
        yield (*path, "tie"), f"the tie lies {feet(tie.height)} above the wall, but the ridge only {ridge}"
        return
    length = 2.0 * (rafter.run - tie.height / rise)
    for i, load in enumerate(tie.carries):
        for name, at in (("at", load.at), ("from", load.start), ("to", load.end)):
            if at is not None and at > length + 0.01:
                yield (*entry.path, "carries", i, name), _beyond(at, length)
    for i, cut in enumerate(tie.cuts):
        if cut.at > length + 0.01:
            yield (*entry.path, "cuts", i, "at"), _beyond(cut.at, length)


def _beyond(at: float, length: float) -> str:
    return f"{feet(at)} is beyond the end: between its rafters the tie is {feet(length)} long"
