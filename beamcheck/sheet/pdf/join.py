"""Parts of a long sheet, each set by itself, joined into one PDF: pages, links, bookmarks, tags and what it carries.

The objects of each part are copied as they are, under new numbers; only what must know of other parts is written anew.
"""

from __future__ import annotations

import json
import re
from base64 import b64encode
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from ...errors import BeamcheckError
from ...records import dataclass
from ..spool import Spool
from .growing import Growing
from .objects import Objects, literal, parted, reference, renumbered, within
from .pages import PLACES, SCHEME

ABOVE = 10.0  # points over a place to which a link leads, as typst has it
_NAMED = re.compile(rb"\(([^()\\]*)\)\s?([0-9]+) 0 R")
_KEYED = re.compile(rb"([0-9]{1,10}) ([0-9]{1,10}) 0 R")
_HEADS = re.compile(rb"\((U[0-9]+x[0-9]+y[0-9]+)\)")  # the names of heads of tables, by which cells name them
_TO = re.compile(rb"/A<<[^<>()]*\(" + SCHEME.encode() + rb"([^()\\]*)\)>>")
_SAID = re.compile(rb"/Contents\([^()\\]*\)")
_LENGTH, _SIZE = re.compile(rb"/Length [0-9]+"), re.compile(rb"/Size [0-9]+")
_IDS = re.compile(rb"/ID\[\(([^()\\]*)\)\(([^()\\]*)\)\]")
_NUMBER = b"q/Artifact<</Attached[/Bottom]/Subtype/Footer/Type/Pagination>>BDC/PageNumber Do EMC Q"


@dataclass
class _Page:
    """A page: its number, what it says of itself, what it draws with, its height."""

    number: int
    said: bytes
    resources: bytes
    high: float


@dataclass
class Added:
    """A part that is in the file: what the whole must know of it."""

    pages: list[_Page]
    places: dict[str, tuple[int, float, float]]  # as `places_of`
    tags: int
    keys: list[tuple[int, int]]
    names: list[tuple[bytes, int]]
    marks: tuple[int, int, int]  # first and last bookmark, and how many
    links: list[tuple[int, bytes]]
    held: dict[int, bytes]


@dataclass
class _Envelope:
    """What the file has once: of the first part. `viewed`: how it is to be shown."""

    metadata: int
    intents: int  # 0 where there are none
    info: int
    viewed: bytes
    files: list[tuple[bytes, int]]
    roles: bytes
    ids: tuple[bytes, bytes]


