"""`close`: the closing count of a job, and what does not add up by what it most likely is."""

from collections.abc import Iterator
from dataclasses import asdict

from bagtag import services
from bagtag.cli_answers import answer
from bagtag.domain.closing import ClosingCount
from bagtag.store.work import Store


def say_close(store: Store, job: str, as_json: bool) -> bool:
    """Off = back + renewed + scrapped, and what is open; returns whether nothing is."""
    found = services.jobs.find_job(store, job)
    count = services.closing.closing_count(store, found.id)
    data = {
        "job": {"number": found.number, "title": found.title},
        "adds_up": count.adds_up,
        "pieces": asdict(count.total),
        "fasteners": asdict(count.of_fasteners),
        "new_in": count.new_in,
        "away": count.away,
        "open": [
            {"likely": one.likely.value, "sentence": one.sentence, "pieces": one.pieces}
            for one in count.leftovers
        ],
    }
    answer(data, _lines(count), as_json)
    return count.adds_up


def _lines(count: ClosingCount) -> Iterator[str]:
    total = count.total
    sign = "=" if count.nothing_left else "≠"
    yield (
        f"{total.off} off {sign} {total.back} back + {total.renewed} renewed + "
        f"{total.scrapped} scrapped"
    )
    yield from (one.sentence for one in count.leftovers)
    yield "Nothing is left on the bench." if count.adds_up else "The job is not closed yet."
