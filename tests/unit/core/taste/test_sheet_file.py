"""Sheets as files: what is read, and what each complaint says and where."""

import json
import re

import pytest

from cupwright.core.taste.sheet import Field, Kind, Moment, Pass, Sheet, Term
from cupwright.core.taste.sheet_file import (
    builtin_names,
    builtin_sheet,
    parse_sheet,
    sheet_as_data,
    sheet_from_data,
)
from cupwright.errors import BadSheet, NotFound

SMALL = """\
name = "small"
version = 3
title = "A small sheet"
liking = ["end", "liking"]

[[passes]]
id = "end"
title = "The end"
ask = "How is it?"
moment = "cool"
caution = "Hot."

[[passes.fields]]
id = "liking"
kind = "points"
label = "Liking"
low = 1
high = 9
step = 0.5

[[passes.fields]]
id = "kind"
kind = "choice"
label = "Which"
choices = ["this", "that"]
"""


def test_a_sheet_is_read_with_all_it_says():
    sheet = parse_sheet(SMALL)

    assert sheet == Sheet(
        "small",
        3,
        "A small sheet",
        (
            Pass(
                "end",
                "The end",
                "How is it?",
                Moment.COOL,
                (
                    Field("liking", Kind.POINTS, "Liking", low=1.0, high=9.0, step=0.5),
                    Field("kind", Kind.CHOICE, "Which", choices=("this", "that")),
                ),
                "Hot.",
            ),
        ),
        ("end", "liking"),
    )


def test_a_sheet_survives_the_way_through_json():
    for sheet in (parse_sheet(SMALL), *(builtin_sheet(name) for name in builtin_names())):
        assert sheet_from_data(json.loads(json.dumps(sheet_as_data(sheet)))) == sheet


def test_data_that_is_no_sheet_is_refused_without_a_place():
    data = sheet_as_data(parse_sheet(SMALL))
    data["passes"][0]["fields"][0]["step"] = float("nan")

    with pytest.raises(BadSheet) as refusal:
        sheet_from_data(data)

    assert str(refusal.value).startswith("The field 'liking' of the pass 'end' needs a number as its 'step'.")


@pytest.mark.parametrize(
    ("was", "becomes", "line", "says"),
    [
        ("version = 3", "version = 0", 2, "The sheet needs a whole number from 1 as its 'version'."),
        ("version = 3", "version = true", 2, "The sheet needs a whole number from 1 as its 'version'."),
        ('name = "small"', 'name = "Small sheet"', 1, "The sheet has the name 'Small sheet'."),
        ('name = "small"', 'nam = "small"', 1, "has an unknown entry 'nam'. Did you mean 'name'?"),
        ("version = 3\n", "", None, "The sheet has no 'version'."),
        ('ask = "How is it?"', "", 6, "The pass 'end' has no 'ask'."),
        ('ask = "How is it?"', 'ask = ""', 9, "The pass 'end' needs a text as its 'ask'."),
        ('moment = "cool"', 'moment = "cold"', 10, "Choose one of: dry, break, hot, warm, cool."),
        (
            'kind = "points"',
            'kind = "point"',
            15,
            "The field 'liking' of the pass 'end' has the kind 'point'.",
        ),
        ('kind = "points"', 'knd = "points"', 15, "Did you mean 'kind'?"),
        ("low = 1", 'low = "1"', 17, "needs a number as its 'low'."),
        ("low = 1", "low = nan", 17, "needs a number as its 'low'."),
        ("high = 9", "high = 1", 18, "runs from 1 to 1."),
        ("step = 0.5", "step = 0", 19, "has the step 0."),
        ("step = 0.5", "step = 9", 19, "has the step 9. Use more than 0 and at most 8."),
        ('choices = ["this", "that"]', "", 21, "has fewer than two choices."),
        ('choices = ["this", "that"]', 'choices = ["this"]', 25, "has fewer than two choices."),
        ('choices = ["this", "that"]', 'choices = ["this", "this"]', 25, "has the same choice twice."),
        ('kind = "choice"', 'kind = "words"', 25, "is of the kind 'words', which has no 'choices'."),
        ('id = "kind"', 'id = "liking"', 22, "Two field tables have the id 'liking'."),
        ('id = "liking"', "id = 7", 14, "Field 1 of the pass 'end' needs a text as its 'id'."),
        ('["end", "liking"]', '["end", "kind"]', 4, "names 'end', 'kind' as liking."),
        ('["end", "liking"]', '["end"]', 4, "needs a pass and a field as its 'liking'."),
    ],
)
def test_each_complaint_names_the_file_and_the_line(was: str, becomes: str, line: int | None, says: str):
    assert was in SMALL

    with pytest.raises(BadSheet) as refusal:
        parse_sheet(SMALL.replace(was, becomes, 1), file="mine.toml")

    where = "mine.toml: " if line is None else f"mine.toml, line {line}: "
    assert str(refusal.value).startswith(where)
    assert says in str(refusal.value)