class Joined:
    """A PDF that grows part by part."""

    def __init__(self) -> None:
        self._file = Growing()
        self._tree, self._tags, self._document, self._marks = (self._file.new() for _ in range(4))
        self._key = self._parts = 0
        self._envelope: _Envelope | None = None
        self._metadata = b""

    def add(self, pdf: bytes, carried: Mapping[str, tuple[int, Spool]] | None = None) -> Added:
        """Take over a part. The first has `carried`: what the file carries, packed, by the names of attachments."""
        part = Objects(pdf)
        catalog = part.body(part.root)
        tree, tags = (reference(catalog, key) for key in (b"Pages", b"StructTreeRoot"))
        root, files = part.body(tags), _files_of(catalog)
        copy = _Copy(self._file, part, {tree: self._tree, tags: self._document}, self._key, self._parts)
        marks = self._bookmarks_of(part, copy, catalog)
        pages = list(copy.pages())
        copy.document = int(within(root, b"/K[", b" "))
        document = copy.number(copy.document)
        keys = [(int(key) + self._key, copy.number(int(old)))
                for key, old in _KEYED.findall(within(root, b"/ParentTree<</Nums[", b"]"))]  # fmt: skip
        names = [(copy.named(name), copy.number(int(old)))
                 for name, old in _NAMED.findall(within(root, b"/IDTree<</Names[", b"]"))]  # fmt: skip
        files.pop(PLACES.encode(), None)
        if carried is not None:
            copy.carried = {_stream_of(part, files[name.encode()]): held for name, held in carried.items()}
            roles = within(root, b"/RoleMap<<", b">>")
            self._envelope = self._taken_once(part, copy, catalog, files, roles)
        copy.run()
        if self._envelope is not None and self._envelope.metadata in copy.kept:
            self._metadata = copy.kept.pop(self._envelope.metadata)
        self._key = max((key + 1 for key, _ in keys), default=self._key)
        self._parts += 1
        return Added(pages, places_of(part), document, keys, names, marks, copy.links, copy.kept)

    def finish(self, parts: Sequence[Added], numbers: Iterable[bytes], version: str) -> Spool:
        """The file, its parts as they are read. `numbers`: PDFs with the number of each page, where they have none."""
        assert self._envelope is not None
        file, pages = self._file, [page for part in parts for page in part.pages]
        drawn = [form for pdf in numbers for form in _Copy(file, Objects(pdf), {}, 0, 0).forms()]
        number = file.once(b"<</Length %d>>\nstream\n%b\nendstream" % (len(_NUMBER), _NUMBER)) if drawn else 0
        for page, form in zip(pages, drawn or [0] * len(pages), strict=True):
            file.write(page.number, _numbered(page, form, number) if form else _with_resources(page))
        kids = b" ".join(b"%d 0 R" % page.number for page in pages)
        file.write(self._tree, b"<</Type/Pages/Count %d/Kids[%b]>>" % (len(pages), kids))
        places = dict(_places(parts))
        for part in parts:
            for one, said in part.links:
                file.write(one, _led(said, places))
        self._write_bookmarks(parts)
        self._write_tags(parts)
        return self._close(pages, places, version)

    def _bookmarks_of(self, part: Objects, copy: _Copy, catalog: bytes) -> tuple[int, int, int]:
        """First and last bookmark, held back since their neighbors are in other parts; zeros where there is none."""
        if b"/Outlines " not in catalog:
            return 0, 0, 0
        marks = reference(catalog, b"Outlines")
        said = part.body(marks)
        copy.known[marks] = self._marks
        if b"/First " not in said:
            return 0, 0, 0
        first, last = reference(said, b"First"), reference(said, b"Last")
        copy.keep |= {first, last}
        return copy.number(first), copy.number(last), int(within(said + b"/", b"/Count ", b">>"))

    def _taken_once(
        self, part: Objects, copy: _Copy, catalog: bytes, files: Mapping[bytes, bytes], roles: bytes
    ) -> _Envelope:
        ids = _IDS.search(part.trailer)
        metadata = reference(catalog, b"Metadata")
        copy.keep.add(metadata)
        attached = [(name, copy.number(int(old))) for name, old in sorted(files.items())]
        intents = copy.number(reference(catalog, b"OutputIntents")) if b"/OutputIntents " in catalog else 0
        info, viewed = copy.number(reference(part.trailer, b"Info")), within(catalog, b"/ViewerPreferences<<", b">>")
        return _Envelope(copy.number(metadata), intents, info, viewed, attached, roles,
                         (ids[1], ids[2]) if ids else (b"", b""))  # fmt: skip

    def _write_bookmarks(self, parts: Sequence[Added]) -> None:
        """The bookmarks of the parts as one row."""
        some = [part for part in parts if part.marks[2]]
        if not some:
            self._marks = 0
            return
        held = {number: said for part in some for number, said in part.held.items()}
        for one, after in pairwise(some):
            last, first = one.marks[1], after.marks[0]
            held[last] = b"<</Next %d 0 R%b" % (first, held[last][2:])
            held[first] = b"<</Prev %d 0 R%b" % (last, held[first][2:])
        for number, said in held.items():
            self._file.write(number, said)
        ends = (some[0].marks[0], some[-1].marks[1], sum(part.marks[2] for part in some))
        self._file.write(self._marks, b"<</Type/Outlines/First %d 0 R/Last %d 0 R/Count %d>>" % ends)

    def _write_tags(self, parts: Sequence[Added]) -> None:
        """The tags of the parts under one document."""
        assert self._envelope is not None
        kids = b" ".join(b"%d 0 R" % part.tags for part in parts)
        said = b"<</Type/StructElem/S/Document/P %d 0 R/K[%b]>>" % (self._tags, kids)
        self._file.write(self._document, said)
        keys = b" ".join(b"%d %d 0 R" % pair for pair in sorted(pair for part in parts for pair in part.keys))
        names = b"".join(b"(%b)%d 0 R" % pair for pair in sorted(pair for part in parts for pair in part.names))
        ids = b"/IDTree<</Names[%b]>>" % names if names else b""
        root = (self._envelope.roles, self._document, keys, ids)
        self._file.write(
            self._tags, b"<</Type/StructTreeRoot/RoleMap<<%b>>/K[%d 0 R]/ParentTree<</Nums[%b]>>%b>>" % root
        )

    def _close(self, pages: Sequence[_Page], places: Mapping[str, _Place], version: str) -> Spool:
        assert self._envelope is not None
        file, once = self._file, self._envelope
        instance = b64encode(file.so_far()[:16])
        metadata = self._metadata.replace(once.ids[1], instance)
        metadata = re.sub(rb"(NPages>)[0-9]+", rb"\g<1>%d" % len(pages), metadata)
        about, stream = parted(metadata)
        length = len(stream) - len(b"\nstream\n") - len(b"\nendstream")
        file.write(once.metadata, _LENGTH.sub(b"/Length %d" % length, about, count=1) + stream)
        to = b"".join(
            literal(anchor) + b"[%d 0 R/XYZ %.2f %.2f null]" % (place.page.number, place.x, place.y)
            for anchor, place in sorted(places.items())
        )
        said = [
            b"<</Type/Catalog/Pages %d 0 R/Metadata %d 0 R/Lang(en)/StructTreeRoot %d 0 R" % (
                self._tree, once.metadata, self._tags),
            b"/MarkInfo<</Marked true/Suspects false>>/ViewerPreferences<<%b>>" % once.viewed,
            *(b"/%b %d 0 R" % one for one in ((b"OutputIntents", once.intents), (b"Outlines", self._marks)) if one[1]),
        ]  # fmt: skip
        if once.files:
            attached = b"".join(b"(%b)%d 0 R" % one for one in once.files)
            said.append(b"/Names<</Dests<</Names[%b]>>/EmbeddedFiles<</Names[%b]>>>>" % (to, attached))
            said.append(b"/AF[%b]" % b" ".join(b"%d 0 R" % number for _, number in once.files))
        root = file.new()
        file.write(root, b"".join((*said, b">>")))
        return file.close(b"/Root %d 0 R/Info %d 0 R/ID[(%b)(%b)]" % (root, once.info, once.ids[0], instance), version)


