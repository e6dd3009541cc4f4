"""How far, how big, how much: the longest span, the smallest size, the largest load, each checked as it is answered.

All three look along a scale of whole steps (inches, listed sizes, pounds per square foot) for the last step that every
check allows. So an answer is rounded to the safe side, and it is the rounded one that was checked.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from ..checks.core.result import CAUTION, SIGN_OFF
from ..errors import BeamcheckError, OutOfRange, UnknownName
from ..provenance import Source
from ..records import dataclass
from ..units import down_to_inch, read, show
from ..values.sizes import listed_sizes, read_size
from .batch import CHECKS, Ratios, check_simple
from .batch_rows import Array
from .simple_beam import FIELD_OF_KIND, PSF, Member, Ready, batch, conditions, ready, sources

SHORTEST = 12.0  # in; shorter spans are not tried
LONGEST = "40 ft"
MOST_PSF = 2000  # larger loads are not tried


@dataclass(frozen=True)
class Answer:
    """The answer to one sizing question. It is arithmetic and no verdict: verdicts are for jobs.

    `question`: 'longest span', 'smallest size' or 'largest load'. `member`: what was asked about; with the size or load
    that was found. `span`: [in] None: no span from a foot up is allowed. `found`: whether anything is allowed; if not,
    the ratios are those of the least that was tried. `capped`: whether the search ended at its limit: more may be
    allowed. `ratio`, `governs`, `combination`: the governing ratio, check and combination at the answer. NaN: outside
    the limits of a rule. `ratios`: dict of str to float: the governing ratio of each check. `conditions`, `doubts`,
    `notes`: what must be so and was not checked; what is doubtful about wood or finish; what was assumed or left out.
    `sources`: tuple of Source: what the answer rests on; `recalled` are those that are to be confirmed against the
    printed document. `design_values`: that of the design values among them.
    """

    question: str
    member: Member
    span: float | None
    found: bool
    capped: bool
    ratio: float
    governs: str
    combination: str
    ratios: dict[str, float]
    conditions: tuple[str, ...]
    doubts: tuple[str, ...]
    notes: tuple[str, ...]
    sources: tuple[Source, ...]
    design_values: Source
    load: tuple[str, float] | None = None  # of 'largest load': its kind and amount, lbf/in2
    caution: str = CAUTION
    sign_off: str = SIGN_OFF

    @property
    def recalled(self) -> tuple[Source, ...]:
        """The sources that are known from memory only."""
        return tuple(source for source in self.sources if source.how == "memory")

    @property
    def words(self) -> str:
        """The answer in a sentence."""
        stock, over = self.member.stock, f" over {show(self.span, 'length')}" if self.span is not None else ""
        what = f"{stock.species} {stock.grade} at {show(self.member.spacing, 'length')}"
        if self.question == "smallest size":
            asked, value = f"{what}, smallest size{over}", stock.size
        elif self.load is not None:
            asked = f"{stock.size} {what}, largest {self.load[0].replace('_', ' ')} load{over}"
            value = show(self.load[1], "area load")
        else:
            asked, value = f"{stock.size} {what}, longest span", over.removeprefix(" over ")
        more = "; more may do, the search ended there" if self.capped else ""
        return f"{asked}: {value if self.found else 'none'} ({self._why}{more})"

    @property
    def _why(self) -> str:
        shown = "outside the limits of a rule" if np.isnan(self.ratio) else f"at {show(self.ratio, 'ratio')}"
        return f"{self.governs} {shown}" + (f", {self.combination}" if self.combination else "")

    def __repr__(self) -> str:
        recalled = f"{len(self.recalled)} of {len(self.sources)} sources are from memory, to be confirmed."
        lines = [self.words, *self.conditions, *(f"In doubt: {doubt}" for doubt in self.doubts), *self.notes, recalled]
        return "\n".join([*lines, self.caution, self.sign_off])


def longest_span(member: Member, *, at_most: object = LONGEST) -> Answer:
    """The longest span of one member, in whole inches. Parameters and errors as for `longest_spans`."""
    return longest_spans([member], at_most=at_most)[0]


def longest_spans(members: Sequence[Member], *, at_most: object = LONGEST) -> list[Answer]:
    """The longest span of each member, rounded down to the inch.

    `members`: sequence of Member. `at_most`: str or pint quantity: where the search ends. Raises UnknownName,
    OutOfRange if the tables have no such wood at this size, or the search would end before it begins; UnitError if
    `at_most` is no length.
    """
    rows = [ready(member) for member in members]
    last = down_to_inch(read(at_most, "length"))
    if last < SHORTEST:
        raise OutOfRange(f"at_most is {show(last, 'length')}: spans from {show(SHORTEST, 'length')} up are tried")

    def fits(inches: Array) -> Array:
        return check_simple(batch(rows, inches)).fits

    inches = _last_that_fits(fits, len(rows), SHORTEST, last)
    tried = np.maximum(inches, SHORTEST)
    ratios = check_simple(batch(rows, tried))
    return [
        _answer(
            "longest span", row, ratios, i, float(tried[i]), found=bool(inches[i] >= SHORTEST), capped=inches[i] >= last
        )
        for i, row in enumerate(rows)
    ]


def smallest_size(member: Member, span: object, among: Sequence[str] = ()) -> Answer:
    """The smallest size, by area and then by depth, that is enough for a span.

    Parameters
    ----------
    member : Member
        Its size says which are tried: the usual ones of the same class and surface.
    span : str or pint quantity
        From middle to middle of the seats.
    among : sequence of str
        Sizes to be tried in place of those.

    Raises
    ------
    UnknownName, OutOfRange
        If the tables have such wood at none of the sizes, or the span is not above zero.
    UnitError
        If the span is no length, or a size is none.
    """
    length = _positive_length(span)
    rows: list[Ready] = []
    left_out: dict[str, BeamcheckError] = {}
    for size in among or listed_sizes(read_size(member.stock.size)):
        try:
            rows.append(ready(member.with_size(size)))
        except (UnknownName, OutOfRange) as error:
            left_out[size] = error
    if not rows:
        raise next(iter(left_out.values()))
    rows.sort(key=lambda row: (row.section.b * row.section.d, row.section.d))
    ratios = check_simple(batch(rows, np.full(len(rows), length)))
    enough = np.flatnonzero(ratios.fits)
    at = int(enough[0]) if enough.size else len(rows) - 1
    return _answer(
        "smallest size", rows[at], ratios, at, length, found=bool(enough.size), capped=False,
        notes=tuple(f"{size} left out: {why}" for size, why in left_out.items()),
    )  # fmt: skip


def largest_load(member: Member, span: object, kind: str = "live") -> Answer:
    """The largest load of one kind that a member carries over a span beside its other loads, in whole psf.

    Parameters
    ----------
    member : Member
        Its own amount of this kind does not count.
    span : str or pint quantity
        From middle to middle of the seats.
    kind : 'dead', 'live', 'roof_live' or 'snow'

    Raises
    ------
    UnknownName
        For another kind, or if the tables have no such wood.
    OutOfRange
        If the tables have no such wood at this size, or the span is not above zero.
    UnitError
        If the span is no length.
    """
    length = _positive_length(span)
    symbol = next((symbol for symbol, name in FIELD_OF_KIND.items() if name == kind), None)
    if symbol is None:
        raise UnknownName("kind of load", kind, tuple(FIELD_OF_KIND.values()))
    row = ready(member)

    def with_psf(psf: float) -> Ready:
        return replace(row, member=member.with_load(symbol, psf * PSF))

    def ratios(psf: Array) -> Ratios:
        return check_simple(batch([with_psf(one) for one in psf.tolist()], np.full(psf.size, length)))

    psf = _last_that_fits(lambda psf: ratios(psf).fits, 1, 0.0, float(MOST_PSF))
    tried = np.maximum(psf, 0.0)
    most = float(tried[0])
    return _answer(
        "largest load", ready(with_psf(most).member), ratios(tried), 0, length, found=bool(psf[0] >= 0.0),
        capped=most >= MOST_PSF, load=(kind, most * PSF),
    )  # fmt: skip


def _positive_length(span: object) -> float:
    length = read(span, "length")
    if length <= 0.0:
        raise OutOfRange("the span must be above zero")
    return length


def _last_that_fits(fits: Callable[[Array], Array], n: int, first: float, last: float) -> Array:
    """For each of n rows the largest whole step from `first` to `last` that fits; first - 1 where none does.

    `fits` takes one step for each row, (n,). What fits at a step is taken to fit at all smaller ones.
    """
    low, high = np.full(n, first - 1.0), np.full(n, last + 1.0)  # fits at low (or is first - 1), not at high
    while np.any(high - low > 1.0):
        middle = np.clip(np.floor((low + high) / 2.0), first, last)
        good = fits(middle)
        low, high = np.where(good, np.maximum(low, middle), low), np.where(good, high, np.minimum(high, middle))
    return low


def _answer(
    question: str, row: Ready, ratios: Ratios, at: int, span: float, *, found: bool, capped: bool,
    notes: tuple[str, ...] = (), load: tuple[str, float] | None = None,
) -> Answer:  # fmt: skip
    governs, combination = ratios.words(at)
    return Answer(
        question, row.member, span if found or question != "longest span" else None, found, bool(capped and found),
        float(ratios.ratio[at]), governs, combination,
        {check: float(ratios.worst[k, at]) for k, check in enumerate(CHECKS)},
        conditions(row), row.doubts, (*row.wood.notes, *notes), sources(row), row.values.source, load,
    )  # fmt: skip
