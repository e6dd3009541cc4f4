"""Formulas as typst mathematics, in the order in which they are written: once with symbols, once with numbers.

The same source makes the PDF and, through typst's HTML export, the MathML of the HTML sheet. Nothing that a user wrote
gets into the source: it is made of the formulas' own symbols and of numbers.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

import numpy as np

from ...calc.core import Formula
from ...calc.pad import Step
from ...calc.trace import Term, evaluate
from ...errors import BeamcheckError
from ...records import dataclass
from .box import ATOM, FRACTION, POWER, PRODUCT, SUM, Box, joined, packed
from .numerals import DIGITS, parts, plain, rounded
from .symbols import plain_unit, quoted, symbol_source, unit_source

LINE = 16.0  # em; a line of an equation is broken after about this width, which a phone shows in full
WIDE = (
    (64.0, "wide wider widest"),
    (46.0, "wide wider"),
    (32.0, "wide"),
)  # em; need room or smaller type
MOST_DIGITS = 12
AT_A_TIME = 1_000  # equations in one run of typst: many more take gigabytes
_GROUPED = re.compile(r"<mtext>([0-9]{1,3}(?:,[0-9]{3})+)</mtext>")  # 1,300,000 is a number and not a text
# typst 0.15 sets no space round an operator that has quoted text on both sides
_TIGHT = re.compile(r'</mn><mo[^>]*? lspace="0em" rspace="0em">([×+−])</mo><mn>')
_DENOMINATOR = 64  # largest denominator that a formula may be expected to hold
_RELATIONS = {"<": "<", "<=": "<=", ">": ">", ">=": ">="}
_OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}
_EQUALS = Box("=", ATOM, 1.4)
_BESIDE = 1.4  # em; of an equals sign with its room
_BECAUSE = Box('"because" thick', ATOM, 4.5)
_NAMED = {"smallest": "min", "largest": "max"}


@dataclass(frozen=True)
class Equation:
    """A step in typst mathematics (without the dollar signs). `numeric` is empty for a value that was taken.

    `reasons`: for each branch in force, the inequality that chose it, with its number.
    """

    symbol: Box
    symbolic: Box | None
    numeric: Box | None
    result: Box
    reasons: tuple[Box, ...] = ()

    def lines(self, width: float = LINE) -> list[Box]:
        """The equation in lines not much wider than `width` em: `symbol = expression`, `= numbers`, `= result unit`."""
        made: list[Box] = []
        for index, side in enumerate(self._sides()):
            first, *others = side.pieces
            first = joined([_EQUALS, first])
            made += packed([joined([self.symbol, first]) if index == 0 else first, *others], width)
        for reason in self.reasons:
            first, *others = reason.pieces
            made += packed([joined([_BECAUSE, first]), *others], width)
        return made

    @property
    def width(self) -> float:
        """On one line, in em."""
        sides = (*self._sides(), *self.reasons)
        return self.symbol.width + sum(side.width + _BESIDE for side in sides)

    def source(self, width: float = 2 * LINE) -> str:
        """One typst equation, aligned at the equals signs and broken into lines where it is long.

        What fits beside what stands before it begins no line of its own.
        """
        sides = self._sides()
        if not self.reasons and self.width <= width:
            return " = ".join([self.symbol.source, *(side.source for side in sides)])
        rows: list[str] = []
        used = 0.0  # of the last row, em
        for side in sides:
            if rows and used + _BESIDE + side.width <= width:
                rows[-1] += f" = {side.source}"
                used += _BESIDE + side.width
                continue
            first, *others = packed(side.pieces, width)
            used = (others[-1] if others else first).width + (_BESIDE if rows else self.symbol.width + _BESIDE)
            rows += [f"{'' if rows else self.symbol.source + ' '}&= {first.source}"]
            rows += [f"&quad {other.source}" for other in others]
        for reason in self.reasons:
            if used + _BECAUSE.width + reason.width <= width:
                rows[-1] += f" quad {_BECAUSE.source} {reason.source}"
            else:
                rows, used = [*rows, f"&{_BECAUSE.source} {reason.source}"], 0.0
            used += _BECAUSE.width + reason.width
        return " \\\n".join(rows)

    def _sides(self) -> list[Box]:
        return [side for side in (self.symbolic, self.numeric, self.result) if side is not None]


def equation(step: Step, digits: int = DIGITS) -> Equation:
    """The step ready for typesetting.

    `digits` are the least significant digits; more are shown where the numbers on the sheet would otherwise not
    give the result on the sheet, or would not take the same branch.
    """
    left = symbol_source(step.symbol)
    unit = unit_source(step.unit)
    shown = _number(step.value, _result_digits(step, digits))
    result = Box(f"{shown.source} {unit.source}".rstrip(), PRODUCT, shown.width + unit.width)
    if step.formula is None:
        return Equation(left, None, None, result)
    tree, inputs = step.formula.tree, step.inputs
    symbolic: Box | None = _typeset(tree, _Writer(inputs, None))
    enough = digits_needed(tree, inputs, digits)
    numeric: Box | None = _typeset(tree, _Writer(inputs, enough))
    # say nothing twice: a single number in the formula's place is the result
    symbolic, numeric = (None if side and side.source == shown.source else side for side in (symbolic, numeric))
    reasons = tuple(dict.fromkeys(_reasons(tree, inputs, enough)))
    return Equation(left, symbolic, numeric, result, reasons)


def symbolic_source(formula: Formula, width: float = 2 * LINE) -> str:
    """A formula as one typst equation, `symbol = expression`, broken into lines where it is long."""
    first, *others = packed(_typeset(formula.tree, _Writer({}, None, whole=True)).pieces, width)
    rows = [f"{symbol_source(formula.symbol).source} &= {first.source}", *(f"&quad {one.source}" for one in others)]
    return " \\\n".join(rows)


def result_text(step: Step) -> str:
    """The value as running text, with the digits it has as an equation: `1,350 psi`."""
    return f"{plain(step.value, _result_digits(step, DIGITS))} {plain_unit(step.unit)}".rstrip()


def digits_needed(tree: Term, inputs: Mapping[str, float], least: int = DIGITS) -> int:
    """Significant digits of the inputs from which a reader gets the result to 0.05 % and takes the same branches."""
    exact, taken = _evaluated(tree, inputs)
    if not math.isfinite(exact):
        return least
    for digits in range(least, MOST_DIGITS):
        near, way = _evaluated(tree, {name: rounded(value, digits) for name, value in inputs.items()})
        if way == taken and math.isclose(near, exact, rel_tol=5e-4, abs_tol=1e-12):
            return digits
    return MOST_DIGITS


def mathml(steps: Sequence[Step]) -> list[str]:
    """MathML of each step: `<math>` elements, one a line of the equation, so that a page may wrap between them."""
    lines = [[box.source for box in equation(step).lines()] for step in steps]
    sources = list(dict.fromkeys(source for each in lines for source in each))
    made = dict(zip(sources, compile_mathml(sources), strict=True))
    return ["".join(made[source] for source in each) for each in lines]


def width_class(step: Step) -> str:
    """How much room the widest line of the equation needs, in words that a page's style knows."""
    widest = max(line.width for line in equation(step).lines())
    return next((words for width, words in WIDE if widest > width), "")


