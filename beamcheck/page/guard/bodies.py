"""What may be sent to the page, and how much of it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from ...errors import BeamcheckError

if TYPE_CHECKING:
    from starlette.requests import Request

MOST_ANSWER = 20_000  # bytes
MOST_JOB = 1_000_000
MOST_PHOTO = 15_000_000


class Refused(BeamcheckError):
    """What was sent cannot be taken; the text says why."""

    def __init__(self, text: str, status: int = 400) -> None:
        super().__init__(text)
        self.status = status


async def body_of(request: Request, most: int) -> bytes:
    """The bytes that were sent, read no further than the most that is taken. Raises Refused if there is more."""
    found = bytearray()
    async for part in request.stream():
        found += part
        if len(found) > most:
            raise Refused(f"this is larger than {most / 1e6:g} MB, the most that is taken here", 413)
    return bytes(found)


async def json_of(request: Request, most: int = MOST_ANSWER, **wanted: type) -> dict[str, Any]:
    """A table of the wanted entries, each of its type; a text that was left out is ''.

    Raises Refused if it is anything else.
    """
    try:
        data = json.loads(await body_of(request, most))
    except (ValueError, RecursionError):
        raise Refused("this is not how the page asks") from None
    if not isinstance(data, dict):
        raise Refused("this is not how the page asks")
    found = {name: data.get(name, kind()) for name, kind in wanted.items()}
    for name, kind in wanted.items():
        if type(found[name]) is not kind:
            raise Refused(f"{name} is not how the page asks")
    return found
