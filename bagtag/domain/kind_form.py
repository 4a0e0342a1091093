"""The form of a file of part kinds, and the line to blame where it is broken."""

import re
import tomllib
from collections.abc import Callable, Mapping
from enum import StrEnum
from itertools import takewhile
from typing import Any, NoReturn, TypeVar

from bagtag.domain.datum import Side
from bagtag.domain.errors import BadInput
from bagtag.domain.kinds import Pair, PartKind, Question, Renewal
from bagtag.domain.model import Hazard
from bagtag.domain.which_way import Outness, SeatKind

FACTS = ("faces", "hand", "place", "clocking", "seat", "match mark", "same way")
_TEXTS = ("goes_wrong", "why", "goes_on", "home", "together_why", "size", "source")
_LISTS = ("also", "hazards", "together", "asks")
KEYS = ("group", "renew", "pair", "threaded", *_LISTS, *_TEXTS)
_ASK_KEYS = ("fact", "ask", "feature", "choices", "must")
_NEEDED = ("goes_wrong", "renew", "why", "home")
_SIDES = tuple(side.value for side in Side)
_ANSWERS = {
    "faces": (*(way.value for way in Outness), *_SIDES),
    "place": _SIDES,
    "seat": tuple(kind.value for kind in SeatKind),
}
_Word = TypeVar("_Word", bound=StrEnum)


def read(text: str, file: str, *, own: bool = False) -> tuple[PartKind, ...]:
    """The kinds in a file's text; BadInput names `file`, the line and what belongs there.

    `own` marks the kinds of a user's own file.
    """
    try:
        tables = tomllib.loads(text)
    except ValueError as wrong:  # of tomllib, and of a whole number with thousands of digits
        raise BadInput(f"{file} cannot be read: {wrong}.") from wrong
    except RecursionError as wrong:
        raise BadInput(f"{file} cannot be read: its brackets stand too deep.") from wrong
    return tuple(_Reader(file, text, name, table).kind(own=own) for name, table in tables.items())


class _Fault(Exception):
    """What is wrong with a question, before its line is known."""


