"""Small errors put into the arithmetic and the decisions of a file, one at a time."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

WORDS = ("note", "notes", "because", "clause", "symbol", "unit", "where", "source")  # arguments that only tell
TOLD = ("picture.py", "pictures.py", "drawing.py")  # files that hand on what is drawn, tested with the drawings
DUST = 1e-6  # what is smaller keeps rounding out of a comparison: a tenth more of it changes nothing
# Names of such a figure; at a limit that holds one nothing lies, so < and <= are one there.
HAIRS = ("HAIR", "ROUNDING", "SLIVER", "SMALL_PLACE", "UNBENT")
OTHER: dict[type[ast.AST], tuple[type[ast.AST], ...]] = {
    ast.Add: (ast.Sub,),
    ast.Sub: (ast.Add,),
    ast.Mult: (ast.Div,),
    ast.Div: (ast.Mult,),
    ast.Pow: (ast.Mult,),
    ast.FloorDiv: (ast.Div,),
    ast.Mod: (ast.Mult,),
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
    ast.And: (ast.Or,),
    ast.Or: (ast.And,),
}
NAMES = {"min": "max", "any": "all", "smallest": "largest", "floor": "ceil"}
NAMES |= {new: old for old, new in NAMES.items()}


class Mutant(NamedTuple):
    """One error: the bytes from `start` to `end` of `file` become `new`."""

    file: str  # from the top of the project
    line: int
    start: int
    end: int
    old: str
    new: str
    lines: tuple[int, int]  # of the statement that it stands in, from and to
    called: bool  # stands in what runs when called; else it has had its effect once the file is imported

    def of(self, raw: bytes) -> bytes:
        """The file with the error in it."""
        return raw[: self.start] + self.new.encode() + raw[self.end :]

    def told(self) -> str:
        old, new = (" ".join(text.split()) for text in (self.old, self.new))
        return f"{self.file}:{self.line}: {old} -> {new}"


def mutants(top: Path, file: Path) -> list[Mutant]:
    """Each error that can be put into a file."""
    if file.name in TOLD:
        return []
    raw = file.read_bytes()
    lines, starts = raw.splitlines(keepends=True), [0]
    for line in lines:
        starts.append(starts[-1] + len(line))
    tree, found = ast.parse(raw), []
    places = _places(tree)
    for node, new in _changes(tree):
        start = starts[node.lineno - 1] + node.col_offset
        end = starts[(node.end_lineno or node.lineno) - 1] + (node.end_col_offset or 0)
        old = raw[start:end].decode()
        found.append(Mutant(file.relative_to(top).as_posix(), node.lineno, start, end, old, new, *places[node]))
    return found


def _places(tree: ast.Module) -> dict[ast.AST, tuple[tuple[int, int], bool]]:
    """The lines of the statement of each node, and whether it runs when something is called."""
    found: dict[ast.AST, tuple[tuple[int, int], bool]] = {}

    def walk(node: ast.AST, lines: tuple[int, int], called: bool) -> None:
        if isinstance(node, ast.stmt):
            inner = (
                node.cases[0].pattern if isinstance(node, ast.Match) else next(iter(getattr(node, "body", [])), None)
            )
            lines = (node.lineno, max(node.lineno, inner.lineno - 1) if inner else node.end_lineno or node.lineno)
        found[node] = (lines, called)
        for name, field in ast.iter_fields(node):
            runs = isinstance(node, ast.FunctionDef | ast.Lambda) and name == "body"
            for child in field if isinstance(field, list) else [field]:
                if isinstance(child, ast.AST):
                    walk(child, lines, called or runs)

    walk(tree, (1, 1), False)
    return found


def _changes(tree: ast.AST) -> Iterator[tuple[ast.expr, str]]:
    """Expressions and what stands there instead."""
    for node in _walked(tree):
        match node:
            case ast.BinOp(left, op, right) if type(op) in OTHER and not (_text(left) or _text(right)):
                for other in OTHER[type(op)]:
                    yield node, _printed(ast.BinOp(left, other(), right))
            case ast.Compare(left, [op], [right]):
                for other in _others(op, left, right):
                    yield node, _printed(ast.Compare(left, [other()], [right]))
            case ast.Compare(left, [first, second], rights):
                for other in _others(first, left, rights[0]):
                    yield node, _printed(ast.Compare(left, [other(), second], rights))
                for other in _others(second, *rights):
                    yield node, _printed(ast.Compare(left, [first, other()], rights))
            case ast.BoolOp(op, values):
                yield node, _printed(ast.BoolOp(OTHER[type(op)][0](), values))
            case ast.UnaryOp(ast.Not() | ast.USub(), operand):
                yield node, _printed(operand)
            case ast.Constant(bool(value)):
                yield node, str(not value)
            case ast.Constant(int(value)):
                yield node, str(value + 1)
            case ast.Constant(float(value)) if abs(value) > DUST or value == 0.0:
                yield node, f"{value * 1.1 or 1.0:.12g}" if value % 1 else f"{value * 1.1 or 1.0:.12}"
            case ast.Call(ast.Name(name) as called) if name in NAMES:
                yield called, NAMES[name]
            case ast.If(test) | ast.IfExp(test):
                if isinstance(test, ast.Name | ast.Attribute | ast.Call) and ast.unparse(test) != "TYPE_CHECKING":
                    yield test, _printed(ast.UnaryOp(ast.Not(), test))


def _others(op: ast.cmpop, *sides: ast.expr) -> tuple[type[ast.AST], ...]:
    """What may stand in place of a comparison: of one with a hair in it only the other way round."""
    hair = any(
        (isinstance(each, ast.Name) and each.id in HAIRS)
        or (isinstance(each, ast.Constant) and isinstance(each.value, float) and 0.0 < abs(each.value) <= DUST)
        for side in sides for each in ast.walk(side)
    )  # fmt: skip
    others = OTHER[type(op)]
    return others[-1:] if hair and len(others) > 1 else others


def _printed(node: ast.expr) -> str:
    return f"({ast.unparse(node)})"


def _text(node: ast.AST) -> bool:
    """Whether it is put together, not added up."""
    if isinstance(node, ast.BinOp):
        return _text(node.left) or _text(node.right)
    return isinstance(node, ast.JoinedStr | ast.Tuple | ast.List) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


def _walked(node: ast.AST) -> Iterator[ast.AST]:
    """The nodes that compute or decide: no words, types of arguments that are no ranges, or patterns."""
    if isinstance(node, ast.JoinedStr | ast.match_case) or (isinstance(node, ast.keyword) and node.arg in WORDS):
        if isinstance(node, ast.match_case):
            for child in node.body:
                yield from _walked(child)
        return
    yield node
    for name, field in ast.iter_fields(node):
        if name == "decorator_list":
            continue
        for child in field if isinstance(field, list) else [field]:
            if isinstance(child, ast.AST):
                yield from _walked(child)
