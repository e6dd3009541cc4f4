"""Words of an [[existing]] entry that speak against it, whoever confirms it; and the answers that settle them."""

from __future__ import annotations

from typing import Any

import pytest

from beamcheck.checks.loadpath.existing_words import word_checks
from beamcheck.model.existing import Existing

BY = "letter of the engineer of record, 3 May 2025"


def asked(what: str, material: Any = "wood", **more: Any) -> list[str]:
    under = Existing(name="wall", what=what, material=material, confirmed_by=BY, **more)
    return [one.id.partition("/")[2] for check in word_checks("B1", under, 1000.0) for one in check.questions]


@pytest.mark.parametrize(("what", "material"), [
    ("rotten sill beam", "wood"), ("decayed post, termites", "wood"), ("crumbling brick pier", "masonry"),
    ("brick wall cracked through", "masonry"),
])  # fmt: skip
def test_decay(what: str, material: str) -> None:
    assert asked(what, material) == ["existing_sound"]
    assert not asked(what, material, meant={"what": "seen by the engineer, sound where it carries"})


@pytest.mark.parametrize(("what", "material"), [
    ("gypsum board partition", "wood"), ("non-bearing partition", "wood"), ("hollow boxed column for looks", "wood"),
    ("2x4 partition that does not bear", "wood"), ("suspended ceiling grid", "steel"), ("window frame", "wood"),
    ("stack of loose bricks", "masonry"), ("kitchen cabinet", "wood"), ("curtain wall of glass", "other"),
    ("ledger nailed to the siding", "wood"), ("wall without a beam under it", "wood"),
])  # fmt: skip
def test_what_carries_nothing(what: str, material: str) -> None:
    assert asked(what, material) == ["existing_carries"]


@pytest.mark.parametrize("what", [
    "tree", "a window under the seat", "cantilevered joists", "door frame", "door trim", "gypsum board", "plaster",
    "plaster ceiling", "crown molding", "stud wall over a window", "brick wall over the garage door, no lintel",
    "nothing", "no post under it", "rope", "glass block", "sofa", "stud wall, studs removed", "wall with a pocket door",
    "newel post", "plywood", "two nails", "pipe", "non structural wall",
])  # fmt: skip
def test_what_is_no_support(what: str) -> None:
    assert set(asked(what, "other")) == {"existing_carries"}
    assert not asked(what, "other", meant={"what": "seen by the engineer: it does carry"})


@pytest.mark.parametrize("what", [
    "window header", "door post", "treated post", "street wall", "header over the window", "ceiling joists",
    "stud wall with gypsum board", "plastered brick wall", "plaster on a stone wall", "4x6 posts beside the door",
    "post of a whole tree trunk", "jack studs and king stud at the window", "lintel over the door", "tile floor slab",
    "stud wall with 4x8 header over the window", "fireplace wall of stone", "stump", "chimney breast, invented",
    "steel beam above the doorway", "pipe column", "piles cut off level", "concrete wall under the stairs",
    "plywood on blocking", "joists on a ledger, 3 nails each", "triple studs in the wall beside the window",
    "steel column behind the curtain wall", "stud wall, not a curtain wall", "ledger on studs, not over the siding",
    "header over the window wall", "stud wall, window wall beside it", "spandrel beam, the curtain wall hangs on it",
])  # fmt: skip
def test_what_is_one_though_its_words_hold_such_a_word(what: str) -> None:
    assert "existing_carries" not in asked(what, "other")


@pytest.mark.parametrize(("what", "material"), [
    ("concrete block wall", "wood"), ("2x6 stud wall with top plates", "steel"), ("2x6 stud wall", "concrete"),
])  # fmt: skip
def test_another_material_than_its_words_say(what: str, material: str) -> None:
    """NDS 2018 3.10.2 (memory): wood under a seat is pressed across its grain; concrete and steel are not asked."""
    assert asked(what, material) == ["existing_made_of"]


