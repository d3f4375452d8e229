"""Where a water lies in the published ranges."""

import pytest

from cupwright.core.pour.water import analysis
from cupwright.core.pour.water_ranges import RANGES, Verdict, in_sentence, judged, number, range_called
from cupwright.errors import Refused


def judgement(key: str, parameter: str, **values: float):
    found = judged(analysis("tap", values), RANGES[key])
    return next(one for one in found if one.band.parameter == parameter)


@pytest.mark.parametrize(
    ("value", "verdict", "distance"),
    [
        (16.0, Verdict.BELOW, 1.0),
        (17.0, Verdict.INSIDE, 0.0),
        (85.0, Verdict.INSIDE, 0.0),
        (95.0, Verdict.ABOVE, 10.0),
    ],
)
def test_a_value_is_inside_or_outside_by_its_distance(value, verdict, distance):
    found = judgement("2009", "calcium", calcium=value)

    assert found.verdict is verdict
    assert found.distance == pytest.approx(distance)
    assert found.from_target == pytest.approx(value - 68)


def test_the_words_say_value_distance_and_band():
    assert (
        judgement("2009", "calcium", calcium=95.0).words
        == "Calcium hardness: 95 mg/L as CaCO3, 10 above 17 to 85."
    )


def test_at_or_near_says_that_the_band_is_ours():
    found = judgement("2009", "alkalinity", alkalinity=60.0)

    assert not found.band.published
    assert found.words.endswith("10 above 'at or near' 40, which is read here as 30 to 50.")


def test_what_is_not_known_is_not_judged():
    found = judgement("2009", "sodium", calcium=50.0)

    assert found.verdict is Verdict.UNKNOWN
    assert found.distance is None
    assert found.words == "Sodium: not known."


@pytest.mark.parametrize(
    ("hardness", "verdict"), [(10.0, Verdict.BELOW), (60.0, Verdict.UNKNOWN), (200.0, Verdict.UNKNOWN)]
)
def test_a_total_alone_bounds_its_calcium(hardness, verdict):
    assert judgement("2009", "calcium", hardness=hardness).verdict is verdict


def test_any_chlorine_is_outside():
    assert judgement("2009", "chlorine", chlorine=0.1).verdict is Verdict.ABOVE
    assert judgement("2009", "chlorine", chlorine=0.0).verdict is Verdict.INSIDE


def test_every_range_names_its_source_and_every_aim_lies_within_its_band():
    for found in RANGES.values():
        assert found.source
        assert all(band.low <= band.aim <= band.high for band in found.bands)


def test_an_unknown_range_is_refused_with_the_ones_there_are():
    with pytest.raises(Refused) as refusal:
        range_called("best")

    assert refusal.value.todo == "Name one of 2009, newer."


@pytest.mark.parametrize(
    ("value", "text"), [(0, "0"), (0.004, "less than 0.01"), (0.5, "0.5"), (62.449, "62.4"), (214.18, "214")]
)
def test_numbers_are_said_without_powers_of_ten(value, text):
    assert number(value) == text


def test_names_within_a_sentence_keep_their_capitals_only_where_they_must():
    assert [in_sentence(key) for key in ("tds", "ph", "calcium")] == ["TDS", "pH", "calcium hardness"]
