"""The sheet as one HTML file: no script, no request to anywhere, for a phone, a screen and paper."""

from __future__ import annotations

import re
import string
from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ...calc.pad import Step
from ...checks.core.pictures.assembled import AssemblyPicture
from ...checks.core.pictures.beams import LoadPath
from ...checks.core.result import JobResult
from ...checks.core.summary import INVENTED, legible
from ...errors import BeamcheckError
from ...lettering import HIDDEN, number_of
from ..document.blocks import Block, CheckBlock, Columns, Lines, Masthead, Symbols, Taken
from ..document.calc_sheet import compose
from ..document.mathematics import AT_A_TIME, compile_mathml, mathml, result_text, width_class
from ..document.piece import FEW_STEPS
from ..document.prose import sentence
from ..document.repeated_steps import warning
from ..document.rich_blocks import RichTable, StaticsBlock, Symbol
from ..document.symbols import IN_TEXT, lettered, meaning, plain_symbol, symbol_source
from ..figures.drawers import drawn
from ..figures.signs import SIGNS
from ..record.as_json import result_json_pieces

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

TEMPLATE = "sheet.html.jinja"
SHORT = 24  # letters of a cell that keeps to one line
LONGEST_WORD = 24  # letters; a cell with a longer one may break it anywhere
_CODE = re.compile(r"`([^`]+)`")
_SYMBOL = re.compile(IN_TEXT)
_FIGURES = re.compile(r"[−–-]?[0-9][0-9,./ ]*( ?[^ ]{1,5})?|–")  # a cell with a number and at most its unit


def render(what: JobResult | Sequence[Block], *, all_steps: bool = False) -> str:
    """The page for a result, or for blocks that begin with a Masthead; with `all_steps` every derivation, folded.

    Raises BeamcheckError if the blocks do not begin with a Masthead, or typst cannot typeset an equation.
    """
    if isinstance(what, JobResult):
        return b"".join(render_pieces(what, all_steps=all_steps)).decode("utf-8")
    return "".join(_page(tuple(what)))


def render_pieces(result: JobResult, *, all_steps: bool = False) -> Iterator[bytes]:
    """The page in pieces, to be written one after the other: that of a large job is on the disk and not in memory.

    Raises BeamcheckError if typst cannot typeset an equation.
    """
    from ..record.page_mark import with_result

    return with_result(_page(compose(result, all_steps=all_steps)), result_json_pieces(result))


def _page(blocks: Sequence[Block]) -> Iterator[str]:
    if not blocks or not isinstance(blocks[0], Masthead):
        raise BeamcheckError("a sheet begins with a Masthead block: it carries title, caution and fingerprint")
    template, set_ = _environment().get_template(TEMPLATE), _Typeset()
    yield from template.generate(
        head=blocks[0], blocks=set_.each(blocks[1:]), equations=set_.equation, symbols=set_.symbol
    )


class _Typeset:
    """MathML of the steps that are printed whole and of single symbols, some blocks at a time."""

    def __init__(self) -> None:
        self._equations: dict[int, str] = {}
        self._symbols: dict[str, str] = {}

    def each(self, blocks: Sequence[Block]) -> Iterator[Block]:
        """The blocks one by one, when theirs is set."""
        for some in _in_lots(blocks):
            flat = list(_flat(some))
            steps = [step for block in flat for step in _printed(block)]
            self._equations = {id(step): made for step, made in zip(steps, mathml(steps), strict=True)}
            names = [name for block in flat for name in _named(block) if name not in self._symbols]
            names = list(dict.fromkeys(names))
            made = compile_mathml([symbol_source(name).source for name in names])
            self._symbols |= dict(zip(names, made, strict=True))
            yield from some

    def equation(self, step: Step) -> Markup:
        return _safe(self._equations[id(step)])

    def symbol(self, name: str) -> Markup:
        return _safe(self._symbols[name])


def _in_lots(blocks: Sequence[Block]) -> Iterator[Sequence[Block]]:
    """The blocks with about so many equations at a time as are set in one run."""
    start = count = 0
    for number, block in enumerate(blocks):
        count += sum(len(_printed(one)) for one in _flat((block,)))
        if count >= AT_A_TIME:
            yield blocks[start : number + 1]
            start, count = number + 1, 0
    yield blocks[start:]


