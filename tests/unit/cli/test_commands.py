"""The same work as in a browser, from the command line."""

import json

import pytest


@pytest.fixture
def planned(cli, table_file):
    """A planned table of two coffees for Ada and Ben."""
    answer = cli("plan", table_file(), "--json")
    assert answer.code == 0, answer.err
    return json.loads(answer.out)


def shelf(cli) -> list[str]:
    return [coffee["name"] for coffee in json.loads(cli("coffees", "--json").out)]


def test_a_plan_puts_new_coffees_on_the_shelf_and_prints_the_brief(cli, table_file):
    answer = cli("plan", table_file())

    assert answer.code == 0
    assert "Dose       11 g" in answer.out
    assert "Caution: Scalding water" in answer.out
    assert [coffee["name"] for coffee in json.loads(cli("coffees", "--json").out)] == [
        "Hill lot 7",
        "River lot 2",
    ]


def test_a_coffee_on_the_shelf_is_not_put_there_twice(cli, table_file, planned):
    cli("plan", table_file('name = "Friday"', coffees=("HILL LOT 7", "Ridge lot 5")))

    assert shelf(cli) == ["Hill lot 7", "Ridge lot 5", "River lot 2"]


def test_a_refused_plan_leaves_no_coffee_behind(cli, table_file):
    assert cli("plan", table_file('name = "Friday"', "bowls_per_sample = 0")).code == 1

    assert shelf(cli) == []


def test_numbers_come_as_data_too(planned):
    assert planned["brief"]["recipe"]["dose_g"] == 11.0
    assert planned["table"]["step"] == "plan"
    assert planned["table"]["commitment"] == ""


def test_the_brief_says_how_even_the_serving_orders_are(cli, table_file, planned):
    said = "Every sample stands in every place once; each follows each other once."

    assert planned["brief"]["balance"]["sentences"][0] == said
    assert planned["brief"]["balance"]["together"] == [[0, 2], [2, 0]]
    assert f"Serving orders: {said}" in cli("brief", planned["table"]["name"]).out


def test_the_pour_list_of_two_flights_is_told_flight_by_flight(cli, table_file):
    cli("plan", table_file('name = "Friday"', "flight = 2", coffees=("A", "B", "C", "D")))
    cli("seal", "Friday")

    lines = json.loads(cli("pour-list", "Friday", "--json").out)
    told = cli("pour-list", "Friday").out

    assert [line["flight"] for line in lines] == [1, 1, 2, 2]
    codes = [line["code"] for line in lines]
    order = ("Flight 1 of 2", *codes[:2], "Flight 2 of 2", *codes[2:])
    assert [told.index(part) for part in order] == sorted(told.index(part) for part in order)


def test_the_pour_list_of_one_flight_names_none(cli, planned):
    cli("seal", "Thursday")

    assert "Flight" not in cli("pour-list", "Thursday").out


def test_from_seal_to_report(cli, planned, tmp_path):
    sealed = json.loads(cli("seal", "thursday", "--json").out)
    assert len(sealed["commitment"]) == 64

    lines = json.loads(cli("pour-list", "Thursday", "--json").out)
    assert sorted(line["code"] for line in lines) == sealed["places"]

    for command in ("labels", "paper", "pour-list"):
        paper = tmp_path / f"{command}.pdf"
        for size in ([], ["--size", "letter"]):
            assert cli(command, "Thursday", "-o", str(paper), *size).code == 0
            assert paper.read_bytes().startswith(b"%PDF-")
    assert cli("pour-list", "Thursday", "-o", str(paper), "--json").code == 2

    assert cli("report", "Thursday", "--json").code == 1
    assert cli("reveal", "Thursday").code == 0
    compared = json.loads(cli("reveal", "Thursday", "--json").out)
    true = {line["code"]: line["coffee"]["name"] for line in lines}
    assert {c["places"][0]: c["coffee"]["name"] for c in compared["coffees"]} == true

    for form, start in (("pdf", b"%PDF-"), ("html", b"<!"), ("json", b"{")):
        file = tmp_path / f"report.{form}"
        assert cli("report", "Thursday", "-o", str(file)).code == 0
        assert file.read_bytes().startswith(start)
    assert json.loads(cli("report", "Thursday", "--json").out) == json.loads(
        (tmp_path / "report.json").read_text()
    )


