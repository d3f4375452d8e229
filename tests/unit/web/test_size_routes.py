"""Sizes over the API."""

import pytest

from cupwright.core.plan.discrimination import Method


@pytest.mark.parametrize("method", list(Method))
def test_every_test_of_difference_has_a_size(browser, method):
    told = browser.get(f"/api/size/{method}", params={"discriminators": 0.5, "power": 0.8}).json()

    assert told["method"] == method
    assert told["first"]["tasters"] <= told["lasting"]["tasters"]
    assert told["first"]["power"] >= 0.8
    assert str(told["first"]["tasters"]) in told["sentences"][0]


def test_a_result_with_all_right_has_no_upper_end_for_the_distance(browser):
    told = browser.get("/api/size/triangle/result", params={"right": 5, "of": 5}).json()

    assert told["p_value"] == pytest.approx(1 / 243)
    assert told["share"]["high"] == 1
    assert told["dprime"]["estimate"] is told["dprime"]["high"] is told["dprime_error"] is None


def test_counts_need_no_difference_and_may_name_one(browser):
    bare = browser.get("/api/size/triangle/counts", params={"of": 30}).json()
    named = browser.get(
        "/api/size/triangle/counts", params={"of": 30, "discriminators": 0.3, "power": 0.95}
    ).json()

    assert (bare["least_right"], bare["most_right_if_alike"], bare["power"]) == (15, None, None)
    assert (named["least_right"], named["most_right_if_alike"]) == (15, 11)


def test_a_panel_is_measured_beside_the_size_it_should_have(browser):
    told = browser.get("/api/size/difference", params={"points": 1, "tasters": 8, "bowls": 2}).json()

    assert told["assumed_spread"] is True
    assert [one["repeats"] for one in told["panels"]] == [1, 2, 3, 4, 5]
    assert told["reach"]["tasters"] == 8
    assert any(sentence.startswith("8 tasters with 2 bowls") for sentence in told["sentences"])


def test_a_simulation_repeats_itself_with_its_seed(browser):
    asked = {
        "points": 2,
        "tasters": 6,
        "coffees": 5,
        "samples_each": 3,
        "step": 0.25,
        "lost": 0.1,
        "draws": 200,
    }

    once, again = (browser.get("/api/size/simulation", params=asked).json() for _ in range(2))

    assert once == again
    assert 0 < once["found"]["estimate"] < once["full_table"]


@pytest.mark.parametrize(
    ("path", "field", "sentence"),
    [
        ("/api/size/pentagon?dprime=1", "", "There is no test called 'pentagon'."),
        ("/api/size/triangle", "", "How large a difference should be found is not said once."),
        ("/api/size/triangle?dprime=-1", "", "A distance d' of -1 is not"),
        ("/api/size/triangle?dprime=nan", "dprime", "must be a finite number"),
        ("/api/size/triangle?dprime=1&power=1", "", "A power of 1 is not between 0 and 1."),
        ("/api/size/triangle/result?right=6&of=5", "", "6 right of 5 is not a result."),
        ("/api/size/triangle/counts?of=0", "", "0 is not a number of answers"),
        ("/api/size/difference?points=0", "", "A difference of 0 points is none that can be found."),
        ("/api/size/difference?points=1&tasters=1", "", "One taster, or one coffee, has no spread"),
        (
            "/api/size/simulation?points=1&tasters=200&coffees=40&draws=20000",
            "",
            "This drawing would take more",
        ),
    ],
)
def test_what_makes_no_sense_is_refused_in_one_sentence(browser, path, field, sentence):
    answer = browser.get(path)

    assert answer.status_code == 422
    assert sentence in answer.json()["detail"]
    assert field in str(answer.json()["where"])
