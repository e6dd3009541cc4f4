"""A moisture profile, from the face to the core of a timber: what each result would rule out, said before it is made.

It rules out a moisture, a season, a decay; never a species or a grade, and it never shows strength.
"""

from __future__ import annotations

from ...errors import BeamcheckError
from ...model.conditions.air import Climate
from ...model.conditions.survey import Survey
from ...model.stock import Stock
from ...units import show
from ...values.judgment import judgment
from ...values.lumber import read_size
from ..core.result import Table
from ..core.wood.material import is_unknown, reference_values, rows_to_screen, wood_of
from ..core.wood.moist import core_readings, in_moisture
from ..movement.air import lives_in
from ..movement.timber import GREEN, timber_moves
from .findings import thresholds

TITLE = "Moisture profile, face to core at three places"
NEVER = "A profile rules out no species and no grade, and it never shows strength."
PROPERTIES = (("F_b", "bending"), ("F_t", "tension"), ("F_v", "shear"), ("F_c_perp", "bearing"), ("F_c", "compression"),
              ("E", "stiffness"))  # fmt: skip


def profile_table(stock: Stock, climate: Climate | None) -> Table | None:
    """What a profile says: of one that was made, else of each result that it may have."""
    if stock.survey is None or read_size(stock.size).surface == "round":
        return None
    made = core_readings(stock)
    rows = tuple(_found(stock, stock.survey)) if made else tuple(_would_say(stock, climate))
    note = f"As {'made' if made else 'it would be read, before it is made'}. {NEVER}"
    return Table(TITLE, ("where", "reading", "what it says") if made else ("reading", "what it rules out"), rows, note)


def _would_say(stock: Stock, climate: Climate | None) -> list[tuple[str, ...]]:
    wet_from, lives = judgment("wettest wood that counts as dry").value, lives_in(climate)
    more = judgment("core wetter than the face").value
    dry = f"wet service is ruled out: {_off(stock)}; {_shrinks(stock, wet_from, climate)}"
    if stock.moisture == "wet":
        dry = f"nothing, as it is wet in service; {_shrinks(stock, wet_from, climate)}"
    return [
        (f"{wet_from:g} % or less from face to core", dry),
        (f"over {wet_from:g} % in the core, whatever the face reads",
         f"that it counts as dry is ruled out: {_on(stock)}; {_shrinks(stock, GREEN, climate)}"),
        (f"over {thresholds()['moisture']['grader']} % anywhere",
         f"that its soundness needs no look is ruled out: a grader looks for decay, over "
         f"{thresholds()['moisture']['engineer']} % an engineer"),
        (f"core {more:g} points or more over the face",
         "that it has come to rest is ruled out: it goes on drying and shrinking, and its checks open"),
        ("the face alone", f"nothing: a face follows the season, here between {lives.low:.3g} and {lives.high:.3g} % "
                           f"({lives.why}); only the core keeps what the timber still has to lose"),
    ]  # fmt: skip


def _found(stock: Stock, survey: Survey) -> list[tuple[str, ...]]:
    """Of each core reading: how it stands to the nearest reading at the face."""
    cores = core_readings(stock)
    faces = [one for one in survey.readings if one not in cores]
    more = judgment("core wetter than the face").value
    rows: list[tuple[str, ...]] = []
    for core in cores:
        reading, where = f"{core.moisture:g} % in the core", show(core.at, "length")
        near = min(faces, key=lambda one: abs(one.at - core.at), default=None)
        if near is None:
            rows.append((where, reading, "no reading nearer the face to hold it against"))
            continue
        drying = core.moisture - near.moisture >= more
        says = "still drying: it goes on shrinking, and its checks open" if drying else "at rest"
        rows.append((where, f"{reading}, {near.moisture:g} % nearer the face", says))
    return rows


def _factors(stock: Stock) -> tuple[str, str]:
    """What wet service takes, in words: of the strengths, and of the sag in time."""
    try:
        values = rows_to_screen(stock)[0] if is_unknown(stock) else reference_values(stock)
        dry, wet = (wood_of(in_moisture(stock, dry=dry), values) for dry in (True, False))
    except BeamcheckError:
        return "", ""
    lost = [
        f"{words} x {float(getattr(wet, name).C_M.value):g}" for name, words in PROPERTIES
        if float(getattr(wet, name).C_M.value) < 1.0
    ]  # fmt: skip
    return ", ".join(lost) or "no factor of strength", f"{float(wet.K_cr.value):g} to {float(dry.K_cr.value):g}"


def _off(stock: Stock) -> str:
    lost, creep = _factors(stock)
    low, high = creep.split(" to ") if creep else ("", "")
    return f"{lost} and creep {low} in place of {high} do not count" if creep else "its factors do not count"


def _on(stock: Stock) -> str:
    lost, creep = _factors(stock)
    return f"{lost} and creep {creep.split(' to ')[0]} count" if creep else "its factors count"


def _shrinks(stock: Stock, start: float, climate: Climate | None) -> str:
    """What is left to shrink from a moisture, of the deeper side."""
    as_if = in_moisture(stock, dry=True, metered=start)
    woods = [as_if.model_copy(update={"species": one}) for one in stock.candidates] or [as_if]
    found = [timber_moves(one, climate) for one in woods]
    sides = [max(one.sides, key=lambda side: side.size) for one in found if one is not None]
    if len(sides) < len(found):
        return "how it shrinks is in no table"
    most = min(sides, key=lambda side: side.at_most)
    return f"its {most.side} of {show(most.size, 'length')} shrinks by at most {show(-most.at_most, 'small length')}"
