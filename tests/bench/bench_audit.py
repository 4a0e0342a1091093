"""The audit of a thousand entries against reading them: python -m tests.bench.bench_audit

The floor is reading the job's entries out of the store, which any audit must. The audit reads them
too, with areas, containers, tags, photos and first thumbnails, and looks through them by every
rule. Also printed: the rules alone, on entries already read, for 1,000 and for 10,000, whose ratio
says whether their time grows with the number of entries or faster.
"""

from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from bagtag import services
from bagtag.domain.audit import Stripped, audit
from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import ContainerKind, Fate
from bagtag.domain.which_way import Faces, Fact, Hand, MatchMark, OtherPart, Outness, Place, SameWay
from bagtag.store import belongings, jobs, removals, tables
from bagtag.store.work import Store
from tests.bench.bench_common import interleave, milliseconds, say, table

LINES = 1_000
ROUNDS = 15
_NAMES = ("oil seal", "shift fork L", "shift fork R", "main bearing", "piston", "gearbox cover",
          "head bolt", "valve, inlet", "connecting rod", "odd bracket")  # fmt: skip
_FACTS: tuple[tuple[Fact, ...], ...] = (
    (),
    (Faces("OUT", Outness.OUTWARD),),
    (Hand("R", stamped=True), Faces("C", Side.RIGHT)),
    (Faces("chamfer", OtherPart("the gear")),),
    (SameWay(OtherPart("the other one")),),
    (MatchMark("two punch dots", "the rod cap"),),
)
_HELD = ((), (HeldBy(4, "bolt", "M6", 30.0, torque=Torque(10)),), (HeldBy(None, "nut", "M8"),))


def main() -> None:
    with TemporaryDirectory() as folder:
        store = Store.in_folder(Path(folder))
        say(f"a job of {LINES} entries …")
        job_id = _fill(store)
        _measure(store, job_id)
        store.close()


def _fill(store: Store) -> int:
    form = services.jobs.JobForm("Walking tractor", "all of it")
    job_id = services.jobs.open_job(store, form).job_id
    areas = [services.jobs.add_area(store, job_id, f"area {n}").new_id for n in range(20)]
    bags = [
        services.containers.add_container(store, job_id, ContainerKind.BAG, f"{n}").new_id
        for n in range(50)
    ]
    with store.engine.begin() as connection:
        rows = [_row(job_id, n, areas[n % 20], bags[n // 20]) for n in range(LINES)]
        connection.execute(tables.removal.insert(), rows)
    return job_id


def _row(job_id: int, n: int, area_id: int, bag_id: int) -> dict[str, object]:
    place = {"uid": f"uid-{n}", "job_id": job_id, "number": f"{n}", "serial": n}
    when = {"logged_at": "2026-11-02T09:00:00+00:00", "logged_by": "Ada", "version": 1}
    columns = services.strip.entry_columns(_entry(n, area_id, bag_id))
    return columns | place | when | {"position": (n + 1) * 1024, "replacement": "wanted"}


def _entry(n: int, area_id: int, bag_id: int) -> Entry:
    place = (Place(n // 20 % 12 + 1, 12),) if n % 3 == 0 else ()
    return Entry(
        f"{_NAMES[n % 10]} {n}" if n % 4 else _NAMES[n % 10],
        area_id=area_id,
        container_id=bag_id,
        which_way=_FACTS[n % 6] + place,
        held_by=_HELD[n % 3],
        fate=list(Fate)[n % 4],
    )


def _measure(store: Store, job_id: int) -> None:
    one = _stripped(store, job_id)
    ten = replace(one, removals=_ten_times(one.removals))

    def read() -> None:
        with store.read() as connection:
            removals.of_job(connection, job_id)

    taken = interleave(
        ROUNDS,
        read=read,
        whole=lambda: services.audit.audit(store, job_id),
        rules=lambda: audit(one),
        rules_ten=lambda: audit(ten),
    )
    ms = milliseconds(taken)
    say(", ".join(f"{name} {value:.1f} ms" for name, value in ms.items()))
    say(f"{len(audit(one))} things to see to in {LINES} entries")
    say(
        table(
            [
                (
                    "the audit of 1,000 entries / reading them",
                    ms["whole"] / ms["read"],
                    "at most",
                    4,
                ),
                ("the rules on 10,000 / on 1,000", ms["rules_ten"] / ms["rules"], "at most", 15),
            ]
        )
    )


def _stripped(store: Store, job_id: int) -> Stripped:
    with store.read() as connection:
        return Stripped(
            removals.of_job(connection, job_id),
            jobs.areas(connection, job_id),
            belongings.containers(connection, job_id),
            kinds=services.kinds.of(store),
        )


def _ten_times(log):
    """The same entries ten times over, each time with ids, places and areas of their own."""
    last = len(log)
    return [
        replace(
            removal,
            id=removal.id + turn * last,
            uid=f"{removal.uid}-{turn}",
            position=removal.position + turn * (log[-1].position + 1),
            area_id=(removal.area_id or 0) + 1000 * turn,
        )
        for turn in range(10)
        for removal in log
    ]


if __name__ == "__main__":
    main()
