"""The report on paper: tagged, complete, with its own fonts, and nothing typed into it as source."""

from io import BytesIO

import pytest
from pypdf import PdfReader
from tests.unit.render.documents import HOSTILE, everything

from cupwright.render.pdf import document_pdf


def reader(text: str = "Harrow Valley", **settings) -> PdfReader:
    return PdfReader(BytesIO(document_pdf(everything(text), **settings)))


def words(pdf: PdfReader) -> str:
    return "\n".join(page.extract_text() for page in pdf.pages)


def fonts(pdf: PdfReader) -> set[str]:
    found = set()
    for page in pdf.pages:
        for font in page["/Resources"]["/Font"].values():
            found.add(str(font.get_object()["/BaseFont"]).split("+")[-1])
    return found


def test_the_paper_is_tagged_titled_and_in_a_language():
    pdf = reader()

    catalogue = pdf.trailer["/Root"]
    assert pdf.metadata.title == "Harrow Valley"
    assert catalogue["/MarkInfo"]["/Marked"]
    assert catalogue["/Lang"] == "en"


def test_the_paper_claims_pdf_ua():
    """ISO 14289-1 identifier in the metadata; the typesetter refuses to write it otherwise."""
    metadata = reader().trailer["/Root"]["/Metadata"].get_data().decode()

    assert "pdfuaid:part" in metadata


def test_every_block_is_on_the_paper():
    text = words(reader())

    assert text.count("Harrow Valley") >= 12
    assert "1,234.6" in text


def test_only_the_typesetters_own_fonts_are_used():
    assert all(name.startswith(("LibertinusSerif", "DejaVu")) for name in fonts(reader()))


def test_hostile_text_is_printed_and_never_run():
    text = words(reader(HOSTILE)).replace("\n", " ")

    assert '#panic("x")' in text.replace("“", '"').replace("”", '"')
    assert "<script>alert(1)</script>" in text


@pytest.mark.parametrize(("size", "width"), [("a4", 595), ("letter", 612)])
def test_paper_comes_in_two_sizes(size, width):
    assert round(float(reader(size=size).pages[0].mediabox.width)) == width


def test_the_paper_is_the_same_byte_for_byte():
    assert document_pdf(everything()) == document_pdf(everything())


@pytest.mark.parametrize("text", ["Кофе", "καφές", "קפה", "قهوة", "咖啡", "☕😀", "e\u0301"])
def test_no_script_stops_the_printing(text):
    assert len(reader(text).pages) >= 1
