"""The full-size template of a piece of a job: the profile of a bracket, or the hole pattern of an anchor group."""

from __future__ import annotations

from collections.abc import Callable

from ...checks.anchors.hardware import looked_up
from ...checks.core.pictures.others import HoleDrawing, JointPicture
from ...checks.core.result import JobResult, PieceResult
from ...errors import BeamcheckError, UnknownName
from ...model.anchors.anchor import Anchor
from ...model.brackets.bracket import Bracket
from ...model.job import Job
from ...model.joints.joint import Joint
from ...model.links.joints import MANNER_OF
from ...model.reading.reader import read_job_text
from ...units import show, shown_in
from ..document.prose import short_title, without_fields
from ..document.standing_words import SIGN, standing_of
from ..pdf.data import job_day
from .geometry import Arrow, Hole, Label, Template, polygon, rectangle
from .joints import joint_drawn
from .shapes import BESIDE, OUTSIDE, Drawn, bracket_drawn, drilled, hole_diameter

PRINT = "Print at 100 %, no fitting to the page. Lay a rule on the scale bar before you use it."


def job_of(result: JobResult) -> Job:
    """The job that a result was made from. Raises BeamcheckError if the result carries no job text."""
    if not result.job_text:
        raise BeamcheckError("this needs the job: the result was made without the text of a job file")
    return read_job_text(result.job_text, result.job_name)


def template_of(result: JobResult, name: str, *, job: Job | None = None, units: str | None = None) -> Template:
    """The template of the bracket or anchor group called `name`.

    `result`: with the verdict of the piece. `job`: left out: read from the text that the result carries. `units`: 'US',
    'SI' or None: of the lettering; None is that of the result. Raises UnknownName if the job has no such piece;
    BeamcheckError if the piece has no template, or cannot be drawn; the text says which pieces have one.
    """
    job = job if job is not None else job_of(result)
    piece = next((one for one in result.pieces if one.name == name), None)
    if piece is None:
        raise UnknownName("piece of the job", name, [one.name for one in result.pieces])
    with shown_in(units or result.units):
        bracket = next((one for one in job.bracket if one.name == name), None)
        anchor = next((one for one in job.anchor if one.name == name), None)
        joint = next((one for one in job.joint if one.name == name), None)
        if bracket is not None:
            drawn, title = _bracket(bracket), f"Bracket {name}: {piece.title}"
        elif anchor is not None and piece.drawing is not None and piece.drawing.holes:
            drawn, title = _holes(anchor, piece.drawing), f"Holes of {name}: {piece.title}"
        elif joint is not None:
            drawn, title = _joint(joint, piece), f"Joint {name}: {piece.title}"
        else:
            raise BeamcheckError(_no_template(name, piece, job, result))
        return _said(result, job, piece, title, drawn)


def _no_template(name: str, piece: PieceResult, job: Job, result: JobResult) -> str:
    if piece.kind in ("anchor", "bracket"):
        return f"{name} has no template: the job gives no places of holes for it"
    drawn = {one.name for one in result.pieces if one.drawing is not None and one.drawing.holes}
    have = [one.name for one in job.bracket] + [one.name for one in job.anchor if one.name in drawn]
    right = f"those with one: {', '.join(have)}" if have else "this job has neither"
    made = "templates are made of brackets and joints, and of hole patterns of anchor groups"
    return f"{name} is a {piece.kind}: {made}; {right}"


def _said(result: JobResult, job: Job, piece: PieceResult, title: str, drawn: Drawn) -> Template:
    standing = standing_of(result, job, piece)
    notes = (*map(without_fields, standing.reasons), *drawn.notes, SIGN, PRINT)
    day = job_day(result)
    return Template(
        piece.name, title, piece.verdict, standing.banner, standing.stop, tuple(drawn.contours), tuple(drawn.holes),
        tuple(drawn.grain), tuple(drawn.measures), tuple(drawn.labels), notes, result.caution, result.sign_off,
        result.invented, short_title(result.title), result.fingerprint, result.version,
        None if day is None else (day.year, day.month, day.day),
    )  # fmt: skip


def _bracket(bracket: Bracket) -> Drawn:
    try:
        return bracket_drawn(bracket)
    except BeamcheckError as error:
        raise BeamcheckError(f"bracket {bracket.name}: no template can be drawn: {error}") from None


