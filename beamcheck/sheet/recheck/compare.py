"""Two files compared: sheets, job files or JSON results, in any pairing; 'what changed since the engineer signed'."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from ...checks.job import check_job
from ...model.reading.reader import read_job_text
from ...version import VERSION
from ..record.as_json import result_json
from ..record.enclosed import Carried, Result, read_back, read_record
from .difference import Comparison, Difference, Tell
from .job_changes import job_changes
from .printed import signs_of_change
from .result_changes import result_changes, text_changes


def compare_files(first: str | Path, second: str | Path, *, tell: Tell = lambda _: None) -> Comparison:
    """Compare two files; each is a job file, an HTML or PDF sheet, or a JSON result.

    Parameters
    ----------
    first, second : str or path
        The earlier and the later.
    tell : callable
        Is told what is being done, in a few words; for long work.

    Returns
    -------
    Comparison
        A job file is given the results that this version works out for it.

    Raises
    ------
    BeamcheckError
        If a file cannot be read, or carries neither job nor result.
    """
    notes: list[str] = []
    tampered: list[Difference] = []
    both: list[Carried] = []
    for path in (first, second):
        tell(f"reading {path}")
        carried = read_back(path)
        if carried.result is None:
            tell(f"working out {path}")
            carried = worked_out(carried)
            notes.append(f"The results of {carried.name} are those of this version, whatcarries {VERSION}.")
        else:
            found = signs_of_change(carried, tell=tell)
            tampered += [replace(one, where=f"{carried.name}: {one.where}") for one in found.differences]
            notes += [f"{carried.name}: {note}" for note in found.notes]
        both.append(carried)
    return compare(both[0], both[1], tampered, notes)


def compare(
    first: Carried, second: Carried, tampered: Sequence[Difference] = (), notes: Sequence[str] = ()
) -> Comparison:
    """Compare jobs and results of two files that have been read, and put them together with what is known already."""
    assert first.result and second.result and first.record is not None and second.record is not None
    changes = job_changes(first.job_text, second.job_text, first.name, second.name)
    same_job = not changes.differences
    results = result_changes(first.result, second.result, changes.renamed)
    results += text_changes(first.record, second.record, changes.renamed, everything=same_job)
    versions = [carried.result.generator for carried in (first, second) if carried.result is not None]
    told = [*notes, *changes.notes]
    told.append(f"Verdict of the first: {first.result.verdict}; of the second: {second.result.verdict}.")
    if versions[0] != versions[1]:
        told.append(f"The results are of two versions: {versions[0]} and {versions[1]}.")
    return Comparison(
        _called(first), _called(second), tuple(tampered), changes.differences, tuple(results), tuple(told)
    )


def worked_out(carried: Carried, *, units: str | None = None, name: str = "") -> Carried:
    """The same job with the results of this version. Raises JobError if this version does not read the job."""
    text = carried.job_text
    job = check_job(read_job_text(text, carried.name), text=text, name=name or Path(carried.name).name, units=units)
    record = read_record(result_json(job))
    return replace(carried, result=Result.model_validate(record), record=record)


def _called(carried: Carried) -> str:
    return f"{carried.name} ({carried.kind})"