def test_bare_soil_needs_a_footing() -> None:
    """IRC Table R401.4.1 (memory): 1,500 psf for the weakest soil, so that 12,000 lb take 8 ft2."""
    under = Existing(name="pad", what="bare soil", material="ground", confirmed_by=BY)
    (check,) = word_checks("P1", under, 12000.0)
    assert "8.0 ft2" in check.notes[0] and check.questions[0].id == "pad/footing"
    assert asked("bare soil", "other") == asked("what is there", "ground") == ["footing"]
    assert asked("concrete footing on soil", "concrete") == asked("concrete footing", "ground") == []


@pytest.mark.parametrize(("what", "material"), [
    ("stud wall with double top plate on studs under each seat", "wood"), ("load-bearing partition", "wood"),
    ("post, no rot", "wood"), ("wood plate on a concrete block wall", "wood"), ("stone wall", "concrete"),
    ("plate cast into wall", "steel"), ("wall", "masonry"), ("concrete block wall", "masonry"),
])  # fmt: skip
def test_ordinary_words(what: str, material: str) -> None:
    assert not asked(what, material)


@pytest.mark.parametrize(("letter", "takes", "asks"), [
    ("letter of the engineer of record, 3 May 2025, for 2,000 lb only", 8000.0, True),
    ("letter of the engineer of record, 3 May 2025, good for 9 kN", 8000.0, True),  # 2,023 lb
    ("letter of the engineer of record, 3 May 2025: 8 kips down, 1,000 lb up", 8000.0, False),
    ("letter of the engineer of record, 3 May 2025: 12,000 pounds", 8000.0, False),
    ("letter of the engineer of record, 3 May 2025: 35.6 kN", 8000.0, False),  # 8,003 lb
    ("letter of the engineer of record, 3 May 2025: 600 lb/ft", 8000.0, False),
    ("letter of the engineer of record, 3 May 2025: 2,000 lb", None, True),
    ("letter of the engineer of record, 3 May 2025, for 2000#", 8000.0, True),
    ("letter of the engineer of record, 3 May 2025, for 2 tons", 8000.0, True),  # 4,000 lb
    ("letter of the engineer of record, 3 May 2025, for 4 tons", 8000.0, False),
    ("letter of the engineer of record, 3 May 2025, detail 3 #2", 8000.0, False),
    ("letter of the engineer of record, 3 May 2025", None, False),
    ("letter of the engineer of record, 3 May 2025: 5,000 lb at the corner, 8,000 lb elsewhere", 8000.0, False),
    ("letter of the engineer of record, 3 May 2025: 1 lb", 8000.0, True),
    ("letter of the engineer of record, 3 May 2025: 0 lb", None, False),
    ("letter of the engineer of record, 3 May 2025: 0 lb", 8000.0, False),
    ("letter of the engineer of record, 3 May 2025: uplift of 8,000 lb", 1.0, True),
])  # fmt: skip
def test_a_paper_answers_for_the_figure_that_it_names(letter: str, takes: float | None, asks: bool) -> None:
    given: dict[str, Any] = {} if takes is None else {"takes": f"{takes} lb"}
    under = Existing(name="wall", what="stone wall", material="masonry", confirmed_by=letter, **given)
    found = [check for check in word_checks("B1", under, 1000.0) if check.id == "path.takes_said"]
    assert bool(found) == asks
    if not found:
        return
    question = found[0].questions[0]
    for answer in question.answers:
        meant: dict[str, Any] = dict(given)
        for path, value in answer.sets:
            if path.endswith(".meant.takes"):
                meant["meant"] = {"takes": value}
            else:
                meant["takes"] = value
        settled = Existing(name="wall", what="stone wall", material="masonry", confirmed_by=letter, **meant)
        assert not [one for one in word_checks("B1", settled, 1000.0) if one.id == "path.takes_said"]


@pytest.mark.parametrize(("takes", "figure"), [("2,500 lb", "2,000 lb"), (None, "2,000 lb"), ("2,000 lb", "")])
def test_a_figure_for_what_lifts_is_none_for_what_presses(takes: str | None, figure: str) -> None:
    given: dict[str, Any] = {} if takes is None else {"takes": takes}
    letter = "letter of the engineer of record, 3 May 2025: 2,000 lb down, 3,000 lb up"
    under = Existing(name="wall", what="stone wall", confirmed_by=letter, takes_uplift="3,000 lb", **given)
    found = [check for check in word_checks("B1", under, 1000.0) if check.id == "path.takes_said"]
    assert [check.questions[0].answers[0].sets[0][1] for check in found] == ([figure] if figure else [])


