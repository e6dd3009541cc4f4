"""Reference design values of sawn lumber: which row stands for a piece; what is assumed of ungraded wood at first."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Literal

from ..errors import OutOfRange, UnknownName
from ..provenance import Source
from ..records import dataclass
from .found import Found
from .grades import GradeKey, answers_to, grade_key
from .loader import rows, source_of, weakest
from .sizes import Size, SizeClass, Surface, read_size
from .species import DESIGN_TABLES, design_table, species_name, species_names, specific_gravity

__all__ = [
    "PROPERTIES", "DesignValues", "Size", "SizeClass", "Surface", "design_values", "grades_for", "highest_values",
    "lowest", "read_size", "screening_rows", "species_name", "species_names", "specific_gravity",
]  # fmt: skip

PROPERTIES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")
CLASS_WORDS: Mapping[SizeClass, str] = MappingProxyType(
    {
        "dimension": "dimension lumber",
        "beams_and_stringers": "beams and stringers",
        "posts_and_timbers": "posts and timbers",
    }
)
STUD, NO_3 = grade_key("Stud"), grade_key("No.3")
STUD_WIDTH = 6.0  # nominal in; wider Stud takes the No.3 values (Table 4A, adjustment factors)


@dataclass(frozen=True)
class DesignValues:
    """Reference design values of one species, grade and size class, psi; no adjustment but what the table itself holds.

    `G` is the specific gravity (oven-dry weight and volume). `table` is '4A', '4B', '4D', '5A', 'report' (a maker's) or
    'given' (a letter). `lowered` says in words where the lowest of several rows was taken, or the row is not quite that
    of the stamp.
    """

    F_b: float
    F_t: float
    F_v: float
    F_c_perp: float
    F_c: float
    E: float
    E_min: float
    G: float | None
    species: str
    grade: str
    table: Literal["4A", "4B", "4D", "5A", "report", "given"]
    size_class: SizeClass
    source: Source
    lowered: tuple[str, ...] = ()


@dataclass(frozen=True)
class _Entry:
    """A row of a table, parsed."""

    values: DesignValues
    answers: frozenset[GradeKey]
    agencies: frozenset[str]
    width_to: float | None
    classes: tuple[SizeClass, ...]


def design_values(species: str, grade: str, size: Size, agency: str = "") -> DesignValues:
    """The row for a species and grade at a size.

    `species`, `grade`: as tabulated, or a usual spelling ('DF-L', '#2'). `size`: decides between the tables and their
    width bands and size classes. `agency`: what the stamp says; where agencies have rows of their own and it names none
    of them, the lowest of each counts. Returns psi. Raises UnknownName if the species is unknown, or has no such grade
    at this size; OutOfRange if these tables hold no values for the species, or none for it at this size.
    """
    return _design_values(species_name(species), grade, size, agency)


@lru_cache(maxsize=1024)
def agencies_apart(species: str, grade: str, size: Size) -> tuple[str, ...]:
    """The agencies whose values for this wood differ, the highest first; none where the agency decides nothing."""
    name, wanted = species_name(species), grade_key(grade)
    named = {one for entry in _entries_for(name, size) if wanted in entry.answers for one in entry.agencies}
    values = {one: design_values(name, grade, size, one) for one in sorted(named)}
    figures = {one: tuple(getattr(found, each) for each in PROPERTIES) for one, found in values.items()}
    return tuple(sorted(figures, key=lambda one: figures[one], reverse=True)) if len(set(figures.values())) > 1 else ()


def grades_for(species: str, size: Size) -> tuple[str, ...]:
    """The grades tabulated for a species at a size, in the order of the table."""
    entries = _entries_for(species_name(species), size)
    return tuple(dict.fromkeys(entry.values.grade for entry in entries))


def screening_rows(candidates: Sequence[str], size: Size, grade: str = "") -> list[DesignValues]:
    """The rows that an ungraded piece might be: each candidate species (every one when none is named), each grade.

    With `grade` only the rows of that grade. Agency rows count with their lowest values.

    Raises UnknownName, OutOfRange if a candidate is unknown or has no values at this size: it is never left out in
    silence. If no candidate has the grade.
    """
    if candidates:
        names = list(dict.fromkeys(species_name(candidate) for candidate in candidates))
    else:
        names = [name for name in species_names() if _entries_at(name, size)]
    found = []
    for name in names:
        for tabulated in grades_for(name, size):
            if not grade or grade_key(grade) in _answers(name, tabulated, size):
                found.append(_design_values(name, tabulated, size, ""))
    if not found and not names:
        raise OutOfRange(f"no species has values at {size.text}", "NDS Supplement 2018 Tables 4A, 4B, 4D")
    if not found:
        every = list(dict.fromkeys(tabulated for name in names for tabulated in grades_for(name, size)))
        raise UnknownName(f"grade of {size.text} ({CLASS_WORDS[size.size_class]})", grade, [*every, "unstamped"])
    return found


def lowest(several: Sequence[DesignValues], why: str) -> DesignValues:
    """The lowest of each property over several rows, with a note that says so.

    G is the lowest too, which is right for fasteners; for weight take the heaviest of `several`.
    """
    first = several[0]
    G = [values.G for values in several]
    lows = {name: min(getattr(values, name) for values in several) for name in PROPERTIES}
    notes = dict.fromkeys(note for values in several for note in values.lowered)
    return replace(
        first,
        **lows,
        G=None if None in G else min(value for value in G if value is not None),
        source=weakest(values.source for values in several),
        lowered=(*notes, why),
    )


@cache
def highest_values() -> Mapping[str, float]:
    """The highest value of each property over all tables, psi."""
    every = [entry.values for species in _tabulated() for entry in _entries_of(species)]
    return MappingProxyType({name: max(getattr(values, name) for values in every) for name in PROPERTIES})


@lru_cache(maxsize=4096)
def _design_values(species: str, grade: str, size: Size, agency: str) -> DesignValues:
    entries = _entries_for(species, size)
    wanted, notes = grade_key(grade), []
    if wanted == STUD and entries[0].values.table == "4A" and size.table_width > STUD_WIDTH:
        wanted = NO_3
        notes.append("Stud 8 in and wider takes the No.3 values and the No.3 size factor (Table 4A)")
    matching = [entry for entry in entries if wanted in entry.answers]
    if not matching:
        what = f"grade of {species} {size.text} ({CLASS_WORDS[size.size_class]})"
        raise UnknownName(what, grade, list(grades_for(species, size)))
    matching, said = _by_agency(matching, agency)
    notes += said
    chosen = [entry.values for entry in matching]
    found = chosen[0] if len(chosen) == 1 else lowest(chosen, _why_lowest(matching))
    if size.may_be_posts_and_timbers:
        post = _design_values(species, grade, replace(size, size_class="posts_and_timbers"), agency)
        found = lowest([found, post], "measured at the limit of two size classes: lowest of each property of both")
    return replace(
        found,
        grade="Stud" if wanted == NO_3 and grade_key(grade) == STUD else found.grade,
        size_class=size.size_class,
        lowered=tuple(dict.fromkeys((*notes, *found.lowered))),
    )


def _by_agency(matching: list[_Entry], stamp: str) -> tuple[list[_Entry], list[str]]:
    """The rows of the agencies that the stamp names; all of them when it names none."""
    words = set(re.findall(r"[A-Z]+", stamp.upper().replace(".", "")))
    named = [entry for entry in matching if entry.agencies & words]
    if named:
        return named, []
    other = sorted(words & _agencies())
    if not other:
        return matching, []
    rows_of = ", ".join(sorted(frozenset().union(*(entry.agencies for entry in matching))))
    return matching, [f"the stamp names {' and '.join(other)}, the table has this grade from {rows_of} only"]


def _why_lowest(matching: Sequence[_Entry]) -> str:
    grades = list(dict.fromkeys(entry.values.grade for entry in matching))
    if len(grades) > 1:
        return f"the grain is not said: lowest of each property of the rows {' / '.join(map(repr, grades))}"
    agencies = " / ".join("+".join(sorted(entry.agencies)) for entry in matching)
    return f"agencies have rows of their own ({agencies}) and the stamp does not decide: lowest of each property"


def _entries_for(species: str, size: Size) -> list[_Entry]:
    """The rows of a species that fit a size; none is an error that says what there is."""
    found = _entries_at(species, size)
    if found:
        return found
    every = _entries_of(species)
    words = CLASS_WORDS[size.size_class]
    kinds = dict.fromkeys(CLASS_WORDS[size_class] for entry in every for size_class in entry.classes)
    note = next((entry.values.source.note for entry in every if "sold as" in entry.values.source.note), "")
    raise OutOfRange(
        f"no values for {species} {size.text}: as {words} there is none, only {', '.join(kinds)}"
        + (f". {note}" if note else ""),
        "NDS Supplement 2018 Tables 4A, 4B, 4D",
    )


def _entries_at(species: str, size: Size) -> list[_Entry]:
    return [entry for entry in _entries_of(species) if _fits(entry, size)]


def _fits(entry: _Entry, size: Size) -> bool:
    if size.size_class not in entry.classes:
        return False
    if entry.values.table == "4B":  # one band of widths; over 12 in the 12 in values count, times C_F
        bands = _southern_bands()
        return entry.width_to == next((width for width in bands if width >= size.table_width), bands[-1])
    return entry.width_to is None or size.table_width <= entry.width_to


def _answers(species: str, tabulated: str, size: Size) -> frozenset[GradeKey]:
    return frozenset().union(*(e.answers for e in _entries_at(species, size) if e.values.grade == tabulated))


@cache
def _southern_bands() -> tuple[float, ...]:
    return tuple(sorted({float(row["width_to"]) for row in rows(design_table("4B"))}))


@cache
def _agencies() -> frozenset[str]:
    written = {row["agency"] for table in DESIGN_TABLES for row in rows(design_table(table))}
    return frozenset(agency for words in written for agency in _agencies_in(words))


@cache
def _entries_of(species: str) -> tuple[_Entry, ...]:
    """The rows of a species in all tables. Most jobs ask for one species."""
    found: list[_Entry] = []
    for table in DESIGN_TABLES:
        raw = [row for row in rows(design_table(table)) if row["species"] == species]
        by_grain = any("open grain" in row["grade"] for row in raw)
        found += (_entry(table, row, by_grain) for row in raw)
    return tuple(found)


@cache
def _tabulated() -> tuple[str, ...]:
    """Every species of the tables."""
    return tuple(dict.fromkeys(row["species"] for table in DESIGN_TABLES for row in rows(design_table(table))))


def _agencies_in(words: str) -> frozenset[str]:
    return frozenset(re.findall(r"[A-Z]+", words))


def _entry(table: Literal["4A", "4B", "4D"], row: Mapping[str, str], by_grain: bool) -> _Entry:
    classes: tuple[SizeClass, ...] = ("dimension",)
    if table == "4D":
        both: tuple[SizeClass, ...] = ("beams_and_stringers", "posts_and_timbers")
        classes = tuple(name for name in both if row["size_class"] in (name, "timbers"))
    F_b, F_t, F_v, F_c_perp, F_c, E, E_min = (float(row[name]) for name in PROPERTIES)
    G, _ = specific_gravity(row["species"])
    values = DesignValues(
        F_b, F_t, F_v, F_c_perp, F_c, E, E_min, G, row["species"], row["grade"], table, classes[0], source_of(row)
    )  # fmt: skip
    width_to = row.get("width_to")
    agencies = _agencies_in(row["agency"])
    return _Entry(values, answers_to(row["grade"], by_grain), agencies, float(width_to) if width_to else None, classes)


def fallback(item: str) -> Found[str]:
    """The assumption for one item ('grade', 'specific gravity', 'moisture' ...) of ungraded wood; blank: only in words.

    Raises UnknownName for another item.
    """
    table = rows("screening_fallback")
    for row in table:
        if row["item"] == item:
            return Found(row["value"], source_of(row), row["assume"])
    raise UnknownName("assumption about", item, [row["item"] for row in table])
