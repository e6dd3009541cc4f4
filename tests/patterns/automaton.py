"""Whether a pattern can be made to try one text in many ways: a proof on its automaton, without running it.

Two loops p and q of an automaton that read the same word w, with w leading from p to q as well, make a text of n times
w be cut in n ways, each of which is tried where what follows does not fit: time grows with the square (Weber and Seidl,
"On the degree of ambiguity of finite automata"; from memory). Two ways from p back to p on one word make it double with
each w. A search begins with a loop over anything, since each place of the text is tried as a beginning.
"""

from __future__ import annotations

import re
import re._constants as kind  # type: ignore[import-not-found]
import re._parser as parser  # type: ignore[import-not-found]
from collections.abc import Iterable, Iterator
from itertools import product
from typing import Any, NamedTuple

Steps = dict[str, set[int]]
MOST = 3  # so often a counted repeat is laid out; what is counted is bounded, and more tells nothing new
# One letter of each sort that patterns tell apart; those that a pattern names are added.
SORTS = " \t\n\r0_azAZé٣中-'\"\x00\u200b\U0001f600"


class Edge(NamedTuple):
    """From one state to another: reads a letter of `reads` (None: nothing), where what stands beside it allows."""

    to: int
    reads: frozenset[str] | None = None
    after: frozenset[str] | None = None  # the letters that may stand before; '' is the beginning of the text
    before: frozenset[str] | None = None  # the letters that may follow; nothing else may


