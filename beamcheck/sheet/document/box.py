"""A typeset part of an equation, and how parts are packed into lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ...records import dataclass

# binding strength, weakest first; what stands in brackets is an ATOM
SUM, PRODUCT, FRACTION, POWER, ATOM = range(5)


@dataclass(frozen=True)
class Box:
    """Typst source with its binding strength, its rough width in em, and where it may be broken into lines.

    `signed`: begins with a minus sign. `digit`: begins with a digit, so it needs a cross after another factor.
    `breaks`: the same source in pieces, each but the first beginning with its operator.
    """

    source: str
    level: int
    width: float
    signed: bool = False
    digit: bool = False
    breaks: tuple[Box, ...] = ()

    @property
    def pieces(self) -> tuple[Box, ...]:
        """The parts between which a line may end."""
        return self.breaks or (self,)

    def bracketed(self) -> Box:
        return Box(f"({self.source})", ATOM, self.width + 0.8)

    def at_least(self, level: int) -> Box:
        """Itself, or in brackets when it binds more weakly than `level`."""
        return self if self.level >= level else self.bracketed()


def joined(pieces: Sequence[Box]) -> Box:
    """The pieces side by side."""
    return Box(" ".join(piece.source for piece in pieces), SUM, sum(piece.width for piece in pieces))


def packed(pieces: Sequence[Box], width: float) -> list[Box]:
    """The pieces joined into lines of at most `width` em, as far as no single piece is wider."""
    lines: list[list[Box]] = []
    for piece in pieces:
        if lines and sum(box.width for box in lines[-1]) + piece.width <= width:
            lines[-1].append(piece)
        else:
            lines.append([piece])
    return [_begun(joined(line)) for line in lines]


def _begun(line: Box) -> Box:
    """A line that begins with + or - gets the space after the sign that it would have between two terms.

    One that begins inside a product written without crosses gets a cross.
    """
    sign, _, rest = line.source.partition(" ")
    if sign == "thin":
        return replace(line, source=f"times {rest}", width=line.width + 1.3)
    return replace(line, source=f"{sign} med {rest}") if sign in ("+", "-") else line
