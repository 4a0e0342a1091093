"""The eleven rules of the order of the build once more, word for word and slow: what the engine is
held against. No cutting, no ranks in place of steps, every opener's tie written out."""

from dataclasses import dataclass

from bagtag.domain.fitting import Beside, part
from bagtag.domain.order_problem import Because, Tie


@dataclass
class Told:
    """The flat truth of a problem; `walked` is None when the ties cannot all hold."""

    log: list
    group_of: dict
    ties: list
    places: dict
    walked: list | None
    order: list | None


def told(problem) -> Told:
    log = log_order(problem)
    group_of = groups(log, problem.together)
    ties = [tie for tie in flat(problem, log, group_of) if not dropped(tie, problem.signed)]
    steps = sorted(set(group_of.values()), key=lambda g: middle(g, log))
    between = [tie for tie in ties if group_of[tie.before] != group_of[tie.after]]
    outer = walk(steps, [middle(g, log) for g in steps], group_ties(between, group_of))
    walked, places = outer
    if walked is not None:
        inner = [inside(group, log, ties) for group in walked]
        walked = None if None in inner else inner
    return Told(log, group_of, ties, places, walked, signed_first(walked, problem.signed, log))


def signed_first(walked, signed, log):
    if walked is None:
        return None
    first = [ref for ref in dict.fromkeys(signed) if ref in log]
    return first + [ref for group in walked for ref in group if ref not in first]


def inside(group, log, ties):
    members = sorted(group, key=log.index)
    own = [(t.before, t.after, t.is_wait) for t in ties if {t.before, t.after} <= set(group)]
    return walk(members, [log.index(ref) for ref in members], own)[0]


def log_order(problem):
    """Rule 1, by putting one step after another into a list that is written anew each time."""
    log = list(dict.fromkeys(item.ref for item in reversed(problem.log)))
    given = {row.item.ref: row for row in reversed(problem.added) if row.item.ref not in log}
    given = {row.item.ref: given[row.item.ref] for row in problem.added if row.item.ref in given}
    known = {*log, *given}
    spots, left = {}, dict(given)
    while left:
        for ref, row in list(left.items()):
            asked = [r for r in row.after_all if r in known]
            wanted = asked or ([row.anchor.of] if row.anchor.of in known else [])
            if any(r in left for r in wanted):
                continue
            if asked:
                now = written(log, spots, given)
                spots[ref] = (Beside.AFTER, max(asked, key=now.index))
            elif row.anchor.of is None:
                spots[ref] = (row.anchor.beside, None)
            else:
                spots[ref] = (row.anchor.beside, wanted[0]) if wanted else (Beside.AFTER, None)
            del left[ref]
            break
        else:
            for ref in ring(left, known):
                spots[ref] = (Beside.AFTER, None)
                del left[ref]
    return written(log, spots, given)


def ring(left, known):
    path = [next(iter(left))]
    while True:
        row = left[path[-1]]
        wanted = [r for r in row.after_all if r in known] or [row.anchor.of]
        following = next(r for r in wanted if r in left)
        if following in path:
            return path[path.index(following) :]
        path.append(following)


def written(log, spots, given):
    def near(beside, of):
        return [r for ref in given if spots.get(ref) == (beside, of) for r in around(ref)]

    def around(ref):
        return [*near(Beside.BEFORE, ref), ref, *near(Beside.AFTER, ref)]

    whole = [r for ref in log for r in around(ref)]
    return near(Beside.BEFORE, None) + whole + near(Beside.AFTER, None)


def groups(log, together):
    """Rule 3: sets that share a member are one."""
    group_of = {ref: frozenset([ref]) for ref in log}
    for row in together:
        whole = frozenset().union(*(group_of[ref] for ref in row.members if ref in group_of))
        group_of |= dict.fromkeys(whole, whole)
    return group_of


def middle(group, log):
    ranks = sorted(log.index(ref) for ref in group)
    return ranks[(len(ranks) - 1) // 2]


def flat(problem, log, group_of):
    """Rule 2 and the ties of openers: every one of them."""
    here = set(log)
    said = [t for t in problem.ties if {t.before, t.after} <= here and t.before != t.after]
    above = {area.id: area.parent_id for area in problem.areas}
    area_of = {item.ref: item.area_id for item in problem.log}
    area_of |= {row.item.ref: row.item.area_id for row in problem.added}
    area_of = {ref: first_area(problem, ref) for ref in area_of}
    for area in problem.areas:
        opener = None if area.opener_id is None else part(area.opener_id)
        for ref in log if opener in here else ():
            if ref != opener and area.id in chain(above, area_of[ref]):
                said.append(Tie(ref, opener, True, Because.OPENER, area.id))
    return said


def first_area(problem, ref):
    items = [*reversed(problem.log), *(row.item for row in problem.added)]
    return next(item.area_id for item in items if item.ref == ref)


def chain(above, area):
    found = []
    while area in above and area not in found:
        found.append(area)
        area = above[area]
    return found


def dropped(tie, signed):
    """Rule 8: what is signed is in, whatever it should have waited for."""
    turns = list(dict.fromkeys(signed))
    if tie.after not in turns:
        return False
    return tie.before not in turns or turns.index(tie.before) > turns.index(tie.after)


def group_ties(ties, group_of):
    return [(group_of[t.before], group_of[t.after], t.is_wait) for t in ties]


def walk(steps, ranks, ties):
    """Rules 4 and 5. (None, {}) when there is no order."""
    log_place = dict(zip(steps, ranks, strict=True))
    waits = {(u, v) for u, v, is_wait in ties if is_wait}
    pulls = {(u, v) for u, v, is_wait in ties if not is_wait} - waits
    order = any_order(steps, waits | pulls)
    if order is None:
        return None, {}
    place = {}
    for v in order:
        held = [u for u, w in pulls if w == v and place[u] > log_place[u]]
        waits |= {(u, v) for u in held}
        place[v] = max([log_place[v], *(place[u] for u, w in waits if w == v)])
    pulls -= waits
    done = []

    def put_in(v):
        needs = {u for u, w in waits | pulls if w == v}
        for u in sorted(needs, key=lambda u: (place[u], log_place[u])):
            if u not in done:
                put_in(u)
        done.append(v)

    while len(done) < len(steps):
        free = [v for v in steps if v not in done and all(u in done for u, w in waits if w == v)]
        put_in(min(free, key=lambda v: (place[v], log_place[v])))
    return done, place


def any_order(steps, pairs):
    left, order = list(steps), []
    while left:
        free = [v for v in left if not any(w == v and u in left for u, w in pairs)]
        if not free:
            return None
        order += free
        left = [v for v in left if v not in free]
    return order
