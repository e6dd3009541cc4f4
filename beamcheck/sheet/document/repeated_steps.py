"""Which steps of a check stand on the sheet already: each is printed whole once in a piece."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ...calc.pad import Step
from ...provenance import Source
from .blocks import Entry, Known, Line, Lines, Taken, Worked
from .mathematics import result_text

_SAME = 10  # significant digits to which two values are one; more than any that is printed
_WEAK = ("memory", "practice")

Key = tuple[object, ...]


class Ledger:
    """The steps printed so far for one piece.

    `numbers`: mapping of Source to int: the number of each source on the sheet.
    """

    def __init__(self, numbers: Mapping[Source, int]) -> None:
        self._numbers = numbers
        self._home: dict[Key, tuple[str, str]] = {}
        self._printed: set[Key] = set()

    def enter(self, steps: Iterable[Step], label: str, anchor: str, *, brief: bool = False) -> Lines:
        """The lines of a check called `label`: steps that stand in an earlier one are only named there.

        A `brief` check says first all that was taken, without what it means, then what was worked out.
        """
        here = (label, anchor)
        known: dict[tuple[str, str], dict[tuple[str, str], Entry]] = {}
        lines: list[Line] = []
        for step in steps:
            entry, key = self.entry(step), _key(step)
            home = self._home.setdefault(key, here)
            if home != here:
                known.setdefault(home, {}).setdefault((step.symbol, result_text(step)), entry)
            elif key not in self._printed:  # else it stands a few lines above
                self._printed.add(key)
                _append(lines, entry)
        before = tuple(Known(*home, tuple(said.values())) for home, said in known.items())
        if brief:
            taken = tuple(entry for line in lines if isinstance(line, Taken) for entry in line.entries)
            worked = [line for line in lines if isinstance(line, Worked)]
            return Lines(before, (*([Taken(taken)] if taken else []), *worked), brief=True)
        return Lines(before, tuple(lines))

    def entry(self, step: Step) -> Entry:
        """The step with the number of its source and a warning where the source is weak."""
        if step.source is None:
            return Entry(step)
        return Entry(step, self._numbers[step.source], warning(step.source))


def warning(source: Source) -> str:
    """'memory', 'practice', 'low confidence' or several of them; '' for a source that needs no warning."""
    low = "low confidence" if source.confidence == "low" else ""
    return ", ".join(part for part in (source.how if source.how in _WEAK else "", low) if part)


def _append(lines: list[Line], entry: Entry) -> None:
    """Add a line; a taken value without a reason joins the one before if that has none either."""
    last = lines[-1] if lines else None
    if entry.step.formula is not None:
        lines.append(Worked(entry))
    elif isinstance(last, Taken) and not any(each.step.note or each.step.clause for each in (*last.entries, entry)):
        lines[-1] = Taken((*last.entries, entry))
    else:
        lines.append(Taken((entry,)))


def _key(step: Step) -> Key:
    """What makes two steps the same for a reader."""
    inputs = tuple((name, f"{value:.{_SAME}g}") for name, value in step.inputs.items())
    name = step.formula.name if step.formula else ""
    return step.symbol, f"{step.value:.{_SAME}g}", step.unit, step.clause, name, inputs, step.note, step.source
