"""What the form asks, in the order in which one walks round a timber; what a survey holds stands in it.

The choices are those of the model, so that a form that is filled in can be typed into the job file as it stands.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal, get_args

from ...errors import BeamcheckError, nearest
from ...model.conditions.survey import Knot, Loss, Opening, Survey
from ...model.fields.base import Piece, annotations_within
from ...model.job import Job
from ...model.stock import Stock
from ...records import dataclass
from ...units import show

CAUTION = (
    "A survey screens. Only a grader's certificate or an engineer's letter, with name, date and number, lets a "
    "surveyed timber carry. Write down as not seen what nobody could look at. Do not stand under a timber while you "
    "test it."
)
NONE_SEEN = "none: []"  # in the description of a list that may be looked for and empty
WRITE_NONE = "write none where you looked and there is none"
Cells = tuple[tuple[str, ...], ...]
MARKS = "Measure from the LEFT end, as you stand before it. Top, bottom, left and right are as it lies in the house."


@dataclass(frozen=True)
class Line:
    """One thing to write down: what, how, and what is written."""

    label: str
    hint: str = ""
    value: str = ""


@dataclass(frozen=True)
class Choice:
    """One thing to tick."""

    label: str
    options: tuple[str, ...]
    chosen: str = ""
    hint: str = ""


@dataclass(frozen=True)
class Rows:
    """A table to fill: heads and rows, blank ones too."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    hint: str = ""


@dataclass(frozen=True)
class Section:
    """One step round the timber."""

    title: str
    parts: tuple[Line | Choice | Rows, ...]


@dataclass(frozen=True)
class Form:
    """The whole form."""

    title: str
    job: str
    sections: tuple[Section, ...]
    invented: bool = False
    caution: str = CAUTION
    marks: str = MARKS


def blank_form() -> Form:
    """The form for the field."""
    return _form("Survey of an old timber", "", None, None)


def filled_form(job: Job, name: str = "") -> Form:
    """The form with what a stock of the job holds.

    Raises BeamcheckError if there is no stock of that name with a survey; if none is named and the job has several
    surveys, or none.
    """
    surveyed = {stock.name: stock for stock in job.stock if stock.survey is not None}
    if not surveyed:
        raise BeamcheckError("no [[stock]] of this job has a survey: leave the job out for the blank form")
    if not name and len(surveyed) > 1:
        raise BeamcheckError(f"this job has {len(surveyed)} surveys: name one of {', '.join(surveyed)} with --stock")
    stock = surveyed.get(name or next(iter(surveyed)))
    if stock is None or stock.survey is None:
        raise BeamcheckError(f"there is no surveyed stock {name!r}; {nearest(name, list(surveyed))}")
    title = f"Survey of an old timber: {stock.name}"
    return _form(title, job.job.title, stock, stock.survey, invented=job.job.invented)