@dataclass
class _Place:
    """Where a link leads: the page, what is printed as its number, points from the left and from below."""

    page: _Page
    printed: int
    x: float
    y: float


class _Copy:
    """The objects of a part on their way into the file, each when something that is there names it."""

    def __init__(self, file: Growing, part: Objects, known: dict[int, int], key: int, nth: int) -> None:
        self._file, self._part, self.known, self._key, self._nth = file, part, known, key, nth
        self._next: list[int] = []
        self.document = 0  # the old number of what is the document there, and a part of one here
        self.keep: set[int] = set()  # old numbers of what is not written now, but kept
        self.kept: dict[int, bytes] = {}
        self.carried: dict[int, tuple[int, Spool]] = {}  # in place of streams
        self.links: list[tuple[int, bytes]] = []

    def number(self, old: int) -> int:
        """The new number of an object, which comes along."""
        if old not in self.known:
            body = self._part.body(old)
            said, stream = parted(body)
            if stream and b" 0 R" not in said and old not in self.carried and old not in self.keep:
                self.known[old] = self._file.once(body)
            else:
                self.known[old] = self._file.new()
                self._next.append(old)
        return self.known[old]

    def named(self, name: bytes) -> bytes:
        """The name of a head of a table, which each part has from 1."""
        return b"%bp%d" % (name, self._nth)

    def renumbered(self, said: bytes) -> bytes:
        return renumbered(said, self.number, self._key)

    def pages(self) -> Iterator[_Page]:
        """The pages; they are written at the end."""
        old = list(self._part.pages())
        self.known |= {one: self._file.new() for one in old}
        for one in old:
            said = self._part.body(one)
            box = within(said, b"/MediaBox[", b"]").split()
            resources = self.renumbered(self._part.body(reference(said, b"Resources")))
            said = re.sub(rb"/Resources [0-9]+ 0 R", b"", said, count=1)
            yield _Page(self.known[one], self.renumbered(said), resources, float(box[3]))

    def forms(self) -> Iterator[int]:
        """The contents of each page as a form, which other pages may draw."""
        for one in self._part.pages():
            page = self._part.body(one)
            resources = self.number(reference(page, b"Resources"))
            said, stream = parted(self._part.body(reference(page, b"Contents")))
            box = within(page, b"/MediaBox[", b"]")
            form = self._file.new()
            head = b"<</Type/XObject/Subtype/Form/BBox[%b]/Resources %d 0 R" % (box, resources)
            self._file.write(form, head + said[2:] + stream)
            yield form
        self.run()

    def run(self) -> None:
        """Write what was named, and what that names."""
        while self._next:
            old = self._next.pop()
            said, stream = parted(self._part.body(old))
            said = self.renumbered(said)
            if old in self.carried:
                length, held = self.carried[old]
                self._file.write_stream(self.known[old], _filled(said, length, held.length), held)
                continue
            if said.startswith((b"<</Type/StructElem/S/TH", b"<</Type/StructElem/S/TD")):
                said = _HEADS.sub(lambda name: b"(%b)" % self.named(name[1]), said)
            elif old == self.document:
                said = said.replace(b"/S/Document", b"/S/Part", 1)
            if old in self.keep:
                self.kept[self.known[old]] = said + stream
            elif said.startswith(b"<</Type/Annot") and _TO.search(said):
                self.links.append((self.known[old], said))
            else:
                self._file.write(self.known[old], said + stream)