def _flat(blocks: Sequence[Block]) -> Iterator[Block]:
    """The blocks with those inside columns."""
    for block in blocks:
        if isinstance(block, Columns):
            yield from _flat((*block.left, *block.right, *block.flow))
        else:
            yield block


def _printed(block: Block) -> list[Step]:
    """The steps that a block prints whole."""
    lines = _lines(block).lines
    entries = [entry for line in lines for entry in (line.entries if isinstance(line, Taken) else (line.entry,))]
    return [entry.step for entry in entries]


def _named(block: Block) -> list[str]:
    """The symbols that a block prints alone."""
    if isinstance(block, Symbols):
        return list(block.names)
    if isinstance(block, RichTable):
        return [cell.name for row in (block.heads, *block.rows) for cell in row if isinstance(cell, Symbol)]
    if isinstance(block, StaticsBlock):
        return [line.symbol for line in block.lines]
    return [entry.step.symbol for known in _lines(block).known for entry in known.entries]


def _lines(block: Block) -> Lines:
    if isinstance(block, CheckBlock):
        return block.lines
    return block if isinstance(block, Lines) else Lines((), ())


def prose(text: str) -> Markup:
    """Plain text on its way into the page: `names` in backticks as code, symbols such as F_b with their subscript."""
    from markupsafe import escape

    made = _CODE.sub(r"<code>\1</code>", str(escape(legible(text))))
    return _safe(_SYMBOL.sub(_subscript, made))


def _subscript(found: re.Match[str]) -> str:
    symbol = lettered(found[0])
    return f"<i>{symbol[0]}</i><sub>{symbol[1]}</sub>" if symbol is not None else found[0]


def reason(step: Step) -> str:
    """What stands beside a step: meaning of the symbol and its note, then the clause."""
    means = meaning(step.symbol) or (meaning(step.formula.symbol) if step.formula else "")
    told = f"{means}: {step.note.strip()}" if means and step.note else means or step.note
    return " ".join(filter(None, (sentence(told), sentence(step.clause))))


def brief_reason(step: Step) -> str:
    """What stands beside a step of a short sheet: where a taken value is from, else the clause."""
    return sentence(step.clause or ("" if step.formula else step.note))


def css_text(text: str) -> Markup:
    """A text as a CSS string, every character but letters, digits and spaces as its code."""
    line = " ".join(legible(text).split())
    kept = frozenset(string.ascii_letters + string.digits + " ")
    coded = (letter if letter in kept else f"\\{ord(letter):x} " for letter in line)
    return _safe('"' + "".join(coded) + '"')


def exact(text: str) -> Markup:
    """A text for `<pre>`, escaped so that a browser hands it back character by character, line ends included."""
    from markupsafe import escape

    shown = HIDDEN.sub(_numbered, str(escape(text)))
    return _safe("\n" + shown.replace("\r", "&#13;"))


def _numbered(found: re.Match[str]) -> str:
    """A character that nobody sees, shown by its number; whoever reads the page back finds it in the attribute."""
    return f'<b data-letter="{ord(found[0]):x}">{number_of(found)}</b>'


def _safe(markup: str) -> Markup:
    from markupsafe import Markup

    return Markup(markup)


def _shown(value: Any) -> Any:
    """Every text on its way into the page: without characters that a page cannot hold."""
    return legible(value) if type(value) is str else value


@lru_cache(maxsize=1)
def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(
        loader=FileSystemLoader(Path(__file__).parent),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_shown,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(css_text=css_text, exact=exact, drawing=lambda block: _safe(drawn(block)), prose=prose)
    made.globals.update(
        meaning=meaning, width_class=width_class, reason=reason, brief_reason=brief_reason, result_text=result_text
    )
    made.globals.update(plain_symbol=plain_symbol, warning=warning, sentence=sentence, invented=INVENTED, signs=SIGNS)
    made.tests["long_word"] = lambda text: any(len(word) > LONGEST_WORD for word in text.split())
    made.tests["short_cell"] = lambda cell: not isinstance(cell, str) or len(cell) <= SHORT
    made.tests["figures"] = lambda text: _FIGURES.fullmatch(text) is not None
    made.tests["broad"] = lambda block: (
        isinstance(block.figure, LoadPath)
        or (isinstance(block.figure, AssemblyPicture) and len(block.figure.steps) > FEW_STEPS)
    )
    made.tests["kind"] = lambda block, name: type(block).__name__ == name
    return made
