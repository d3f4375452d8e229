"""Bad input from the command line: one clear sentence, where and what to do; nothing half-written."""

import re
from pathlib import Path

import pytest

TABLE = 'name = "Thursday"\n[[coffee]]\nname = "Hill"\n'

# what is wrong -> (file name, content, arguments, how the sentence goes)
CLI = {
    "a plan with 0 bowls": (
        "t.toml",
        "bowls_per_sample = 0\n" + TABLE,
        ("plan", "FILE"),
        "The plan has 0 bowls",
    ),
    "500 coffees": (
        "t.toml",
        'name = "T"\n' + "".join(f'[[coffee]]\nname = "C{n}"\n' for n in range(500)),
        ("plan", "FILE"),
        "The plan has 500 coffees; a table takes at most 40.",
    ),
    "negative grams": ("t.toml", TABLE + "grams_left = -5\n", ("plan", "FILE"), "-5 grams"),
    "one coffee twice": (
        "t.toml",
        TABLE + '[[coffee]]\nname = "hill"\n',
        ("plan", "FILE"),
        r"^t\.toml, line 5: 'hill' is on the table already\.",
    ),
    "a misspelt key": (
        "t.toml",
        "bowels = 1\n" + TABLE,
        ("plan", "FILE"),
        r"^t\.toml, line 1: A table has no 'bowels'",
    ),
    "a misspelt sheet": (
        "t.toml",
        'sheet = "opne"\n' + TABLE,
        ("plan", "FILE"),
        "There is no sheet called 'opne'.",
    ),
    "a plan that is no TOML": (
        "t.toml",
        "name = \n",
        ("plan", "FILE"),
        r"^t\.toml, line 1, column 8: This is not TOML",
    ),
    "a plan in Latin-1": (
        "t.toml",
        'name = "Café"\n'.encode("latin-1"),
        ("plan", "FILE"),
        r"^t\.toml, line 1: .*UTF-8",
    ),
    "a plan without end": ("t.toml", b"#" * 1_000_001, ("plan", "FILE"), r"^t\.toml: The file has 1\.0 MB"),
    "a plan that is a folder": (None, None, ("plan", "FILE"), "cannot be read"),
    "a file that is not there": ("t.toml", TABLE, ("plan", "FILE.gone"), "cannot be read: No such file"),
    "a sheet with a typo": (
        "s.toml",
        'name = "x"\nversion = 1\ntitel = "X"\n',
        ("sheets", "--check", "FILE"),
        r"^s\.toml, line 3: The sheet has an unknown entry 'titel'\. Did you mean 'title'\?",
    ),
    "notes without a column": (
        "n.csv",
        "who,coffee,note\nAda,A,plum\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv, line 1: There is no column 'taster'; the columns are who, coffee, note\.",
    ),
    "notes of one taster twice": (
        "n.csv",
        "taster,coffee,note\nAda,A,plum\nAda,A,sour\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv, line 3",
    ),
    "notes with a line too long": (
        "n.csv",
        "taster,coffee,note\nAda,A,plum,sour\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv, line 2: .*quotes",
    ),
    "notes without a note": (
        "n.csv",
        "taster,coffee,note\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv: ",
    ),
    "a broken workbook of notes": (
        "n.xlsx",
        b"PK\x03\x04nothing",
        ("import", "FILE", "--table", "Home"),
        r"^n\.xlsx",
    ),
    "coffees of which one has no name": (
        "c.csv",
        "name,origin\nA,x\n,y\n",
        ("coffees", "--add", "FILE"),
        r"^c\.csv, line 3, column name: The coffee has no name\. .*Nothing was added\.",
    ),
    "a backup that is none": ("b.sqlite3", b"not a database", ("restore", "FILE"), r"b\.sqlite3"),
    "scores with text among the numbers": (
        "s.csv",
        "taster,coffee,attribute,value\nAda,A,body,5\nAda,B,body,five\n",
        ("analyse", "FILE"),
        r"^s\.csv, line 3, column value: 'five' is not a number\.",
    ),
    "scores without a column": (
        "s.csv",
        "who,coffee,value\nAda,A,5\n",
        ("analyse", "FILE", "--json"),
        r"^s\.csv, line 1: There is no column 'taster'; the columns are who, coffee, value\.",
    ),
    "one repeat of scores on two lines": (
        "s.csv",
        "taster,coffee,value,repeat\nAda,A,5,1\nBen,A,6,1\nAda,A,5,1\n",
        ("analyse", "FILE"),
        r"^s\.csv, line 4: Lines 2 and 4 are one repeat",
    ),
    "a score of nobody": (
        "s.csv",
        "taster,coffee,value\n,A,5\n",
        ("analyse", "FILE"),
        r"^s\.csv, line 2, column taster: This score has no taster\.",
    ),
    "scores with decimals in two ways": (
        "s.csv",
        "taster;coffee;value\nAda;A;5.5\nAda;B;1,250\n",
        ("analyse", "FILE"),
        r"^s\.csv, line 3, column value: Decimals are written in two ways",
    ),
    "scores without a line": (
        "s.csv",
        "taster,coffee,value\n",
        ("analyse", "FILE"),
        r"^s\.csv: There is no line",
    ),
    "ten million lines of scores": (
        "s.csv",
        b"taster,coffee,value\n" + b"A,B,5\n" * 10_000_000,
        ("analyse", "FILE"),
        r"^s\.csv: The file has more than the 2000000 lines that are read\.",
    ),
    "more scores than are read": (
        "s.csv",
        b"0" * 100_000_001,
        ("analyse", "FILE"),
        r"^s\.csv: The file has 100",
    ),
    "scores that are a workbook of another kind": (
        "s.xlsx",
        b"PK\x03\x04no",
        ("analyse", "FILE"),
        r"^s\.xlsx",
    ),
    "a report of a table nobody has": (
        "r.pdf",
        "",
        ("report", "Nobody", "-o", "FILE"),
        "There is no table 'Nobody'",
    ),
}


