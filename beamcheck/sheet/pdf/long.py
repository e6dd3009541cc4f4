"""A long sheet set in parts: those that print numbers of pages last, when the others have theirs; then all joined."""

from __future__ import annotations

import gc
import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor

from ...checks.core.result import JobResult
from ..document.blocks import Block
from ..record.as_json import result_json_pieces
from ..record.pdf_mark import JOB, RESULT
from ..spool import Spool
from .cuts import Part, parts_of
from .data import any_numbered, sheet_head
from .growing import packed
from .join import Added, Joined, places_of
from .objects import Objects
from .pages import set_pages
from .text import Data
from .typeset import forget

PART = 200_000  # letters of data in a part, about: some 9 pages, for which typst takes 60 MB
AT_ONCE = 2  # parts
NUMBERS = 200  # of pages that are set at once
TRIES = 4  # until the numbers of pages that a part prints are those that it makes


def in_parts(result: JobResult, blocks: Sequence[Block], runs: Iterable[list[Data]]) -> Spool | None:
    """The file of a sheet, of which `runs` are the data; None where the numbers of its pages do not come to rest."""
    return _Long(result, blocks).joined(runs)


class _Long:
    def __init__(self, result: JobResult, blocks: Sequence[Block]) -> None:
        self._result, self._blocks = result, blocks
        self._numbered = False  # are letters printed as their numbers in what was made so far?

    def joined(self, runs: Iterable[list[Data]]) -> Spool | None:
        job = self._result.job_text.encode("utf-8", errors="replace")
        # first of all, so that the result is not made while typst is in memory too
        carried = {JOB: packed([job]), RESULT: packed(result_json_pieces(self._result))}
        gc.collect()  # what a command leaves lying (`console.py`) is room that typst can have
        file, waiting, made = Joined(), dict[int, Part](), dict[int, Added]()
        for number, pdf in self._meanwhile(enumerate(parts_of(self._looked_at(runs), PART)), waiting):
            made[number] = file.add(pdf)
        rested = self._at_rest(waiting, made)
        if rested is None:
            return None
        for number, pdf in rested.items():
            made[number] = file.add(pdf, None if number else carried)
        order = [made[number] for number in sorted(made)]
        return file.finish(order, self._numbers(sum(len(one.pages) for one in order)), self._result.version)

    def _meanwhile(self, parts: Iterable[tuple[int, Part]], waiting: dict[int, Part]) -> Iterator[tuple[int, bytes]]:
        """The parts that need no numbers of pages, some set at once in threads while the data of the next are made."""
        with ThreadPoolExecutor(max_workers=AT_ONCE) as threads:
            at_work = list[tuple[int, Future[bytes]]]()
            for some in self._some(parts, waiting):
                done = [(number, one.result()) for number, one in at_work]
                forget()  # while none is at work, which would have to begin again with what it remembers
                at_work = [(number, threads.submit(self._set, part, {}, forgets=False)) for number, part in some]
                yield from done
            yield from [(number, one.result()) for number, one in at_work]
        forget()

    @staticmethod
    def _some(parts: Iterable[tuple[int, Part]], waiting: dict[int, Part]) -> Iterator[list[tuple[int, Part]]]:
        """As many as are set at once; those that need numbers of pages go to those that wait."""
        some = list[tuple[int, Part]]()
        for number, part in parts:
            if number == 0 or part.asks:
                waiting[number] = part
                continue
            some.append((number, part))
            if len(some) == AT_ONCE:
                yield some
                some = []
        if some:
            yield some

    def _looked_at(self, runs: Iterable[list[Data]]) -> Iterator[list[Data]]:
        for run in runs:
            self._numbered = self._numbered or any_numbered(run)
            yield run

    def _at_rest(self, waiting: Mapping[int, Part], made: Mapping[int, Added]) -> dict[int, bytes] | None:
        """The parts that print numbers of pages, set until those are the numbers that come out."""
        told: dict[str, int] = {}
        pdfs: dict[int, bytes] = {}
        for _ in range(TRIES):
            for number, part in waiting.items():
                if part.asks or number not in pdfs:
                    pdfs[number] = self._set(part, told, first=number == 0)
            counted = {number: (len(one.pages), one.places) for number, one in made.items()}
            counted |= {number: _counted(pdf) for number, pdf in pdfs.items()}
            found, before = dict[str, int](), 0
            for number in sorted(counted):
                count, places = counted[number]
                found |= {anchor: before + place[0] + 1 for anchor, place in places.items()}
                before += count
            if found == told:
                return pdfs
            told = found
        return None

    def _set(self, part: Part, pages: Mapping[str, int], *, first: bool = False, forgets: bool = True) -> bytes:
        head = sheet_head(self._result, self._blocks, numbered=first and self._numbered)
        data = f'{{"head": {json.dumps(head)}, "running": {json.dumps(part.running)}, "blocks": {part.blocks}}}'
        mode = {"kind": "part", "first": first, "anchors": part.anchors, "pages": pages if part.asks else {}}
        return set_pages(self._result, data, mode, forgets=forgets)

    def _numbers(self, total: int) -> Iterator[bytes]:
        """Pages with nothing but their numbers."""
        data = {"head": sheet_head(self._result, self._blocks, numbered=False), "running": "", "blocks": []}
        for before in range(0, total, NUMBERS):
            mode = {"kind": "numbers", "before": before, "total": total, "count": min(NUMBERS, total - before)}
            yield set_pages(self._result, data, mode, tagged=False, forgets=True)


def _counted(pdf: bytes) -> tuple[int, dict[str, tuple[int, float, float]]]:
    """How many pages a part has, and its places."""
    part = Objects(pdf)
    return len(list(part.pages())), places_of(part)
