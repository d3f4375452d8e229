"""The renderer: paper, screen and data behind one port (steps/ports.py)."""

from collections.abc import Sequence
from typing import Any

from cupwright.core.plan.table import Table
from cupwright.core.pour.labels import LabelSheet
from cupwright.core.pour.pour_list import PourLine
from cupwright.core.report.document import Document, Figure
from cupwright.render.data import document_data


class Renderer:
    """Implements RenderPort. The drawing and typesetting libraries load with the first page that needs it."""

    def html(self, document: Document) -> str:
        """A page that stands alone."""
        from cupwright.render.html import document_html

        return document_html(document)

    def pdf(self, document: Document) -> bytes:
        """The same on paper."""
        from cupwright.render.pdf import document_pdf

        return document_pdf(document)

    def data(self, document: Document) -> dict[str, Any]:
        """The same as JSON-able data."""
        return document_data(document)

    def labels_pdf(self, labels: LabelSheet, size: str) -> bytes:
        """Labels for the undersides of the bowls; `size` is "a4" or "letter", here and below."""
        from cupwright.render.labels import labels_pdf

        return labels_pdf(labels, size=size)

    def pour_list_pdf(self, table: Table, lines: Sequence[PourLine], size: str) -> bytes:
        """Which coffee goes under which code, with its dose, for the pourer alone."""
        from cupwright.render.labels import pour_list_pdf

        return pour_list_pdf(table, lines, size=size)

    def paper_sheet_pdf(self, table: Table, size: str) -> bytes:
        """The sheet to fill in by hand."""
        from cupwright.render.paper_sheet import paper_sheets_pdf

        return paper_sheets_pdf(table, size)

    def figure_svg(self, figure: Figure) -> str:
        """One picture."""
        from cupwright.render.figures import figure_svg

        return figure_svg(figure)