class _Reader:
    """Reads one table of the file."""

    def __init__(self, file: str, text: str, name: str, table: Any) -> None:
        self.file, self.lines, self.name = file, text.splitlines(), name
        self.table: Mapping[str, Any] = table if isinstance(table, dict) else {}
        if not isinstance(table, dict):
            self._blame(name, f'"{name}" stands outside a kind: begin one with ["{name}"]')

    def kind(self, *, own: bool) -> PartKind:
        self._check_keys()
        return PartKind(
            name=self.name,
            group=self._text("group"),
            also=self._texts("also"),
            asks=self._questions(),
            renew=self._word("renew", Renewal),
            hazards=tuple(self._hazard(word) for word in self._texts("hazards")),
            together=self._texts("together"),
            pair=self._word("pair", Pair) if "pair" in self.table else None,
            threaded=self._checked(
                "threaded", self.table.get("threaded", False), bool, "true or false"
            ),
            own=own,
            **{key: self._text(key) for key in _TEXTS},
        )

    def _check_keys(self) -> None:
        for key in self.table:
            if key not in KEYS:
                self._blame(key, f"{key!r} is no word of a part kind; use {', '.join(KEYS)}")
        for key in _NEEDED:
            if not self.table.get(key):
                self._blame(key, f"{key} is missing")

    def _text(self, key: str) -> str:
        text: str = self._checked(key, self.table.get(key, ""), str, "a text in quotation marks")
        return text

    def _list(self, key: str) -> list[Any]:
        items: list[Any] = self._checked(key, self.table.get(key, []), list, "a list in brackets")
        return items

    def _texts(self, key: str) -> tuple[str, ...]:
        words = self._list(key)
        if not all(isinstance(word, str) and word.strip() for word in words):
            self._blame(key, f"{key} must be a list of texts")
        return tuple(words)

    def _word(self, key: str, words: type[_Word]) -> _Word:
        said = self._text(key)
        if said not in {word.value for word in words}:
            self._blame(key, f"{key} must be {_choice(words)}, not {said!r}")
        return words(said)

    def _hazard(self, said: str) -> Hazard:
        if said not in {hazard.value for hazard in Hazard}:
            self._blame("hazards", f"a hazard is {_choice(Hazard)}, not {said!r}")
        return Hazard(said)

    def _questions(self) -> tuple[Question, ...]:
        return tuple(self._question(n, ask) for n, ask in enumerate(self._list("asks")))

    def _question(self, number: int, ask: Any) -> Question:
        """The question of that number, from 0; a fault is blamed on its own line."""
        try:
            return self._made(ask)
        except _Fault as fault:
            raise self._trouble(self._line_of_question(number), str(fault)) from None

    def _made(self, ask: Any) -> Question:
        if not isinstance(ask, dict) or not set(ask) <= set(_ASK_KEYS):
            raise _Fault(f"each of asks is {{ {' = …, '.join(_ASK_KEYS)} = … }}")
        if ask.get("fact") not in FACTS:
            raise _Fault(f"fact must be one of {', '.join(FACTS)}, not {ask.get('fact')!r}")
        sentence, feature = _asked(ask, "ask"), _asked(ask, "feature")
        if not sentence.strip():
            raise _Fault(f"the question on {ask['fact']} has no ask: write its sentence")
        if ask["fact"] in ("faces", "clocking") and not feature.strip():
            raise _Fault(f"a question on {ask['fact']} names its feature")
        return Question(ask["fact"], sentence, feature, _choices(ask), _must(ask))

    def _checked(self, key: str, value: Any, kind: type, shape: str) -> Any:
        return value if isinstance(value, kind) else self._blame(key, f"{key} must be {shape}")

    def _blame(self, key: str, what: str) -> NoReturn:
        raise self._trouble(self._line(key), what)

    def _trouble(self, line: int, what: str) -> BadInput:
        return BadInput(f"{self.file}, line {line}: in [{self.name}], {what}.")

    def _line_of_question(self, number: int) -> int:
        """The line of a question where each begins one, as in docs/kinds.md; else that of asks."""
        top = self._line("asks")
        below = enumerate(self.lines[top:], top + 1)
        rows = takewhile(lambda row: not row[1].strip() or row[1].lstrip()[0] in "{#", below)
        begun = [line for line, text in rows if text.lstrip().startswith("{")]
        return begun[number] if number < len(begun) else top

    def _line(self, key: str) -> int:
        """The line of `key` in this table, else of the table's head."""
        top = self._first(rf"\s*\[\s*[\"']?{re.escape(self.name)}[\"']?\s*\]", 0) or 1
        below = self._first(rf"\s*[\"']?{re.escape(key)}[\"']?\s*=", top - 1)
        following = self._first(r"\s*\[\s*[\"'\w]", top)
        return below if below and not (following and following < below) else top

    def _first(self, pattern: str, start: int) -> int:
        """The number of the first line from `start` on that begins so; 0 for none."""
        begins: Callable[[str], Any] = re.compile(pattern).match
        found = (n for n, line in enumerate(self.lines[start:], start + 1) if begins(line))
        return next(found, 0)


def _choice(words: type[StrEnum]) -> str:
    return " or ".join(f'"{word.value}"' for word in words)


def _asked(ask: Mapping[str, Any], key: str) -> str:
    text = ask.get(key, "")
    if not isinstance(text, str):
        raise _Fault(f"{key} must be a text in quotation marks")
    return text


def _choices(ask: Mapping[str, Any]) -> tuple[str, ...]:
    choices = ask.get("choices", [])
    if not isinstance(choices, list) or not all(isinstance(choice, str) for choice in choices):
        raise _Fault("choices must be a list of texts")
    for choice in choices:
        _check_choice(ask["fact"], choice)
    return tuple(choices)


def _check_choice(fact: str, choice: str) -> None:
    """Where the answers are the domain's own words, no other can be offered."""
    words = _ANSWERS.get(fact)
    if words is None or choice in words or (fact == "faces" and choice.startswith("part:")):
        return
    other = ", or part: and its name" if fact == "faces" else ""
    raise _Fault(f"a choice of {fact} is {', '.join(words)}{other}, not {choice!r}")


def _must(ask: Mapping[str, Any]) -> bool:
    must = ask.get("must", True)
    if not isinstance(must, bool):
        raise _Fault("must is true or false")
    return must