def _joint(joint: Joint, piece: PieceResult) -> Drawn:
    """The cuts of a step or tenon, or else the holes in the first of its members."""
    if piece.drawing is not None and piece.drawing.holes and joint.fastener is not None:
        anchor = Anchor.model_construct(name=joint.name, manner=MANNER_OF[joint.kind], fastener=joint.fastener)
        return _holes(anchor, piece.drawing)
    picture = next((one for one in piece.pictures if isinstance(one, JointPicture)), None)
    if picture is None:
        raise BeamcheckError(f"joint {joint.name}: no template can be drawn, for its members could not be worked out")
    return joint_drawn(joint, picture)


def _holes(anchor: Anchor, drawing: HoleDrawing) -> Drawn:
    """The held end from its side; rods stand upright and are seen from the top."""
    drawn = Drawn()
    height = drawing.breadth if drawing.upright else drawing.depth
    drawn.height, drawn.reach = height, drawing.length
    left = drawing.end == "left"

    def x_of(x: float) -> float:
        return x if left else drawing.length - x

    end, inner = x_of(0.0), x_of(drawing.length)
    drawn.contours.append(polygon("NOTES", (inner, 0.0), (end, 0.0), (end, height), (inner, height), closed=False))
    _hidden(drawn, drawing, x_of)
    dowel = looked_up(anchor)
    bore = drawing.bores[0] if drawing.bores is not None else 0.0
    for x, y, D, number, _ in drawing.holes:
        drill = hole_diameter(dowel.kind, D) if dowel is not None else None
        at_y = 0.5 * height if drawing.upright else y
        drawn.holes.append(Hole(x_of(x), at_y, D, drill, drilled(number, drill), 0.0 if drawing.upright else bore))
    _measured(drawn, drawing, x_of, height)
    side = "from the top" if drawing.upright else "from its side"
    drawn.labels.append(Label(min(end, inner), -1.0, f"{drawing.end} end, seen {side}"))
    reach = 0.25 * drawing.length
    drawn.grain.append(
        Arrow((0.5 * drawing.length - reach, 0.06 * height), (0.5 * drawing.length + reach, 0.06 * height))
    )
    drawn.notes += [*drawing.texts, "Lay the end line on the end of the piece and the edges on its edges."]
    if any(hole.drill is None for hole in drawn.holes):
        drawn.notes.append("Only the middles are to be marked: the drill goes by the wood, see the shop sheet.")
    if bore and drawing.bores is not None and not drawing.upright:
        drawn.notes.append(
            f"Dashed rings: bores {show(bore, 'length')} across, {show(drawing.bores[1], 'length')} deep."
        )
    return drawn


def _hidden(drawn: Drawn, drawing: HoleDrawing, x_of: Callable[[float], float]) -> None:
    """Slot and plate, dashed."""
    middle = 0.5 * drawing.depth
    if drawing.upright:
        return
    if drawing.plate is not None:
        x0, y0, x1, y1, thick = drawing.plate
        drawn.contours.append(rectangle("NOTES", x_of(x0), y0, x_of(x1), y1, dashed=True))
        drawn.notes.append(f"Dashed: the plate, {show(thick, 'length')} thick.")
        middle = 0.5 * (y0 + y1)
    if drawing.slot is not None:
        width, length, height = drawing.slot
        low = min(max(middle - 0.5 * height, 0.0), max(drawing.depth - height, 0.0))
        drawn.contours.append(rectangle("NOTES", x_of(0.0), low, x_of(length), low + height, dashed=True))
        drawn.notes.append(
            f"Dashed: the slot, {show(width, 'length')} wide, {show(length, 'length')} long, "
            f"{show(height, 'length')} high."
        )


def _measured(drawn: Drawn, drawing: HoleDrawing, x_of: Callable[[float], float], height: float) -> None:
    rows = 0
    for axis, start, stop, _ in drawing.dimensions:
        if axis == "x":
            drawn.across(x_of(start), x_of(stop), -OUTSIDE - 0.25 * (rows % 2))
            rows += 1
    outside = x_of(0.0) + (-OUTSIDE if drawing.end == "left" else OUTSIDE)
    step = -BESIDE if drawing.end == "left" else BESIDE
    for i, (_, start, stop, _) in enumerate([one for one in drawing.dimensions if one[0] == "y"]):
        drawn.upright(start, stop, outside + step * i)
    if drawing.upright:
        drawn.upright(0.0, 0.5 * height, outside)