class Automaton:
    """States with their edges."""

    def __init__(self, pattern: re.Pattern[Any], *, search: bool, whole: bool) -> None:
        raw = pattern.pattern
        tree = parser.parse(raw, pattern.flags)
        self.flags = tree.state.flags | (0 if isinstance(raw, str) else re.ASCII)
        self.letters = frozenset({*SORTS, *_named(tree)}) if isinstance(raw, str) else frozenset(map(chr, range(256)))
        self.edges: list[list[Edge]] = []
        self.may_fail: set[int] = set()  # states in front of what is looked for beside the text that is read
        begin = self._state()
        if search:
            self.edges[begin].append(Edge(begin, self.letters))
        self.end = self._sequence(tree, begin, {})
        if whole:
            last = self._state()
            self.edges[self.end].append(Edge(last, before=frozenset()))
            self.may_fail.add(self.end)
            self.end = last

    def _state(self) -> int:
        self.edges.append([])
        return len(self.edges) - 1

    def _skip(self, a: int, b: int) -> None:
        self.edges[a].append(Edge(b))

    def _sequence(self, items: Iterable[Any], at: int, groups: dict[int, Any]) -> int:
        for what, value in items:
            at = self._one(what, value, at, groups)
        return at

    def _one(self, what: Any, value: Any, at: int, groups: dict[int, Any]) -> int:
        match what:
            case kind.SUBPATTERN:
                groups[value[0]] = value[3]
                return self._sequence(value[3], at, groups)
            case kind.ATOMIC_GROUP:
                return self._sequence(value, at, groups)
            case kind.BRANCH:
                end = self._state()
                for branch in value[1]:
                    self._skip(self._sequence(branch, at, groups), end)
                return end
            case kind.MAX_REPEAT | kind.MIN_REPEAT | kind.POSSESSIVE_REPEAT:
                only = value[2][0] if len(value[2]) == 1 and value[2][0][0] in _ONE else None
                keeps = what == kind.POSSESSIVE_REPEAT and only is not None
                return self._repeat(*value, at, groups, self._read(*only) if keeps else frozenset())
            case kind.ASSERT | kind.ASSERT_NOT | kind.AT:
                after = self._state()
                self.edges[at].extend(edge._replace(to=after) for edge in self._beside(what, value))
                self.may_fail.add(at)
                return after
            case kind.GROUPREF:
                return self._sequence(groups.get(value, ()), at, groups)
            case kind.GROUPREF_EXISTS:
                end = self._state()
                for branch in (value[1], value[2] or ()):
                    self._skip(self._sequence(branch, at, groups), end)
                return end
            case _:
                after = self._state()
                self.edges[at].append(Edge(after, self._read(what, value)))
                return after

    def _repeat(self, least: int, most: Any, items: Any, at: int, groups: dict[int, Any], keeps: frozenset[str]) -> int:
        """A repeat; one that keeps what it has read is left only before other letters."""
        for _ in range(min(least, MOST)):
            at = self._sequence(items, at, groups)
        if most == kind.MAXREPEAT:
            loop, end = self._state(), self._state()
            self._skip(at, loop)
            self._skip(self._sequence(items, loop, groups), loop)
            self.edges[loop].append(Edge(end, before=self.letters - keeps))
            return end
        for _ in range(min(most - least, MOST)):
            after = self._sequence(items, at, groups)
            self._skip(at, after)
            at = after
        return at

    def _beside(self, what: Any, value: Any) -> Iterator[Edge]:
        """What has to stand beside a place. Where that is more than a letter, it may be there or not."""
        word = frozenset(letter for letter in self.letters if re.match(r"\w", letter, self.flags & re.ASCII))
        line = frozenset("\n")
        every, other = self.letters | {""}, self.letters - word
        match what, value:
            case kind.AT, kind.AT_BOUNDARY:
                yield Edge(0, after=other | {""}, before=word)
                yield Edge(0, after=word, before=other)
            case kind.AT, kind.AT_NON_BOUNDARY:
                yield Edge(0, after=other | {""}, before=other)
                yield Edge(0, after=word, before=word)
            case kind.AT, kind.AT_BEGINNING | kind.AT_BEGINNING_STRING:
                yield Edge(0, after=frozenset({""}) | (line if self.flags & re.MULTILINE else frozenset()))
            case kind.AT, kind.AT_END | kind.AT_END_STRING:
                yield Edge(0, before=line if self.flags & re.MULTILINE else frozenset())
            case ((kind.ASSERT | kind.ASSERT_NOT), (way, items)) if len(items) == 1 and items[0][0] in _ONE:
                letters = self._read(*items[0])
                if what == kind.ASSERT_NOT:
                    letters = (every if way < 0 else self.letters) - letters
                yield Edge(0, after=letters) if way < 0 else Edge(0, before=letters)
            case _:
                yield Edge(0)

    def _read(self, what: Any, value: Any) -> frozenset[str]:
        """The letters that one item of a pattern reads."""
        one = re.compile(_spelled(what, value), self.flags & (re.IGNORECASE | re.DOTALL | re.ASCII))
        return frozenset(letter for letter in self.letters if one.fullmatch(letter))

    def laid_out(self) -> tuple[list[Steps], set[int]]:
        """Where each letter leads from each place (a state and the sort of letter before it); where all is matched."""
        told = {letters for edges in self.edges for edge in edges for letters in edge[1:] if letters is not None}
        alike = {tuple(letter in letters for letters in told): letter for letter in sorted(self.letters)}
        one_of_each = frozenset(alike.values())  # letters that no edge tells apart are one
        sets = {edge.after for edges in self.edges for edge in edges if edge.after is not None}
        sorts = {letter: frozenset(one for one in sets if letter in one) for letter in self.letters | {""}}
        numbers = {
            place: n for n, place in enumerate(product(range(len(self.edges)), sorted(set(sorts.values()), key=str)))
        }
        steps: list[Steps] = [{} for _ in numbers]
        matched = set()
        for (state, sort), number in numbers.items():
            seen = {(state, one_of_each)}
            todo, fails = list(seen), False
            while todo:
                at, allowed = todo.pop()
                fails = fails or at in self.may_fail
                for edge in self.edges[at]:
                    if edge.after is not None and edge.after not in sort:
                        continue
                    left = allowed if edge.before is None else allowed & edge.before
                    if edge.reads is None:
                        if (edge.to, left) not in seen:
                            seen.add((edge.to, left))
                            todo.append((edge.to, left))
                        continue
                    for letter in edge.reads & left:
                        steps[number].setdefault(letter, set()).add(numbers[edge.to, sorts[letter]])
            if not fails and self.end in {at for at, _ in seen}:
                matched.add(number)
        return steps, matched


_ONE = (kind.ANY, kind.LITERAL, kind.NOT_LITERAL, kind.IN)  # items that read one letter


