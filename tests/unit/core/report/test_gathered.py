"""Sections gathered: answers in full, silences in one sentence."""

from cupwright.core.report.document import Column, Heading, Paragraph, TableBlock
from cupwright.core.report.gathered import gathered

SHOWN = (Heading("Which coffee?"), Paragraph("A."), TableBlock((Column("Coffee"),), (("A",),)))


def silent(title: str):
    return (Heading(title), Paragraph("Three tasters are needed."))


def test_what_has_something_to_show_stays_whole():
    assert gathered([SHOWN]) == SHOWN


def test_silent_questions_share_one_sentence_at_the_end():
    blocks = gathered([silent("Which taster?"), SHOWN, silent("Which word?"), ()])

    assert blocks[:3] == SHOWN
    assert blocks[3:] == (
        Heading("What there is too little for"),
        Paragraph("“Which taster?” and “Which word?”."),
    )


def test_where_nothing_can_be_shown_every_question_says_why_if_asked_to():
    sections = [silent("Which taster?"), silent("Which word?")]

    assert gathered(sections, reasons=True) == (*sections[0], *sections[1])
    assert len(gathered(sections)) == 2


def test_nothing_gathered_is_nothing_said():
    assert gathered([]) == ()
