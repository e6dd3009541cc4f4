"""Reads evidence: who says it, and when or in which document. Words that name neither are no evidence, however many.

The one place where such words are read: of a stock, of what others answer for, of limits that are overridden. A field
takes the words themselves, or a table that says the same apart: `{ by = "...", date = "...", document = "..." }`.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any, Literal

from ...records import dataclass
from ...values.judgment import judgment
from ...values.loads import told

Use = Literal["structure", "grade"]
_MAY_ANSWER: Mapping[Use, tuple[str, ...]] = {
    "structure": ("structure", "grade"),
    "grade": ("structure", "grade", "mill", "maker"),
}  # sorts of roles in tables/load_words.csv
_ASKED_OF: Mapping[Use, str] = {
    "structure": "an engineer, an architect, the building department, a grader or a surveyor",
    "grade": "a grader, an agency, a mill or an engineer",
}
LETTERS = 8  # of a reason: fewer are no reason; common practice, no source
PARTS = ("by", "date", "document", "says")  # of evidence that is written as a table

# Roles of the trade that can answer for something in writing.
_ROLE = (
    r"engineers?|architects?|graders?|grading|inspectors?|building (?:department|official)|department|surveyors?"
    r"|suppliers?|mills?|makers?|manufacturers?|masons?|contractors?|carpenters?|builders?|fabricators?|welders?"
    r"|framers?|treaters?|foresters?|laborator(?:y|ies)|agency|owners?"
)
# The longer patterns stay text and are compiled where one is used: most runs do without.
_MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?"
_WHEN = (
    rf"(?i)\b(?:\d{{4}}-\d{{1,2}}-\d{{1,2}}|\d{{1,2}}/\d{{1,2}}/\d{{2,4}}|\d{{1,2}}\.? {_MONTH}(?: \d{{4}})?"
    rf"|{_MONTH} \d{{1,2}}(?:,? \d{{4}})?\b|{_MONTH} \d{{4}})"
)
_PAPER = (
    r"(?:report|certificate|letter|sheet|drawing|detail|note|permit|table|document|order|job|invoice|license|plan)s?"
)
_NUMBER = r"(?:(?:no|nr)\.?\s*|number\s+|#\s*)"
_CODE = r"(?:[A-Z]{1,5}-?\d[\w./-]*|\d[\w/-]*)"
WHAT = (
    rf"(?i)\b{_PAPER}\b(?: of (?:the )?(?!{_MONTH})[a-z]\w*\b)?[\s:,]*(?:{_NUMBER})?(?-i:{_CODE})"
    rf"|\b{_PAPER}\b[^.;]{{0,40}}?\b{_NUMBER}\d[\w/-]*|\b(?-i:[A-Z]{{2,5}}-\d{{3,}})\b"
)
# A name: an initial and a surname, or capitalized words after what hands them on ('letter of Ann Example').
_NAME = r"\b[A-Z]\. ?[A-Z][a-z]+|\b(?:by|from|of|signed) (?:Mr\.? |Ms\.? |Dr\.? )?[A-Z][a-z]+ [A-Z][a-z]+"
_WHO = rf"(?i)\b(?:{_ROLE})\b|\bP\.?\s?E\.?(?=\W|$)"
NOBODY = r"(?i)\W*(?:me|myself|i|us|we|ourselves|you|him|her|them|they|someone|somebody|anyone|nobody)\W*"
# A person beside what they are or sign; words of firms, agencies and mills are none.
_CAPITAL = r"(?:[A-Z]\. ?){0,3}[A-Z][a-z'-]+(?: (?:[A-Z]\. ?){0,3}[A-Z][a-z'-]+){0,5}"
_INITIAL = r"\b[A-Z]\. ?(?:[A-Z]\. ?)?[A-Z][a-z]+"
_BESIDE = (
    rf"\b(?:by|from|of|signed|Mr\.?|Ms\.?|Dr\.?|(?i:grader|engineer|inspector|architect|surveyor))[:,]? ({_CAPITAL})"
    rf"|({_CAPITAL}),? (?i:certified |licensed |structural |lumber |timber ){{0,5}}"
    r"(?i:grader|engineer|inspector|architect|surveyor|P\.? ?E\.?)(?=\W|$)"
)
_FIRM = (
    rf"(?i)\b(?:agency|associat\w*|bureau|board|company|corp\w*|co|department|firm|grading|inc|inspection|llc|lumber|mills?"
    rf"|office|rules|sawmills?|services?|state|timber|yard|county|city|works|{_MONTH})\b"
)
# What is still to come, or only believed, is no evidence yet.
DOUBT = re.compile(
    r"\?|\b(?:to be|will|pending|awaiting|waiting for|assum(?:ed|es?|ing)|probably|presumably|perhaps|maybe|i think"
    r"|should|hopefully|guess(?:ed)?|to ?do|t\.?b\.?[acd]\.?|was asked|been asked|ask|refused|rejected|declined"
    r"|(?:not|never|n[o']t) (?:yet|seen|checked|looked|confirmed|signed|answered|been))\b",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Evidence:
    """What was read in words of evidence; '' for what is not in them."""

    text: str
    who: str
    when: str
    what: str  # the document, with its number
    doubt: str  # the word that takes it back ('probably', 'to be', '?')

    @property
    def vouched(self) -> bool:
        """Somebody says so, on a day or in a document that can be found."""
        return bool(self.who and (self.when or self.what)) and not self.doubt

    def answers_for(self, use: Use) -> bool:
        """Whether whoever says so may answer for that; a maker by a report. For what one sees anybody may."""
        roles = {one.says for one in told(self.text, "role")}
        return self.vouched and bool(roles.intersection(_MAY_ANSWER[use]) or (self.what and "maker" in roles))

    def missing_for(self, use: Use) -> str:
        """What is wanting for that use, in words; '' where nothing is."""
        if self.missing or self.answers_for(use):
            return self.missing
        return f"it is not said by {_ASKED_OF[use]}, who may answer for that"

    @property
    def documented(self) -> bool:
        """A dated or numbered document says so, whoever wrote it; enough for what a maker publishes."""
        return bool(self.what) and not self.doubt

    @property
    def missing(self) -> str:
        """What is wanting, in words; '' where nothing is."""
        if self.doubt:
            return no_answer(self.doubt)
        parts = [] if self.who else ["who says so (a name or a role)"]
        parts += [] if self.when or self.what else ["when, or in which document (its date or number)"]
        return f"it does not say {' and '.join(parts)}" if parts else ""


def person_in(text: str) -> str:
    """The person that such words name; '' where they name only an agency, a mill, a firm or a role."""
    if given := _apart(text):
        by = given.get("by", "")
        return by if re.search(_CAPITAL, by) and not re.search(_FIRM, by) and " " in by.strip() else ""
    if found := re.search(_INITIAL, text):
        return found.group()
    for found in re.finditer(_BESIDE, text):
        name = found.group(1) or found.group(2)
        if " " in name and not re.search(_FIRM, name):
            return name
    return ""


def days_in(text: str) -> list[datetime.date]:
    """Every day that such words may name, both ways where month and day can be exchanged; a month by a late day."""
    found = []
    for words in re.findall(_WHEN, text):
        alone = re.search(_MONTH, words, re.IGNORECASE) and not any(int(x) <= 31 for x in re.findall(r"\d+", words))
        found += [day.replace(day=28) if alone else day for day in _days(words)]
    return found


def read_evidence(text: str) -> Evidence:
    """Who, when and in which document, as far as the words tell, on the day on which they are read."""
    return _read(text, datetime.date.today())


@lru_cache(maxsize=4096)
def _read(text: str, today: datetime.date) -> Evidence:
    doubt = doubt_in(text) or _no_day_yet(text, today)
    if given := _apart(text):
        who = given.get("by", "")
        who = "" if re.fullmatch(NOBODY, who) or sum(map(str.isalpha, who)) < 2 else who
        when, what = re.search(_WHEN, given.get("date", "")), given.get("document", "")
        return Evidence(text, who, when.group() if when else "", what, doubt)
    read = (re.search(_WHO, text) or re.search(_NAME, text), re.search(_WHEN, text), re.search(WHAT, text))
    found_who, found_when, found_what = (found.group() if found else "" for found in read)
    return Evidence(text, found_who, found_when, found_what, doubt)


def doubt_in(text: str) -> str:
    """The word that takes evidence back, limits it or says the opposite; '' where none does."""
    if found := DOUBT.search(text):
        return found.group()
    return next((one.words for sort in ("denial", "limit") for one in told(text, sort)), "")


def of_another_piece(text: str) -> str:
    """What is wanting where evidence says that it is of another piece; '' where it does not."""
    found = next((one for one in told(text, "hearsay") if one.says == "another piece"), None)
    return f"it says {found.words!r}: that is another piece" if found else ""


def no_answer(doubt: str) -> str:
    if told(doubt, "limit"):
        return f"it says {doubt!r}, which limits it: does it hold here as well? Then let it say so without a limit"
    return f"it says {doubt!r}: that is no answer yet"


def _no_day_yet(text: str, today: datetime.date) -> str:
    """A day of it, where every day that is named is years ahead or longer ago than a letter holds.

    Years, so that a clock that is wrong, or another day on which the same job is read, changes no verdict.
    """
    days: dict[str, datetime.date] = {
        words: day for words in re.findall(_WHEN, text) if (day := next(_days(words), None)) is not None
    }
    back, ahead = judgment("years that evidence holds").value, judgment("years ahead that a day may lie").value
    if days and all(not -365.25 * ahead <= (today - day).days <= 365.25 * back for day in days.values()):
        return next(iter(days))
    return ""


def _days(words: str) -> Iterator[datetime.date]:
    """The day that such words name, a whole month by its first day; none where no year is said."""
    figures = [int(one) for one in re.findall(r"\d+", words)]
    month = re.search(_MONTH, words, re.IGNORECASE)
    if month:
        number = 1 + ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec").index(
            month.group()[:3].casefold()
        )
        year = next((one for one in figures if one > 31), None)
        day = next((one for one in figures if one <= 31), 1)
        parts = [(year, number, day)] if year is not None else []
    elif len(figures) == 3 and figures[0] > 31:
        parts = [(figures[0], figures[1], figures[2])]
    elif len(figures) == 3:
        year = figures[2] + (2000 if figures[2] < 100 else 0)
        parts = [(year, figures[0], figures[1]), (year, figures[1], figures[0])]  # the month first, as is usual here
    else:
        parts = []
    for part in parts:
        try:
            yield datetime.date(*part)
        except ValueError:
            continue


def _apart(text: str) -> dict[str, str]:
    """The parts of evidence that was written as a table, see `as_words`."""
    parts = [part.partition(": ") for part in text.split("; ")]
    return {key: value for key, _, value in parts} if all(key in PARTS and value for key, _, value in parts) else {}


def as_words(value: Any) -> Any:
    """A table of evidence as words that read back the same; all else as it is."""
    if not isinstance(value, Mapping):
        return value
    wrong = [str(key) for key in value if key not in PARTS or not isinstance(value[key], str)]
    if wrong or not value:
        raise ValueError(
            f"evidence is text, or a table of text under {', '.join(PARTS)}"
            + (f"; not understood: {', '.join(wrong)}" if wrong else "")
        )
    return "; ".join(f"{key}: {' '.join(value[key].replace(';', ',').split())}" for key in PARTS if value.get(key))


def vouched(text: str, use: Use | None = None) -> bool:
    """Whether somebody answers for it, on a day or in a document that can be found: who may, where a use is named."""
    if not text.strip():
        return False
    read = read_evidence(text)
    return read.vouched if use is None else read.answers_for(use)