def test_a_scale_entry_on_a_field_without_a_scale_is_refused():
    with pytest.raises(BadSheet) as refusal:
        parse_sheet(SMALL + "low = 3\n")

    assert "is of the kind 'choice', which has no 'low'." in str(refusal.value)


def test_the_second_of_two_equal_passes_is_named():
    twice = SMALL + SMALL[SMALL.index("[[passes]]") :]

    with pytest.raises(BadSheet) as refusal:
        parse_sheet(twice, file="twice.toml")

    second = SMALL.count("\n") + 2
    assert str(refusal.value).startswith(f"twice.toml, line {second}: Two pass tables have the id 'end'.")


def test_text_that_is_no_toml_is_refused_with_line_and_column():
    with pytest.raises(BadSheet) as refusal:
        parse_sheet('name = "small"\nversion = \n', file="torn.toml")

    assert refusal.value.where is not None
    assert (refusal.value.where.file, refusal.value.where.line) == ("torn.toml", 2)
    assert "This is not valid TOML" in str(refusal.value)
    assert "(at line" not in str(refusal.value)


def test_toml_that_ends_too_early_is_refused_at_its_last_line():
    with pytest.raises(BadSheet) as refusal:
        parse_sheet('name = "small"\ntitle = "A', file="torn.toml")

    assert refusal.value.where is not None
    assert refusal.value.where.line == 2


@pytest.mark.parametrize("text", ["", "passes = []", "passes = 3", "passes = [1, 2]"])
def test_a_sheet_without_passes_is_refused(text: str):
    with pytest.raises(BadSheet):
        parse_sheet(f'name = "x"\nversion = 1\ntitle = "X"\n{text}')


def test_a_huge_sheet_is_refused_before_it_is_read():
    with pytest.raises(BadSheet, match="200001 characters"):
        parse_sheet("#" * 200_001)


def test_too_many_passes_are_refused():
    part = SMALL[SMALL.index("[[passes]]") :]
    many = SMALL + "".join(part.replace('id = "end"', f'id = "p{i}"') for i in range(60))

    with pytest.raises(BadSheet, match="has 61 passes"):
        parse_sheet(many)


def test_an_unknown_builtin_sheet_is_refused_with_those_there_are():
    with pytest.raises(NotFound, match=r"Choose one of: .*open"):
        builtin_sheet("opne")


def test_the_name_of_a_builtin_sheet_cannot_leave_its_folder():
    with pytest.raises(NotFound):
        builtin_sheet("../sheets/open")


def test_the_open_sheet_asks_in_the_order_in_which_a_cup_cools():
    sheet = builtin_sheet("open")

    assert [one.id for one in sheet.passes] == [
        "fragrance",
        "aroma",
        "colour",
        "touch",
        "flavour",
        "finish",
        "verdict",
    ]
    moments = list(Moment)
    due = [moments.index(one.moment) for one in sheet.passes]
    assert due == sorted(due)


def test_the_open_sheet_asks_for_words_touch_and_liking_as_promised():
    sheet = builtin_sheet("open")

    assert {one.id for one in sheet.passes if one.fields[0].kind is Kind.WORDS} == {
        "fragrance",
        "aroma",
        "touch",
        "flavour",
        "finish",
    }
    assert [(f.id, f.kind) for one in sheet.passes if one.id == "colour" for f in one.fields] == [
        ("colour", Kind.COLOUR)
    ]
    touch = next(one for one in sheet.passes if one.id == "touch")
    assert [f.id for f in touch.fields if f.kind is Kind.LINE] == [
        "weight",
        "texture",
        "juiciness",
        "dryness",
    ]
    liking = sheet.field(*sheet.liking) if sheet.liking else None
    assert liking is not None
    assert liking.kind is Kind.LINE
    assert sheet.field("verdict", "line") == Field("line", Kind.TEXT, "Anything else")