def compile_mathml(sources: Sequence[str]) -> list[str]:
    """One `<math>` element for each typst equation; each unlike one is typeset once."""
    unlike = list(dict.fromkeys(sources))
    made: dict[str, str] = {}
    for first in range(0, len(unlike), AT_A_TIME):
        some = unlike[first : first + AT_A_TIME]
        made.update(zip(some, _compiled(some), strict=True))
    return [made[source] for source in sources]


def _compiled(sources: Sequence[str]) -> list[str]:
    import typst

    document = "\n\n".join(f"$ {source} $" for source in sources)
    try:
        page = typst.compile(document.encode(), format="html", ignore_system_fonts=True)
    except typst.TypstError as error:
        raise BeamcheckError(f"an equation could not be typeset: {error}") from error
    found: list[str] = re.findall(r"<math\b.*?</math>", page.decode(), flags=re.DOTALL)
    if len(found) != len(sources):
        raise BeamcheckError(f"typst gave {len(found)} equations for {len(sources)}; typst 0.15 is expected")
    return [_for_browsers(each) for each in found]


def _for_browsers(made: str) -> str:
    """Repairs of typst's MathML: primes and bars that show in any font, numbers as numbers, room round operators."""
    made = made.replace("<mo>′</mo>", '<mo class="prime">′</mo>')  # the page sets it in a bolder face
    made = made.replace("<mo>\u0304</mo>", "<mo>¯</mo>")  # a combining bar alone lands beside its letter
    return _TIGHT.sub(r"</mn><mo>\1</mo><mn>", _GROUPED.sub(r"<mn>\1</mn>", made))


