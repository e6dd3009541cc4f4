"""Posts and rafters on the bench: lengths along the stick, by hand."""

from __future__ import annotations

from xml.etree import ElementTree

from beamcheck.checks.core.pictures.others import PostPicture, RafterPicture, Way
from beamcheck.sheet.shop.sticks import post_on_the_bench, rafter_on_the_bench

SVG = "{http://www.w3.org/2000/svg}"


def _words(svg: str) -> str:
    return " | ".join(text.text or "" for text in ElementTree.fromstring(svg).iter(f"{SVG}text"))


def test_a_rafter_is_laid_out_along_its_top_edge() -> None:
    """8 ft of run at 8:12 is 96 / cos 33.69 = 115.38 in; with 12 in of tail 127.38 in, 10 ft 7 3/8 in (by hand)."""
    picture = RafterPicture("R1", 96.0, 33.690068, 7.25, 12.0, "plate", "ridge", True, "", 806.0, 0.0, 793.0, 82.0,
                            seat_cut=1.25, seat=2.25)  # fmt: skip
    seen = _words(rafter_on_the_bench(picture, "R1", "US", "k"))
    assert "10 ft 7 3/8 in" in seen
    assert "12 in" in seen
    assert "8:12" in seen
    assert "birdsmouth: 1 1/4 in square to the edge, level" in seen


def test_a_rafter_without_tail_or_birdsmouth_is_a_stick_with_two_plumb_cuts() -> None:
    picture = RafterPicture("R1", 96.0, 33.690068, 7.25, 0.0, "plate", "beam", False, "", 806.0, 0.0, 0.0, 0.0)
    seen = _words(rafter_on_the_bench(picture, "R1", "US", "k"))
    assert "9 ft 7 3/8 in" in seen
    assert "birdsmouth" not in seen
    assert "top at beam" in seen


def test_a_post_lies_with_its_foot_at_the_left_and_its_braces_are_marked() -> None:
    ways = (Way("deep way", 7.5, 48.0, None), Way("thin way", 5.5, None, None))
    picture = PostPicture("P1", 102.0, ways, "footing", (), 6741.0, ("pinned", "pinned"))
    seen = _words(post_on_the_bench(picture, "P1", "US", "k"))
    for expected in ("7 1/2 in side", "5 1/2 in side", "8 ft 6 in", "4 ft", "8 ft", "foot: on footing", "top"):
        assert expected in seen