def _named(items: Iterable[Any]) -> Iterator[str]:
    """The letters that a pattern names, and those beside the ends of its ranges."""
    for what, value in items:
        if what in (kind.LITERAL, kind.NOT_LITERAL):
            yield from (chr(value), chr(value).swapcase()[0])
        elif what == kind.RANGE:
            yield from (chr(value[0]), chr(value[1]), chr((value[0] + value[1]) // 2))
        elif what == kind.IN:
            yield from _named(value)
        elif what == kind.BRANCH:
            for branch in value[1]:
                yield from _named(branch)
        elif isinstance(value, tuple):
            for part in value:
                if isinstance(part, parser.SubPattern):
                    yield from _named(part)
        elif isinstance(value, parser.SubPattern):
            yield from _named(value)


_CATEGORY = {
    kind.CATEGORY_DIGIT: r"\d", kind.CATEGORY_NOT_DIGIT: r"\D", kind.CATEGORY_SPACE: r"\s",
    kind.CATEGORY_NOT_SPACE: r"\S", kind.CATEGORY_WORD: r"\w", kind.CATEGORY_NOT_WORD: r"\W",
}  # fmt: skip


def _spelled(what: Any, value: Any) -> str:
    """One item that reads a letter, as a pattern again."""
    match what:
        case kind.ANY:
            return "."
        case kind.LITERAL:
            return _letter(value)
        case kind.NOT_LITERAL:
            return f"[^{_letter(value)}]"
        case kind.CATEGORY:
            return _CATEGORY[value]
        case kind.RANGE:
            return f"{_letter(value[0])}-{_letter(value[1])}"
        case kind.NEGATE:
            return "^"
        case kind.IN:
            return f"[{''.join(_spelled(*one) for one in value)}]"
    raise NotImplementedError(str(what))


def _letter(number: int) -> str:
    return f"\\U{number:08x}"


def slow(pattern: re.Pattern[Any], *, search: bool, whole: bool) -> str:
    """'' for a pattern whose time is in step with its text; else how it grows."""
    steps, matched = Automaton(pattern, search=search, whole=whole).laid_out()
    loops = [at for at in range(len(steps)) if at not in matched and _back(at, steps)]
    if any(_two_ways(at, steps) for at in loops):
        return "doubles with each letter"
    leads = [_leads_to(at, steps) for at in range(len(steps))]
    square = any(_meets((p, p, q), (p, q, q), steps, leads) for p, q in product(loops, loops) if p != q)
    return "grows with the square" if square else ""


def _back(state: int, steps: list[Steps]) -> bool:
    """Whether a place comes back to itself."""
    seen = set[int]()
    todo = [state]
    while todo:
        near = set().union(*steps[todo.pop()].values())
        if state in near:
            return True
        todo.extend(near - seen)
        seen |= near
    return False


def _leads_to(state: int, steps: list[Steps]) -> set[int]:
    """The places to which some word leads, the empty one as well."""
    seen, todo = {state}, [state]
    while todo:
        near = set().union(*steps[todo.pop()].values()) - seen
        seen |= near
        todo.extend(near)
    return seen


def _meets(start: tuple[int, ...], goal: tuple[int, ...], steps: list[Steps], leads: list[set[int]]) -> bool:
    """Whether one word leads each of the states of `start` to that of `goal`. What cannot get there is left."""
    seen, todo = set[tuple[int, ...]](), [start]
    while todo:
        at = todo.pop()
        if any(end not in leads[state] for state, end in zip(at, goal, strict=True)):
            continue
        shared = set.intersection(*(set(steps[state]) for state in at))
        for letter in shared:
            for after in product(*(steps[state][letter] for state in at)):
                if after == goal:
                    return True
                if after not in seen:
                    seen.add(after)
                    todo.append(after)
    return False


def _two_ways(p: int, steps: list[Steps]) -> bool:
    """Whether one word leads from p to p in two ways."""
    seen, todo = set[tuple[int, int, bool]](), [(p, p, False)]
    while todo:
        a, b, apart = todo.pop()
        for letter in set(steps[a]) & set(steps[b]):
            for x, y in product(steps[a][letter], steps[b][letter]):
                now = (x, y, apart or x != y)
                if now == (p, p, True):
                    return True
                if now not in seen:
                    seen.add(now)
                    todo.append(now)
    return False
