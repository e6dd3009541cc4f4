"""Shop sheets as a PDF: one page a piece, its type as large as the page allows."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from ...checks.core.result import JobResult
from ...checks.core.summary import INVENTED
from ..document.blocks import TableBlock
from ..document.prose import tied
from ..pdf.blocks import for_typst as for_typst
from ..pdf.data import job_day
from ..pdf.join import Added, Joined
from ..pdf.text import shown_text
from ..pdf.typeset import set_pdf
from ..record.pdf_mark import marked
from ..spool import Spool
from .shop import ShopPage, head_of, shop_pages

SOURCE = Path(__file__).parent / "shop.typ"
PART = 6  # pages that are set at once: typst takes some 14 MB for each
TRIES = 3  # until the pages are as many as each page says


def shop_pdf(result: JobResult) -> bytes:
    """The shop sheets of a result as a PDF.

    Raises BeamcheckError as `shop_pages`; if typst is missing or cannot set them.
    """
    return b"".join(shop_pdf_pieces(result))


def shop_pdf_pieces(result: JobResult) -> Iterable[bytes]:
    """The same in pieces, to be written one after the other; that of a large job is on the disk and not in memory."""
    return _pieces(result, shop_pages(result))


def pdf_of(result: JobResult, pages: tuple[ShopPage, ...]) -> bytes:
    """The file for pages that are made already."""
    return b"".join(_pieces(result, pages))


def _pieces(result: JobResult, pages: tuple[ShopPage, ...]) -> Iterable[bytes]:
    in_parts = _in_parts(result, pages) if len(pages) > PART else None
    return in_parts or [marked(_set(result, pages, 0, 0), result.version)]


def _in_parts(result: JobResult, pages: tuple[ShopPage, ...]) -> Spool | None:
    """Some pages at a time, joined; None where their number does not come to rest. A piece has one page as a rule."""
    total = len(pages)
    for _ in range(TRIES):
        file, parts, before = Joined(), list[Added](), 0
        for first in range(0, len(pages), PART):
            made = _set(result, pages[first : first + PART], before, total)
            parts.append(file.add(made, None if parts else {}))
            before += len(parts[-1].pages)
        if before == total:
            return file.finish(parts, (), result.version)
        total = before
    return None


def _set(result: JobResult, pages: tuple[ShopPage, ...], before: int, total: int) -> bytes:
    """Pages of which so many stand before; `total`: of how many, or 0 where these are all."""
    day = job_day(result)
    data = {
        "paper": "a4" if result.units == "SI" else "us-letter",
        "head": printed({**head_of(result), "invented": INVENTED if result.invented else ""}),
        "pages": [_page(page) for page in pages], "before": before, "total": total,
    }  # fmt: skip
    return set_pdf(
        SOURCE, data, None if day is None else (day.year, day.month, day.day), forgets=True if total else None
    )


def printed(value: Any) -> Any:
    """Every text printable, each unit and fraction tied to its number."""
    return shown_text(_whole(value))


def _whole(value: Any) -> Any:
    if isinstance(value, str):
        return tied(value)
    if isinstance(value, list):
        return [_whole(each) for each in value]
    return {key: _whole(each) for key, each in value.items()} if isinstance(value, dict) else value


def _page(page: ShopPage) -> dict[str, Any]:
    said = printed({
        "name": page.name, "title": page.title, "banner": page.banner, "reasons": list(page.reasons),
        "sizes": [list(row) for row in page.sizes.rows], "gaps_title": page.gaps.title, "gaps": list(page.gaps.items),
        "tables": [_table(table) for table in (page.hardware, page.drills) if table.rows],
        "do_not": list(page.do_not.items), "ticks_title": page.ticks.title, "ticks": list(page.ticks.items),
        "caption": page.caption, "steps": list(page.steps),
    })  # fmt: skip
    drawings = {"drawing": page.drawing, "order": page.order, "folded": page.folded, "board": page.board}
    return {**said, "stop": page.stop, **{name: _drawing(one) for name, one in drawings.items()}}


def _drawing(drawing: str) -> dict[str, Any]:
    """What typst needs of it; `svg` is empty where there is none."""
    if not drawing:
        return {"svg": "", "alt": "", "width": 1.0, "ratio": 1.0}
    svg, alt, wide, _high = for_typst(drawing)
    return {"svg": svg, "alt": alt[:3000], "width": wide, "ratio": _height(drawing) / wide}


def _table(table: TableBlock) -> dict[str, Any]:
    return {"title": table.title, "heads": list(table.heads), "rows": [list(row) for row in table.rows],
            "note": table.note}  # fmt: skip


def _height(svg: str) -> float:
    from xml.etree import ElementTree

    return float(ElementTree.fromstring(svg).get("viewBox", "0 0 1 1").split()[3])
