"""The page: complete, alone, escaped."""

import re
from html.parser import HTMLParser

from tests.unit.render.documents import HOSTILE, everything, figures

from cupwright.render.html import document_html

_VOID = {"meta", "br", "img", "link", "input", "hr"}


class Page(HTMLParser):
    """Collects elements, attributes and text, and complains of elements closed out of order."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.open: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if tag not in _VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.text += data

    def named(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]


def test_the_page_is_well_formed_and_holds_every_block():
    page = Page(document_html(everything("Harrow Valley")))

    assert page.open == []
    assert [len(page.named(tag)) for tag in ("h1", "h2", "h3", "figure", "table", "svg")] == [
        1,
        1,
        1,
        len(figures()),
        1,
        len(figures()),
    ]
    assert page.text.count("Harrow Valley") >= 12
    assert "1,234.6" in page.text
    assert "–" in page.text


def test_the_page_stands_alone():
    html = document_html(everything())

    page = Page(html)
    assert not {"script", "link", "img", "iframe", "object", "base", "form"} & {
        name for name, _ in page.elements
    }
    addresses = set(re.findall(r"https?://[^\s\"'<>]+", html))
    # names of the drawing language, never fetched
    assert addresses <= {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"}
    assert "url(" not in html
    (policy,) = [m["content"] for m in page.named("meta") if m.get("http-equiv")]
    assert policy.startswith("default-src 'none'")


def test_hostile_text_is_shown_and_never_obeyed():
    page = Page(document_html(everything(HOSTILE)))

    assert page.open == []
    assert page.named("script") == []
    assert not [a for _, attributes in page.elements for a in attributes if a.startswith("on")]
    assert page.text.count("<script>alert(1)</script>") >= 9
    assert "{{7*7}}" in page.text
    assert "\x00" not in page.text


def test_every_figure_has_a_role_and_a_text_equivalent():
    for svg in Page(document_html(everything("North"))).named("svg"):
        assert svg["role"] == "img"
        assert svg["aria-label"] == "North"


def test_table_headings_say_what_they_head():
    page = Page(document_html(everything()))

    assert [cell.get("scope") for cell in page.named("th")] == ["col", "col", "row", "row"]


def test_day_and_night_are_both_there_and_figures_follow():
    html = document_html(everything())

    assert "--ink: light-dark(#2b1d13, #f2eadc);" in html
    assert 'svg [fill="#2b1d13"] { fill: var(--ink); }' in html
