"""The book of formulas and tables as one HTML page: equations as MathML, no script, no request to anywhere."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ...checks.core.result import CAUTION, SIGN_OFF
from ...own_digest import BLANK, with_digest
from ...version import VERSION
from ..document.mathematics import compile_mathml, symbolic_source
from ..document.symbols import plain_symbol, plain_unit
from .book import register

TEMPLATE = "register.html.jinja"


def register_html() -> str:
    """The page. Raises BeamcheckError if typst is missing or cannot typeset an equation."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    book = register()
    every = [entry for chapter in book.chapters for entry in chapter.entries]
    sources = [symbolic_source(entry.formula) for entry in every]
    made = dict(zip((entry.formula.name for entry in every), compile_mathml(sources), strict=True))
    environment = Environment(
        loader=FileSystemLoader(Path(__file__).parent), autoescape=True, undefined=StrictUndefined,
        trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip

    def equation(name: str) -> Any:
        return Markup(made[name])

    environment.filters.update(equation=equation, symbol=plain_symbol, unit=plain_unit)
    template = environment.get_template(TEMPLATE)
    page = template.render(
        book=book, tool=f"whatcarries {VERSION}", caution=CAUTION, sign_off=SIGN_OFF, no_digest=BLANK
    )
    return with_digest(page)