@pytest.fixture
def cli(tmp_path, monkeypatch, capsys):
    """The command line in this process, which is quicker, on a data folder of its own."""
    from cupwright.cli.joint import Joint
    from cupwright.cli.program import main
    from cupwright.main import open_tools, serve

    monkeypatch.setenv("CUPWRIGHT_DATA", str(tmp_path / "data"))

    def run(*arguments: str) -> tuple[int, str, str]:
        code = main(arguments, Joint(open_tools, serve))
        said = capsys.readouterr()
        return code, said.out, said.err

    return run


@pytest.mark.parametrize("fault", CLI)
def test_the_command_line_refuses_it_in_one_sentence_and_keeps_nothing(cli, tmp_path, fault):
    name, content, arguments, sentence = CLI[fault]
    file = _written(tmp_path, name, content)

    code, out, err = cli(*(argument.replace("FILE", str(file)) for argument in arguments))

    assert code == 1, out + err
    assert out == ""
    assert re.search(sentence, err), err
    assert err.count("\n") == 1
    assert "Traceback" not in err
    for listing in ("coffees", "tables"):
        assert cli(listing, "--json")[1].strip() == "[]"


def test_a_real_process_ends_with_1_and_no_trace(cupwright, tmp_path):
    file = _written(tmp_path, "t.toml", "name = \n")

    done = cupwright("plan", str(file))

    assert done.returncode == 1
    assert done.stdout == ""
    assert done.stderr.startswith("t.toml, line 1, column 8: This is not TOML")
    assert done.stderr.count("\n") == 1


def test_a_taken_port_is_one_sentence(cupwright, shared_server, tmp_path):
    done = cupwright("serve", "--port", str(shared_server.port), "--data", str(tmp_path / "other"))

    assert done.returncode == 1
    assert done.stderr.startswith(f"Port {shared_server.port} is taken by another program.")


def test_a_second_server_on_the_same_data_is_one_sentence(cupwright, shared_server):
    done = cupwright("serve", "--port", "0", "--data", str(shared_server.data))

    assert done.returncode == 1
    assert done.stderr.startswith("Cupwright runs already on the data in")


def test_a_data_folder_of_something_else_is_one_sentence(cupwright, tmp_path):
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "cupwright.sqlite3").write_bytes(b"this is not a database" * 1000)

    done = cupwright("tables")

    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "cannot be opened" in done.stderr


def _written(folder: Path, name: str | None, content: str | bytes | None) -> Path:
    if name is None:
        return folder
    file = folder / name
    file.write_bytes(content if isinstance(content, bytes) else (content or "").encode())
    return file
