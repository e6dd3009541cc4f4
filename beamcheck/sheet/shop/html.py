"""Shop sheets as one HTML file: big type, one page a piece when printed, no script, no request to anywhere."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from ...checks.core.result import JobResult
from ...checks.core.summary import INVENTED, legible
from ...own_digest import BLANK, with_digest
from ..document.piece import FEW_STEPS
from .shop import ShopPage, head_of, shop_pages

if TYPE_CHECKING:
    from jinja2 import Template

TEMPLATE = "shop.html.jinja"


def shop_html(result: JobResult) -> str:
    """The shop sheets of a result as one page of HTML. Raises BeamcheckError as `shop_pages`."""
    return page_of(result, shop_pages(result))


def page_of(result: JobResult, pages: tuple[ShopPage, ...]) -> str:
    """The file for pages that are made already."""
    page = _template().render(
        head=head_of(result), pages=pages, invented=INVENTED if result.invented else "", no_digest=BLANK, few=FEW_STEPS
    )
    return with_digest(page)


@lru_cache(maxsize=1)
def _template() -> Template:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    made = Environment(
        loader=FileSystemLoader(Path(__file__).parent), autoescape=True, undefined=StrictUndefined,
        finalize=lambda value: legible(value) if type(value) is str else value, trim_blocks=True, lstrip_blocks=True,
    )  # fmt: skip
    made.filters["drawing"] = Markup  # our own SVG, which escapes what it letters
    return made.get_template(TEMPLATE)
