"""The answer to a span question as a ladder: as told, then one condition more a rung, each run."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...checks.core.result import JobResult
from .look import closing, columns, hung, line

_RUNG = re.compile(
    r"(?P<words>.+): (?P<ratio>[\d.,]+|no figure)(?: in (?P<what>.+))?, (?P<end>too much|enough by the figures)"
)
# how each condition is said with the command, by its words
SAY = (
    ("top edge", '--top-held "full length"'), ("dry wood", "--moisture dry"),
    ("three or more", '--members 3 --shared-by "3/4 in boards, nailed"'),
)  # fmt: skip


def span_text(result: JobResult, *, width: int = 80) -> str:
    """The short answer to a span question, without color."""
    width = columns(width)
    answer, *rest = result.reasons
    ladder = [match for match in map(_RUNG.fullmatch, rest) if match]
    lines = hung(f"{result.verdict.upper():<8}", f"{answer}.", width)
    if ladder:
        lines += ["", *(text for rung in ladder for text in _rung(rung, width))]
        said = [words for key, words in SAY if any(key in rung["words"] for rung in ladder)]
        if said:
            lines += ["", *hung("Say it: ", "   ".join(said), width)]
    open_ = [line(one.question.ask) for one in result.questions if one.state != "idle"]
    if open_:
        lines += [
            "",
            *hung("Open:   ", " ".join(open_[:4]) + (f" And {len(open_) - 4} more." if len(open_) > 4 else ""), width),
        ]
    lines += ["", "For a job file of it: whatcarries new --from-last      All: --all", "", *closing(width)]
    return "\n".join(lines) + "\n"


def _rung(rung: re.Match[str], width: int) -> Iterator[str]:
    sign = "ok" if rung["end"].startswith("enough") else "NO"
    figure = f"{rung['ratio']} {rung['what'] or ''}".rstrip()
    room = width - 30
    first, *more = hung(f"{sign:<4}", rung["words"], room)
    yield f"{first:<{room}}  {figure}"
    yield from more