def test_the_open_sheet_cautions_where_it_can_hurt():
    cautions = {one.id: one.caution for one in builtin_sheet("open").passes}

    assert "scalding" in cautions["aroma"]
    for part in ("touch", "flavour"):
        assert "60 °C" in cautions[part]
    assert "caffeine" in cautions["flavour"]


# Words that would put something into a taster's mouth. Not the names of the passes, which the trade uses.
LEADING = (
    "fruit|floral|flower|sweet|sour|acid|bitter|salt|nut|chocolate|caramel|citrus|berry|spice|"
    "clean|fresh|ripe|bright|red|yellow|brown|good|bad|best|fine|pleasant|defect"
)


def test_no_ask_of_the_open_sheet_suggests_an_answer():
    for one in builtin_sheet("open").passes:
        texts = [one.ask, *(f.label for f in one.fields), *(f.hint for f in one.fields)]
        for text in texts:
            assert not re.search(rf"\b({LEADING})", text, re.IGNORECASE), text


ROUND = """\
name = "round"
version = 1
title = "Round"

[[passes]]
id = "a"
title = "A"
ask = "A?"
moment = "hot"
after = "c"
fields = [{ id = "w", kind = "words", label = "W" }]

[[passes]]
id = "b"
title = "B"
ask = "B?"
moment = "hot"
fields = [{ id = "w", kind = "words", label = "W" }]

[[passes]]
id = "c"
title = "C"
ask = "C?"
moment = "hot"
after = "b"
fields = [{ id = "w", kind = "words", label = "W" }]
"""


def test_a_pass_comes_after_the_one_it_names():
    assert [one.id for one in parse_sheet(ROUND).passes] == ["b", "c", "a"]


def test_passes_that_loop_are_refused_with_the_names_in_the_loop():
    text = ROUND.replace('moment = "hot"\nfields', 'moment = "hot"\nafter = "a"\nfields')

    with pytest.raises(BadSheet) as refusal:
        parse_sheet(text, file="round.toml")

    assert str(refusal.value) == (
        "round.toml, line 10: The passes loop: 'a' after 'c' after 'b' after 'a'. Remove one 'after'."
    )


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('after = "c"', 'after = "a"', "The passes loop: 'a' after 'a'."),
        ('after = "c"', 'after = "x"', "The pass 'a' comes after 'x', which is not there."),
        ('kind = "words"', 'kind = "rank"', "asks 'w', which compares all places, at each of them."),
        ('kind = "words"', 'kind = "tags", choices = ["a", "b"], most = -1', "needs a whole number from 1"),
        ('kind = "words"', 'kind = "words", most = 2', "is of the kind 'words', which has no 'most'."),
        ('kind = "words"', 'kind = "words", ties = true', "is of the kind 'words', which has no 'ties'."),
        ('kind = "words"', 'kind = "cups", try_all = true', "is of the kind 'cups', which has no 'try_all'."),
        ('kind = "words"', 'kind = "cups", high = 0', "gives 0 points."),
    ],
)
def test_what_does_not_fit_the_newer_kinds_is_refused(old: str, new: str, said: str):
    with pytest.raises(BadSheet, match=re.escape(said)):
        parse_sheet(ROUND.replace(old, new, 1))


def test_a_question_about_cups_cannot_be_asked_once_for_the_table():
    text = ROUND.replace('kind = "words"', 'kind = "ticks"', 1)

    with pytest.raises(BadSheet, match="is about one place's cups, only once"):
        parse_sheet(text.replace('after = "c"', 'over = "table"'))


RULE = SMALL.replace(
    "\n[[passes]]",
    """
[points]
start = "10"
add = [{ field = "end.liking", times = "2.5" }]
step = "0.5"

[[passes]]""",
    1,
)