def places_of(part: Objects) -> dict[str, tuple[int, float, float]]:
    """Where the places of a part are: the page from 0, points from the left and from the top."""
    said = _files_of(part.body(part.root)).get(PLACES.encode())
    found = json.loads(part.stream(_stream_of(part, said))) if said is not None else ()
    return {anchor: (page - 1, x, y) for anchor, page, x, y in found}


def _files_of(catalog: bytes) -> dict[bytes, bytes]:
    """The numbers of the attachments by their names."""
    return dict(_NAMED.findall(within(catalog, b"/EmbeddedFiles<</Names[", b"]")))


def _stream_of(part: Objects, filespec: bytes) -> int:
    """The number of the stream that an attachment is."""
    return reference(within(part.body(int(filespec)), b"/EF<<", b">>"), b"F")


def _filled(said: bytes, length: int, packed: int) -> bytes:
    """What an attachment with other contents says: how long they are, and how long packed."""
    said = said.replace(b"/Filter/FlateDecode", b"", 1)  # not there where typst had too little to pack
    return _LENGTH.sub(b"/Length %d/Filter/FlateDecode" % packed, _SIZE.sub(b"/Size %d" % length, said), count=1)


def _numbered(page: _Page, form: int, number: int) -> bytes:
    """A page with its number drawn over its foot, where room was left for it."""
    drawn, resources = b"/XObject<</PageNumber %d 0 R" % form, page.resources
    if b"/XObject<<" in resources:
        resources = resources.replace(b"/XObject<<", drawn, 1)
    else:
        resources = b"%b%b>>>>" % (resources[:-2], drawn)
    said = re.sub(rb"/Contents ([0-9]+ 0 R)", rb"/Contents[\1 %d 0 R]" % number, page.said, count=1)
    return _with_resources(replace(page, said=said, resources=resources))


def _with_resources(page: _Page) -> bytes:
    return b"<</Resources%b%b" % (page.resources, page.said[2:])


def _places(parts: Sequence[Added]) -> Iterator[tuple[str, _Place]]:
    before = 0
    for part in parts:
        for anchor, (nth, x, y) in part.places.items():
            page = part.pages[nth]
            yield anchor, _Place(page, before + nth + 1, x, page.high - max(y - ABOVE, 0.0))
        before += len(part.pages)


def _led(said: bytes, places: Mapping[str, _Place]) -> bytes:
    """A link that leads to its place, and says to which page."""
    found = _TO.search(said)
    anchor = found[1].decode("ascii") if found else ""
    if found is None or anchor not in places:
        raise BeamcheckError(f"a link of the sheet leads to {anchor!r}, which is not in it")
    said = said[: found.start()] + b"/Dest" + literal(anchor) + said[found.end() :]
    return _SAID.sub(b"/Contents(page %d)" % places[anchor].printed, said, count=1)
