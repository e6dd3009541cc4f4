"""What each piece is meant for, and whether the loads keep to it: nothing rests on what is not meant to carry."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from ...analysis.beams.member_loads import KIND_OF_FIELD
from ...model.beams import Beam, beam_length
from ...model.brackets.near import Role
from ...model.classes import is_bracket, is_frame, is_trim
from ...model.existing import Existing
from ...model.job import Job
from ...model.loads import Load
from ...model.posts import Post
from ...model.roofs import Rafter, Tie
from ...records import dataclass
from ...units import show
from ...values.loads import asd_combinations
from ..core.asking.question import ask
from ..core.context import AnyPiece
from ..core.draft import Reactions, SupportForces
from ..core.pictures.beams import Label
from ..core.result import Check, PieceResult, worst
from ..core.seat import ask_who_answers, bears_nothing
from ..core.trivial import negligible
from .existing_words import word_checks

ID, CLAUSE = "path.goes_on", "load path"
OTHER_SIDE = ""  # the opposite wall of a rafter pair, which has no name in the job
_UNCHECKED = re.compile(  # 'unchecked', 'not yet verified', 'nobody has looked at it', 'to be confirmed'
    r"\b(?:un(?:checked|verified|confirmed|proven|inspected)|no\s+(?:check|calculation|inspection)\w*"
    r"|(?:not|never|nobody|no one|cannot|\w+n['’]t)(?:\s+\w+){0,2}?\s+"
    r"(?:check|verif|confirm|prove|look|inspect|calculat)\w*"
    r"|to be (?:checked|confirmed|verified|inspected|decided))\b",
    re.IGNORECASE,
)
_DECLARED = {"decorative": "decorative", "cover": "a cover"}


@dataclass(frozen=True)
class Way:
    """One step of the load path: what rests on what, and with which force (None: it could not be worked out).

    `through` is the anchor group that holds the end up, '' where there is none. `wrong` says why no load may go this
    way, in a whole sentence; '' where it may.
    """

    above: str
    below: str
    row: SupportForces | None
    through: str = ""
    wrong: str = ""


@dataclass(frozen=True)
class Fault:
    """A load that goes where it must not: the whole sentence, and the pieces that fail for it, each with the words of
    its check."""

    text: str
    blamed: tuple[tuple[str, str], ...]


def kind_of(piece: AnyPiece) -> str:
    """'beam', 'bracket', ... as the job file calls it."""
    return type(piece).__name__.lower()


def role_of(piece: AnyPiece) -> Role:
    """What it is declared to be; what is there already is taken to carry."""
    return "carries" if isinstance(piece, Existing) else piece.role


def everything(job: Job) -> dict[str, AnyPiece]:
    """All that a load can go through, by name."""
    found: tuple[AnyPiece, ...] = (
        *job.beam, *job.rafter, *job.tie, *job.post, *job.bracket, *job.trim, *job.existing, *job.frame,
        *job.members.values(),
    )  # fmt: skip
    return {piece.name: piece for piece in found}


def ways_of(job: Job, reactions: Sequence[Reactions]) -> list[Way]:
    """Every step of the load path, from the top down, in the order in which the pieces were worked out."""
    pieces = everything(job)
    anchors = {anchor.name for anchor in job.anchor}
    found = []
    for handed in reactions:
        piece = pieces.get(handed.name)
        if piece is None:
            continue
        rows: list[tuple[str, SupportForces | None]] = [(row.on, row) for row in handed.rows]
        rows = rows or [(on, None) for on, _ in handed.transfers]
        for index, (on, row) in enumerate(rows):
            under = pieces.get(on)
            through = _through(piece, index)
            wrong = "" if under is None else _wrong(piece, under, row, hangs=_hangs(piece, index))
            found.append(Way(piece.name, on, row, through if through in anchors else "", wrong))
    return found


def faults_of(job: Job, ways: Sequence[Way]) -> list[Fault]:
    """Everything that goes where no load may go: each once, with the pieces that fail for it."""
    pieces = everything(job)
    found: dict[Fault, None] = {}
    for way in ways:
        if way.wrong:
            ends = not isinstance(pieces[way.below], Existing)
            found[_fault(way.wrong, way.above, way.below, both=ends)] = None
    for piece in pieces.values():
        for text, load in _own_loads(piece):
            found[Fault(text, ((piece.name, f"load of its own: {load}"),))] = None
    for rafter in job.rafter:
        for fault in _tied(rafter, pieces.get(rafter.tie or "")):
            found[fault] = None
    return list(found)


def _fault(text: str, above: str, below: str, *, both: bool = True) -> Fault:
    blamed = ((above, f"load path to {below}"), (below, f"load path from {above}"))
    return Fault(text, blamed if both else blamed[:1])


def role_checks(job: Job, reactions: Sequence[Reactions], ways: Sequence[Way]) -> dict[str, list[Check]]:
    """What roles and load path ask of the pieces, by name. Each check fails or refers: none of them ever passes."""
    found: dict[str, list[Check]] = {}
    for fault in faults_of(job, ways):
        for name, what in fault.blamed:
            found.setdefault(name, []).append(Check.breaks_rule("path.role", name, what, CLAUSE, fault.text))
    for name, check in _doubts(everything(job), reactions, ways):
        found.setdefault(name, []).append(check)
    return found


def in_its_role(result: PieceResult, piece: AnyPiece | None, added: Sequence[Check]) -> PieceResult:
    """The result with what its role asks. A piece that is not meant to carry is not asked where its loads are."""
    checks, inputs = result.checks, result.inputs
    if piece is not None and role_of(piece) != "carries":
        checks = tuple(check for check in checks if not check.id.startswith("loads."))
        if all(label != "role" for label, _ in inputs):
            inputs = (Label("role", role_of(piece)), *inputs)
    if not added and checks == result.checks and inputs == result.inputs:
        return result
    checks = (*added, *checks)
    return replace(result, checks=checks, inputs=inputs, verdict=worst(check.verdict for check in checks))


def _through(piece: AnyPiece, index: int) -> str:
    """The anchor group that takes all of the load at one of its supports."""
    if isinstance(piece, Beam):
        support = piece.supports[index]
    elif isinstance(piece, Rafter) and index == 0:
        support = piece.wall
    else:
        return ""
    return support.held_by or "" if support.holds == "hung" else ""


def _hangs(piece: AnyPiece, index: int) -> bool:
    if isinstance(piece, Beam):
        return piece.supports[index].holds == "hung"
    if isinstance(piece, Rafter) and index == 0:
        return piece.wall.holds == "hung"
    return is_bracket(piece) or is_trim(piece)


def _wrong(piece: AnyPiece, under: AnyPiece, row: SupportForces | None, *, hangs: bool) -> str:
    why = why_not(under)
    if not why:
        return ""
    above, below, verb = f"{kind_of(piece)} {piece.name}", _called(under), "hangs on" if hangs else "rests on"
    if row is None:
        return f"{above} {verb} {below}, {why}; how much of it comes there could not be worked out"
    if row.spacing:
        above = f"each {above}"
    if row.largest > negligible():
        return f"{show(row.largest, 'force')} of {above} {verb} {below}, {why}"
    if row.least < -negligible():
        return f"{above} pulls up with {show(-row.least, 'force')} on {below}, {why}"
    return f"{above} {verb} {below}, {why}"


def _called(piece: AnyPiece) -> str:
    if isinstance(piece, Existing):
        return f"{piece.name} ({piece.what})"
    return f"{kind_of(piece)} {piece.name}"


def why_not(under: AnyPiece) -> str:
    """Why nothing may rest on it; '' where something may."""
    if isinstance(under, Existing):
        if bears_nothing(under):
            return f"which is {under.material} and carries nothing"
        said = under.confirmed_by.strip()
        unchecked = _UNCHECKED.match(said) if said else _UNCHECKED.search(under.what)
        return "which is said to be unchecked" if unchecked else ""
    if is_trim(under):
        return f"which is trim, declared {_DECLARED[under.role]}: it never carries"
    return "" if role_of(under) == "carries" else f"which is declared {_DECLARED[role_of(under)]}"


def _own_loads(piece: AnyPiece) -> Iterator[tuple[str, str]]:
    """Loads that the job file itself puts on a piece that is not meant to carry."""
    if isinstance(piece, Existing) or is_frame(piece) or role_of(piece) == "carries":
        return
    for load in piece.carries:
        amounts = [getattr(load, field) for field in KIND_OF_FIELD]
        if not any(amount is not None and amount[0] != 0.0 for amount in amounts):
            continue
        force = _largest(load, _extent(piece))
        much = f"{show(force, 'force')} of " if force is not None else ""
        yield f"{much}{load.what!r} is put on {_called(piece)}, {why_not(piece)}", load.what


def _extent(piece: AnyPiece) -> float | None:
    """How long it is where its loads stand, in; None where that takes more than a look."""
    if isinstance(piece, Beam):
        return beam_length(piece)
    if isinstance(piece, Post):
        return piece.height
    if is_bracket(piece):
        return piece.shape.level_top
    return None


def _largest(load: Load, extent: float | None) -> float | None:
    """The most that one entry presses with under a combination, lbf; None where it lifts or is not that simple."""
    by_kind: dict[str, float] = {}
    for field, kind in KIND_OF_FIELD.items():
        amount = getattr(load, field)
        if amount is None:
            continue
        value, sort = amount
        if sort == "point":
            by_kind[kind] = value
            continue
        if extent is None:
            return None
        long = max(min(load.end or extent, extent) - (load.start or 0.0), 0.0)
        by_kind[kind] = value * long * ((load.width or 0.0) if sort == "area" else 1.0)
    force = max(
        sum(one.factors.get(kind, 0.0) * value for kind, value in by_kind.items()) for one in asd_combinations()
    )
    return force if force > negligible() else None


def _tied(rafter: Rafter, tie: AnyPiece | None) -> Iterator[Fault]:
    """A tie is pulled by its rafters and hangs on them, whatever is written there."""
    if not isinstance(tie, Tie):
        return
    if tie.role != "carries":
        text = f"the thrust of rafter {rafter.name} pulls on tie {tie.name}, {why_not(tie)}"
        yield _fault(text, rafter.name, tie.name)
    if rafter.role != "carries":
        text = f"tie {tie.name} hangs on rafter {rafter.name}, {why_not(rafter)}"
        yield _fault(text, tie.name, rafter.name)


def _doubts(
    pieces: Mapping[str, AnyPiece], reactions: Sequence[Reactions], ways: Sequence[Way]
) -> Iterator[tuple[str, Check]]:
    """Where the path cannot be followed, or leads to something whose words contradict each other."""
    for way in ways:
        under = pieces.get(way.below)
        if isinstance(under, Existing) and not way.wrong and _UNCHECKED.search(f"{under.what}; {under.confirmed_by}"):
            text = f"{_called(under)}, confirmed by {under.confirmed_by!r}: these words also say that it is unchecked"
            asked = ask_who_answers(under)
            yield way.above, Check.refers(ID, way.above, f"load path to {way.below}", CLAUSE, text, ask=asked)
        if isinstance(under, Existing) and not way.wrong:
            force = None if way.row is None else max(way.row.largest, 0.0)
            for check in word_checks(way.above, under, force):
                yield way.above, check
        if isinstance(under, (Rafter, Tie)):
            text = f"{way.above} is held by it, and what that puts on a {kind_of(under)} is not counted here"
            asked = ask("held_by_roof", way.below, above=way.above)
            yield way.below, Check.refers(ID, way.below, f"load path from {way.above}", CLAUSE, text, ask=asked)
    for handed in reactions:
        for on, transfer in handed.transfers:
            under = pieces.get(on)
            if transfer.spread is not None and (is_bracket(under) or is_trim(under)):
                text = (
                    f"{handed.name} stands for a row, one every {show(transfer.spread, 'length')}: one of them is "
                    "counted here. If more of the row comes to it, put the beam that gathers them between"
                )
                asked = ask("row_on_one", on, row=handed.name)
                yield on, Check.refers("path.row", on, f"row of {handed.name}", CLAUSE, text, ask=asked)
