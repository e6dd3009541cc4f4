"""Figures that are probably slips: refused with what was perhaps meant, unless the job says why they are right.

Nothing here is a rule of strength. Where a figure is odd, one sentence says why, one question what was meant, and
`meant = { field = "reason" }` takes it as it stands. The figures are rows of `tables/judgment_slips.csv`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

from ...errors import BeamcheckError
from ...units import show
from ...values.judgment import judgment
from ...values.loads import told
from ...values.lumber import Size, read_size
from ..beams import Beam, beam_length
from ..classes import is_frame
from ..fields.base import Insisting
from ..fields.places import Fault, Path, feet, inches
from ..job import About
from ..loads import KINDS, Load
from ..posts import Post
from ..roofs import Rafter, slope_length
from ..sticks import Stick, Support
from ..stock import Stock
from .entries import Entry, size_of

if TYPE_CHECKING:
    from ..frames.frame import Frame, FrameFoot, FrameMember

_PSF = 1.0 / 144.0  # lbf/in2
_KPA = 20.885  # psf


def _limit(name: str) -> float:
    return judgment(f"slip: {name}").value


def slips_of(entry: Entry, stocks: Mapping[str, Entry], carriers: Collection[str]) -> Iterator[Fault]:
    """Probable slips of one entry. `carriers` are the names of all that something rests on."""
    piece, path = entry.piece, entry.path
    if isinstance(piece, Stock):
        yield from _of_the_wood(path, piece)
    elif isinstance(piece, Post):
        yield from _of_a_post(path, piece)
        yield from _of_loads(path, piece)
    elif is_frame(piece):
        yield from _of_a_frame(path, piece)
    elif isinstance(piece, Stick):
        size = size_of(stocks.get(piece.stock))
        yield from _of_a_stick(path, piece, size)
        if isinstance(piece, Beam):
            yield from _of_a_beam(path, piece, size, lone=piece.spacing is None and piece.name not in carriers)
        elif isinstance(piece, Rafter):
            yield from _of_a_rafter(path, piece, size)
        yield from _of_loads(path, piece)


def slips_of_the_head(about: About) -> Iterator[Fault]:
    """Ground snow that is hardly believed."""
    if about.ground_snow is None or about.insists_on("ground_snow"):
        return
    psf = about.ground_snow[0] / _PSF
    least, most = _limit("ground snow, least"), _limit("ground snow, most")
    if 0.0 < psf < least:
        guess = f"{psf:g} kPa" if least <= psf * _KPA <= most else f"{10 * psf:g} psf"
        yield (
            ("job", "ground_snow"),
            _slip(f"{psf:g} psf of ground snow is less than any map has", guess, "ground_snow"),
        )
    elif psf > most:
        text = f"{psf:,.4g} psf of ground snow is more than any map has, high mountains apart"
        yield ("job", "ground_snow"), _slip(text, f"{psf / 10:g} psf", "ground_snow")


def _slip(odd: str, guess: str, key: str) -> str:
    """What is odd, what was perhaps meant, and how to insist."""
    asked = f"did you mean {guess}?" if guess else "is it right?"
    return f'{odd}: {asked} If it is right, say why: meant = {{ {key} = "..." }}'


def _feet_for_inches(x: float, low: float, high: float) -> str:
    """The same number in feet, where that is believed."""
    return feet(12.0 * x) if low <= 12.0 * x <= high else ""


def _inches_for_feet(x: float, low: float, high: float) -> str:
    return f"{x / 12.0:g} in" if low <= x / 12.0 <= high else ""


def _of_the_wood(path: Path, stock: Stock) -> Iterator[Fault]:
    reading = stock.measured_moisture
    if reading is not None and not stock.insists_on("measured_moisture"):
        low, high = _limit("moisture, least"), _limit("moisture, most")
        if reading < low:
            guess = f"{10 * reading:g} %" if low <= 10 * reading <= high else ""
            text = f"{reading:g} % is drier than wood in a house gets"
            yield (*path, "measured_moisture"), _slip(text, guess, "measured_moisture")
        elif reading > high:
            guess = f"{reading / 10:g} %" if low <= reading / 10 <= high else ""
            yield (
                (*path, "measured_moisture"),
                _slip(f"{reading:g} % is more than a meter reads", guess, "measured_moisture"),
            )
    if not stock.insists_on("size") and stock.grade_from == "stamp":
        yield from _nominal_as_measured(path, stock.size)


def _nominal_as_measured(path: Path, written: str) -> Iterator[Fault]:
    """Stamped lumber is planed as a rule; measured sides in whole inches are then the nominal ones."""
    try:
        size = read_size(written)
        if size.surface != "measured" or size.b % 1.0 or size.d % 1.0:
            return
        name = f"{size.b:g}x{size.d:g}"
        dressed = read_size(f"{name} dressed")
    except BeamcheckError:
        return
    text = f"{written} is the nominal size: stamped and dressed it measures {inches(dressed.b)} x {inches(dressed.d)}"
    guess = f'size = "{name} dressed", or size = "{name} rough" where it was measured so'
    yield (*path, "size"), _slip(text, guess, "size")


def _of_a_post(path: Path, post: Post) -> Iterator[Fault]:
    low, high = _limit("post, least height"), _limit("post, most height")
    if post.insists_on("height"):
        return
    if post.height < low:
        text = f"a post {inches(post.height)} high is hardly a post"
        yield (*path, "height"), _slip(text, _feet_for_inches(post.height, low, high), "height")
    elif post.height > high:
        text = f"a post {post.height / 12:g} ft high is taller than a house"
        yield (*path, "height"), _slip(text, _inches_for_feet(post.height, low, high), "height")


def _of_a_stick(path: Path, stick: Stick, size: Size | None) -> Iterator[Fault]:
    """Spacing of repeated pieces, and how far they reach."""
    spacing = stick.spacing
    if spacing is None or size is None or stick.insists_on("spacing"):
        return
    low, high = _limit("spacing, least"), _limit("spacing, most")
    breadth = (size.d if stick.laid == "flat" else size.b) * stick.plies
    thin = breadth <= _limit("thin piece")
    if stick.members * spacing > _limit("row, longest") and not stick.insists_on("members"):
        text = f"{stick.members} of them {inches(spacing)} apart reach over {stick.members * spacing / 12:,.4g} ft"
        yield (*path, "members"), _slip(text, "", "members")
    if spacing < low and abs(spacing - breadth) > _limit("side by side"):
        guess = f"{10 * spacing:g} in" if low <= 10 * spacing <= high else _feet_for_inches(spacing, low, high)
        text = f"{inches(spacing)} from middle to middle of pieces {inches(breadth)} thick"
        yield (*path, "spacing"), _slip(text, guess, "spacing")
    elif thin and spacing > high:
        text = f"pieces {inches(breadth)} thick at {spacing / 12:g} ft from middle to middle"
        yield (*path, "spacing"), _slip(text, _inches_for_feet(spacing, low, high), "spacing")


def _of_a_beam(path: Path, beam: Beam, size: Size | None, *, lone: bool) -> Iterator[Fault]:
    places = sorted(support.at for support in beam.supports)
    if size is not None and len(places) > 1 and not beam.insists_on("at"):
        depth = size.b if beam.laid == "flat" else size.d
        longest = max(b - a for a, b in pairwise(places))
        if beam.clear is not None:
            yield from _span((*path, "clear"), beam.clear, beam.clear, depth)
        else:
            where = (*path, "supports", len(beam.supports) - 1, "at")
            yield from _span(where, places[-1] - places[0], longest, depth)
    yield from _too_long(path, "length" if beam.length is not None else "supports", beam_length(beam), beam)
    for i, support in enumerate(beam.supports):
        yield from _seat((*path, "supports", i), support, beam)
    if not lone:
        return
    least = _limit("lone beam, least width")
    beside = [load for load in beam.carries if not _only_wind(load)]
    alone = size is not None and size.b > _limit("thin piece") and len(beside) == 1
    if size is not None and alone:
        least = max(least, _limit("lone beam, least depths") * (size.b if beam.laid == "flat" else size.d))
    for i, load in enumerate(beam.carries):
        takes = load.live is not None or load.roof_live or load.snow or load.roof or load.floor
        if load.width is None or not takes or _meant("width", beam, load):
            continue
        if load.width < least:
            text = f"one beam alone that takes a strip only {inches(load.width)} wide"
            most = _limit("load, most width")
            yield (*path, "carries", i, "width"), _slip(text, _feet_for_inches(load.width, least, most), "width")


def _only_wind(load: Load) -> bool:
    """It comes with the same strip as the roof beside it."""
    return not (load.roof or load.floor) and all(getattr(load, kind) is None for kind in KINDS if kind != "wind")


def _span(path: Path, whole: float, longest: float, depth: float, key: str = "at") -> Iterator[Fault]:
    """`whole` between the outer supports, `longest` between two neighbors."""
    low, high = _limit("span, least depths") * depth, _limit("span, most depths") * depth
    if whole < low:
        text = f"{inches(whole)} between the supports is only {whole / depth:.2g} times the depth of {inches(depth)}"
        yield path, _slip(text, _feet_for_inches(whole, low, high), key)
    elif longest > high:
        text = f"a span of {longest / 12:.4g} ft is {longest / depth:.3g} times the depth of {inches(depth)}"
        yield path, _slip(text, _inches_for_feet(longest, low, high), key)


def _too_long(path: Path, field: str, length: float, piece: Insisting) -> Iterator[Fault]:
    if length > _limit("stick, longest") and not piece.insists_on("length"):
        text = f"one stick {length / 12:.4g} ft long is not sold: where it is spliced, describe two pieces that meet"
        yield (*path, field), _slip(text, "", "length")


def _seat(path: Path, support: Support | FrameFoot, piece: Insisting) -> Iterator[Fault]:
    most = _limit("seat, longest")
    if support.bearing is not None and support.bearing > most and not piece.insists_on("bearing"):
        text = f"a seat {support.bearing / 12:.4g} ft long"
        yield (*path, "bearing"), _slip(text, _inches_for_feet(support.bearing, 1.0, most), "bearing")


def _of_a_frame(path: Path, frame: Frame) -> Iterator[Fault]:
    """Frames stand apart, take a strip of roof or floor, and have seats of inches."""
    apart, most = _limit("frames, least apart"), _limit("load, most width")
    if frame.spacing is not None and frame.spacing < apart and not frame.insists_on("spacing"):
        text = f"frames {inches(frame.spacing)} from middle to middle"
        yield (*path, "spacing"), _slip(text, _feet_for_inches(frame.spacing, apart, most), "spacing")
    low, high = _limit("post, least height"), _limit("post, most height")
    if frame.height is not None and frame.height < low and not frame.insists_on("height"):
        text = f"a bent {inches(frame.height)} high"
        yield (*path, "height"), _slip(text, _feet_for_inches(frame.height, low, high), "height")
    least = _limit("knee brace, least")
    for field in ("brace_on_beam", "brace_on_post"):
        along = getattr(frame, field)
        if along is not None and along < least and not frame.insists_on(field):
            text = f"a knee brace that ends {inches(along)} from its corner"
            yield (*path, field), _slip(text, _feet_for_inches(along, least, high), field)
    for i, foot in enumerate(frame.feet):
        yield from _seat((*path, "feet", i), foot, foot)
    for i, member in enumerate(frame.members):
        yield from _of_loads((*path, "members", i), member)
        for j, load in enumerate(member.carries):
            if load.width is None or not (load.live or load.roof_live or load.snow) or _meant("width", member, load):
                continue
            if load.width < _limit("lone beam, least width"):
                text = f"a frame that takes a strip only {inches(load.width)} wide"
                guess = _feet_for_inches(load.width, apart, most)
                yield (*path, "members", i, "carries", j, "width"), _slip(text, guess, "width")


def _of_a_rafter(path: Path, rafter: Rafter, size: Size | None) -> Iterator[Fault]:
    if rafter.slope > _limit("rafter, steepest") and not rafter.insists_on("slope"):
        turned = show(90.0 - rafter.slope, "slope")
        yield (*path, "slope"), _slip(f"{rafter.slope:.3g} degrees is a wall rather than a roof", turned, "slope")
    if size is not None and not rafter.insists_on("run"):
        depth = size.b if rafter.laid == "flat" else size.d
        slant = slope_length(rafter) - rafter.wall.at
        yield from _span((*path, "run"), slant, slant, depth, "run")
    yield from _too_long(path, "run", slope_length(rafter), rafter)
    yield from _seat((*path, "wall"), rafter.wall, rafter)


def _of_loads(path: Path, piece: Stick | Post | FrameMember) -> Iterator[Fault]:
    """Loads per area that no house has, and strips wider than any."""
    low, high, widest = _limit("load per area, least"), _limit("load per area, most"), _limit("load, most width")
    for i, load in enumerate(piece.carries):
        at = partial(_in_load, path, i)
        if load.width is not None and load.width > widest and not _meant("width", piece, load):
            text = f"a strip {load.width / 12:.4g} ft wide"
            yield at("width"), _slip(text, _inches_for_feet(load.width, 6.0, widest), "width")
        for kind in ("dead", "live", "roof_live", "snow", "wind"):
            amount = getattr(load, kind)
            if amount is None or amount[1] != "area" or _meant(kind, piece, load):
                continue
            psf = abs(amount[0]) / _PSF
            if psf > high and not told(load.what, "heavy"):
                guess = f"{psf / 10:g} psf" if psf <= 10 * high else ""
                yield at(kind), _slip(f"{psf:,.4g} psf is more than a house carries", guess, kind)
            elif kind == "live" and 0.0 < psf < low:
                guess = f"{psf:g} kPa" if 10.0 <= psf * _KPA <= 100.0 else f"{10 * psf:g} psf"
                yield at(kind), _slip(f"a live load of {psf:g} psf is less than any code asks for", guess, kind)


def _meant(field: str, piece: Insisting, load: Load) -> bool:
    """Said at the load itself or at the piece that carries it."""
    return load.insists_on(field) or piece.insists_on(field)


def _in_load(path: Path, i: int, kind: str) -> Path:
    return (*path, "carries", i, kind)
