"""Wood that is not known: which of its candidates would do, which not, and the one fact that settles it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ....values.lumber import DesignValues

Tried = tuple[DesignValues, bool]  # a candidate, and whether it stays within the limits
MOST_NAMES = 6


def settling_fact(tried: Sequence[Tried]) -> str:
    """One sentence: what to find out. '' where every candidate fails, since nothing would settle it then."""
    if not any(holds for _, holds in tried):
        return ""
    if all(holds for _, holds in tried):
        return (
            "Every candidate stays within the limits: a certificate of any of these grades settles it, whatever the "
            "species."
        )
    by_species, by_grade = _grouped(tried, "species"), _grouped(tried, "grade")
    if all(len(set(found)) == 1 for found in by_species.values()):
        good = [name for name, found in by_species.items() if found[0]]
        bad = [name for name, found in by_species.items() if not found[0]]
        return (
            f"The species settles it: {_names(good)} would hold in every grade here, {_names(bad)} in none. Send a "
            "sample to a laboratory; the grade still has to be certified."
        )
    sure = [grade for grade, found in by_grade.items() if all(found)]
    some = [f"{values.species} {values.grade}" for values, holds in tried if holds and values.grade not in sure]
    lost = [name for name, found in by_species.items() if not any(found)]
    if sure:
        more = f" So would {_names(some)}." if some else ""
        grades = _names(sure, "or")
        return f"The grade settles it: a certificate of {grades} would do for every candidate species.{more}"
    named = f"; {_names(lost)} would not hold in any grade" if lost else ""
    return (
        f"Species and grade together settle it: {_names(some)} would hold{named}. Send a sample, then have it graded."
    )


def settling_sentence(why: str) -> str:
    """The sentence of a reason that says what settles it; '' where none does."""
    found = next((one for one in why.split(". ") if " settle it:" in one or " settles it:" in one), "")
    return f"{found.rstrip('.')}." if found else ""


def failing_names(tried: Sequence[Tried]) -> str:
    """The candidates that would not do."""
    return _names([f"{values.species} {values.grade}" for values, holds in tried if not holds])


def _grouped(tried: Sequence[Tried], by: str) -> Mapping[str, list[bool]]:
    found: dict[str, list[bool]] = {}
    for values, holds in tried:
        found.setdefault(getattr(values, by), []).append(holds)
    return found


def _names(names: Sequence[str], last: str = "and") -> str:
    distinct = list(dict.fromkeys(names))
    shown = distinct[:MOST_NAMES]
    more = f" and {len(distinct) - MOST_NAMES} more" if len(distinct) > MOST_NAMES else ""
    return (", ".join(shown[:-1]) + f" {last} " + shown[-1] if len(shown) > 1 and not more else ", ".join(shown)) + more
