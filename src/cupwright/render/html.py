"""A document as one HTML page that stands alone: no script, no address, pictures inside, light and dark.

Whatever users wrote reaches the template as data and is escaped by it.
"""

from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from cupwright.core.report.document import Document, Figure
from cupwright.render import palette
from cupwright.render.cells import cell_text
from cupwright.render.data import kind_of
from cupwright.render.figures import figure_svg
from cupwright.render.printable import printable
from cupwright.render.sections import sections

_COLOURS = (
    ("ink", palette.INK, palette.INK_NIGHT),
    ("quiet", palette.QUIET, palette.QUIET_NIGHT),
    ("hairline", palette.HAIRLINE, palette.HAIRLINE_NIGHT),
    ("paper", palette.PAPER, palette.PAPER_NIGHT),
    ("accent", palette.ACCENT, palette.ACCENT_NIGHT),
    ("wash", palette.WASH, palette.WASH_NIGHT),
)


def document_html(document: Document) -> str:
    """The page as text."""
    document = printable(document)
    return _template().render(
        document=document,
        sections=sections(document),
        kind_of=kind_of,
        colours=_COLOURS,
        face=palette.FACE,
        text=cell_text,
        drawn=_drawn,
    )


def _drawn(figure: Figure) -> Markup:
    # The figure's texts were escaped where the SVG was written.
    return Markup(figure_svg(figure))


@cache
def _template() -> Template:
    folder = FileSystemLoader(Path(__file__).with_name("templates"))
    # Everything is escaped, whatever the file is called.
    environment = Environment(autoescape=True, undefined=StrictUndefined, loader=folder)
    return environment.get_template("report.html")