@pytest.mark.parametrize(("words", "takes", "uplift", "fields"), [
    ("8 kips up, 1,000 lb down", "8,000 lb", None, ["takes"]),
    ("uplift of 8,000 lb", "8,000 lb", None, ["takes"]),
    ("500 lb sideways, takes 8,000 lb", "8,000 lb", None, []),
    ("good for up to 8,000 lb", "8,000 lb", None, []),
    ("8 kips down, 1,000 lb of uplift", "8,000 lb", "5,000 lb", ["takes_uplift"]),
    ("8 kips down, 1,000 lb up", "8,000 lb", "1,000 lb", []),
    ("8 kips down", "8,000 lb", "1,000 lb", []),
    ("uplift capacity 8,000 lb", "8,000 lb", None, ["takes"]),
    ("8,000 lb net uplift", "8,000 lb", None, ["takes"]),
    ("lateral capacity of 8,000 lb", "8,000 lb", None, ["takes"]),
    ("8 kips down; uplift capacity: 1,000 lb", "8,000 lb", "5,000 lb", ["takes_uplift"]),
    ("1,000 lb uplift 8,000 lb down", "8,000 lb", "1,000 lb", []),
    ("uplift 1,000 lb 8,000 lb gravity", "8,000 lb", "1,000 lb", []),
    ("lateral 8,000 lb gravity 1,000 lb", "8,000 lb", None, ["takes"]),
    ("8,000 lb per seat, uplift 1,000 lb", "8,000 lb", "1,000 lb", []),
    ("8,000 lb per seat; 1,000 lb hold-down", "8,000 lb", "1,000 lb", []),
    ("hold-down 8,000 lb", "8,000 lb", None, ["takes"]),
])  # fmt: skip
def test_a_figure_counts_the_way_that_its_words_say(
    words: str, takes: str, uplift: str | None, fields: list[str]
) -> None:
    letter = f"letter of the engineer of record, 3 May 2025: {words}"
    under = Existing(name="wall", what="stone wall", confirmed_by=letter, takes=takes, takes_uplift=uplift)
    found = [check for check in word_checks("B1", under, 1000.0) if check.id == "path.takes_said"]
    assert [check.questions[0].field for check in found] == [f"existing.wall.{field}" for field in fields]
    presses = " down" in words or "gravity" in words
    assert all(("no force that presses" in one.notes[0]) is not presses for one in found if fields == ["takes"])
    assert not any("no force" in check.notes[0] for check in found if fields == ["takes_uplift"])
    for check in found:
        for answer in check.questions[0].answers:
            more: dict[str, Any] = {"takes": takes, "takes_uplift": uplift}
            for path, value in answer.sets:
                more |= {"meant": {path.rpartition(".")[2]: value}} if ".meant." in path else {path[14:]: value}
            settled = Existing(name="wall", what="stone wall", confirmed_by=letter, **more)
            assert not [one for one in word_checks("B1", settled, 1000.0) if one.id == "path.takes_said"]


@pytest.mark.parametrize(("words", "sideways", "figure"), [
    ("8 kips down, 200 lb sideways", "900 lb", "200 lb"),
    ("8 kips down, thrust of 200 lb", "900 lb", "200 lb"),
    ("8 kips down, 200 lb lateral", "200 lb", ""),
    ("8 kips down", "900 lb", ""),
])  # fmt: skip
def test_a_figure_for_a_push_sideways_is_that_of_the_paper(words: str, sideways: str, figure: str) -> None:
    letter = f"letter of the engineer of record, 3 May 2025: {words}"
    under = Existing(name="wall", what="stone wall", confirmed_by=letter, takes="8,000 lb", takes_sideways=sideways)
    found = [check for check in word_checks("B1", under, 1000.0) if check.id == "path.takes_said"]
    assert [check.questions[0].answers[0].sets for check in found] == (
        [(("existing.wall.takes_sideways", figure),)] if figure else []
    )
