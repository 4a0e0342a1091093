"""What hangs on a step that is taken out of the build: rules that name it, tasks beside it."""

from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Anchor, Beside, Ref, RuleKind, Task, TaskKind, part, task
from bagtag.domain.model import Removal
from bagtag.store import belongings, between, fittings, joints, removals, rows, sendings, tables
from bagtag.store.act import Act


def delete_rule(act: Act, rule_id: int) -> None:
    """Take the rows of a rule away, within another act."""
    for member_id in fittings.member_ids(act.connection, rule_id):
        act.delete(tables.rule_member, member_id)
    act.delete(tables.rule, rule_id)


def forget_step(act: Act, ref: Ref) -> int:
    """Take a step out of every rule that names it; returns how many rules go with it. A set that
    goes in as one keeps its other members while there are two."""
    gone = 0
    for rule in fittings.naming(act.connection, ref):
        kept = [member for member in rule.members if member != ref]
        if rule.kind is not RuleKind.TOGETHER or len(kept) < 2:
            delete_rule(act, rule.id)
            gone += 1
            continue
        ids = fittings.member_ids(act.connection, rule.id)
        act.delete(tables.rule_member, ids[rule.members.index(ref)])
    return gone


def _anchor_columns(anchor: Anchor) -> dict[str, object]:
    return {"anchor_beside": anchor.beside.value, **rows.ref_columns(anchor.of, "anchor_")}


def refuse_tightening(other: Task, called: str) -> None:
    if other.kind is TaskKind.TIGHTENING:
        raise BadInput(
            f"{called} cannot be deleted: {other.name} waits for it. Change that first.",
            field="anchor",
        )


def forget_removal(act: Act, removal: Removal) -> None:
    """What hangs on a removal that is deleted: its own final tightening goes with it, a task beside
    it stands beside the line next to it."""
    for one in fittings.hanging_on(act.connection, part(removal.id)):
        if one.removal_id == removal.id:
            drop_task(act, one)
            continue
        refuse_tightening(one, f"{removal.number} {removal.name}")
        act.update(tables.task, one.id, **_anchor_columns(_in_its_stead(act, removal, one)))


def drop_task(act: Act, one: Task) -> None:
    ref = task(one.id)
    forget_step(act, ref)
    for other in fittings.hanging_on(act.connection, ref):
        act.update(tables.task, other.id, **_anchor_columns(one.anchor))
    for tag in belongings.tags_of_task(act.connection, one.id):
        act.delete(tables.tag, tag.id)
    forget_joint(act, ref)
    act.delete(tables.task, one.id)


def forget_joint(act: Act, ref: Ref) -> None:
    """What was done on a step goes with it: its sign-off, its ticked passes, its hole map."""
    sign_off = belongings.sign_off_of(act.connection, ref)
    if sign_off is not None:
        act.delete(tables.sign_off, sign_off.id)
    untick(act, ref)
    map_id = joints.map_id(act.connection, ref.removal_id) if ref.removal_id is not None else None
    if map_id is not None:
        act.delete(tables.hole_map, map_id)


def forget_empty(act: Act, send_out_id: int) -> bool:
    """Whether nothing went with a batch any more; then its row goes, with its tag and papers."""
    if between.went_with(act.connection, [send_out_id]):
        return False
    for tag in sendings.tags(act.connection, send_out_id):
        act.delete(tables.tag, tag.id)
    for paper in between.documents(act.connection, send_out_id):
        act.delete(tables.document, paper.id)
    act.delete(tables.send_out, send_out_id)
    return True


def forget_between(act: Act, removal_id: int) -> None:
    """What lies between strip and build goes with a part: its times away and what is ordered for
    it. What was measured stays, as a sheet of no part; so does what was taken off it."""
    times = belongings.times_away(act.connection, removal_id)
    for time in times:
        act.delete(tables.away, time.id)
    for send_out_id in {time.send_out_id for time in times if time.send_out_id is not None}:
        forget_empty(act, send_out_id)
    for line in between.new_parts_of(act.connection, removal_id):
        act.delete(tables.renewal, line.id)
    for sheet in between.sheets_of(act.connection, removal_id):
        act.update(tables.measure_sheet, sheet.id, removal_id=None)
    for other_id in between.taken_off(act.connection, [removal_id]).get(removal_id, ()):
        act.update(tables.removal, other_id, off_id=None)


def untick(act: Act, ref: Ref) -> None:
    """Every pass of a step is open again."""
    for tick in joints.ticks_of(act.connection, ref).values():
        act.delete(tables.pass_tick, tick.id)


def untick_part(act: Act, removal_id: int) -> None:
    """Every pass of a part is open again, at its own step and at its final tightening."""
    untick(act, part(removal_id))
    for one in fittings.hanging_on(act.connection, part(removal_id)):
        if one.removal_id == removal_id:
            untick(act, task(one.id))


def _in_its_stead(act: Act, removal: Removal, one: Task) -> Anchor:
    """Where a task stands that stood beside a removal: what came before it comes after the line
    that goes in before, and the other way round, so that those on its two sides stay in order."""
    was_before = one.anchor.beside is Beside.BEFORE
    find = removals.following if was_before else removals.before
    other = find(act.connection, removal.job_id, removal.position)
    if other is None:
        return Anchor(one.anchor.beside)
    return Anchor(Beside.AFTER if was_before else Beside.BEFORE, part(other.id))
