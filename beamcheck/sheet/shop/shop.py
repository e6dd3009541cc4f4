"""Shop sheets: one page a piece for whoever saws, drills and hangs it. No equations, nothing to work out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ...checks.core.asking.question_words import WHO
from ...checks.core.pictures.board import BoardPicture
from ...checks.core.result import JobResult, PieceResult, Verdict
from ...checks.movement.timber import movement_line
from ...errors import BeamcheckError
from ...lettering import legible
from ...model.anchors.anchor import Anchor
from ...model.beams import Beam
from ...model.brackets.bracket import Bracket, Trim
from ...model.job import Job
from ...model.posts import Post
from ...records import dataclass
from ...units import show, shown_in
from ..document.blocks import Bullets, Pairs, TableBlock
from ..document.prose import capital, sentence, short_title, without_fields
from ..document.standing_words import SIGN, UNSIGNED, listed, standing_of
from ..figures.assembly import assembly_figure
from ..figures.brackets.on_the_board import board_figure, needed
from ..lists.rows import HardwareRow, hardware_rows
from ..templates.piece import job_of
from .drawing import beyond, piece_drawing

ROLES = {"carries": "meant to carry", "decorative": "decoration: carries nothing", "cover": "cover: carries nothing"}
# of the inputs of a piece, what whoever cuts it has to know, in this order
CUT_SIZES = (
    "size counted", "plies", "laid", "length", "height", "run", "slope", "tail beyond the wall", "seat cut",
    "level seat", "spacing", "thickness", "projection", "foot", "nose", "soffit", "sagitta", "soffit points",
    "wall leg", "top leg", "brace", "brace out", "brace down", "joints", "housing", "behind housing", "depth",
    "inner radius", "sweep", "made", "lamination", "width", "down", "hole at bend", "gusset depth",
    "gusset thickness", "gusset edge", "weld", "seat", "below seat", "grain", "pocket", "skin",
)  # fmt: skip
WOOD = ("species", "grade", "moisture", "treatment", "steel", "manner", "holds", "fastened to", "fixed to")
NOT_CUT = ("kind", "forces by", "rating from")  # of the inputs of a joint, what its page says elsewhere
MOST_SAID = 3  # cures and questions on one page; the calc sheet has all
_PLAIN = ("plies: 1", "treatment: none", "foot: pinned", "foot: fixed")  # of a post its foot is no size
ROWS_MOVE = "anchor.rows_move"
_SAYS_NOTHING = ("–", "not given", "not said", "0 in", "grade not given")


@dataclass(frozen=True)
class ShopPage:
    """One page. `banner` is the verdict in words; `stop` when nothing may be built from it; `drawing` is an SVG."""

    name: str
    kind: str
    title: str
    verdict: Verdict
    banner: str
    stop: bool
    reasons: tuple[str, ...]
    sizes: Pairs
    gaps: Bullets
    hardware: TableBlock
    drills: TableBlock
    do_not: Bullets
    ticks: Bullets
    drawing: str = ""
    caption: str = ""
    order: str = ""  # its order of assembly, an SVG
    folded: str = ""  # the same for half of a page
    steps: tuple[str, ...] = ()  # of it, in words
    board: str = ""  # a bracket laid on the board that it is cut from, an SVG


def shop_pages(result: JobResult, job: Job | None = None) -> tuple[ShopPage, ...]:
    """The pages of a job, in its order.

    `job`: left out: read from the text that the result carries. Raises BeamcheckError if there is no job, or the job
    has no pieces.
    """
    job = job if job is not None else job_of(result)
    if not result.pieces:
        raise BeamcheckError("a shop sheet needs pieces: this job has none")
    with shown_in(result.units):
        hardware = hardware_rows(result, job)
        return tuple(_page(result, job, piece, i, hardware) for i, piece in enumerate(result.pieces, start=1))


def _page(result: JobResult, job: Job, piece: PieceResult, number: int, hardware: tuple[HardwareRow, ...]) -> ShopPage:
    given = _given(job, piece.name)
    standing = standing_of(result, job, piece)
    drawing, caption = piece_drawing(piece, given, result.units, f"shop-{number}")
    return ShopPage(
        piece.name, piece.kind, capital(piece.title), piece.verdict, standing.banner,
        standing.stop, tuple(map(without_fields, (*standing.reasons, *_what_helps(piece)))),
        Pairs(tuple(_sizes(piece, given))),
        Bullets("Gaps, slots and seats", (*_board(piece, result.units), *_gaps(given), *_moves(piece, given, job))),
        _hardware(piece, hardware), _drills(piece),
        Bullets("Do not", tuple(_do_nots(piece, given, job, stop=standing.stop))),
        Bullets("See and tick before it is covered", tuple(_ticks(piece, given))), drawing, caption,
        _assembled(piece, result.units, f"shop-assembly-{number}", folded=False),
        _assembled(piece, result.units, f"shop-folded-{number}", folded=True),
        piece.assembly.steps if piece.assembly else (), _laid(piece, result.units, f"shop-board-{number}"),
    )  # fmt: skip


def _assembled(piece: PieceResult, units: str, key: str, *, folded: bool) -> str:
    if piece.assembly is None:
        return ""
    return assembly_figure(piece.assembly, piece.name, units, key, folded=folded)


def _what_helps(piece: PieceResult) -> Iterator[str]:
    """What would make it hold, and whom to ask what."""
    for cure in piece.remedies[:MOST_SAID]:
        yield f"What would make it hold: {sentence(cure)}"
    for question in piece.questions[:MOST_SAID]:
        who = WHO[question.who]
        asked = f"Find out{who.removeprefix('you')}" if who.startswith("you") else f"Ask {who}"
        yield f"{asked}: {sentence(question.ask)}"


Given = Beam | Bracket | Anchor | Trim | object


def _given(job: Job, name: str) -> Given:
    pieces: tuple[Any, ...] = (*job.beam, *job.bracket, *job.anchor, *job.trim, *job.post, *job.rafter, *job.tie)
    return next((one for one in pieces if one.name == name), None)


def _sizes(piece: PieceResult, given: Given) -> Iterator[tuple[str, str]]:
    """What it is made of, then how it is cut."""
    inputs: dict[str, str] = {}
    for label, text in piece.inputs:
        inputs.setdefault(label.replace("_", " "), text)
    if piece.kind == "joint":
        yield from ((capital(label), text) for label, text in piece.inputs if label not in NOT_CUT)
        return
    wood = [inputs[label] for label in ("species", "grade", "moisture") if label in inputs]
    if wood:
        yield "Wood", ", ".join(wood)
    if isinstance(given, Bracket):
        yield "Role", ROLES[given.role]
    for label in (*WOOD[3:], *CUT_SIZES):
        text = inputs.get(label, "")
        if not text or text in _SAYS_NOTHING or f"{label}: {text}".startswith(_PLAIN):
            continue
        if isinstance(given, Beam) and label == "length":
            yield from _cut_length(given, text)
        else:
            yield ("Size" if label == "size counted" else capital(label)), text
    if piece.figure is not None and not {"length", "height", "run"} & inputs.keys():
        yield "Length", f"{show(piece.figure.length, 'length')} as calculated: measure the place"
    if isinstance(given, Beam):
        yield from (("Cut", text) for text in _cuts(given))
    else:
        yield from (("Cut", text) for label, text in piece.inputs if label == "cut")


def _cuts(beam: Beam) -> Iterator[str]:
    """The cuts, from the real left end of the stick, where a tape is hooked on."""
    before, _ = beyond(beam)
    for cut in beam.cuts:
        yield f"{cut.kind}, {show(cut.depth, 'length')}, {show(cut.at + before, 'length')} from the real left end"


def _cut_length(beam: Beam, text: str) -> Iterator[tuple[str, str]]:
    """Length as calculated and, where seats reach beyond its ends, how long the stick must be at least."""
    before, after = beyond(beam)
    length = max(beam.length or 0.0, max(one.at for one in beam.supports))
    if before + after < 1e-6:
        yield "Length", text
    else:
        yield "Cut it at least", f"{show(length + before + after, 'length')} long, to cover its seats"
        yield "Calculated", f"{text}, the end seats counted to their middles"


def _moves(piece: PieceResult, given: Given, job: Job) -> Iterator[str]:
    """How its wood moves, what the parts on it need, and what its rows of fasteners do."""
    named = getattr(job.members.get(piece.name, given), "stock", None)
    stock = next((one for one in job.stock if one.name == named), None)
    if stock is not None and stock.made != "steel":
        yield movement_line(stock, job.job.air)
    for part in job.movement:
        if part.on == getattr(given, "name", None):
            lap = f", lap {show(part.lap, 'length')}" if part.lap else ""
            yield f"{part.name}: {part.kind}, fixed at {part.fixed}, {show(part.room, 'length')} room{lap}."
    for check in piece.checks:
        if check.id == ROWS_MOVE:
            yield from (f"{capital(check.where)}: {note}." for note in check.notes[:1])


def _board(piece: PieceResult, units: str) -> Iterator[str]:
    """How a bracket cut from one piece is laid on its board."""
    yield from (
        f"Laid with its grain along the board {needed(one, units)}."
        for one in piece.pictures
        if isinstance(one, BoardPicture)
    )


def _laid(piece: PieceResult, units: str, key: str) -> str:
    """The drawing of that, '' where there is none."""
    return next(
        (board_figure(one, piece.name, units, key) for one in piece.pictures if isinstance(one, BoardPicture)), ""
    )


def _gaps(given: Given) -> Iterator[str]:
    if isinstance(given, Beam):
        for support in given.supports:
            if support.holds == "rests" and support.bearing is not None:
                yield f"Seat {show(support.bearing, 'length')} long on {support.on}, full and tight."
            elif support.held_by is not None:
                yield f"Held at {support.on} by {support.held_by}: see its page."
    elif isinstance(given, Bracket):
        yield from _bracket_gaps(given)
    elif isinstance(given, Anchor):
        plate = given.plate
        if plate is not None and plate.slot is not None:
            long = f", {show(plate.slot_length, 'length')} long" if plate.slot_length is not None else ""
            high = show(plate.slot_height, "length") + " high" if plate.slot_height is not None else "the full depth"
            yield f"Slot {show(plate.slot, 'length')} wide{long}, {high}."
        if given.gap:
            yield f"Gap between the faces: {show(given.gap, 'length')}, no more."
        elif given.other is not None:
            yield "No gap: the faces touch."


def _bracket_gaps(bracket: Bracket) -> Iterator[str]:
    near, cover = bracket.near, bracket.cover
    if near is not None:
        gap = "not given: ask" if near.gap is None else show(near.gap, "length")
        yield f"Gap between its nose and {near.beam}: {gap}." + (" Leave it open." if near.gap else "")
        if near.slot is not None:
            yield f"Upright slots {show(near.slot, 'length')} long at its upper fixing, screws snug, not clamped."
    if bracket.fixings is not None:
        for i, row in enumerate(bracket.fixings.rows, start=1):
            if row.slot is not None:
                yield f"Row {i}: upright slots {show(row.slot, 'length')} long."
    if cover is not None and cover.reveal is not None:
        yield f"Reveal to what it meets: {show(cover.reveal, 'length')}. Leave it open."
    tip = getattr(bracket.shape, "tip_clear", None)
    if tip is not None:
        yield f"Room for the steel to sink at its tip: {show(tip, 'length')}, inside the skin."


def _hardware(piece: PieceResult, rows: tuple[HardwareRow, ...]) -> TableBlock:
    mine = [row for row in rows if row.group == piece.name]
    cells = tuple(
        (str(row.in_all if row.in_all is not None else row.each), row.what, row.size, row.length, row.steel)
        for row in mine
    )
    ends = max((row.ends for row in mine), default=1)
    note = f"For all {ends} ends that it holds." if ends > 1 else ""
    return TableBlock(
        "Hardware", ("How many", "What", "Size", "Length", "Steel, coating") if cells else (), cells, note
    )


def _drills(piece: PieceResult) -> TableBlock:
    """The drills, from the table of holes to drill."""
    for table in piece.tables:
        if table.title.startswith("Holes to drill"):
            kept = [table.heads.index(head) for head in ("member", "part", "drill", "how deep")]
            rows = tuple(tuple(row[i] for i in kept) for row in table.rows)
            return TableBlock("Drill", ("In", "Part", "Drill", "How deep"), rows)
    return TableBlock("Drill", (), ())


def _do_nots(piece: PieceResult, given: Given, job: Job, *, stop: bool) -> Iterator[str]:
    if stop:
        yield "Do not build from this page: it shows what was checked, not what is right."
    if isinstance(given, Anchor):
        yield "Do not move a hole, add one or drill one wider: stop and ask."
        yield "Do not change number, size, steel or length of the hardware."
        yield "Do not cut or notch the wood near the holes."
    else:
        holes = listed([one.held_by for one in given.supports if one.held_by]) if isinstance(given, Beam) else ""
        known = f" and on the page of {holes}" if holes and holes != "see the calc sheet" else ""
        yield f"Do not cut, notch or drill it anywhere but as shown here{known}."
        yield (
            "Do not use other wood: species, grade, size and moisture are as listed."
            if piece.kind != "trim" and dict(piece.inputs).get("made") != "steel"
            else "Do not use another shape or grade than is listed."
            if piece.kind != "trim"
            else ("Do not make it heavier than the job says.")
        )
    yield from _no_load(given, job)
    yield "Do not cover it before the list is ticked and an engineer has signed."


def _no_load(given: Given, job: Job) -> Iterator[str]:
    """What may not hang from it or stand on it."""
    if (isinstance(given, Bracket) and given.role != "carries") or isinstance(given, Trim):
        yield "Do not hang from it, do not stand on it, do not rest anything on it."
        if isinstance(given, Bracket) and given.near is not None:
            yield f"Do not wedge, fill or plaster the gap to {given.near.beam}: it must stay open."
    elif isinstance(given, Anchor):
        yield "Do not hang anything else from it."
    else:
        carried = [load.what for load in getattr(given, "carries", ())]
        carried += [
            beam.name for beam in job.beam if any(one.on == getattr(given, "name", "") for one in beam.supports)
        ]
        only = f" It carries {listed(list(dict.fromkeys(carried)))} and itself, nothing more." if carried else ""
        yield f"Do not hang from it or add load to it.{only}"


def _ticks(piece: PieceResult, given: Given) -> Iterator[str]:
    yield from map(sentence, piece.to_see)
    inputs = dict(piece.inputs)
    if piece.kind in ("anchor", "joint", "trim"):
        return
    if size := inputs.get("size counted"):
        yield f"Measured in three places: nowhere less than {size}."
    if inputs.get("made") == "steel":
        yield f"Mark or certificate seen and photographed: steel {inputs.get('grade', '')}."
    if inputs.get("species"):
        grade = " ".join(filter(None, (inputs["species"], inputs.get("grade", ""))))
        yield f"Stamp or certificate seen and photographed: {grade}."
        moisture = inputs.get("moisture", "not said")
        yield f"Moisture metered on the day, the meter in the picture (the job says: {moisture})."
        yield "No split, rot or knot that the job does not name."
    if isinstance(given, Beam):
        for support in given.supports:
            if support.bearing is not None and support.holds == "rests":
                yield f"Seat on {support.on}: {show(support.bearing, 'length')} long or more, touching all over."
        if any(support.restrained for support in given.supports):
            yield "Ends held against turning over."
        if given.top_held == "full length":
            yield "Top edge held along its full length."
        yield from (f"Cut measured: {text}." for text in _cuts(given))
    if isinstance(given, Post):
        yield "Top and foot cut square, bearing all over; the post plumb."
    if isinstance(given, Bracket) and given.near is not None and given.near.gap:
        yield f"Gap to {given.near.beam} measured: {show(given.near.gap, 'length')}, nothing in it."


def head_of(result: JobResult) -> dict[str, str]:
    """What stands on every page beside the piece."""
    return {
        "job": short_title(legible(result.title)), "fingerprint": result.fingerprint[:12],
        "tool": f"whatcarries {result.version}", "caution": result.caution, "sign_off": result.sign_off,
        "sign": SIGN, "unsigned": UNSIGNED,
    }  # fmt: skip
