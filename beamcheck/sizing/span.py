"""The span question: is this stick enough for that span, or how far does it go? Asked without a job file.

The answer goes through the same checks as a job: the question is written down as a job file of one beam on two
supports, and that text goes with the result. What was not said is taken on the safe side and listed. Nobody answers for
the supports, so the answer is never a plain yes.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from ..checks.core.result import JobResult, judge, within
from ..checks.job import check_job
from ..errors import JobError, OutOfRange, Problem
from ..model.beams import Beam
from ..model.job import Job
from ..model.reading.reader import read_job_text
from ..units import KINDS, read, show, shown_in
from ..values.judgment import judgment
from .ladder import conditions, rungs
from .meant import SEARCHED, parted

SHORTEST = 12.0  # in; shorter spans are not tried
CENTIMETER = 1.0 / 2.54  # in
NAME, SOURCE = "the beam", "the question"
LOADS = ("dead", "live", "roof_live", "snow")


def span_question(
    size: str,
    species: str,
    grade: str,
    *,
    dead: object = None,
    live: object = None,
    roof_live: object = None,
    snow: object = None,
    spacing: object = None,
    width: object = None,
    finish: str,
    service: str = "floor",
    length: object = None,
    seat: object = None,
    moisture: str | None = None,
    grade_from: str | None = None,
    evidence: str = "",
    agency: str = "",
    top_held: str | None = None,
    members: int = 1,
    shared_by: str = "",
    meant: Mapping[str, str] | None = None,
    units: str = "US",
) -> JobResult:
    """Check one beam on two supports under uniform load, or find its longest span.

    Parameters
    ----------
    size, species, grade : str
        As in a job file: '2x10', 'Hem-Fir', 'No.2'.
    dead, live, roof_live, snow : str or pint quantity
        Loads, per area ('40 psf') or per length ('55 plf'). At least one.
    spacing, width : str or pint quantity
        For loads per area: the spacing of repeated beams, or the width of floor or roof that comes to this one.
    finish : str
        'plaster', 'gypsum board', 'masonry veneer', 'flexible' or 'none': sets the deflection limits.
    service : 'floor' or 'roof'
    length : str or pint quantity
        The span, from middle to middle of the seats. Left out: the longest that holds is looked for.
    seat : str or pint quantity
        Length of each seat along the beam.
    moisture, grade_from, evidence, agency, top_held, members, shared_by
        As in a job file; what is left out is taken on the safe side.
    meant : mapping, optional
        Why an odd figure is right all the same, by its field in a job file: `{"at": "a span of a bridge"}`.
    units : 'US' or 'SI'
        Units of the words in the answer.

    Returns
    -------
    JobResult
        Its first reason is the answer in words. The verdict is 'refer' or 'fails', never 'passes'.

    Raises
    ------
    JobError
        With every problem of the question.

    Examples
    --------
    >>> answer = span_question("2x10", "Hem-Fir", "No.2", dead="10 psf", live="40 psf", spacing="16 in",
    ...                        finish="gypsum board", length="10 ft", top_held="full length", moisture="dry")
    >>> answer.verdict
    'refer'
    """
    loads = {name: value for name, value in zip(LOADS, (dead, live, roof_live, snow), strict=True) if value is not None}
    said = {
        "size": size, "species": species, "grade": grade, "moisture": moisture, "grade_from": grade_from,
        "evidence": evidence, "agency": agency,
    }  # fmt: skip
    of_beam = {"finish": finish, "service": service, "top_held": top_held, "shared_by": shared_by}
    try:
        sizes = {"spacing": spacing, "width": width, "seat": seat}
        lengths = {name: _text(value, "length") for name, value in sizes.items() if value is not None}
        amounts = {name: _text(value, "load") for name, value in loads.items()}
        criterion = None if length is None else _text(length, "length")
    except ValueError as error:
        raise JobError(SOURCE, [Problem("", str(error))]) from None
    if not amounts:
        said_so = 'what does it carry? Give at least one load, for example dead = "10 psf" and live = "40 psf"'
        raise JobError(SOURCE, [Problem("", said_so)])
    if "spacing" in lengths and "width" in lengths:
        raise JobError(SOURCE, [Problem("", "spacing and width say the same thing: give one of them")])

    def written(span: str) -> str:
        insists = {**(meant or {}), **(SEARCHED if length is None else {})}
        return _job_text(said, of_beam, amounts, lengths, members, span, units, insists)

    found: float | None = None
    if criterion is None:
        found = longest_span_of(_read(written(_written_length(SHORTEST, units))))
        criterion = _written_length(found or SHORTEST, units)
    text = written(criterion)
    job = _read(text)
    result = check_job(job, text=text, name="span question", units=units)
    with shown_in(units):
        ladder: tuple[str, ...] = ()
        if found is None:
            unsaid = conditions(
                NAME, "the wood", top_held=top_held is None, moisture=moisture is None,
                row=members == 1 and "spacing" in lengths, dead="dead" in amounts,
            )  # fmt: skip
            ladder = () if _unknown(said) else tuple(rungs(job, result, unsaid))
        answer = _answer(
            result, found, "the weakest wood that it might be" if _unknown(said) else "it", turns=bool(ladder)
        )
        assumed = tuple(_assumed(said, of_beam, lengths, members))
    pieces = tuple(replace(piece, assumptions=(*assumed, *piece.assumptions)) for piece in result.pieces)
    return replace(result, reasons=(answer, *ladder, *result.reasons), pieces=pieces)


def _read(text: str) -> Job:
    """The question as a job; what is wrong is told without the lines of a file that nobody wrote."""
    try:
        return read_job_text(text, SOURCE)
    except JobError as error:
        raise JobError(SOURCE, [replace(problem, line=None) for problem in error.problems]) from None


def longest_span_of(job: Job) -> float:
    """The longest span at which a job's only beam still holds by the figures.

    Parameters
    ----------
    job : Job
        One beam with two supports, at its ends, under loads that are spread over its whole length.

    Returns
    -------
    float
        [in] Rounded down to an inch (to a centimeter when the job asks for SI units). 0 when it holds at none from
        12 in up; none is tried that is longer than the longest stick. Only what has a ratio, and what fails, is
        judged: evidence that is missing is not, so the answer is never a permission.

    Raises
    ------
    OutOfRange
        If the job is not of that kind.
    """
    beam = _only_beam(job)
    searched = beam.model_copy(update={"meant": {**beam.meant, **SEARCHED}})
    job = job.model_copy(update={"beam": (searched,)})
    step = CENTIMETER if job.job.units == "SI" else 1.0
    low, high = math.ceil(SHORTEST / step), math.floor(_longest() / step) + 1
    at_low, at_high = _worst_ratio(job, low * step), math.inf
    if not within(at_low):
        return 0.0
    tries = 0
    while high - low > 1:  # it holds at `low` steps, and not at `high` (or that is not tried)
        tries += 1
        middle = (low + high) // 2 if tries % 4 == 0 else _between(low, at_low, high, at_high)
        ratio = _worst_ratio(job, middle * step)
        if within(ratio):
            low, at_low = middle, ratio
        else:
            high, at_high = middle, ratio
    return low * step


def _between(low: int, at_low: float, high: int, at_high: float) -> int:
    """Where the ratio should reach 1 if it went with a power of the span; of the square while `high` says nothing."""
    if at_low <= 0.0:
        return (low + high) // 2
    power = 2.0 if math.isinf(at_high) else math.log(at_high / at_low) / math.log(high / low)
    guess = low * (1.0 / at_low) ** (1.0 / power)
    return min(max(int(guess), low + 1), high - 1)


def _longest() -> float:
    """The longest single stick that is believed, in; longer spans are not tried."""
    return judgment("slip: stick, longest").value


def _only_beam(job: Job) -> Beam:
    others = (*job.rafter, *job.tie, *job.post)
    beam = job.beam[0] if len(job.beam) == 1 and not others else None
    if beam is None or len(beam.supports) != 2 or beam.cuts:
        raise OutOfRange("the longest span is that of a single beam without cuts on two supports")
    if beam.supports[0].at != 0.0 or beam.length not in (None, beam.supports[1].at):
        raise OutOfRange("the longest span is that of a beam that ends at its two supports")
    if any(
        load.at is not None or load.start is not None or load.end is not None or load.moves for load in beam.carries
    ):
        raise OutOfRange("the longest span is for loads that are spread over the whole length")
    return beam


def _worst_ratio(job: Job, span: float) -> float:
    """The largest ratio at this span; infinite when nothing could be worked out, or something fails without a ratio."""
    beam = job.beam[0]
    far = beam.supports[1].model_copy(update={"at": span})
    length = None if beam.length is None else span
    longer = beam.model_copy(update={"supports": (beam.supports[0], far), "length": length})
    checks = check_job(job.model_copy(update={"beam": (longer,)})).pieces[0].checks
    ratios = [check.ratio for check in checks if check.ratio is not None]
    stated = any(check.verdict == "fails" and judge(check.ratio) != "fails" for check in checks)
    if not ratios or stated or any(math.isnan(ratio) for ratio in ratios):
        return math.inf
    return max(ratios)


def _answer(result: JobResult, longest: float | None, whose: str, *, turns: bool) -> str:
    """The answer in one sentence; `longest` is None when a span was asked about, 0 when none holds."""
    piece = result.pieces[0]
    worst = piece.closest
    ratio = "" if worst is None else f": the largest ratio is {show(worst.ratio or 0.0, 'ratio')}, in {worst.what}"
    open_still = "That is not a yes: what else is said here is still open"
    if longest == 0.0:
        return f"By the figures {whose} holds at no span from {show(SHORTEST, 'length')} up{ratio}"
    if longest is not None:
        more = " (longer ones were not tried)" if longest > _longest() - 1.0 else ""
        span = f"{show(longest, 'length')}{more} from middle to middle of the seats"
        return f"By the figures {whose} holds up to {span}{ratio}. {open_still}"
    if turns and piece.verdict == "refer":
        return f"Perhaps: as told it is not enough{ratio}; it turns on what was not said"
    if piece.verdict == "fails":
        return f"No: it is not enough for this span{ratio}"
    if worst is None or judge(worst.ratio) != "passes":
        return f"The figures do not say that {whose} is enough{ratio}"
    return f"By the figures {whose} is enough{ratio}. {open_still}"


def _assumed(
    said: Mapping[str, str | None], of_beam: Mapping[str, str | None], lengths: Mapping[str, str], members: int
) -> Iterator[str]:
    """What the question left out, and what was taken for it."""
    yield "Asked without a job file: one beam on two supports, the load spread evenly over the whole span, no cut."
    if said["moisture"] is None:
        yield "Moisture was not said: taken as put in green, with the wet service factors and creep factor 2.0."
    if said["grade_from"] is None and not _unstamped(said):
        yield "Who vouches for the grade was not said: it is taken as assumed, and the answer is preliminary."
    if of_beam["top_held"] is None:
        yield "What holds the top edge sideways was not said: it is taken as held at the ends only."
    if "seat" not in lengths:
        yield "The length of the seats was not said: bearing is not judged."
    if members == 1:
        yield "It is counted alone; nothing is added for neighbors that share the load."
    yield "How the loads reach it was not said: the whole shear at the supports is counted."


def _unknown(said: Mapping[str, str | None]) -> bool:
    return _unstamped(said) or (said["species"] or "").strip().casefold() == "unknown"


def _unstamped(said: Mapping[str, str | None]) -> bool:
    return (said["grade"] or "").strip().casefold() == "unstamped"


def _job_text(
    said: Mapping[str, str | None],
    of_beam: Mapping[str, str | None],
    loads: Mapping[str, str],
    lengths: Mapping[str, str],
    members: int,
    span: str,
    units: str,
    meant: Mapping[str, str],
) -> str:
    """The question as a job file. `meant`: why odd figures are right; a span that was given may be a slip."""
    of_stock = dict(said)
    if of_stock["moisture"] is None:
        of_stock["moisture"] = "green"
    if of_stock["grade_from"] is None and not _unstamped(said):
        of_stock["grade_from"] = "assumed"
    assumed = {"the wood": ["moisture"] if said["moisture"] is None else [],
               NAME: ["top_held"] if of_beam["top_held"] is None else []}  # fmt: skip
    beam = {**of_beam, "top_held": of_beam["top_held"] or "ends only", "spacing": lengths.get("spacing")}
    width = lengths.get("width") or lengths.get("spacing")
    carried = [
        {
            "what": f"{name.replace('_', ' ')} load",
            name: amount,
            "width": width if read(amount, "load")[1] == "area" else None,
        }
        for name, amount in loads.items()
    ]
    of_wood, of_the_rest = parted(meant)
    shown = show(read(span, "length"), "length", units)
    seat = {"bearing": lengths.get("seat")}
    ends = [{"at": "0 in", "on": "left support", **seat}, {"at": span, "on": "right support", **seat}]
    lines = [
        "# A span question, written down as a job file by whatcarries.",
        "[job]",
        *_lines({"title": f"Span question: {said['size']} {said['species']} {said['grade']}, {shown}"}),
        *_lines({"standard": "NDS 2018", "loads": "ASCE 7-16", "units": units}),
        "",
        "[[stock]]",
        *_lines({"name": "the wood", **of_stock}),
        *_assuming(assumed["the wood"]),
        *_insists(of_wood),
        *(line for name in ("left support", "right support")
          for line in ("", "[[existing]]", *_lines({"name": name, "what": "whatever holds this end"}))),
        "",
        "[[beam]]",
        *_lines({"name": NAME, "stock": "the wood", **beam}),
        *([f"members = {members}"] if members != 1 else []),
        *_assuming(assumed[NAME]),
        *_insists(of_the_rest),
        "supports = [",
        *(f"  {{ {', '.join(_lines(end))} }}," for end in ends),
        "]",
        "carries = [",
        *(f"  {{ {', '.join(_lines(load))} }}," for load in carried),
        "]",
    ]  # fmt: skip
    return "\n".join(lines) + "\n"


def _lines(fields: Mapping[str, str | None]) -> list[str]:
    """Fields as TOML; what was not said is left out."""
    return [f"{name} = {_quoted(text)}" for name, text in fields.items() if text]


def _quoted(text: str) -> str:
    """A text as TOML; JSON leaves one control character as it is that TOML wants escaped."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _assuming(fields: list[str]) -> list[str]:
    return [f"assumed = {json.dumps(fields)}"] if fields else []


def _insists(meant: Mapping[str, str]) -> list[str]:
    keys = {field: field if field.isidentifier() and field.isascii() else _quoted(field) for field in meant}
    reasons = (f"{keys[field]} = {_quoted(why)}" for field, why in meant.items())
    return [f"meant = {{ {', '.join(reasons)} }}"] if meant else []


def _text(value: object, kind: str) -> str:
    """A quantity as text that can stand in a job file; read once here so that a slip is told at once."""
    found = read(value, kind)
    if isinstance(value, str):
        return value
    if isinstance(found, tuple):
        amount, sort = found
        return f"{amount!r} {KINDS[{'area': 'stress', 'line': 'line load', 'point': 'force'}[sort]].inner}"
    return f"{found!r} in"


def _written_length(length: float, units: str) -> str:
    """A length found here, in whole inches or centimeters, as text that reads back to it."""
    return f"{round(length / CENTIMETER) / 100:g} m" if units == "SI" else f"{length:g} in"
