"""A photo is kept under a name of the program's own, without the place where it was taken; what is none is refused."""

from __future__ import annotations

import hashlib
import io
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from beamcheck.jobfile.pictures import without_place

from .pages import visitor, with_job

PLACE = b"N47 12 9.5 the invented quarry"


def jpeg(way_up: int = 1) -> bytes:
    """A real JPEG with place, maker's notes, a description and a comment."""
    made = io.BytesIO()
    picture = Image.new("RGB", (24, 16), (200, 180, 120))
    exif = picture.getexif()
    exif[0x0112] = way_up
    exif[0x010E] = PLACE.decode()
    exif.get_ifd(0x8825)[1], exif.get_ifd(0x8825)[2] = "N", (47.0, 12.0, 9.5)
    picture.save(made, "JPEG", exif=exif, comment=PLACE)
    return made.getvalue() + b"\xff\xd8\xff\xe1" + PLACE  # a second picture behind the end, as phones hang there


def png() -> bytes:
    made = io.BytesIO()
    Image.new("RGB", (8, 8)).save(made, "PNG")
    data = made.getvalue()
    part = b"Comment\0" + PLACE
    chunk = struct.pack(">I", len(part)) + b"tEXt" + part + struct.pack(">I", zlib.crc32(b"tEXt" + part))
    return data[:33] + chunk + data[33:]


def tiff(order: str) -> bytes:
    """A block of Exif: a directory that leads to one with a place."""
    mark = (b"II*\0" if order == "<" else b"MM\0*") + struct.pack(order + "I", 8)
    first = struct.pack(order + "HHHIII", 1, 0x8825, 4, 1, 26, 0)
    gps = struct.pack(order + "HHHIII", 1, 2, 5, 3, 44, 0)
    return mark + first + gps + struct.pack(order + "6I", 47, 1, 12, 1, 19, 2)


def heic(order: str) -> bytes:
    xmp = b"<x:xmpmeta>" + PLACE + b"</x:xmpmeta>"
    return b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + b"Exif\0\0" + tiff(order) + xmp + b"picture"


@pytest.mark.parametrize("way_up", [1, 6])
def test_a_jpeg_loses_all_but_the_picture_and_its_way_up(way_up: int) -> None:
    data = jpeg(way_up)
    clean = without_place(data)
    assert PLACE not in clean and b"GPS" not in clean
    before, after = Image.open(io.BytesIO(data)), Image.open(io.BytesIO(clean))
    assert after.getexif().get(0x0112, 1) == way_up
    assert not dict(after.getexif().get_ifd(0x8825))
    assert before.tobytes() == after.tobytes()


def test_a_png_keeps_its_picture_only() -> None:
    clean = without_place(png())
    assert PLACE not in clean
    assert Image.open(io.BytesIO(clean)).size == (8, 8)


@pytest.mark.parametrize("order", ["<", ">"])
def test_places_in_heic_and_pdf_are_blanked_where_they_stand(order: str) -> None:
    for data in (heic(order), b"%PDF-1.7\n" + heic(order)[24:]):
        clean = without_place(data)
        assert len(clean) == len(data)
        assert struct.pack(order + "6I", 47, 1, 12, 1, 19, 2) not in clean
        assert PLACE not in clean
        assert clean.endswith(b"picture")


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"hello",
        b"<svg onload=alert(1)>",
        b"GIF89a",
        b"\xff\xd8\xff",
        b"\x89PNG\r\n\x1a\n",
        b"PK\x03\x04",
        jpeg()[:300],
    ],
)
def test_what_is_no_photo_is_refused_and_nothing_kept(tmp_path: Path, data: bytes) -> None:
    with_job(tmp_path)
    reply = visitor(tmp_path).post("/job/joists/photo?about=b", content=data)
    assert reply.status_code == 415
    assert "photo" in reply.json()["said"] or "broken" in reply.json()["said"]
    assert not (tmp_path / "photos").exists() or not list((tmp_path / "photos").iterdir())


def test_a_photo_is_named_by_the_program_and_served_to_be_kept(tmp_path: Path) -> None:
    with_job(tmp_path)
    client = visitor(tmp_path)
    said: list[Any] = [client.post("/job/joists/photo?about=../../b/seat%00", content=jpeg()).json() for _ in range(2)]
    assert [one["place"] for one in said] == ["photos/b-seat-1.jpg", "photos/b-seat-2.jpg"]
    kept = (tmp_path / "photos" / "b-seat-1.jpg").read_bytes()
    assert hashlib.sha256(kept).hexdigest() == said[0]["sha256"]
    assert said[0]["sha256"][:16] in said[0]["evidence"]
    reply = client.get("/job/joists/kept/photos/b-seat-1.jpg")
    assert reply.content == kept
    assert reply.headers["content-disposition"].startswith("attachment")
    assert client.get("/job/joists/kept/photos/..%2Fjoists.toml").status_code == 404


def test_a_folder_of_photos_that_is_a_link_is_not_followed(tmp_path: Path) -> None:
    inside, outside = tmp_path / "in", tmp_path / "out"
    inside.mkdir()
    outside.mkdir()
    (inside / "photos").symlink_to(outside)
    with_job(inside)
    client = visitor(inside)
    assert client.post("/job/joists/photo?about=b", content=jpeg()).status_code == 409
    assert not list(outside.iterdir())
    (outside / "x.jpg").write_bytes(jpeg())
    assert client.get("/job/joists/kept/photos/x.jpg").status_code == 404


def test_more_than_is_taken(tmp_path: Path) -> None:
    with_job(tmp_path)
    client = visitor(tmp_path)
    assert client.post("/job/joists/photo?about=b", content=jpeg() + bytes(15_000_000)).status_code == 413
