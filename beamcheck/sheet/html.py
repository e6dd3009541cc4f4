"""The sheet as one HTML file: no script, no request to anywhere, for a phone, a screen and paper."""

from __future__ import annotations

import string
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..checks.result import JobResult
from ..errors import BeamcheckError
from ..formulas.pad import Step
from .blocks import Block, CheckBlock, Masthead, Steps, Symbols
from .document import compose
from .figures import beam_figure
from .mathematics import compile_mathml, mathml, width_class
from .svg import legible
from .symbols import meaning, symbol_source

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

TEMPLATE = "sheet.html.jinja"
LONGEST_WORD = 24  # letters; a cell with a longer one may break it anywhere


def render(what: JobResult | Sequence[Block]) -> str:
    """The page for a result, or for blocks that begin with a Masthead.

    Raises
    ------
    BeamcheckError
        If the blocks do not begin with a Masthead, or typst cannot typeset an equation.
    """
    blocks = compose(what) if isinstance(what, JobResult) else tuple(what)
    if not blocks or not isinstance(blocks[0], Masthead):
        raise BeamcheckError("a sheet begins with a Masthead block: it carries title, caution and fingerprint")
    template = _environment().get_template(TEMPLATE)
    return template.render(head=blocks[0], blocks=blocks[1:], equations=_Equations(blocks), symbols=_Symbols(blocks))


class _Equations:
    """MathML of all steps of a sheet, typeset in one run."""

    def __init__(self, blocks: Sequence[Block]) -> None:
        steps = [step for block in blocks for step in _steps(block)]
        self._made = {id(step): made for step, made in zip(steps, mathml(steps), strict=True)}
        self._steps = steps  # keeps the ids taken

    def __call__(self, step: Step) -> Markup:
        return _safe(self._made[id(step)])


class _Symbols:
    """MathML of single symbols."""

    def __init__(self, blocks: Sequence[Block]) -> None:
        names = list(dict.fromkeys(name for block in blocks if isinstance(block, Symbols) for name in block.names))
        self._made = dict(zip(names, compile_mathml([symbol_source(name).source for name in names]), strict=True))

    def __call__(self, name: str) -> Markup:
        return _safe(self._made[name])


def _steps(block: Block) -> tuple[Step, ...]:
    if isinstance(block, CheckBlock):
        return block.steps.steps
    return block.steps if isinstance(block, Steps) else ()


def css_text(text: str) -> Markup:
    """A text as a CSS string, every character but letters, digits and spaces as its code."""
    line = " ".join(legible(text).split())
    kept = frozenset(string.ascii_letters + string.digits + " ")
    coded = (letter if letter in kept else f"\\{ord(letter):x} " for letter in line)
    return _safe('"' + "".join(coded) + '"')


def exact(text: str) -> Markup:
    """A text for `<pre>`, escaped so that a browser hands it back character by character, line ends included."""
    from markupsafe import escape

    return _safe("\n" + str(escape(text)).replace("\r", "&#13;"))


def _drawing(block: Any) -> Markup:
    return _safe(beam_figure(block.figure, block.name, block.units, block.key))


def _first_capital(text: str) -> str:
    return text[:1].upper() + text[1:]


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
    made.filters.update(css_text=css_text, exact=exact, drawing=_drawing, first_capital=_first_capital)
    made.globals.update(meaning=meaning, width_class=width_class)
    made.tests["long_word"] = lambda text: any(len(word) > LONGEST_WORD for word in text.split())
    made.tests["kind"] = lambda block, name: type(block).__name__ == name
    return made