# --- from tree to source -----------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _Writer:
    """What is written for a symbol: its name (digits None) or its number. `inline`: fractions with a slash.

    `whole`: both branches of a formula are written, and which holds when; otherwise the one in force.
    """

    inputs: Mapping[str, float]
    digits: int | None
    inline: bool = False
    whole: bool = False

    def inside_exponent(self) -> _Writer:
        return replace(self, inline=True)


def _typeset(term: Term, writer: _Writer) -> Box:
    if term.op == "symbol":
        if writer.digits is not None:
            return _number(writer.inputs[term.value], writer.digits)
        return symbol_source(term.value)
    if term.op == "number":
        return _literal(term.value, writer.digits or DIGITS, writer.inline)
    if term.op == "where" and writer.whole:
        yes, no = (_typeset(arg, writer) for arg in term.args[1:])
        condition = _condition(term.args[0], writer)
        told = f'cases({yes.source} & quad "where" {condition.source}, {no.source} & quad "else")'
        return Box(told, ATOM, max(yes.width + condition.width, no.width) + 6.0)
    if term.op == "where":
        branch = term.args[1] if bool(evaluate(term.args[0], writer.inputs)) else term.args[2]
        return _typeset(branch, writer)
    if term.op == "^":
        return _power(term, writer)
    boxes = [_typeset(arg, writer) for arg in term.args]
    if term.op in ("+", "-"):
        return _sum(term.op, *boxes)
    if term.op == "*":
        return _product(*boxes, numbers=writer.digits is not None)
    if term.op == "/":
        return _fraction(*boxes, inline=writer.inline)
    if term.op == "neg":
        inner = boxes[0].at_least(PRODUCT)
        inner = inner.bracketed() if inner.signed else inner
        return Box(f"-{inner.source}", PRODUCT, inner.width + 0.8, signed=True)
    if term.op == "sqrt":
        return Box(f"sqrt({boxes[0].source})", POWER, boxes[0].width + 1.0)
    if term.op == "abs":
        return Box(f"abs({boxes[0].source})", ATOM, boxes[0].width + 0.6)
    if term.op in _NAMED:
        inside = ", ".join(box.source for box in boxes)
        return Box(f"{_NAMED[term.op]}({inside})", POWER, sum(box.width + 0.5 for box in boxes) + 2.5)
    if term.op in ("sin", "cos", "tan"):
        return Box(f"{term.op}({_degrees(boxes[0], writer)})", POWER, boxes[0].width + 3.0)
    raise BeamcheckError(f"a formula holds {term.op!r}, which has no form on the sheet")


