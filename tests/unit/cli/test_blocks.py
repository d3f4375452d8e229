"""A document on a terminal: sentences and tables, no heading over a picture that is not there."""

from cupwright.cli.blocks import say_blocks
from cupwright.core.report.document import Caveat, Column, Figure, FigureKind, Heading, Paragraph, TableBlock

PICTURE = Figure(FigureKind.INTERVALS, ({"label": "A", "estimate": 1.0},), "One line.")
TABLE = TableBlock((Column("Coffee"),), (("Quiet Ridge",),))


def test_a_heading_over_a_picture_alone_is_left_out(capsys):
    say_blocks(
        [
            Heading("As it cools"),
            Paragraph("Nothing moves."),
            Heading("body", 2),
            PICTURE,
            Caveat("Least squares."),
        ]
    )

    assert capsys.readouterr().out.splitlines() == ["", "As it cools", "Nothing moves.", "Least squares."]


def test_a_heading_whose_table_follows_a_picture_stays(capsys):
    say_blocks([Heading("Which taster?"), Heading("acidity", 2), PICTURE, Heading("body", 2), PICTURE, TABLE])

    said = capsys.readouterr().out.splitlines()
    assert "Which taster?" in said
    assert "acidity" not in said
    assert said[-3:] == ["body", "Coffee", "Quiet Ridge"]


def test_a_section_without_words_keeps_its_title(capsys):
    say_blocks([Heading("How it was read"), Caveat("Nothing was blank.")])

    assert capsys.readouterr().out.splitlines() == ["", "How it was read", "Nothing was blank."]
