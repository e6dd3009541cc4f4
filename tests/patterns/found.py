"""Every pattern of the project with the ways in which it is used, read out of the source."""

from __future__ import annotations

import ast
import importlib
import re
from collections.abc import Iterable, Iterator
from itertools import chain
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

TOP = Path(__file__).parents[2]
SEARCHES = {"search", "sub", "subn", "findall", "finditer", "split"}
WAYS = {*SEARCHES, "match", "fullmatch"}
UNKNOWN = "x"  # stands for what only a run knows: a name of a piece, escaped


class Found(NamedTuple):
    """One pattern and how it is used; one that nobody uses by name is taken to be used in every way."""

    place: str
    pattern: re.Pattern[Any]
    ways: frozenset[str]

    @property
    def searches(self) -> bool:
        return bool(self.ways & SEARCHES)

    @property
    def whole(self) -> bool:
        return "fullmatch" in self.ways


def patterns() -> Iterator[Found]:
    """Those that are compiled, and those that stand in a call of `re`."""
    sources = {path: list(ast.walk(ast.parse(path.read_bytes()))) for path in sorted((TOP / "beamcheck").rglob("*.py"))}
    anywhere = _used(chain.from_iterable(sources.values()))
    for path, nodes in sources.items():
        name = ".".join(path.relative_to(TOP).with_suffix("").parts).removesuffix(".__init__")
        if name.endswith("__main__"):
            continue
        used = anywhere | _used(nodes)  # a name that two files have is looked for in its own
        module = importlib.import_module(name)
        named = {id(one.value): one.targets[0].id for one in nodes
                 if isinstance(one, ast.Assign) and isinstance(one.targets[0], ast.Name)}  # fmt: skip
        for node in nodes:
            match node:
                case ast.Call(ast.Attribute(ast.Name("re"), way), [first, *rest]) if way in {*WAYS, "compile"}:
                    ways = {way} if way != "compile" else used.get(named.get(id(node), ""), WAYS)
                    flags = [one for one in rest if ast.unparse(one).startswith("re.")]
                    flags += [one.value for one in node.keywords if one.arg == "flags"]
                    pattern = re.compile(_text(first, module), _flags(flags))
                    yield Found(f"{path.relative_to(TOP).as_posix()}:{node.lineno}", pattern, frozenset(ways))


def _used(nodes: Iterable[ast.AST]) -> dict[str, set[str]]:
    """The ways in which each name is used; a name that is handed on may be used in any."""
    found: dict[str, set[str]] = {}
    for node in nodes:
        if isinstance(node, ast.Attribute) and node.attr in WAYS and isinstance(node.value, ast.Name | ast.Attribute):
            name = node.value.id if isinstance(node.value, ast.Name) else node.value.attr
            found.setdefault(name, set()).add(node.attr)
    return found


def _text(node: ast.expr, module: ModuleType) -> Any:
    """The pattern as it is written, with what only a run knows filled in."""
    match node:
        case ast.Constant(value):
            return value
        case ast.JoinedStr(values):
            return "".join(_text(one, module) for one in values)
        case ast.FormattedValue(value):
            return str(_text(value, module))
    try:
        return eval(ast.unparse(node), vars(module))
    except NameError:
        return UNKNOWN


def _flags(nodes: list[ast.expr]) -> int:
    return sum(int(eval(ast.unparse(node), {"re": re})) for node in nodes)