def test_progress_analysis_and_diary_come_as_text_and_as_data(cli, planned):
    name = planned["table"]["name"]
    assert cli("progress", name).code == 1
    cli("seal", name)

    assert cli("progress", name).out.splitlines()[1].split()[:4] == ["Ada", "0", "of", "2"]
    assert json.loads(cli("progress", name, "--json").out)[0]["passes"][0] == {
        "part": "fragrance",
        "done": 0,
        "all": 2,
    }
    assert cli("analyse", name).code == 1
    cli("reveal", name)

    assert "No agreement: Agreement needs 2 coffees" in cli("analyse", name).out
    data = json.loads(cli("analyse", name, "--json").out)
    assert [coffee["wrote"] for coffee in data["coffees"]] == [0, 0]
    lines = json.loads(cli("diary", name, "--json").out)
    assert [line["kind"] for line in lines] == ["planned", "sealed", "key opened"]
    assert f"The digest of the last line is {lines[-1]['digest']}." in cli("diary", name).out


def test_after_a_shuffle_the_codes_are_given_bowl_by_bowl(cli, table_file):
    cli("plan", table_file('name = "Alone"', 'blinding = "shuffle"'), "--seal")
    codes = [line["code"] for line in json.loads(cli("pour-list", "Alone", "--json").out)]

    refused = cli("reveal", "Alone", "--placing", f"1={codes[0]}")
    assert refused.code == 1

    placings = [f"--placing={place}={code}" for place, code in enumerate(codes, start=1)]
    answer = cli("reveal", "Alone", *placings, "--json")
    assert answer.code == 0, answer.err
    assert sorted(c["places"][0] for c in json.loads(answer.out)["coffees"]) == ["1", "2"]


def test_a_file_of_notes_becomes_a_table_with_a_report(cli, tmp_path):
    notes = tmp_path / "notes.csv"
    notes.write_text("who,coffee,note,preference\nAda,A,plum,4\nAda,B,lemon,2\nBen,A,,5\nBen,B,sour,1\n")

    answer = cli("import", str(notes), "--table", "Home", "--taster", "who", "--json")

    assert answer.code == 0, answer.err
    told = json.loads(answer.out)
    assert (told["tasters"], told["coffees"], told["questions"]) == (2, 2, ["note", "preference"])
    assert "plum" in cli("report", "Home", "--json").out.lower()


def test_a_file_of_notes_tells_what_each_column_was_taken_for(cli, tmp_path):
    notes = tmp_path / "notes.csv"
    notes.write_text("taster,coffee,note,preference,shop\nAda,A,plum,4,corner\nAda,B,lemon,2.5,corner\n")

    said = cli("import", str(notes), "--table", "Home").out.splitlines()

    assert said[0] == "The table 'Home' has 1 taster and 2 coffees."
    assert said[1:4] == [
        "  note: words to read",
        "  preference: a scale of answers from 2.5 to 4, the liking",
        "  shop: kept as text",
    ]


def test_a_column_that_no_coffee_has_a_field_for_is_told(cli, tmp_path):
    shelf = tmp_path / "shelf.csv"
    shelf.write_text("name,price\nHill lot 7,12\n")

    answer = cli("coffees", "--add", str(shelf))

    assert answer.code == 0
    assert answer.err == "Not kept, since a coffee has no such field: price.\n"


def test_plan_and_seal_say_what_comes_next(cli, table_file):
    assert cli("plan", table_file()).out.endswith("\nNext: cupwright seal 'Thursday'\n")
    assert "\nNext: cupwright labels 'Thursday' -o labels.pdf" in cli("seal", "Thursday").out


def test_a_file_of_coffees_goes_on_the_shelf(cli, tmp_path):
    shelf = tmp_path / "shelf.csv"
    shelf.write_text("name;origin;grams left\nHill lot 7;the hill;250\n")

    answer = cli("coffees", "--add", str(shelf))

    assert answer.code == 0, answer.err
    assert "Hill lot 7" in answer.out
    assert "250" in answer.out


def test_a_backup_comes_back_in_another_folder(cli, planned, tmp_path):
    copy, other = tmp_path / "copy.sqlite3", str(tmp_path / "other")
    assert cli("backup", str(copy)).code == 0

    assert cli("restore", str(copy), "--data", other).code == 0

    tables = json.loads(cli("tables", "--json", "--data", other).out)
    assert [table["name"] for table in tables] == ["Thursday"]


