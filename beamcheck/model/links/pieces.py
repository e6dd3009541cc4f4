"""What must hold between pieces: names, what rests on what, ties, circles; then sizes, anchors, brackets.

The checks of names work on plain data, so that they run even when some field of a piece could not be read; what needs
sizes is checked for the pieces that could be read in full.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from ...errors import BeamcheckError, JobError, Problem, nearest
from ..classes import is_frame
from ..fields.lookalikes import look
from ..fields.places import Fault, Path, entries, fields, place, plain
from ..job import About, Job
from ..job_paths import same_value
from .entries import FIXED_TO, KINDS, Entry, entries_of, is_name, size_of
from .held import uses_of
from .sizes import of_sizes, of_the_wood
from .slips import slips_of, slips_of_the_head
from .surveys import movement_links, survey_links


def check_links(job: Job) -> list[Problem]:
    """All that is wrong between the pieces of a job whose pieces are right by themselves, without line numbers."""
    return [Problem(place(path, job), text) for path, text in faults_between(job)]


def faults_between(job: Job | Mapping[str, Any]) -> Iterator[Fault]:
    """The same as (path in the job, sentence); takes the plain data of a job too, with some fields wrong."""
    found = [entry for kind in KINDS for entry in entries_of(job, kind)]
    of_stock = [entry for entry in found if entry.kind == "stock"]
    others = [entry for entry in found if entry.kind != "stock"]
    stocks = {name: entry for entry in of_stock if (name := entry.text("name"))}
    things = {name: entry for entry in others if (name := entry.text("name"))}
    yield from _names(of_stock)
    yield from _names(others)
    for entry in others:
        yield from _references(entry, stocks, things)
    yield from _members_of_frames(others)
    yield from _tie_users(others)
    yield from _circles(others, things)
    for entry in of_stock:
        yield from of_the_wood(entry)
    yield from _of_what_is_there(others, stocks, things)
    yield from survey_links(others, stocks)
    yield from movement_links(job, things)
    for entry in others:
        yield from _schedule(entry)
        if entry.piece is not None:
            yield from of_sizes(entry.path, entry.piece, stocks, things)
    carriers = {name for entry in others for _, name, _ in entry.rests_on()}
    for entry in found:
        yield from slips_of(entry, stocks, carriers)
    if (about := _head(job)) is not None:
        yield from slips_of_the_head(about)
    yield from _areas(job, others)
    if isinstance(job, Job):
        yield from _answers(job)


def _of_what_is_there(
    others: Sequence[Entry], stocks: Mapping[str, Entry], things: Mapping[str, Entry]
) -> Iterator[Fault]:  # fmt: skip
    """Anchors, joints and brackets; what looks at a kind that a job has not is not loaded."""
    kinds = {entry.kind for entry in others}
    if "anchor" in kinds or any(True for entry in others for _ in uses_of(entry)):
        from .anchors import anchor_links

        yield from anchor_links(others, stocks, things, size_of)
    if "joint" in kinds:
        from .joints import joint_links

        yield from joint_links(others, stocks, things)
    if any(entry.kind in ("bracket", "trim") or entry.data.get("near") is not None for entry in others):
        from .brackets import bracket_links

        yield from bracket_links(others, stocks, things, size_of)


def _areas(job: Job | Mapping[str, Any], others: Sequence[Entry]) -> Iterator[Fault]:
    """Loads name a roof or floor of the job; a roof needs the site; ground snow is given in one place."""
    given = fields(job)
    names = {kind: [fields(one).get("name") for one in entries(given.get(kind))] for kind in ("roof", "floor")}
    for kind, of_kind in names.items():
        for i, name in enumerate(of_kind):
            if name in of_kind[:i]:
                yield (kind, i, "name"), f"the name {plain(name)!r} is taken by another [[{kind}]]: give each its own"
    if names["roof"] and given.get("site") is None:
        text = "a [[roof]] takes its loads from the site: add [site] with the ground snow load, for example"
        yield ("roof",), f'{text} ground_snow = "30 psf"'
    for i, floor in enumerate(entries(given.get("floor"))):
        if fields(floor).get("outdoors") is True and given.get("site") is None:
            text = "snow lies on what is outdoors: add [site] with the ground snow load, for example"
            yield ("floor", i, "outdoors"), f'{text} ground_snow = "30 psf"'
    if given.get("site") is not None and fields(given.get("job")).get("ground_snow") is not None:
        text = "the ground snow load stands in [site] already: leave it out of [job]"
        yield ("job", "ground_snow"), text
    for entry in others:
        for path, load in _loads_of(entry):
            for kind, of_kind in names.items():
                name = fields(load).get(kind)
                if name is not None and name not in of_kind:
                    text = f"there is no [[{kind}]] named {plain(name)!r}"
                    yield (*path, kind), f"{text}; {nearest(str(name), list(filter(is_name, of_kind)))}"


def _loads_of(entry: Entry) -> Iterator[tuple[Path, Any]]:
    """Every load of an entry, and of the members of a frame, with its path."""
    for i, load in enumerate(entries(entry.data.get("carries"))):
        yield (*entry.path, "carries", i), load
    if entry.kind == "frame":
        for m, member in enumerate(entries(entry.data.get("members"))):
            for i, load in enumerate(entries(fields(member).get("carries"))):
                yield (*entry.path, "members", m, "carries", i), load


def _members_of_frames(found: Sequence[Entry]) -> Iterator[Fault]:
    """The members of a frame are pieces too, under the name of the frame and their own."""
    taken = {stick.name.casefold(): frame.piece.name for frame in found if is_frame(frame.piece)
             for stick in frame.piece.sticks}  # fmt: skip
    for entry in found:
        name = entry.text("name")
        if name is not None and name.casefold() in taken:
            text = f"the name {name!r} is that of a member of frame {taken[name.casefold()]!r}"
            yield (*entry.path, "name"), f"{text}: give it another"


def _head(job: Job | Mapping[str, Any]) -> About | None:
    given = fields(job).get("job")
    if isinstance(given, About):
        return given
    try:
        return About.model_validate(given)
    except ValidationError:
        return None


def _answers(job: Job) -> Iterator[Fault]:
    """Each answer belongs to a field that there is, each ruling to something of the job."""
    for i, answer in enumerate(job.answer):
        try:
            same_value(job, answer.to, answer.value)
        except JobError as error:
            yield ("answer", i, "to"), "; ".join(problem.text for problem in error.problems)
    names = [entry.name for kind in KINDS for entry in getattr(job, kind)]
    for frame in job.frame:  # its members and its points
        names += [*(stick.name for stick in frame.sticks), *(f"{frame.name}: {point}" for point in frame.shape.points)]
    for i, ruling in enumerate(job.ruling):
        if ruling.on not in names:
            yield ("ruling", i, "on"), f"there is nothing named {ruling.on!r} in the job; {nearest(ruling.on, names)}"


def _names(found: Sequence[Entry]) -> Iterator[Fault]:
    first: dict[str, Entry] = {}
    for entry in found:
        if (name := entry.text("name")) is None:
            continue
        other = first.setdefault(look(name), entry)
        if other is not entry:
            taken = str(other.data["name"])
            why = "case does not count" if taken.casefold() == name.casefold() else "the two look the same"
            same = "the name" if taken == name else f"the name {taken!r} ({why})"
            yield (
                (*entry.path, "name"),
                f"{same} is taken by {other.kind} {other.index + 1} of the job: give each its own",
            )


def _references(entry: Entry, stocks: Mapping[str, Entry], things: Mapping[str, Entry]) -> Iterator[Fault]:
    if (stock := entry.text("stock")) is not None and stock not in stocks:
        yield (*entry.path, "stock"), f"there is no [[stock]] named {stock!r}; {nearest(stock, list(stocks))}"
    if entry.kind == "frame":
        for i, one in enumerate(entries(entry.data.get("members"))):
            of = fields(one).get("stock")
            if is_name(of) and of not in stocks:
                yield (
                    (*entry.path, "members", i, "stock"),
                    f"there is no [[stock]] named {of!r}; {nearest(of, list(stocks))}",
                )
    for path, name, kinds in entry.rests_on():
        yield from _carrier(path, name, kinds, stocks, things)
    yield from _neighbors(entry, things)
    if (tie := entry.text("tie")) is not None and entry.kind == "rafter":
        kind = things[tie].kind if tie in things else ""
        if kind != "tie":
            what = f"{tie!r} is a {kind}, not a [[tie]]" if kind else f"there is no [[tie]] named {tie!r}"
            ties = [name for name, thing in things.items() if thing.kind == "tie"]
            yield (*entry.path, "tie"), f"{what}; {nearest(tie, ties)}"


# kind of piece -> paths of fields that name another piece without resting on it -> kinds that it may be
NAMED: Mapping[str, Mapping[tuple[str, ...], tuple[str, ...]]] = {
    "rafter": {("other_wall",): ("beam", "existing")},
    "tie": {("ends_rest_on",): ("beam", "existing")},
    "post": {("near", "beam"): ("beam",)},
    "trim": {("near", "beam"): ("beam",)},
}


def _neighbors(entry: Entry, things: Mapping[str, Entry]) -> Iterator[Fault]:
    for path, kinds in NAMED.get(entry.kind, {}).items():
        value: Any = entry.data
        for field in path:
            value = fields(value).get(field)
        if not is_name(value) or (value in things and things[value].kind in kinds):
            continue
        needed = " or ".join(f"[[{kind}]]" for kind in kinds)
        usable = [other for other, thing in things.items() if thing.kind in kinds]
        what = f"{value!r} is a {things[value].kind}" if value in things else f"there is no piece named {value!r}"
        yield (*entry.path, *path), f"{what}, but a {needed} entry is needed; {nearest(value, usable)}"


def _schedule(entry: Entry) -> Iterator[Fault]:
    """The nails or bolts through the plies of a post or beam are of a size that the tables list."""
    by = fields(entry.data.get("plies_schedule"))
    kind, size = by.get("kind"), by.get("size")
    if entry.kind in ("post", "beam") and isinstance(size, str) and kind in ("nail", "bolt"):
        from .hardware import diameter

        try:
            diameter(kind, size)
        except BeamcheckError as error:
            yield (*entry.path, "plies_schedule", "size"), str(error)


def _carrier(
    path: Path, name: str, kinds: Sequence[str], stocks: Mapping[str, Entry], things: Mapping[str, Entry]
) -> Iterator[Fault]:
    kind = things[name].kind if name in things else ""
    if kind in kinds:
        return
    usable = [other for other, thing in things.items() if thing.kind in kinds]
    if kind:
        if kind == "anchor":
            here = "the piece or [[existing]] entry behind it"
            fixed = path[0] in FIXED_TO
            text = f"name {here}" if fixed else f'write held_by = "{name}", and here {here}'
            yield path, f"{name!r} is an anchor, which only fastens: {text}"
        elif kind in ("rafter", "tie", "frame"):
            text = f"nothing rests on a {kind} here: name another piece, or let an engineer check it"
            yield path, f"{name!r} is a {kind}; {text}"
        else:
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
