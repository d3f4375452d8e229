"""A taster's records of one table, and what all their records say, attribute by attribute."""

from collections.abc import Iterable
from dataclasses import replace

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.table_scores import table_scores
from cupwright.core.analyse.taster_record import PooledRecord, TasterRecord, pool_records, taster_records
from cupwright.core.analyse.totals import Total
from cupwright.core.plan.names import folded


def records_of_taster(
    answers: Answers, table: str, taster: str, totals: Iterable[Total] = ()
) -> tuple[TasterRecord, ...]:
    """One record an attribute of the taster called so (case and accents aside) at an opened table.

    Everybody's scores are needed to compare; only this taster's records come back, under the name asked for.
    """
    name = folded(taster)
    if name not in {folded(seat.name) for seat in answers.seats}:
        return ()
    return tuple(
        replace(record, taster=taster)
        for attribute, scores in table_scores(answers, tuple(totals)).items()
        for record in taster_records(scores, table=table, attribute=attribute)
        if folded(record.taster) == name
    )


def pooled_by_attribute(records: Iterable[TasterRecord], *, level: float = 0.95) -> tuple[PooledRecord, ...]:
    """One taster's records pooled, one result an attribute, in the order in which they first come."""
    kept: dict[str, list[TasterRecord]] = {}
    for record in records:
        kept.setdefault(record.attribute, []).append(record)
    return tuple(pool_records(same, level=level) for same in kept.values())
