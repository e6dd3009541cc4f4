"""A job by a newer print of a standard: the older one is run, what is known to differ is said, and somebody answers."""

from __future__ import annotations

from collections.abc import Iterator

from ...model.job import About
from ...values.editions import differences, run_as
from ..core.asking.question import PlausibleAnswer, ask
from ..core.result import Check

ID = "loads.edition"


def edition_checks(about: About) -> Iterator[Check]:
    """Nothing for the prints that are run here."""
    for field, edition in (("standard", about.standard), ("loads", about.loads)):
        older = run_as(edition)
        if older == edition:
            continue
        notes = [f"{one.subject}: {one.state}; {one.what}" for one in differences(edition)]
        text = f"the rules and values that are run here are those of {older}, and the job follows {edition}"
        path = f"job.{field}"
        answers = [PlausibleAnswer(f"{older} may be followed, in writing", ((path, older),))]
        asked = ask("newer_edition", "job", path, answers=answers, edition=edition, older=older)
        yield Check.refers(ID, "job", f"{edition} in place of {older}", edition, text, *notes, ask=asked)
