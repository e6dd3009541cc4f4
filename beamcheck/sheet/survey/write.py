"""The survey form as a PDF for print, and as a page that a phone can fill in: no script, no request to anywhere."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from ...checks.core.summary import INVENTED
from ...own_digest import BLANK, with_digest
from ...version import VERSION
from ..pdf.text import shown_text as printed
from ..pdf.typeset import set_pdf
from ..record.pdf_mark import marked
from .form import Choice, Form, Line, Rows

if TYPE_CHECKING:
    from jinja2 import Template

SOURCE = Path(__file__).parent / "survey.typ"
TOOL = f"whatcarries {VERSION}"


def survey_pdf(form: Form, paper: Literal["us-letter", "a4"] = "us-letter") -> bytes:
    """The form, two pages or so. Raises BeamcheckError if typst is missing or cannot set it."""
    words = printed({
        "title": form.title, "marks": form.marks, "caution": form.caution, "tool": TOOL,
        "job_words": f"Job: {form.job}," if form.job else "", "invented": INVENTED if form.invented else "",
        "sections": [{"title": one.title, "parts": [_part(part) for part in one.parts]} for one in form.sections],
    })  # fmt: skip
    return marked(set_pdf(SOURCE, {"paper": paper, **words}, None, what="survey form"), VERSION)


def _part(part: Line | Choice | Rows) -> dict[str, Any]:
    if isinstance(part, Line):
        return {"kind": "line", "label": part.label, "hint": part.hint, "value": part.value}
    if isinstance(part, Choice):
        return {"kind": "choice", "label": part.label, "options": list(part.options), "chosen": part.chosen,
                "hint": part.hint}  # fmt: skip
    return {"kind": "rows", "heads": list(part.heads), "rows": [list(row) for row in part.rows], "hint": part.hint}


def survey_html(form: Form) -> str:
    """The form as one page of HTML."""
    sections = [(one.title, [_part(part) for part in one.parts]) for one in form.sections]
    page = _template().render(
        form=form, sections=sections, tool=TOOL, invented=INVENTED if form.invented else "", no_digest=BLANK
    )
    return with_digest(page)


@lru_cache(maxsize=1)
def _template() -> Template:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(loader=FileSystemLoader(Path(__file__).parent), autoescape=True, undefined=StrictUndefined,
                       trim_blocks=True, lstrip_blocks=True)  # fmt: skip
    return made.get_template("survey.html.jinja")
