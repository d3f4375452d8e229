"""What a PDF really shows: its words, lines and bars with their places, in mm from the lower left."""

from dataclasses import dataclass
from io import BytesIO
from typing import Any

from pypdf import PageObject, PdfReader

MM = 25.4 / 72


@dataclass(frozen=True)
class Written:
    text: str
    x: float
    y: float  # of the baseline
    size_pt: float


@dataclass(frozen=True)
class Drawn:
    """A path from its first to its farthest point; `filled` or stroked."""

    x: float
    y: float  # of its top
    width: float
    height: float
    filled: bool


def pages(pdf: bytes) -> list[PageObject]:
    return list(PdfReader(BytesIO(pdf)).pages)


def words(pdf: bytes) -> str:
    """All text in reading order, in one line."""
    return " ".join(" ".join(page.extract_text() for page in pages(pdf)).split())


def size_mm(page: PageObject) -> tuple[int, int]:
    return round(float(page.mediabox.width) * MM), round(float(page.mediabox.height) * MM)


def written(page: PageObject) -> list[Written]:
    found: list[Written] = []

    def note(text: str, cm: list[float], _tm: Any, _font: Any, size: float) -> None:
        if text.strip():
            found.append(Written(text.strip(), cm[4] * MM, cm[5] * MM, size))

    page.extract_text(visitor_text=note)
    return found


def drawn(page: PageObject) -> list[Drawn]:
    found: list[Drawn] = []
    points: list[tuple[float, float]] = []

    def note(operator: bytes, operands: list[Any], cm: list[float], _tm: Any) -> None:
        if operator in (b"m", b"l"):
            if operator == b"m":
                points.clear()
            points.append((float(operands[0]), float(operands[1])))
        elif operator in (b"S", b"f") and points:
            found.append(_path(points, cm, filled=operator == b"f"))

    page.extract_text(visitor_operand_before=note)
    return found


def _path(points: list[tuple[float, float]], cm: list[float], *, filled: bool) -> Drawn:
    xs = [x * cm[0] + y * cm[2] + cm[4] for x, y in points]
    ys = [x * cm[1] + y * cm[3] + cm[5] for x, y in points]
    return Drawn(min(xs) * MM, max(ys) * MM, (max(xs) - min(xs)) * MM, (max(ys) - min(ys)) * MM, filled)


def fonts(pdf: bytes) -> set[str]:
    """Names of the fonts inside, without the tag of their subset."""
    used = (page["/Resources"]["/Font"] for page in pages(pdf))
    return {font.get_object()["/BaseFont"].split("+")[-1] for page in used for font in page.values()}


def is_tagged(pdf: bytes) -> bool:
    root = PdfReader(BytesIO(pdf)).trailer["/Root"]
    return bool(root["/MarkInfo"]["/Marked"]) and root["/Lang"] == "en"


def title(pdf: bytes) -> str | None:
    metadata = PdfReader(BytesIO(pdf)).metadata
    return metadata.title if metadata else None
