"""A sheet checked again: read back, looked through for changes, worked out once more with this version."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from ...errors import JobError
from ...version import VERSION
from ..record.enclosed import read_back
from ..record.pdf_read import ReadError
from .compare import compare, worked_out
from .difference import Comparison, Difference, Tell
from .printed import signs_of_change


def recheck(sheet: str | Path, job: str | Path | None = None, *, tell: Tell = lambda _: None) -> Comparison:
    """Read a sheet back, work it out with this version and report every difference.

    Parameters
    ----------
    sheet : str or path
        An HTML or PDF sheet, or a JSON result.
    job : str or path, optional
        The job file as it is now; otherwise the job that the sheet carries.
    tell : callable
        Is told what is being done, in a few words; for long work.

    Returns
    -------
    Comparison
        `state` is 'same', 'changed results', 'changed inputs' or 'tampered', `str()` the report.

    Raises
    ------
    BeamcheckError
        If a file cannot be read, the sheet carries no result, or the job file given is not right.
    """
    tell(f"reading {sheet}")
    carried = read_back(sheet)
    if carried.result is None:
        raise ReadError(
            f"{carried.name} is no sheet and carries no result; a job file is worked out by `whatcarries check`"
        )
    signs = signs_of_change(carried, tell=tell)
    units = carried.result.units_of_texts
    if job is None:
        current = replace(carried, name=f"the same job, worked out by whatcarries {VERSION}", kind="job file")
        name = carried.result.job_file.name
    else:
        current = read_back(job)
        if current.kind != "job file":
            raise ReadError(f"{current.name} is no job file: `whatcarries compare` compares two sheets")
        name = Path(current.name).name
    tell(f"working out {name}")
    try:
        now = worked_out(current, units=units, name=name)
    except JobError as error:
        if job is not None:
            raise
        told = [Difference(f"this version does not read the job any more: {problem}") for problem in error.problems]
        return Comparison(carried.name, current.name, signs.differences, (), tuple(told), signs.notes)
    found = compare(carried, now, signs.differences, signs.notes)
    return found if job is not None else replace(found, second=current.name)