def _condition(term: Term, writer: _Writer) -> Box:
    """An inequality, or several."""
    left, right = term.args
    if term.op in ("and", "or"):
        one, other = _condition(left, writer), _condition(right, writer)
        return Box(f'{one.source} "{term.op}" {other.source}', SUM, one.width + other.width + 2.5)
    one, other = _typeset(left, writer), _typeset(right, writer)
    return Box(f"{one.source} {_RELATIONS[term.op]} {other.source}", SUM, one.width + other.width + 1.4)


def _literal(value: Any, digits: int, inline: bool) -> Box:
    """A number of the formula itself: exact, so written with all its digits, up to nine."""
    number = float(value)
    if len(repr(number)) > 8:  # in the code 1/9 has become 0.1111111111111111, and pi/4 is one number too
        simple, in_pi = (Fraction(number / unit).limit_denominator(_DENOMINATOR) for unit in (1.0, math.pi))
        if float(simple) == number:
            return _quotient(_number(float(simple.numerator), MOST_DIGITS), simple.denominator, inline)
        if number > 0 and math.isclose(float(in_pi) * math.pi, number, rel_tol=4e-16):
            pi = Box("pi", ATOM, 0.6)
            count = _number(float(in_pi.numerator), MOST_DIGITS)
            over = pi if in_pi.numerator == 1 else _product(count, pi, numbers=False)
            return _quotient(over, in_pi.denominator, inline)
    exact = next((enough for enough in range(digits, 10) if rounded(number, enough) == number), 10)
    return _number(number, exact)


def _quotient(over: Box, under: int, inline: bool) -> Box:
    return over if under == 1 else _fraction(over, _number(float(under), MOST_DIGITS), inline=inline)


def _number(value: float, digits: int) -> Box:
    text, power = parts(value, digits)
    signed = text.startswith("-")
    magnitude = text.lstrip("-")
    if magnitude == "∞":
        source, width = "infinity", 1.0
    elif magnitude[0].isdigit():
        source, width = (quoted(magnitude) if "," in magnitude else magnitude), 0.56 * len(magnitude)
    else:
        source, width = quoted(magnitude), 0.56 * len(magnitude)
    level = ATOM
    if power is not None:
        source, width, level = f"{source} times 10^({power})", width + 3.0, PRODUCT
    if signed:
        source, width, level = f"-{source}", width + 0.8, PRODUCT
    return Box(source, level, width, signed=signed, digit=True)


def _sum(op: str, left: Box, right: Box) -> Box:
    right = right.bracketed() if right.signed else right.at_least(PRODUCT if op == "-" else SUM)
    tail = Box(f"{op} {right.source}", right.level, right.width + 1.4)
    return Box(f"{left.source} {tail.source}", SUM, left.width + tail.width, left.signed, left.digit,
               (*(left.pieces if left.level == SUM else (left,)), tail))  # fmt: skip


def _product(left: Box, right: Box, *, numbers: bool) -> Box:
    left = left.at_least(PRODUCT)
    right = right.bracketed() if right.signed else right.at_least(PRODUCT)
    sign, width = ("times", 1.5) if numbers or right.digit else ("thin", 0.2)
    tail = Box(f"{sign} {right.source}", right.level, right.width + width)
    breaks = (*(left.pieces if left.level == PRODUCT else (left,)), tail)
    return Box(f"{left.source} {tail.source}", PRODUCT, left.width + tail.width, left.signed, left.digit, breaks)


def _fraction(over: Box, under: Box, *, inline: bool) -> Box:
    if inline:
        over, under = over.at_least(PRODUCT), under.at_least(POWER)
        return Box(f"{over.source} slash {under.source}", PRODUCT, over.width + under.width + 0.5, digit=over.digit)
    return Box(f"frac({over.source}, {under.source})", FRACTION, max(over.width, under.width) + 0.4)