def test_a_rule_for_points_is_read_and_survives_the_way_through_json():
    sheet = parse_sheet(RULE)

    assert sheet.points is not None
    assert sheet.points.add == (Term("end", "liking", "2.5"),)
    assert (sheet.points.start, sheet.points.step, sheet.points.cups) == ("10", "0.5", 5)
    assert sheet_from_data(json.loads(json.dumps(sheet_as_data(sheet)))) == sheet


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("end.liking", "none", "names a field 'none', which is not there. Fields are: liking, kind."),
        ("end.liking", "kind", "counts 'kind', which is of the kind 'choice', in 'add'."),
        ('times = "2.5"', "times = 2.5", "needs a number in quotes as its 'times'."),
        ('times = "2.5"', 'times = "0"', "counts 'liking' 0 times."),
        ('step = "0.5"', 'step = "0"', "rounds to a step of 0."),
        ('step = "0.5"', "cups = 0", "needs a whole number from 1 as its 'cups'."),
        ('step = "0.5"', 'both = ["liking"]', "needs pairs of fields as its 'both'."),
        ('step = "0.5"', 'bands = ["good"]', "needs pairs of texts as its 'bands'."),
        ('step = "0.5"', 'bands = [["all", "good"]]', "has a band without a number or a name."),
        ('step = "0.5"', 'bands = [["5", "good"], ["5", "fair"]]', "has bands that do not go down."),
        ('step = "0.5"', 'both = [["liking", "kind"]]', "names 'liking' in 'both', which marks no cups."),
        ('step = "0.5"', 'subtract = ["liking"]', "counts 'liking' twice."),
        ('step = "0.5"', 'formula = "a+b"', "has an unknown entry 'formula'."),
        ('add = [{ field = "end.liking", times = "2.5" }]', "add = []", "adds nothing."),
    ],
)
def test_a_rule_that_cannot_be_added_up_is_refused_with_its_line(old: str, new: str, said: str):
    with pytest.raises(BadSheet, match=re.escape(said)) as refusal:
        parse_sheet(RULE.replace(old, new), file="s.toml")

    assert refusal.value.where is not None
    assert refusal.value.where.line in range(5, 11)


def test_a_sheet_can_take_the_points_of_one_that_comes_with_the_program():
    text = SMALL.replace("[[passes]]", 'points = "affective"\n\n[[passes]]', 1)

    with pytest.raises(BadSheet, match="has no field 'fragrance', which the points of 'affective' need"):
        parse_sheet(text)
    with pytest.raises(BadSheet, match="takes its points from 'open', which makes none"):
        parse_sheet(text.replace("affective", "open"))


def test_a_shared_rule_counts_the_fields_of_the_same_name_wherever_they_stand():
    fields = ["fragrance", "aroma", "flavour", "aftertaste", "acidity", "sweetness", "mouthfeel", "overall"]
    rows = [f'{{ id = "{one}", kind = "points", label = "X", low = 1, high = 9 }}' for one in fields]
    rows += [f'{{ id = "{one}", kind = "ticks", label = "X" }}' for one in ("not_alike", "defective")]
    text = SMALL[: SMALL.index("[[passes.fields]]")].replace(
        "[[passes]]", 'points = "affective"\n\n[[passes]]', 1
    )
    text = text.replace('liking = ["end", "liking"]\n', "") + f"fields = [{', '.join(rows)}]\n"

    rule = parse_sheet(text).points

    assert rule is not None
    assert {(term.part, term.times) for term in rule.add} == {("end", "0.65625")}
    assert rule.start == "52.75"


def test_ticks_that_ask_for_every_cup_may_have_words_of_their_own_and_other_ticks_may_not():
    ticks = SMALL.replace(
        'kind = "choice"\nlabel = "Which"\nchoices = ["this", "that"]',
        'kind = "ticks"\nlabel = "Defective"\ntry_all = true\nlow_label = "fine"\nhigh_label = "defective"',
    )

    field = parse_sheet(ticks).field("end", "kind")

    assert field is not None
    assert (field.low_label, field.high_label) == ("fine", "defective")
    with pytest.raises(BadSheet, match="has no 'low_label'"):
        parse_sheet(ticks.replace("try_all = true\n", ""))


def test_the_affective_sheet_calls_a_defective_cup_defective():
    field = builtin_sheet("affective").field("cups", "defective")

    assert field is not None
    assert (field.low_label, field.high_label) == ("fine", "defective")
