"""Questions about a bracket or a piece of trim, with the field of the job file that takes the answer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ...model.brackets.bracket import Bracket, Trim
from ...values.lumber import read_size
from ..core.asking.question import PlausibleAnswer, Question, ask
from ..core.context import Context

Piece = Bracket | Trim


def path_of(piece: Piece, field: str) -> str:
    """The field of a piece as a question names it."""
    return f"{type(piece).__name__.lower()}.{piece.name}.{field}"


def ask_for(
    piece: Piece, key: str, field: str, answers: Iterable[PlausibleAnswer | str] | None = None, *, why: str = "",
    **words: str,
) -> Question:  # fmt: skip
    """What a field of the piece should say."""
    return ask(key, piece.name, path_of(piece, field), answers=answers, why=why, forces=None, **words)


def ask_engineer(
    piece: Piece, key: str, *, why: str = "", forces: Mapping[str, float] | None = None, **words: str
) -> Question:
    """What is not worked out here: an engineer's or a department's written answer."""
    return ask(key, piece.name, why=why, forces=forces, **words)


def sentence(text: str) -> str:
    """A note as the reason of a question."""
    return f"{text[:1].upper()}{text[1:]}."


def other_asked(piece: Piece, context: Context) -> Question:
    """What the fasteners go into: plausible is the wood of what the piece is fixed to, at its whole thickness."""
    under, at = context.under(piece.on), path_of(piece, "fixings.other")
    stock = context.structure.stocks.get(getattr(under, "stock", None) or "")
    answers: list[PlausibleAnswer] = []
    if stock is not None:
        size = read_size(stock.size)
        other = {
            "stock": stock.name, "thickness": f"{float(size.d):g} in", "grain": "along",
            "edge": f"{0.5 * float(size.b):g} in", "end": "12 in",
        }  # fmt: skip
        answers = [PlausibleAnswer(f"{piece.on}, {size.text}", ((at, other),))]
    return ask("goes_into", piece.name, at, answers=answers, on=piece.on)