def _form(title: str, job: str, stock: Stock | None, s: Survey | None, *, invented: bool = False) -> Form:
    size, species = ("", "") if stock is None else (stock.size, stock.species)
    if stock is not None and stock.candidates:
        species = f"{species}: {', '.join(stock.candidates)}"
    sections = (
        Section("1  Which timber, and who looks", (
            Line("Timber, and where it lies", "", "" if stock is None else stock.name),
            Line("Who, and which day", "", _of(s, "by")), Line("Length", "over all", _len(s, "length")),
            Line("Species, or which ones it may be", "heart, sap, pores, rays", species),
            _choice(s, "species_by", "Known by"),
        )),
        Section("2  Size: least of each side, sound wood", (
            Rows(("at", "breadth", "depth"), _rows(s, "stations",
                [(_l(x.at), _l(x.breadth), _l(x.depth)) for x in _of(s, "stations") or ()], 3, 3),
                "both ends and the middle; the size that counts is the least"),
            Line("Size for the job", "", size), Line("Sag in the middle", "string from end to end", _len(s, "sag")),
        )),
        Section("3  Moisture", (
            _choice(s, "meter", "Meter"),
            Rows(("at", "reading %", "pins deep", "near masonry or roof"), _rows(s, "readings",
                [(_l(x.at), f"{x.moisture:g}", _l(x.deep), "" if x.near == "neither" else x.near)
                 for x in _of(s, "readings") or ()], 4, 5),
                "pins a quarter of the thickness deep; for a profile also at the face and near the middle"),
        )),
        Section("4  Grain and knots", (
            Rows(("face", "grain: 1 in ..."), _rows(s, "grain",
                [(x.face, f"{x.one_in:g}") for x in _of(s, "grain") or ()], 2, 2),
                "scribe 15 in or more along the worst line, two faces that meet"),
            Rows(("at", "face", "edge or center", "width across the face", "sound"), _rows(s, "knots",
                [(_l(x.at), x.face, x.place, _l(x.width), "yes" if x.sound else "NO") for x in _of(s, "knots") or ()],
                5, 5), f"the worst; edge or center of the wide face; {_options(Knot, 'face')}; {WRITE_NONE}"),
        )),
        Section("5  Checks, shakes and splits", (
            Rows(("what", "from", "to", "deep", "other side", "at bolts"), _rows(s, "openings",
                [(x.kind, _l(x.start), _l(x.end), _l(x.depth), _l(x.other_side), "yes" if x.at_bolts else "no")
                 for x in _of(s, "openings") or ()], 6, 4),
                f"feeler 0.010 to 0.030 in; {_options(Opening, 'kind')}; a split goes right through; {WRITE_NONE}"),
            _choice(s, "heart_checks", "Checks from the heart"),
        )),
        Section("6  Wood that is gone, and old cuts", (
            Rows(("what", "from", "to", "face or corner", "deep"), _rows(s, "losses",
                [(x.what, _l(x.start), _l(x.end), x.where, _l(x.depth)) for x in _of(s, "losses") or ()], 5, 4),
                f"{_options(Loss, 'what')}; {WRITE_NONE}"),
            Rows(("cut", "at", "long", "deep", "wide", "face", "from bottom"), _rows(s, "cuts",
                [(x.kind, _l(x.at), _l(x.length), _l(x.depth), _l(x.width), x.face, _l(x.from_bottom))
                 for x in _of(s, "cuts") or ()], 7, 4), f"every old notch, mortise and hole; {WRITE_NONE}"),
        )),
        Section("7  Decay, insects, metal, signs", (
            _choice(s, "decay", "Decay", "lift a splinter every 12 in near wet places; hammer; drill where dull"),
            _choice(s, "insects", "Insects", "holes, fresh dust"), _choice(s, "metal", "Metal", "magnet"),
            Line("Seat pressed in by", "", _len(s, "crushed")),
            _choice(s, "fire", "Fire"), _choice(s, "chemicals", "Salt, acid, white fuzz", "odor too"),
            _choice(s, "overload", "Wrinkles on top, splinters below"), _choice(s, "use", "What is meant to change"),
        )),
        Section("8  What was not seen, and photographs", (
            Line("Not seen", "top, bottom, left, right, ends; all seen: write none", _not_seen(s)),
            Line("Photographs", "four faces, both ends, each defect with a tape in it",
                 ", ".join(_of(s, "photographs") or ())),
        )),
        Section("9  Tests, if any: stiffness and weight, never strength", _tests(s)),
    )  # fmt: skip
    return Form(title, job, sections, invented)


def _tests(s: Survey | None) -> tuple[Line | Choice | Rows, ...]:
    sag, weighing = _of(s, "sag_test"), _of(s, "weighing")

    def given(thing: Any, field: str, kind: str) -> str:
        value = None if thing is None else getattr(thing, field)
        return "" if value is None else show(value, kind)

    came = None if sag is None else sag.came_back
    return (
        Rows(("span", "weight in the middle", "give or take", "middle came down", "supports sank (mean)",
              "give or take"),
             ((given(sag, "span", "length"), given(sag, "weight", "force"), given(sag, "weight_off", "force"),
               given(sag, "sag", "small length"), given(sag, "supports_sank", "small length"),
               given(sag, "sag_off", "small length")),),
             "read middle and both supports, put the weight on gently, wait a minute, read, take it off, read again"),
        Choice("It came back", ("yes", "no"), {True: "yes", False: "no", None: ""}[came]),
        Rows(("weighed", "give or take", "length of it", "breadth", "depth", "moisture %"),
             ((given(weighing, "weight", "force"), given(weighing, "weight_off", "force"),
               given(weighing, "length", "length"), given(weighing, "breadth", "length"),
               given(weighing, "depth", "length"), given(weighing, "moisture", "moisture")),)),
    )  # fmt: skip


def _of(s: Survey | None, field: str) -> Any:
    return getattr(s, field, None)


def _l(x: float | None) -> str:
    return "" if x is None else show(x, "length")


def _len(s: Survey | None, field: str) -> str:
    return _l(_of(s, field))


def _not_seen(s: Survey | None) -> str:
    seen = _of(s, "not_seen")
    return "" if seen is None else ", ".join(seen) or "none"


def _rows(s: Survey | None, field: str, found: Sequence[tuple[str, ...]], wide: int, high: int) -> Cells:
    """The cells of a list; of one that nobody looked for it says so, which is not the same as none."""
    if s is None:
        return (("",) * wide,) * high
    looked = getattr(s, field) == () and NONE_SEEN in (Survey.model_fields[field].description or "")
    return tuple(found) or (("none" if looked else "not looked at", *("",) * (wide - 1)),)


def _choice(s: Survey | None, field: str, label: str, hint: str = "") -> Choice:
    return Choice(label, _literals(Survey, field), _of(s, field) or "", hint)


def _options(model: type[Piece], field: str) -> str:
    return ", ".join(_literals(model, field))


def _literals(model: type[Piece], field: str) -> tuple[str, ...]:
    """The words that a field takes."""
    parts = annotations_within(model.model_fields[field].annotation)
    return tuple(one for part in parts if getattr(part, "__origin__", None) is Literal for one in get_args(part))
