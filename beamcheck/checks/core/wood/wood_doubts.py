"""What keeps wood from passing whatever its figures are: how its grade is known, its size, what was done to it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ....errors import BeamcheckError
from ....model.fields.evidence import of_another_piece, read_evidence
from ....model.fields.marks import Marked
from ....model.fields.stamp import agency_named, read_stamp
from ....model.stock import Stock
from ....records import dataclass
from ....units import show
from ....values.judgment import judgment
from ....values.loads import told
from ....values.lumber import DesignValues, Size, agencies_apart, highest_values, read_size
from ....values.species import known_species, species_in
from ..asking.question import PlausibleAnswer, Question, ask
from ..result import Check

ENGINEERED = "NDS 2018 chapter 5"
_MADE_GRADE = {  # layups, grades of composite lumber by their modulus, grades of steel with their number
    "glulam": re.compile(r"\b\d{2}F[\s-]?(?:V\d+|E\d+|\d\.\dE)", re.IGNORECASE),
    "composite": re.compile(r"\b\d\.\d{1,2}E\b", re.IGNORECASE),
    "steel": re.compile(r"\bA\d{1,4}(?:,?\s*(?:grade|gr\.?)\s*\d+)?\b", re.IGNORECASE),
}

_CLASSES = {
    "beams and stringers": re.compile(
        r"\bbeams? (?:and|&) stringers?\b|\bB ?& ?S\b|\btimbers? or (?:as )?beams?\b", re.IGNORECASE
    ),
    "posts and timbers": re.compile(
        r"\bposts? (?:and|&) timbers?\b|\bP ?& ?T\b|\bstringers? or (?:as )?posts?\b", re.IGNORECASE
    ),
}


@dataclass(frozen=True)
class WoodDoubt:
    """One thing that is not known of a stock, and the question that would settle it."""

    text: str
    question: Question
    of_bending: bool = False  # of no weight for what only stands upright


def wood_evidence_checks(name: str, doubts: tuple[WoodDoubt, ...], *, upright: bool = False) -> list[Check]:
    """Doubts about the wood of a piece: each keeps it from passing; an upright one is not meant to bend."""
    what, clause = "evidence for the wood", "NDS 2018 4.1"
    return [
        Check.refers("wood.evidence", name, what, clause, doubt.text, ask=doubt.question)
        for doubt in doubts if not (upright and doubt.of_bending)
    ]  # fmt: skip


def named_engineered(piece: Marked) -> list[Check]:
    """A piece whose name is that of engineered wood, which the values of sawn lumber are not for."""
    kind, what = type(piece).__name__.casefold(), "kind of wood"
    found = []
    for field in ("name", "called"):
        words = told(getattr(piece, field), "engineered")
        if not words or piece.insists_on(field):
            continue
        text = f"it is called {getattr(piece, field)!r}: {words[0].says} has rules and values of its own, not run here"
        path, says = f"{kind}.{piece.name}.meant.{field}", "sawn lumber, only called so"
        question = ask("engineered_name", piece.name, path, answers=[PlausibleAnswer(says, ((path, says),))],
                       kind=words[0].says)  # fmt: skip
        found.append(Check.refers("wood.evidence", piece.name, what, ENGINEERED, text, ask=question))
    return found


def stated_grade_doubts(stock: Stock) -> Iterator[WoodDoubt]:
    """Who says that it is of its grade, layup or make, and whether the evidence names it, or another one."""
    open_yet = list(_grade(stock))
    yield from open_yet
    if open_yet:
        return  # what it names is asked once there is evidence
    named, path = f"stock {stock.name!r}", f"stock.{stock.name}.evidence"
    said = made_grades(stock.made, stock.evidence)
    if said and differs(stock.made, stock.grade, stock.evidence):
        other = " or ".join(sorted(said))
        text = f"{named} is entered as {stock.grade}, and the evidence says {other}: {stock.evidence!r}"
        yield WoodDoubt(text, ask("made_grade_differs", stock.name, path, grade=stock.grade, other=other))
    elif stock.made != "composite" and not names_grade(stock.made, stock.grade, stock.evidence):
        text = f"{named} is entered as {stock.grade}, and the evidence does not name that: {stock.evidence!r}"
        yield WoodDoubt(text, ask_made_grade(stock.name, path, stock.grade, stock.evidence))


def ask_made_grade(of: str, path: str, grade: str, evidence: str) -> Question:
    """Evidence that names the layup, make or grade; the best answer is that it says so as well."""
    said = ", ".join(filter(None, [evidence.strip(), grade]))
    answers = [PlausibleAnswer(f"it says {grade} too", ((path, said),))]
    return ask("made_grade", of, path, answers=answers, grade=grade)


def made_grades(made: str, text: str) -> frozenset[str]:
    """The layups, makes or grades of steel that words name."""
    return frozenset(map(_folded, _MADE_GRADE[made].findall(text)))


def names_grade(made: str, grade: str, evidence: str) -> bool:
    """Whether the words name that very grade; a grade with a number has to be named with it."""
    entered, said = made_grades(made, grade), made_grades(made, evidence)
    return any(one == other or one.startswith(f"{other}-") for one in said for other in entered)


def differs(made: str, grade: str, evidence: str) -> bool:
    """Whether the words name others, and not that one; the number of a grade left out is no other."""
    entered, said = made_grades(made, grade), made_grades(made, evidence)
    if not said or not entered or names_grade(made, grade, evidence):
        return False
    return not any(one.startswith(f"{other}-") for one in entered for other in said)


def _folded(grade: str) -> str:
    """'24f v4' and '24FV4' are '24F-V4'; 'A572 Gr. 50' is 'A572-50'."""
    plain = re.sub(r"[\s,-]+(?:GRADE|GR\.?)?\s*", "-", grade.upper())
    return re.sub(r"^(\d\dF)(?!-)", r"\1-", plain)


def wood_doubts(stock: Stock, size: Size, values: DesignValues) -> Iterator[WoodDoubt]:
    """Everything that is in doubt about a stock whose species and grade are said."""
    yield from _grade(stock)
    yield from _letter(stock)
    yield from _engineered(stock)
    yield from _upright_only(stock)
    yield from _other_size(stock, size)
    yield from _other_class(stock, size)
    if size.surface == "rough":
        field, sides = f"stock.{stock.name}.size", f"{size.b:g} in x {size.d:g} in"
        answers = [PlausibleAnswer(sides, ((field, sides), (f"stock.{stock.name}.meant.size", "measured, rough sawn")))]
        text = f"size {stock.size!r} is only a name: measure the least section and enter that"
        yield WoodDoubt(text, ask("measured_size", stock.name, field, answers=answers))
    if values.source.confidence == "low" and (agencies := agencies_open(stock, size)):
        wood, own = f"{values.species} {values.grade}", " and ".join(agencies)
        text = f"{wood}: {own} have values of their own; which of them graded it is not said"
        field = f"stock.{stock.name}.agency"
        answers = [PlausibleAnswer(one, ((field, one),)) for one in agencies]
        yield WoodDoubt(text, ask("agency", stock.name, field, answers=answers, source=stock.grade_from or "stamp"))
    elif values.source.confidence == "low":
        text = f"{values.species} {values.grade}: the tabulated values are recalled with low confidence"
        wood = f"{values.species} {values.grade}"
        yield WoodDoubt(text, ask("low_confidence", stock.name, wood=wood))
    if stock.incised and size.size_class != "dimension":
        text = "incised timber: NDS 2018 4.3.8 gives incising factors for dimension lumber only"
        yield WoodDoubt(text, ask("incised_timber", stock.name))
    yield from _treatment(stock)


def treated_with(stock: Stock) -> str:
    """What treated wood was treated with, as a field or the words of its end tag say; '' where neither does.

    Words of fire outweigh a field that says preservative.
    """
    said = [one.says for one in told(stock.evidence, "treatment")]
    return "fire retardant" if "fire retardant" in said else stock.treated_with or next(iter(said), "")


def _treatment(stock: Stock) -> Iterator[WoodDoubt]:
    """Preservative leaves the values as they are, incising apart; treatment against fire does not (NDS 2018 4.3.8)."""
    if stock.values is not None:
        return
    with_ = treated_with(stock)
    if with_ == "fire retardant" and not stock.treated:
        text = f"entered as not treated, and {stock.evidence!r} says: against fire; its values come from who treated it"
        yield WoodDoubt(text, ask("fire_retardant", stock.name))
    if not stock.treated:
        return
    if with_ == "preservative":
        return
    if not with_:
        text = "treated wood: what it was treated with is not said; against fire its values come from who treated it"
        yield WoodDoubt(text, ask("treated_with", stock.name, f"stock.{stock.name}.treated_with"))
    else:
        text = "treated against fire: its values come from who treated it (NDS 2018 4.3.8)"
        yield WoodDoubt(text, ask("fire_retardant", stock.name))


def _letter(stock: Stock) -> Iterator[WoodDoubt]:
    """Values by letter beyond all that the tables hold."""
    if stock.values is None:
        return
    above = judgment("values by letter over the highest of the tables").value
    high = [
        f"{name} {getattr(stock.values, name):,.0f} psi (the tables end at {most:,.0f})"
        for name, most in highest_values().items() if getattr(stock.values, name) > above * most
    ]  # fmt: skip
    if high:
        text = f"stock {stock.name!r}: the letter gives more than any sawn lumber has: {', '.join(high)}"
        yield WoodDoubt(text, ask("letter_values", stock.name))


def _engineered(stock: Stock) -> Iterator[WoodDoubt]:
    """Words of glued or other engineered wood, which the rules of sawn lumber are not for."""
    source = "" if stock.values is None else stock.values.source
    for text in (stock.name, stock.species, stock.grade, stock.evidence, source):
        if words := told(text, "engineered"):
            found = f"stock {stock.name!r}: {text!r} says {words[0].says}, which has rules and values of its own"
            yield WoodDoubt(found, ask("engineered", stock.name, kind=words[0].says))
            return


def _upright_only(stock: Stock) -> Iterator[WoodDoubt]:
    """Pieces glued lengthwise for studs, which may not bend."""
    if words := told(stock.evidence, "upright only"):
        text = f"stock {stock.name!r}: {stock.evidence!r} says {words[0].says}, and here it bends"
        yield WoodDoubt(text, ask("upright_only", stock.name, kind=words[0].says), of_bending=True)
    if words := told(stock.evidence, "of posts"):
        text = f"stock {stock.name!r}: {stock.evidence!r} is for {words[0].says}, and here it bends"
        field = f"stock.{stock.name}.evidence"
        yield WoodDoubt(text, ask("evidence", stock.name, field, source=stock.grade_from or "letter"), of_bending=True)


def _other_size(stock: Stock, size: Size) -> Iterator[WoodDoubt]:
    """Evidence that names a size, and not that of the entry, by none of the names of the same stick."""
    other, written = other_size(stock.evidence, size)
    if not other:
        return
    field = f"stock.{stock.name}.size"
    text = f"stock {stock.name!r} is entered as {stock.size}, and the evidence says {other}: {stock.evidence!r}"
    answers = [PlausibleAnswer(written, ((field, written),))]
    yield WoodDoubt(text, ask("size_differs", stock.name, field, answers=answers, size=stock.size, other=other))


def _other_class(stock: Stock, size: Size) -> Iterator[WoodDoubt]:
    """Evidence that names the class of a timber, and not that by which it counts: their values differ."""
    named = [each for each, words in _CLASSES.items() if words.search(stock.evidence)]
    counts_as = stock.graded_as or size.size_class.replace("_", " ")
    if stock.values is not None or counts_as not in _CLASSES or len(named) != 1 or counts_as in named:
        return
    field = f"stock.{stock.name}.graded_as"
    text = f"stock {stock.name!r} counts as {counts_as}, and the evidence says {named[0]}: {stock.evidence!r}"
    answers = [PlausibleAnswer(named[0], ((field, named[0]),))]
    asked = ask("class_differs", stock.name, field, answers=answers, one=counts_as, other=named[0])
    yield WoodDoubt(text, asked)


def _other_species(stock: Stock) -> Iterator[WoodDoubt]:
    """Evidence that names species, and not the one that is entered."""
    entered, said = known_species(stock.species), species_in(stock.evidence)
    if not entered or not said or entered in said:
        return
    other, field = said[0], f"stock.{stock.name}.species"
    text = f"stock {stock.name!r} is entered as {stock.species}, and the evidence says {other}: {stock.evidence!r}"
    answers = [PlausibleAnswer(other, ((field, other),))]
    asked = ask("species_differs", stock.name, field, answers=answers, species=stock.species, other=other)
    yield WoodDoubt(text, asked)


def _grade(stock: Stock) -> Iterator[WoodDoubt]:
    """Who says what grade it is, and whether the words are evidence of it."""
    named, field = f"stock {stock.name!r}", f"stock.{stock.name}.evidence"
    if stock.grade_from is None:
        if stock.values is None:
            text = f"{named}: where the grade comes from is not said (stamp, certificate or engineer)"
            yield WoodDoubt(text, ask("grade_from", stock.name, f"stock.{stock.name}.grade_from"))
        return  # the letter that gives the values is the evidence
    if stock.grade_from == "assumed":
        text = f"PRELIMINARY: the grade of {named} is assumed; have it graded"
        yield WoodDoubt(text, ask("grade_assumed", stock.name, f"stock.{stock.name}.grade_from"))
        return
    if not stock.evidence.strip():
        text = f"{named}: the {stock.grade_from} is not described; copy its text into `evidence`"
        yield WoodDoubt(text, ask("evidence", stock.name, field, source=stock.grade_from))
        return
    stamp = read_stamp(stock.evidence, stock.grade)
    if stamp.other_grade:
        text = f"{named} is entered as {stock.grade}, and the evidence says {stamp.other_grade}: {stock.evidence!r}"
        answers = [PlausibleAnswer(stamp.other_grade, ((f"stock.{stock.name}.grade", stamp.other_grade),))]
        asked = ask("grade_differs", stock.name, f"stock.{stock.name}.grade", answers=answers, grade=stock.grade,
                    other=stamp.other_grade)  # fmt: skip
        yield WoodDoubt(text, asked)
        return
    yield from _other_species(stock)
    missing = (
        stamp.missing if stock.grade_from == "stamp"
        else read_evidence(stock.evidence).missing_for("grade") or of_another_piece(stock.evidence)
    )  # fmt: skip
    if missing:
        text = f"{named}: {stock.evidence!r} is no evidence of a {stock.grade_from}: {missing}"
        yield WoodDoubt(text, ask("evidence", stock.name, field, source=stock.grade_from))


MM = 1.0 / 25.4
_SIDE = r"(\d{1,4}(?:\.\d{1,3})?(?:[ -]\d{1,2}/[1-9]\d?)?)"
_UNIT = r"""(?: ?("|in\b\.?|inch(?:es)?\b|mm\b|cm\b))?"""
_SIZE = re.compile(rf"(?<![\w/.]){_SIDE}{_UNIT} ?(?:[x×]|by\b) ?{_SIDE}{_UNIT}(?![\d/]|\.\d)", re.IGNORECASE)
_WORDS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "twelve": 12}
_IN_WORDS = re.compile(rf"\b({'|'.join(_WORDS)}) ?-? ?(?:by|x) ?-? ?({'|'.join(_WORDS)})\b", re.IGNORECASE)
_SCALE = {"mm": MM, "cm": 10.0 * MM}
Sides = tuple[float, float]


def other_size(text: str, size: Size) -> tuple[str, str]:
    """A size that words name where none of those named is that of the piece, and how a job file writes it; else ''."""
    found = list(_said(text))
    if not found or size.surface == "round":
        return "", ""
    own = [(size.b, size.d)]
    if size.nominal_b is not None and size.nominal_d is not None:
        own.append((size.nominal_b, size.nominal_d))
    if any(_alike(one, other) for _, forms, _ in found for one in forms for other in own):
        return "", ""
    words, _, written = found[0]
    return words, written


def _said(text: str) -> Iterator[tuple[str, list[Sides], str]]:
    """Each size named: its words, its sides as they may be meant, smaller first, and as a job file writes it."""
    in_figures = _IN_WORDS.sub(lambda two: "x".join(str(_WORDS[one.casefold()]) for one in two.groups()), text)
    widest = judgment("side from which a bare size is in millimeters").value
    for match in _SIZE.finditer(" ".join(in_figures.split())):
        first, unit, second, other = match.groups()
        units = {(one or "").casefold().rstrip(".") for one in (unit, other)}
        sides = sorted((_number(first), _number(second)))
        metric = next((one for one in units if one in _SCALE), "mm" if units == {""} and sides[1] > widest else "")
        b, d = (side * _SCALE.get(metric, 1.0) for side in sides)
        measured = f"{show(b, 'length', 'US')} x {show(d, 'length', 'US')}"
        forms, written = [(b, d)], measured
        for name in (f"{b:g}x{d:g}", f"{b:g}x{d:g} dressed") if units == {""} else (measured,):
            try:
                read = read_size(name)
            except BeamcheckError:
                continue
            forms.append((read.b, read.d))
            written = name
            break
        yield match.group(), forms, written


def _number(side: str) -> float:
    whole, _, fraction = side.replace("-", " ").partition(" ")
    if not fraction:
        return float(whole)
    over, under = map(float, fraction.split("/"))
    return float(whole) + over / under


def agency_of(stock: Stock, size: Size) -> str:
    """The agency that graded it: as entered, or where its rows differ the one that the words of the evidence name."""
    if stock.agency.strip() or stock.grade_from not in ("stamp", "certificate"):
        return stock.agency
    return agency_named(stock.evidence, agencies_apart(stock.species, stock.grade, size))


def agencies_open(stock: Stock, size: Size) -> tuple[str, ...]:
    """The agencies between which nobody has said; none where it is said, or nothing to the values."""
    tabulated = stock.made == "sawn" and stock.values is None and bool(known_species(stock.species))
    if not tabulated or agency_of(stock, size).strip():
        return ()
    return agencies_apart(stock.species, stock.grade, size)


def _alike(one: Sides, other: Sides) -> bool:
    """Within what dressing, drying and another way of naming make of the same stick, side by side."""
    thick = judgment("side from which a timber is named roughly").value
    fine, coarse = judgment("sizes of the same stick").value, judgment("sizes of the same timber").value
    return all(abs(a - b) <= (coarse if min(a, b) >= thick else fine) for a, b in zip(one, other, strict=True))