def _power(term: Term, writer: _Writer) -> Box:
    base, exponent = term.args
    count = exponent.value if exponent.op == "number" else None
    raised = _typeset(exponent, writer.inside_exponent())
    if base.op in ("sin", "cos", "tan") and isinstance(count, int) and count > 0:
        angle = _typeset(base.args[0], writer)
        return Box(f"{base.op}^{count}({_degrees(angle, writer)})", POWER, angle.width + 3.5)
    lower = _typeset(base, writer).at_least(ATOM)
    above = raised.source if raised.source.isalnum() else f"({raised.source})"
    return Box(f"{lower.source}^{above}", POWER, lower.width + 0.7 * raised.width, digit=lower.digit)


def _degrees(angle: Box, writer: _Writer) -> str:
    """An angle for a sine: numbers are degrees and say so."""
    if writer.digits is None:
        return angle.source
    return f"{angle.at_least(ATOM).source} degree"


# --- branches ------------------------------------------------------------------------------------------------------


def _reasons(term: Term, inputs: Mapping[str, float], digits: int) -> Iterator[Box]:
    """What chose each branch in force, outermost first."""
    if term.op == "where":
        holds = bool(evaluate(term.args[0], inputs))
        yield _held(term.args[0], holds, inputs, digits)
        yield from _reasons(term.args[1] if holds else term.args[2], inputs, digits)
        return
    for arg in term.args:
        yield from _reasons(arg, inputs, digits)


def _held(condition: Term, holds: bool, inputs: Mapping[str, float], digits: int) -> Box:
    """The inequalities that hold and decide the condition; a condition that does not hold is turned round."""
    told = [_relation(part, holds, inputs, digits) for part in _deciding(condition, holds, inputs)]
    if len(told) == 1:
        return told[0]
    tails = tuple(Box(f'thick "and" thick {box.source}', SUM, box.width + 2.5) for box in told[1:])
    whole = joined((told[0], *tails))
    return Box(whole.source, SUM, whole.width, breaks=(told[0], *tails))


def _deciding(condition: Term, holds: bool, inputs: Mapping[str, float]) -> Iterator[Term]:
    if condition.op in ("and", "or"):
        for arg in condition.args:
            if bool(evaluate(arg, inputs)) == holds:
                yield from _deciding(arg, holds, inputs)
    else:
        yield condition


def _relation(condition: Term, holds: bool, inputs: Mapping[str, float], digits: int) -> Box:
    if condition.op not in _RELATIONS:
        raise BeamcheckError(f"a formula branches on {condition.op!r}; write it as an inequality")
    left, right = (float(evaluate(arg, inputs)) for arg in condition.args)
    while digits < 17 and left != right and rounded(left, digits) == rounded(right, digits):
        digits += 1
    sides = []
    for arg, value in zip(condition.args, (left, right), strict=True):
        box = _typeset(arg, _Writer(inputs, None))
        number = _number(value, digits)
        sides.append(box if arg.op == "number" else joined([box, _EQUALS, number]))
    sign = (_RELATIONS if holds else _OPPOSITE)[condition.op]
    return Box(f"{sides[0].source} {sign} {sides[1].source}", SUM, sides[0].width + sides[1].width + 1.4)


def _choices(term: Term, inputs: Mapping[str, float]) -> Iterator[bool]:
    if term.op == "where":
        holds = bool(evaluate(term.args[0], inputs))
        yield holds
        yield from _choices(term.args[1] if holds else term.args[2], inputs)
        return
    for arg in term.args:
        yield from _choices(arg, inputs)


def _evaluated(tree: Term, inputs: Mapping[str, float]) -> tuple[float, tuple[bool, ...]]:
    """Value and branches taken; NaN where the numbers have no value."""
    try:
        with np.errstate(all="ignore"):
            value = evaluate(tree, inputs)
            return (math.nan if isinstance(value, complex) else float(value)), tuple(_choices(tree, inputs))
    except ArithmeticError:
        return math.nan, ()


def _result_digits(step: Step, digits: int) -> int:
    """More digits for a bare number that would otherwise read as 1 and is not: a factor, or a ratio that fails."""
    while not step.unit and digits < 7 and step.value != 1 and rounded(step.value, digits) == 1:
        digits += 1
    return digits
