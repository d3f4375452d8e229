"""The report of one table: the plain answers first, then what they rest on, then how far to trust them."""

from collections.abc import Mapping, Sequence

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.repeats import repeats
from cupwright.core.analyse.summary import Analysis, analyse
from cupwright.core.analyse.totals import totals
from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.boiling import boiling, kettle_in_words
from cupwright.core.report.choices_section import choices_section
from cupwright.core.report.colour_words_section import colour_words_section
from cupwright.core.report.colours_section import colours_section
from cupwright.core.report.compared_section import compared_section
from cupwright.core.report.contrasts_section import apart, contrasts_section, none_apart
from cupwright.core.report.document import Block, Column, Document, Heading, Paragraph, TableBlock
from cupwright.core.report.fits_section import fits_section
from cupwright.core.report.method_section import method_section
from cupwright.core.report.points_section import points_section
from cupwright.core.report.reading_section import how_much_was_read, reading_section
from cupwright.core.report.record_section import Record, record_section
from cupwright.core.report.repeats_section import repeats_section
from cupwright.core.report.scales_section import liked_most, scales_section
from cupwright.core.report.table_questions import bowls_of, table_questions
from cupwright.core.report.wording import capital, counted, listed, long_date
from cupwright.core.report.words_section import SMALL_TABLE, commonest_in_short, words_section
from cupwright.core.taste.late import LateCount
from cupwright.core.taste.sheet import IMPORTED
from cupwright.core.words.colour_words import ColouredCup

_BLINDING = {
    Blinding.CODES: "blind, under three-digit codes",
    Blinding.SHUFFLE: "blind by shuffle, codes under the bowls",
    Blinding.OPEN: "not blind: the tasters could know the names",
}
_MANY_COFFEES = 8


def table_report(
    table: Table,
    coffees: Sequence[Coffee],
    identities: Mapping[str, str],
    answers: Answers,
    *,
    cups: Sequence[ColouredCup] = (),
    record: Record | None = None,
) -> Document:
    """The document of a table whose key is open.

    Parameters
    ----------
    coffees : sequence of Coffee
        The coffees of the table.
    identities : mapping
        place -> coffee id, as opened from the key.
    answers : Answers
        The standing answers, from `gather`.
    cups : sequence of ColouredCup
        Of this and all other opened tables, for what goes together over tables.
    record : Record, optional
        The opened key, the day, and what to hold the diary against; without it the report says none of them.
    """
    analysis, found = analyse(answers), totals(table, answers)
    return Document(
        title=table.plan.name,
        subtitle="Report of a tasting",
        facts=_facts(table, coffees, record),
        blocks=(
            *_in_short(analysis),
            *_on_the_table(table, coffees, identities),
            *table_questions(answers, found, bowls=bowls_of(table), level=analysis.level),
            *words_section(analysis),
            # Where no word stands out, "Which words hold?" has said so already.
            *(contrasts_section(analysis) if any(analysis.contrasts.per_coffee) else ()),
            *(fits_section(answers) if table.plan.blinding is not Blinding.OPEN else ()),
            *points_section(table, answers),
            *compared_section(answers),
            *scales_section(analysis),
            *repeats_section(answers, repeats(answers, found, level=analysis.level)),
            *colours_section(answers),
            *colour_words_section(cups, answers.lexicon),
            *choices_section(answers),
            *reading_section(analysis.coverage),
            *(record_section(table, record, {one.id: one for one in coffees}) if record else ()),
            *method_section(analysis),
        ),
    )


def _facts(table: Table, coffees: Sequence[Coffee], record: Record | None) -> tuple[tuple[str, str], ...]:
    plan = table.plan
    day = "Imported" if table.sheet.name == IMPORTED else "Date"
    brewed = (
        f"{plan.grams_per_litre:g} g to the litre, {plan.bowl_ml:g} mL a bowl, "
        f"kettle at {kettle_in_words(boiling(plan.kettle_c, altitude_m=plan.altitude_m))}, "
        f"{plan.altitude_m:g} m above the sea"
    )
    facts = [
        *([(day, long_date(record.day))] if record else []),
        ("Tasters", _tasters(table)),
        ("Coffees", str(len(coffees))),
        ("Sheet", f"{table.sheet.title}, version {table.sheet.version}"),
        ("Served", _BLINDING[plan.blinding]),
    ]
    if plan.blinding is not Blinding.OPEN:
        facts += [("Brewed", brewed), ("Seal", table.commitment or "not sealed")]
    return tuple(facts)


def _tasters(table: Table) -> str:
    if len(table.seats) > SMALL_TABLE:
        return f"{len(table.seats):,}"
    return f"{len(table.seats)}: {listed([seat.name for seat in table.seats])}" if table.seats else "none"


def _in_short(analysis: Analysis) -> tuple[Block, ...]:
    answers, coverage = analysis.answers, analysis.coverage
    took_part = len({one.seat for one in answers.written} | {one.seat for one in answers.given})
    who = f"{counted(took_part, 'taster')} answered on {counted(len(answers.coffees), 'coffee')}."
    said = [Paragraph(f"{who} {how_much_was_read(coverage)}")]
    # A long table would bury the answer: the coffees' own parts follow anyway.
    if len(answers.coffees) <= _MANY_COFFEES:
        said += [
            Paragraph(
                f"{commonest_in_short(analysis, row)} {apart(analysis, row, shown=2)}".strip(), coffee.name
            )
            for row, coffee in enumerate(answers.coffees)
        ]
    if not any(analysis.contrasts.per_coffee):
        said.append(Paragraph(none_apart(analysis)))
    return (Heading("In short"), *said, Paragraph(liked_most(analysis)), *_left_out(answers.late))


def _left_out(late: LateCount) -> tuple[Block, ...]:
    if not late.answers:
        return ()
    one = late.answers == 1
    came = f"{capital(counted(late.answers, 'answer'))} of {counted(late.tasters, 'taster')} came in after"
    left = "it is" if one else "they are"
    proves = "that it was given before" if one else "that they were given before"
    return (
        Paragraph(
            f"{came} the key had been opened; {left} kept and shown beside the others, but left out of every "
            f"count, scale and comparison. Nothing can prove {proves}: the clock of a device can be set.",
            "Left out",
        ),
    )


def _on_the_table(
    table: Table, coffees: Sequence[Coffee], identities: Mapping[str, str]
) -> tuple[Block, ...]:
    titles = ("Coffee", "Roaster", "Origin", "Process", "Stood at")
    blind = table.plan.blinding is not Blinding.OPEN
    rows = [
        (c.name, c.roaster, c.origin, c.process, _places(c.id, identities) if blind else "") for c in coffees
    ]
    used = [i for i, _ in enumerate(titles) if any(row[i] for row in rows)]
    if len(used) < 2:
        return ()
    block = TableBlock(
        columns=tuple(Column(titles[i]) for i in used),
        rows=tuple(tuple(row[i] for i in used) for row in rows),
        caption="The coffees, and the codes or places under which they stood." if blind else "The coffees.",
        name="coffees",
    )
    return (Heading("On the table"), block)


def _places(coffee: str, identities: Mapping[str, str]) -> str:
    return listed([place for place, held in identities.items() if held == coffee])
