"""The log order: the strip log read backwards, and what was never logged put in at its anchor."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from bagtag.domain.fitting import Beside, Ref
from bagtag.domain.order_problem import Added, Item, Problem

_START, _END = Ref("start", 0), Ref("end", 0)


def log_order(problem: Problem) -> list[Item]:
    """Every step. Of several steps at one anchor the order given holds; an anchor that is not
    here, or a ring of anchors, means the end."""
    logged = list(reversed(problem.log))
    if not problem.added:
        return logged
    known = {item.ref for item in logged}
    added = {row.item.ref: row for row in problem.added if row.item.ref not in known}
    spots = _Spots({item.ref: rank for rank, item in enumerate(logged)}, added)
    items = {item.ref: item for item in logged} | {ref: row.item for ref, row in added.items()}
    return [items[ref] for ref in spots.in_order() if ref in items]


class _Spots:
    """Where each added step stands: beside another, which may be an added one itself."""

    def __init__(self, ranks: Mapping[Ref, int], added: Mapping[Ref, Added]) -> None:
        self.ranks = {_START: -1, **ranks, _END: len(ranks)}
        self.added = added
        self.turn = {ref: number for number, ref in enumerate(added)}
        self.at: dict[Ref, tuple[Beside, Ref]] = {}
        self.asked = {ref: self._asked(row) for ref, row in added.items()}
        for ref in added:
            self._settle(ref)

    def _asked(self, row: Added) -> tuple[Ref, ...]:
        """What it stands after the last of, else its one anchor; nothing that is not here."""
        here = tuple(ref for ref in row.after_all if ref in self.ranks or ref in self.added)
        if here:
            return here
        if row.anchor.of is None:
            return (_START if row.anchor.beside is Beside.BEFORE else _END,)
        known = row.anchor.of in self.ranks or row.anchor.of in self.added
        return (row.anchor.of if known else _END,)

    def _settle(self, ref: Ref) -> None:
        """Settle a step and first what it stands beside; a ring goes to the end."""
        path = [ref] if ref not in self.at else []
        on_path = set(path)
        while path:
            open_ = next((r for r in self.asked[path[-1]] if not self._settled(r)), None)
            if open_ is None:
                on_path.discard(path[-1])
                self._stand(path.pop())
            elif open_ in on_path:
                self.at |= dict.fromkeys(path[path.index(open_) :], (Beside.BEFORE, _END))
                path = [r for r in path if r not in self.at]
            else:
                path.append(open_)
                on_path.add(open_)

    def _settled(self, ref: Ref) -> bool:
        return ref in self.at or ref in self.ranks

    def _stand(self, ref: Ref) -> None:
        asked = self.asked[ref]
        last = max(asked, key=self._path) if len(asked) > 1 else asked[0]
        anchored = self.added[ref].anchor.of == last and last not in self.added[ref].after_all
        beside = self.added[ref].anchor.beside if anchored else Beside.AFTER
        self.at[ref] = (Beside.BEFORE, _END) if last == _END else (beside, last)

    def _path(self, ref: Ref) -> tuple[int, ...]:
        """Sorts steps as they stand: before, at or after the step they stand beside, and so on."""
        turns = [0]
        while ref in self.at:
            beside, of = self.at[ref]
            turns += [self.turn[ref], -1 if beside is Beside.BEFORE else 1]
            ref = of
        return (self.ranks[ref], *reversed(turns))

    def in_order(self) -> Iterator[Ref]:
        near: dict[tuple[Beside, Ref], list[Ref]] = defaultdict(list)
        for ref in self.added:
            near[self.at[ref]].append(ref)
        stack = [(ref, False) for ref in reversed(self.ranks)]
        while stack:
            ref, opened = stack.pop()
            if opened:
                yield ref
                continue
            stack += _later(near.get((Beside.AFTER, ref), ()))
            stack.append((ref, True))
            stack += _later(near.get((Beside.BEFORE, ref), ()))


def _later(refs: Sequence[Ref]) -> list[tuple[Ref, bool]]:
    return [(ref, False) for ref in reversed(refs)]