def test_sheets_are_listed_with_their_questions(cli):
    sheets = json.loads(cli("sheets", "--json").out)

    assert "open" in [sheet["name"] for sheet in sheets]


def phones_file(cli, tmp_path, table: dict, *values: str) -> str:
    """What Ada's phone would save: one note a value, each on the flavour of another place."""
    seat = next(seat for seat in table["seats"] if seat["name"] == "Ada")
    rows = [
        {
            "id": f"note-{number}",
            "place": place,
            "pass": "flavour",
            "field": "words",
            "value": value,
            "stamp": {"counter": number, "device": "phone"},
            "written_at": 0,
        }
        for number, (value, place) in enumerate(
            zip(values, [*table["places"], "none"], strict=False), start=1
        )
    ]
    file = tmp_path / "ada.json"
    where = {"table": {"id": table["id"], "name": table["name"]}, "seat": {"id": seat["id"], "name": "Ada"}}
    file.write_text(json.dumps({"cupwright_notes": 1, **where, "notes": rows}), encoding="utf-8")
    return str(file)


def test_a_phones_file_is_known_by_its_content_and_goes_to_its_table(cli, planned, tmp_path):
    table = json.loads(cli("seal", "Thursday", "--json").out)
    file = phones_file(cli, tmp_path, table, "plum")

    answer = cli("import", file)
    assert (answer.code, answer.out) == (0, "Ada at 'Thursday': 1 note kept, 1 of them new.\n")
    assert json.loads(cli("import", file, "--table", "thursday", "--json").out)["new"] == 0

    assert cli("reveal", "Thursday").code == 0
    late = cli("import", phones_file(cli, tmp_path, table, "plum", "lemon"))
    assert "2 notes kept, 1 of them new" in late.out
    assert "shown as late, and left out of every count" in late.out
    assert "Ada, Flavour: plum" in cli("reveal", "Thursday").out
    assert "Ada, Flavour, late and not compared: lemon" in cli("reveal", "Thursday").out
    assert (
        "1 answer of 1 taster came in after the key had been opened"
        in cli("report", "Thursday", "--json").out
    )


def test_a_note_of_a_phones_file_that_cannot_stand_is_told_and_the_others_are_kept(cli, planned, tmp_path):
    table = json.loads(cli("seal", "Thursday", "--json").out)

    answer = cli("import", phones_file(cli, tmp_path, table, "plum", "lemon", "nowhere"))

    assert answer.code == 1
    assert answer.err.startswith("ada.json: Note 3 was not taken: There is no place 'none'")
    assert answer.err.endswith("All others were kept.\n")
    assert (
        json.loads(cli("import", phones_file(cli, tmp_path, table, "plum", "lemon"), "--json").out)["new"]
        == 0
    )


def test_a_phones_file_of_another_table_is_refused_and_a_file_of_rows_needs_a_name(
    cli, planned, table_file, tmp_path
):
    table = json.loads(cli("seal", "Thursday", "--json").out)
    cli("plan", table_file('name = "Friday"'))
    file = phones_file(cli, tmp_path, table, "plum")
    rows = tmp_path / "notes.csv"
    rows.write_text("taster,coffee,note\nAda,A,plum\n")

    assert "belongs to the table 'Thursday'" in cli("import", file, "--table", "Friday").err
    unnamed = cli("import", str(rows))
    assert unnamed.code == 2
    assert "--table NAME" in unnamed.err


def test_the_reveal_says_whether_notes_pick_out_the_coffees(cli, table_file, tmp_path):
    bags = ('Hill lot 7"\npublished_notes = "plum', 'River lot 2"\npublished_notes = "lemon')
    cli("plan", table_file(coffees=bags))
    table = json.loads(cli("seal", "Thursday", "--json").out)
    pours = {line["code"]: line["coffee"]["published_notes"] for line in pour_list(cli)}
    cli("import", phones_file(cli, tmp_path, table, *(pours[place] for place in table["places"])))
    cli("reveal", "Thursday")

    told, data = cli("reveal", "Thursday").out, json.loads(cli("reveal", "Thursday", "--json").out)

    assert "Ada's notes pick out the two coffees on the table better than 1 of 2 ways" in told
    assert data["fits"][0]["published"]["chance"]["worse"] == 1


def pour_list(cli) -> list[dict]:
    return json.loads(cli("pour-list", "Thursday", "--json").out)
