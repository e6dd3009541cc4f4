"""The shop: one piece a page, what to bring and not to do, and what is ticked and photographed before it is covered."""

from __future__ import annotations

import threading
import time
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ...lettering import legible
from ...sheet.shop.shop import ShopPage, shop_pages
from ..folder.seen import Seen, Tick, read_seen, write_seen
from ..guard.bodies import Refused
from ..show.rows import shown
from .site import Opened, opened, page, sent, site_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

_WRITING = threading.Lock()


def _pages(now: Opened) -> tuple[ShopPage, ...]:
    found = now.check()
    if found.result is None or found.job is None:
        raise Refused("the job file cannot be read yet: there is no shop sheet of it", 409)
    return shop_pages(found.result, found.job)


def shop(request: Request) -> Response:
    """All pieces with what is ticked of each."""
    now = opened(request)
    pages = _pages(now)
    seen = read_seen(now.file.path)
    listed = [(one, len(_ticked(seen, one)), len(one.ticks.items)) for one in pages]
    return page(
        request,
        "shop.html",
        now,
        title=f"Shop sheets of {now.name}: whatcarries",
        listed=listed,
        problem=seen.problem,
        invented=_invented(now),
    )


def _invented(now: Opened) -> bool:
    found = now.check().job
    return found is not None and found.job.invented


def _ticked(seen: Seen, one: ShopPage) -> dict[str, Tick]:
    """The ticks of the points that the sheet of a piece has now."""
    points = set(map(legible, one.ticks.items))
    return {tick.point: tick for tick in seen.ticks if tick.piece == one.name and tick.point in points}


def sheet(request: Request) -> Response:
    """The sheet of one piece."""
    now = opened(request)
    pages, number = _pages(now), request.path_params["number"]
    if not 1 <= number <= len(pages):
        raise Refused("there is no such piece", 404)
    one = pages[number - 1]
    seen = read_seen(now.file.path)
    ticked = _ticked(seen, one)
    found = now.check()
    assert found.result is not None
    return page(
        request,
        "shop_piece.html",
        now,
        title=f"{one.name}: shop sheet",
        one=one,
        ticked=ticked,
        points=[(legible(point), ticked.get(legible(point))) for point in one.ticks.items],
        problem=seen.problem,
        piece=shown(found.result.pieces[number - 1], found.result),
        invented=_invented(now),
        photos=set(site_of(request).folder.kept("photos")),
        now_digest=now.file.digest,
        decided=[each for each in seen.decisions if each.piece == one.name],
    )


@sent(digest=str, piece=str, point=str, by=str, on=bool, photo=str)
def tick(request: Request, asked: dict[str, Any]) -> Response:
    """A point was seen, or was not after all; the job file is not touched by it."""
    from starlette.responses import JSONResponse

    now = opened(request)
    one = next((one for one in _pages(now) if one.name == asked["piece"]), None)
    if one is None or asked["point"] not in map(legible, one.ticks.items):
        raise Refused("the job was changed, and this point is no more on its sheet: open the page anew", 409)
    by = " ".join(legible(asked["by"]).split())[:80]
    if asked["on"] and len(by) < 2:
        raise Refused("who saw it? Write your name at the top of the list first", 422)
    folder = site_of(request).folder
    name = asked["photo"].removeprefix("photos/")
    if asked["photo"] and name not in folder.kept("photos"):
        raise Refused("this photo is not in the folder", 409)
    with _WRITING:
        seen = read_seen(now.file.path)
        before = [each for each in seen.ticks if (each.piece, each.point) == (one.name, asked["point"])]
        others = tuple(each for each in seen.ticks if each not in before)
        photos = tuple(dict.fromkeys((*(p for each in before for p in each.photos), *filter(None, (asked["photo"],)))))
        when = time.strftime("%Y-%m-%d %H:%M")
        made = (Tick(one.name, asked["point"], by, when, now.file.digest[:16], photos),) if asked["on"] else ()
        write_seen(now.file.path, replace(seen, ticks=(*others, *made)))
    return JSONResponse({"go": True})
