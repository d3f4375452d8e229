"""Every answer of a table as lines for another program."""

import csv
import io
import json

NOTES = 'taster,coffee,note,acidity\nAda,Hill lot,"plum, cocoa",6.5\nBen,Hill lot,,7\n'


def test_answers_come_as_csv_and_as_data_and_a_table_without_a_clock_has_no_warmth(cli, tmp_path):
    file = tmp_path / "notes.csv"
    file.write_text(NOTES, encoding="utf-8")
    cli("import", str(file), "--table", "Old notes")

    rows = list(csv.DictReader(io.StringIO(cli("analyse", "Old notes", "--answers").out)))
    data = json.loads(cli("analyse", "Old notes", "--answers", "--json").out)

    assert {(row["taster"], row["field"], row["value"]) for row in rows} == {
        ("Ada", "note", "plum, cocoa"),
        ("Ada", "acidity", "6.5"),
        ("Ben", "acidity", "7"),
    }
    assert {row["coffee"] for row in rows} == {"Hill lot"}
    assert all(row["cup_c"] == "" for row in rows)
    assert [row["value"] for row in data if row["field"] == "note"] == ["plum, cocoa"]
    assert all(row["cup_c"] is None for row in data)
