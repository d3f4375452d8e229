"""Documents that hold one of everything, for the tests of render."""

from cupwright.core.report.document import (
    Caveat,
    Column,
    Document,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)


def everything(text: str = "Harrow Valley") -> Document:
    """A document with `text` in every place where a user's words can stand."""
    return Document(
        title=text,
        subtitle=text,
        facts=((text, text),),
        blocks=(
            Heading(text),
            Paragraph(text, text),
            Heading(text, 2),
            Caveat(text),
            TableBlock(
                (Column(text), Column("Mean", 1, "right")), ((text, 1234.56), (text, None)), text, text
            ),
            *figures(text),
        ),
    )


def figures(text: str = "Harrow Valley") -> tuple[Figure, ...]:
    """One figure of each kind, and of intervals one with groups."""
    ends = {"estimate": 2.0, "low": 1.0, "high": 3.5}
    share = {"value": 20.0, "low": 10.0, "high": 31.0}
    return (
        Figure(FigureKind.INTERVALS, ({"label": text, **ends},), text, text, text, "scale", (0.0, 5.0)),
        Figure(FigureKind.INTERVALS, ({"label": text, **ends, "group": text},), text, text, text, "apart"),
        Figure(FigureKind.DOTS, ({"label": text, **share},), text, text, text, "shares"),
        Figure(FigureKind.DOTS, ({"label": text, "value": 2, "of": 3},), text, text, text, "rounds"),
        Figure(
            FigureKind.SWATCHES, ({"group": text, "label": text, "colour": "#ab34cd"},), text, text, "", "c"
        ),
        Figure(
            FigureKind.LINES, ({"group": text, "label": text, "x": 50.0, **ends},), text, text, text, "lines"
        ),
    )


# Markup of every layer a report passes through, and characters that some layer cannot hold.
HOSTILE = (
    '</svg><script>alert(1)</script>" onload="x" #panic("x") $x^2$ `c` @ref <lab> {{7*7}} ${1} \x00\x07\ufffe'
)
