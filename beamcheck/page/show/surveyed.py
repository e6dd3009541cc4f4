"""What the survey of a timber says as it stands, by whom it is for."""

from __future__ import annotations

from ...checks.survey.findings import Finding, findings
from ...errors import BeamcheckError
from ..desk import Checked


def found_in(checked: Checked, name: str) -> dict[str, list[Finding]]:
    """What the survey of a stick says now, by whom it is for; empty without one."""
    stock = None if checked.job is None else next((one for one in checked.job.stock if one.name == name), None)
    if stock is None or stock.survey is None:
        return {}
    try:
        every = findings(stock)
    except BeamcheckError:
        return {}
    return {whom: [one for one in every if one.for_whom == whom] for whom in ("engineer", "grader", "nothing")}
