"""What must hold between pieces: names, what rests on what, ties, the wood of the tables, sizes that meet.

The checks of names work on plain data, so that they run even when some field of a piece could not be read; what needs
sizes is checked for the pieces that could be read in full.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeGuard

from pydantic import ValidationError

from ..errors import BeamcheckError, Problem, nearest
from ..values.lumber import Size, design_values, read_size
from ..values.species import species_name, specific_gravity
from . import rules
from .anchor_links import anchor_links
from .anchor_manners import SAME_PLACE
from .anchors import Anchor
from .base import Piece
from .bracket_links import bracket_links
from .brackets import Bracket, Trim
from .pieces import Beam, Cut, Job, Post, Rafter, Stick, Tie
from .places import LONGEST_NAME, entries, fields, inches, place
from .reading.lines import Path

MODELS: dict[str, type[Piece]] = {
    "beam": Beam, "rafter": Rafter, "tie": Tie, "post": Post, "anchor": Anchor, "bracket": Bracket, "trim": Trim,
}  # fmt: skip
KINDS = ("stock", "existing", *MODELS)
HOLDERS = ("beam", "post", "existing")  # what a rafter may rest on
CARRIERS = (*HOLDERS, "bracket", "trim")  # what a beam or post may name; that trim carries nothing is for the checks
FIXED_TO = {"bracket": (*HOLDERS, "trim"), "trim": CARRIERS}
Fault = tuple[Path, str]


@dataclass(frozen=True)
class Entry:
    """One table of the job: `data` by field name; `piece` only when all of it could be read."""

    kind: str
    index: int
    data: Mapping[str, Any]
    piece: Piece | None

    @property
    def path(self) -> Path:
        return (self.kind, self.index)

    def text(self, field: str) -> str | None:
        value = self.data.get(field)
        return value if _is_name(value) else None

    def rests_on(self) -> list[tuple[Path, str, tuple[str, ...]]]:
        """Everything it names as carrying it: path, name, kinds of piece that may."""
        named: list[tuple[Path, Any, tuple[str, ...]]] = []
        if self.kind == "beam":
            for i, support in enumerate(entries(self.data.get("supports"))):
                named.append(((*self.path, "supports", i, "on"), fields(support).get("on"), CARRIERS))
        elif self.kind == "rafter":
            named.append(((*self.path, "wall", "on"), fields(self.data.get("wall")).get("on"), HOLDERS))
            named.append(((*self.path, "ridge_on"), self.data.get("ridge_on"), ("beam", "existing")))
        elif self.kind == "post":
            named.append(((*self.path, "on"), self.data.get("on"), CARRIERS))
        elif self.kind in FIXED_TO:
            named.append(((*self.path, "on"), self.data.get("on"), FIXED_TO[self.kind]))
        return [(path, name, kinds) for path, name, kinds in named if _is_name(name)]


def _is_name(value: Any) -> TypeGuard[str]:
    """Whether it can be a name at all; what cannot is reported with its field."""
    return isinstance(value, str) and 0 < len(value.strip()) <= LONGEST_NAME


def check_links(job: Job) -> list[Problem]:
    """All that is wrong between the pieces of a job whose pieces are right by themselves, without line numbers."""
    return [Problem(place(path, job), text) for path, text in faults_between(job)]


def faults_between(job: Job | Mapping[str, Any]) -> Iterator[Fault]:
    """The same as (path in the job, sentence); takes the plain data of a job too, with some fields wrong."""
    found = [entry for kind in KINDS for entry in _entries_of(job, kind)]
    of_stock = [entry for entry in found if entry.kind == "stock"]
    others = [entry for entry in found if entry.kind != "stock"]
    stocks = {name: entry for entry in of_stock if (name := entry.text("name"))}
    things = {name: entry for entry in others if (name := entry.text("name"))}
    yield from _names(of_stock)
    yield from _names(others)
    for entry in others:
        yield from _references(entry, stocks, things)
    yield from _tie_users(others)
    yield from _circles(others, things)
    for entry in of_stock:
        yield from _wood(entry)
    yield from anchor_links(others, stocks, things, _size_of)
    yield from bracket_links(others, stocks, things, _size_of)
    for entry in others:
        if entry.piece is not None:
            yield from _sizes(entry.path, entry.piece, stocks, things)


def _entries_of(job: Job | Mapping[str, Any], kind: str) -> Iterator[Entry]:
    for index, thing in enumerate(entries(fields(job).get(kind))):
        piece = thing if isinstance(thing, Piece) else _read(kind, thing)
        yield Entry(kind, index, fields(thing), piece)


def _read(kind: str, thing: Any) -> Piece | None:
    if kind not in MODELS:
        return None
    try:
        return MODELS[kind].model_validate(thing)
    except ValidationError:
        return None


def _names(found: Sequence[Entry]) -> Iterator[Fault]:
    first: dict[str, Entry] = {}
    for entry in found:
        if (name := entry.text("name")) is None:
            continue
        other = first.setdefault(name.casefold(), entry)
        if other is not entry:
            same = (
                "the name" if other.data["name"] == name else f"the name {other.data['name']!r} (case does not count)"
            )
            yield (
                (*entry.path, "name"),
                f"{same} is taken by {other.kind} {other.index + 1} of the job: give each its own",
            )


def _references(entry: Entry, stocks: Mapping[str, Entry], things: Mapping[str, Entry]) -> Iterator[Fault]:
    if (stock := entry.text("stock")) is not None and stock not in stocks:
        yield (*entry.path, "stock"), f"there is no [[stock]] named {stock!r}; {nearest(stock, list(stocks))}"
    for path, name, kinds in entry.rests_on():
        yield from _carrier(path, name, kinds, stocks, things)
    if (tie := entry.text("tie")) is not None and entry.kind == "rafter":
        ties = [name for name, thing in things.items() if thing.kind == "tie"]
        if tie not in ties:
            what = (
                f"{tie!r} is a {things[tie].kind}, not a [[tie]]"
                if tie in things
                else f"there is no [[tie]] named {tie!r}"
            )
            yield (*entry.path, "tie"), f"{what}; {nearest(tie, ties)}"


def _carrier(
    path: Path, name: str, kinds: Sequence[str], stocks: Mapping[str, Entry], things: Mapping[str, Entry]
) -> Iterator[Fault]:
    usable = [other for other, thing in things.items() if thing.kind in kinds]
    if name in things:
        kind = things[name].kind
        if kind == "anchor":
            here = "the piece or [[existing]] entry behind it"
            fixed = path[0] in FIXED_TO
            text = f"name {here}" if fixed else f'write held_by = "{name}", and here {here}'
            yield path, f"{name!r} is an anchor, which only fastens: {text}"
        elif kind in ("rafter", "tie"):
            text = f"nothing rests on a {kind} here: name another piece, or let an engineer check it"
            yield path, f"{name!r} is a {kind}; {text}"
        elif kind not in kinds:
            needed = " or ".join(f"[[{word}]]" for word in kinds)
            yield path, f"{name!r} is a {kind}, but a {needed} entry is needed; {nearest(name, usable)}"
    elif name in stocks:
        yield path, f"{name!r} is a [[stock]], a kind of stick and not a piece; {nearest(name, usable)}"
    else:
        yield path, f"there is no piece and no [[existing]] entry named {name!r}; {nearest(name, usable)}"


def _tie_users(found: Sequence[Entry]) -> Iterator[Fault]:
    """Each tie closes one pair of rafters, which is one rafter entry."""
    holds: dict[str, Entry] = {}
    for entry in found:
        if entry.kind == "rafter" and (tie := entry.text("tie")) is not None:
            other = holds.setdefault(tie, entry)
            if other is not entry:
                text = "a pair is one entry, and each pair has a [[tie]] of its own"
                yield (
                    (*entry.path, "tie"),
                    f"{tie!r} holds rafter {other.text('name') or other.index + 1!r} already; {text}",
                )
    if set(holds) - {entry.text("name") for entry in found if entry.kind == "tie"}:
        return  # a name misspelt at the rafter is said already, and is the likely reason
    for entry in found:
        if entry.kind == "tie" and (name := entry.text("name")) is not None and name not in holds:
            yield (
                entry.path,
                f'no rafter names this tie: write tie = "{name}" at the rafter that it holds, or delete it',
            )


def _circles(found: Sequence[Entry], things: Mapping[str, Entry]) -> Iterator[Fault]:
    """Chains of pieces that rest on each other in a circle, each circle once."""
    below: dict[str, list[tuple[str, Path]]] = {}
    for entry in found:
        if (name := entry.text("name")) is not None and things.get(name) is entry:
            below[name] = [(on, path) for path, on, _ in entry.rests_on() if on in things]
    done: set[str] = set()
    for start in below:
        chain = [] if start in done else [start]
        branches = [iter(below[start])]
        while chain:  # a walk in depth, without recursion: a chain may be long
            on, path = next(branches[-1], ("", ()))
            if not on:
                branches.pop()
                done.add(chain.pop())
            elif on in chain:
                circle = [f'"{name}"' for name in [*chain[chain.index(on) :], on]]
                shown = circle if len(circle) <= 12 else [*circle[:5], "...", *circle[-3:]]
                yield path, f"these rest on each other in a circle: {' on '.join(shown)}"
            elif on not in done:
                chain.append(on)
                branches.append(iter(below.get(on, [])))


def _wood(entry: Entry) -> Iterator[Fault]:
    """Size, species and grade, looked up in the tables; not when a letter gives the values."""
    size = None
    if (written := entry.text("size")) is not None:
        try:
            size = read_size(written)
        except BeamcheckError as error:
            yield (*entry.path, "size"), str(error)
    species, grade = entry.text("species"), entry.text("grade")
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


def _known_species(path: Path, name: Any) -> Iterator[Fault]:
    if _is_name(name):
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


def _sizes(path: Path, piece: Piece, stocks: Mapping[str, Entry], things: Mapping[str, Entry]) -> Iterator[Fault]:
    if isinstance(piece, (Stick, Post)):
        yield from _cuts(path, piece.cuts, _size_of(stocks.get(piece.stock)), flat=getattr(piece, "laid", "") == "flat")
    if isinstance(piece, Beam):
        for i, support in enumerate(piece.supports):
            yield from _landing((*path, "supports", i, "lands_at"), support.on, support.lands_at, things, needed=True)
    elif isinstance(piece, Post):
        yield from _landing((*path, "lands_at"), piece.on, piece.lands_at, things, needed=True)
    elif isinstance(piece, Rafter):
        # repeated rafters press on a beam all along; one that is named with its place presses there
        yield from _landing((*path, "wall", "lands_at"), piece.wall.on, piece.wall.lands_at, things, needed=False)
        yield from _tie_of(path, piece, things)
        size = _size_of(stocks.get(piece.stock))
        if piece.seat_cut is not None and size is not None and piece.seat_cut >= size.d:
            yield (*path, "seat_cut"), f"{piece.seat_cut:g} in deep: nothing is left of a rafter {size.d:g} in deep"


def _size_of(stock: Entry | None) -> Size | None:
    try:
        return read_size(stock.text("size") or "") if stock is not None else None
    except BeamcheckError:
        return None


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
        length = rules.beam_length(carrier.piece)
        if lands_at > length:
            yield path, f"{rules.feet(lands_at)} is beyond the end: the beam {on!r} is {rules.feet(length)} long"


def _on_bracket(path: Path, on: str, lands_at: float | None, carrier: Entry) -> Iterator[Fault]:
    """Where on a bracket something rests: measured out from the wall, not beyond the nose."""
    out = carrier.piece.shape.stands_out if isinstance(carrier.piece, Bracket) else None
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
        ridge = rules.feet(rafter.run * rise)
        yield (*path, "tie"), f"the tie lies {rules.feet(tie.height)} above the wall, but the ridge only {ridge}"
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
    return f"{rules.feet(at)} is beyond the end: between its rafters the tie is {rules.feet(length)} long"
