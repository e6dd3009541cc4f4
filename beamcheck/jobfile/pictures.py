"""What a photo or letter is by its content, and the same without the place where it was taken."""

from __future__ import annotations

import re
import struct
from collections.abc import Iterator

from ..errors import BeamcheckError

_GPS, _MAKER, _EXIF = 0x8825, 0x927C, 0x8769
_SIZES = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8}
_XMP = ((b"<?xpacket begin", b"<?xpacket end"), (b"<x:xmpmeta", b"</x:xmpmeta"))
_HEIC = (b"heic", b"heix", b"mif1", b"msf1", b"heim", b"heis", b"hevc")
TAKEN = "a photo is JPEG, PNG or HEIC, a letter PDF: this is none of them"


class NotKept(BeamcheckError):
    """It cannot be kept; the text says why. `status_code` is what a page answers then."""

    def __init__(self, text: str, status_code: int = 400) -> None:
        super().__init__(text)
        self.status_code = status_code


def kind_of(data: bytes) -> str:
    """The ending of its name, by the content: 'jpg', 'png', 'heic' or 'pdf'. Raises NotKept if it is none of them."""
    if data.startswith(b"\xff\xd8\xff") and data.rstrip(b"\0\r\n").find(b"\xff\xda") > 0:
        return "jpg"
    if data.startswith(b"\x89PNG\r\n\x1a\n") and data[12:16] == b"IHDR":
        return "png"
    if data[4:8] == b"ftyp" and data[8:12] in _HEIC:
        return "heic"
    if data.startswith((b"%PDF-1.", b"%PDF-2.")):
        return "pdf"
    raise NotKept(TAKEN, 415)


def without_place(data: bytes) -> bytes:
    """The same picture without what says where it was taken.

    JPEG and PNG lose all that is not picture (of JPEG the way up stays); in HEIC and PDF places, makers' notes and
    descriptions are blanked where they stand.

    Raises NotKept if it is no picture, or a broken one.
    """
    kind = kind_of(data)
    try:
        if kind == "jpg":
            return _jpeg(data)
        if kind == "png":
            return _png(data)
        return _blanked(data)
    except (struct.error, IndexError, ValueError):
        raise NotKept("this file is broken: take or save it anew", 415) from None


def _jpeg(data: bytes) -> bytes:
    made, at, turned = bytearray(data[:2]), 2, 1
    while data[at : at + 1] == b"\xff" and data[at + 1] != 0xDA:
        marker = data[at + 1]
        if marker == 0xFF:  # filling
            at += 1
            continue
        (size,) = struct.unpack(">H", data[at + 2 : at + 4])
        if size < 2:
            raise ValueError("a part of no size")
        part = data[at : at + 2 + size]
        if marker == 0xE1 and part[4:10] == b"Exif\0\0":
            turned = _way_up(part[10:])
        if (
            not (marker == 0xFE or 0xE1 <= marker <= 0xEF)
            or (marker == 0xE2 and part[4:15] == b"ICC_PROFILE")
            or (marker == 0xEE)
        ):
            made += part
        at += 2 + size
    if data[at : at + 2] != b"\xff\xda":
        raise ValueError("no picture in it")
    if turned != 1:
        tiff = b"Exif\0\0MM\0*" + struct.pack(">IHHHIHHI", 8, 1, 0x0112, 3, 1, turned, 0, 0)
        made[2:2] = b"\xff\xe1" + struct.pack(">H", len(tiff) + 2) + tiff
    end = data.rfind(b"\xff\xd9")  # phones hang a second picture, with its own place, behind the end
    first_end = _end_of_scan(data, at)
    return bytes(made) + data[at : first_end if first_end > 0 else end + 2]


def _end_of_scan(data: bytes, at: int) -> int:
    """Behind the mark that ends the picture whose data begin at `at`."""
    while (at := data.find(b"\xff", at)) >= 0 and at + 1 < len(data):
        marker = data[at + 1]
        if marker == 0xD9:
            return at + 2
        if marker in (0x00, 0xFF) or 0xD0 <= marker <= 0xD7:
            at += 1 if marker == 0xFF else 2
            continue
        (size,) = struct.unpack(">H", data[at + 2 : at + 4])
        at += 2 + max(size, 2)
    return len(data)


def _png(data: bytes) -> bytes:
    made, at = bytearray(data[:8]), 8
    while at + 8 <= len(data):
        (size,) = struct.unpack(">I", data[at : at + 4])
        name = data[at + 4 : at + 8]
        if at + 12 + size > len(data):
            raise ValueError("cut off")
        if name not in (b"eXIf", b"tEXt", b"zTXt", b"iTXt", b"tIME"):
            made += data[at : at + 12 + size]
        at += 12 + size
        if name == b"IEND":
            return bytes(made)
    raise ValueError("it has no end")


def _blanked(data: bytes) -> bytes:
    made = bytearray(data)
    for match in re.finditer(rb"(?:Exif\0\0)?(?=II\*\0|MM\0\*)", data):
        for first, last in _private(data[match.end() :]):
            made[match.end() + first : match.end() + last] = bytes(last - first)
    for first, last in _packets(data):
        made[first:last] = b" " * (last - first)
    return bytes(made)


def _packets(data: bytes) -> Iterator[tuple[int, int]]:
    """Where what XMP says of a picture stands, its marks included."""
    for begins, ends in _XMP:
        place = 0
        while (first := data.find(begins, place)) >= 0 and (end := data.find(ends, first)) >= 0:
            place = data.find(b">", end) + 1
            if place == 0:
                break
            yield first, place


def _order(tiff: bytes) -> str:
    return "<" if tiff[:2] == b"II" else ">"


def _entries(tiff: bytes, at: int) -> Iterator[tuple[int, int, int, int, int]]:
    """Of one directory: tag, type, count, place of the entry, and its value as a number."""
    order = _order(tiff)
    if not 8 <= at <= len(tiff) - 2:
        return
    (count,) = struct.unpack(order + "H", tiff[at : at + 2])
    for i in range(min(count, 512)):
        place = at + 2 + 12 * i
        if place + 12 > len(tiff):
            return
        tag, kind, number, value = struct.unpack(order + "HHII", tiff[place : place + 12])
        yield tag, kind, number, place, value


def _way_up(tiff: bytes) -> int:
    order = _order(tiff)
    (first,) = struct.unpack(order + "I", tiff[4:8])
    for tag, _, _, place, _ in _entries(tiff, first):
        if tag == 0x0112:
            (turned,) = struct.unpack(order + "H", tiff[place + 8 : place + 10])
            return int(turned) if 1 <= turned <= 8 else 1
    return 1


def _private(tiff: bytes) -> Iterator[tuple[int, int]]:
    """The bytes of place and makers' notes, from the start of the block."""
    if len(tiff) < 8:
        return
    (first,) = struct.unpack(_order(tiff) + "I", tiff[4:8])
    todo = [first]
    for at in todo:
        for tag, kind, number, _place, value in _entries(tiff, at):
            size = _SIZES.get(kind, 1) * number
            if tag == _GPS:
                for _, inner, many, where, far in _entries(tiff, value):
                    long = _SIZES.get(inner, 1) * many
                    if long > 4 and far + long <= len(tiff):
                        yield far, far + long
                    yield where, where + 12
            elif tag == _MAKER and size > 4 and value + size <= len(tiff):
                yield value, value + size
            elif tag == _EXIF and len(todo) < 4:
                todo.append(value)
