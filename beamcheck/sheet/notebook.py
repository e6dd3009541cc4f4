"""A short view of a result for a notebook; without jinja and typst, so that it shows at once."""

from __future__ import annotations

from html import escape

from ..checks.result import JobResult
from .document import MEANING, governing_phrase
from .svg import legible


def notebook_html(result: JobResult) -> str:
    """Verdict, reasons, one line a piece, the caution and the sign-off line, as an HTML fragment."""

    def safe(text: str) -> str:
        return escape(legible(text))

    invented = "<p><strong>Invented data: an example, not a real building</strong></p>" if result.invented else ""
    reasons = "".join(f"<li>{safe(reason)}</li>" for reason in result.reasons)
    pieces = "".join(
        f'<tr><td style="text-align:left"><strong>{piece.verdict}</strong></td>'
        f'<td style="text-align:left">{safe(piece.name)}</td>'
        f'<td style="text-align:left">{safe(governing_phrase(piece))}</td></tr>'
        for piece in result.pieces
    )
    return (
        '<div style="max-width:50em;overflow-wrap:anywhere">'
        f"{invented}<p>{safe(result.title)}</p>"
        f'<p><strong style="font-size:150%">{result.verdict.upper()}</strong> {safe(MEANING[result.verdict])}</p>'
        + (f"<ul>{reasons}</ul>" if reasons else "")
        + (f"<table><tbody>{pieces}</tbody></table>" if pieces else "")
        + f"<p><strong>Caution.</strong> {safe(result.caution)}</p><p>{safe(result.sign_off)}</p></div>"
    )
