"""A table as a TOML file, and every way it can be wrong."""

from datetime import date

import pytest

from cupwright.cli.table_file import read_table_file
from cupwright.core.plan.table import Blinding, Plan
from cupwright.errors import BadFile

COFFEE = '[[coffee]]\nname = "Hill lot 7"\n'


def complaint(text: str) -> BadFile:
    with pytest.raises(BadFile) as caught:
        read_table_file(text, "table.toml")
    return caught.value


def test_what_is_not_said_has_the_defaults_of_a_plan():
    read = read_table_file('name = "Thursday"\n' + COFFEE, "table.toml")

    assert read.plan == Plan(name="Thursday", coffees=())
    assert [coffee.name for coffee in read.coffees] == ["Hill lot 7"]


def test_everything_can_be_said():
    read = read_table_file(
        """
        name = "Thursday"
        sheet = "open"
        blinding = "shuffle"
        tasters = ["Ada"]
        bowls_per_sample = 3
        bowl_ml = 225
        grams_per_litre = 60.5
        scale_step_g = 0.01
        kettle_c = 94
        purge_g = 4
        spare_bowl = true
        seed = 7
        [[coffee]]
        name = "Hill lot 7"
        roaster = "the roastery"
        origin = "the hill"
        process = "washed"
        variety = "old"
        roast_date = 2026-03-01
        published_notes = "plum"
        grams_left = 250
        """,
        "table.toml",
    )

    assert read.plan == Plan(
        "Thursday", (), ("Ada",), 3, 225.0, 60.5, 0.01, 94.0, True, 4.0, Blinding.SHUFFLE, "open", 7
    )
    assert read.coffees[0].roast_date == date(2026, 3, 1)
    assert read.coffees[0].grams_left == 250.0


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('name = "A\n', "table.toml, line 1, column 10: This is not TOML"),
        ('name = "A"\nbowl_ml = \n', "table.toml, line 2, column 11: This is not TOML"),
        ('name = "A"\nbowels = 3\n', "table.toml, line 2: A table has no 'bowels'. The keys are name,"),
        (
            'name = "A"\nbowl_ml = "two hundred"\n',
            "table.toml, line 2: 'bowl_ml' is not a number. Give a number without quotes.",
        ),
        (
            'name = "A"\nbowls_per_sample = 1.5\n',
            "table.toml, line 2: 'bowls_per_sample' is not a whole",
        ),
        (
            'name = "A"\nbowls_per_sample = true\n',
            "table.toml, line 2: 'bowls_per_sample' is not a whole",
        ),
        ('name = "A"\ntasters = [1]\n', "table.toml, line 2: 'tasters' is not a list of names."),
        ('name = "A"\ntasters = "Ada"\n', "table.toml, line 2: 'tasters' is not a list of names."),
        ('name = "A"\nblinding = "triple"\n', "table.toml, line 2: 'triple' is no way of blinding."),
        ('name = "A"\ncoffee = ["Hill"]\n', "table.toml, line 2: A coffee is not written as [[coffee]]."),
        ('name = "A"\ncoffee = [{name = "Hill", grams = 3}]\n', "table.toml: A coffee has no 'grams'."),
        ("bowl_ml = 200\n" + COFFEE, "table.toml: The table has no name."),
        ('name = "A"\n[[coffee]]\norigin = "x"\n', "table.toml, line 2: The coffee has no name."),
        (
            f'name = "A"\n{COFFEE}\n[[coffee]]\nname = "B"\ngrams = 3\n',
            "table.toml, line 7: A coffee has no 'grams'.",
        ),
        (
            f'name = "A"\n{COFFEE}roast_date = "2026-03-01"\n',
            "table.toml, line 4: 'roast_date' is not a date such as 2026-03-01, without quotes.",
        ),
        (
            f'name = "A"\n{COFFEE}roast_date = 2026-03-01T10:00:00\n',
            "table.toml, line 4: 'roast_date' is not a date",
        ),
        (
            f'name = "A"\nbowls_per_sample = 0\n{COFFEE}',
            "table.toml, line 2: The plan has 0 bowls per sample.",
        ),
        (f'name = "A"\n\nbowl_ml = 5\n{COFFEE}', "table.toml, line 3: The water in a bowl is 5 mL;"),
        (
            f'name = "A"\nkettle_c = {"9" * 400}\n{COFFEE}',
            "table.toml, line 2: The kettle temperature is not",
        ),
        (
            f'name = "A"\ntasters = ["Ada", "ada"]\n{COFFEE}',
            "table.toml, line 2: Two tasters are called ada.",
        ),
        (f'name = "A"\n{COFFEE}grams_left = -3\n', "table.toml, line 4: -3 grams cannot be on the shelf."),
        (
            'name = "A"\n' + "".join(f'[[coffee]]\nname = "{n}"\n' for n in range(500)),
            "table.toml, line 2: The",
        ),
        ('name = "A"\n', "table.toml: The plan has no coffee."),
    ],
)
def test_each_fault_is_a_sentence_with_its_line(text, sentence):
    assert str(complaint(text)).startswith(sentence)


def test_an_empty_file_is_refused_in_words():
    assert "The table has no name." in str(complaint(""))


def test_a_coffee_that_stands_twice_in_the_file_is_told_how_to_stand_under_two_codes():
    said = complaint('name = "A"\n' + COFFEE + COFFEE)

    assert (said.where.line, said.message) == (5, "'Hill lot 7' is on the table already.")
    assert "twice = true" in said.todo
