"""The renderer: the port is complete, and what has libraries loads them late."""

import subprocess
import sys
from inspect import signature

import pytest
from tests.unit.render.documents import everything, figures

from cupwright.render.renderer import Renderer
from cupwright.steps.ports import RenderPort


@pytest.mark.parametrize("name", [name for name in vars(RenderPort) if not name.startswith("_")])
def test_the_renderer_offers_what_the_port_asks(name):
    asked, offered = signature(getattr(RenderPort, name)), signature(getattr(Renderer, name))

    assert offered.parameters.keys() == asked.parameters.keys()
    assert offered.return_annotation == asked.return_annotation


def test_a_document_comes_out_in_every_form():
    renderer = Renderer()

    assert renderer.html(everything()).startswith("<!doctype html>")
    assert renderer.pdf(everything()).startswith(b"%PDF-")
    assert renderer.data(everything())["title"] == "Harrow Valley"
    assert renderer.figure_svg(figures()[0]).startswith("<svg role")


def test_drawing_libraries_load_with_the_first_page_and_not_before():
    heavy = {"altair", "typst", "jinja2", "vl_convert"}
    code = f"import sys, cupwright.render.renderer; print({heavy} & set(sys.modules))"

    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert answer.stdout.strip() == "set()"
