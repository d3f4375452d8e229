"""Answers that are files."""

import pytest

from cupwright.web.files import as_file


@pytest.mark.parametrize(
    ("stem", "name"),
    [
        ("report Thursday", "cupwright-report-thursday.pdf"),
        ('a"; filename="b.exe', "cupwright-a-filename-b-exe.pdf"),
        ("../../etc/passwd", "cupwright-etc-passwd.pdf"),
        ("Füße\r\nX-Evil: 1", "cupwright-f-e-x-evil-1.pdf"),
        ("咖啡", "cupwright-file.pdf"),
        ("x" * 500, f"cupwright-{'x' * 60}.pdf"),
    ],
)
def test_a_file_is_named_in_plain_letters_whatever_the_table_is_called(stem, name):
    assert as_file(b"", "pdf", stem).headers["content-disposition"] == f'inline; filename="{name}"'


def test_a_report_may_run_nothing_and_load_nothing():
    policy = as_file(b"", "html", "report").headers["content-security-policy"]

    assert policy.startswith("default-src 'none';")
    assert "script-src" not in policy
    assert "sandbox" in policy
    assert "allow-scripts" not in policy


def test_each_form_says_what_it_is():
    kinds = {form: as_file(b"", form, "x").headers["content-type"] for form in ("pdf", "json", "html")}

    assert kinds == {"pdf": "application/pdf", "json": "application/json", "html": "text/html; charset=utf-8"}
