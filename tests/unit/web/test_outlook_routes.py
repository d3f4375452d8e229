"""The outlook of a plan over the API: its schedule, what its people cannot keep, what one more changes."""

import pytest


@pytest.fixture
def plan(browser):
    coffees = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(4)]
    return {"name": "Thursday", "coffees": coffees, "tasters": ["Ada"], "bowls_per_sample": 2}


def outlook_of(browser, plan):
    return browser.post("/api/tables/preview/outlook", json=plan).json()


def test_every_bowl_is_poured_broken_and_skimmed_once(browser, plan):
    outlook = outlook_of(browser, plan)

    acts = [(act["kind"], act["bowl"]) for act in outlook["schedule"]["acts"]]
    assert sorted(acts) == sorted((kind, bowl) for kind in ("pour", "break", "skim") for bowl in range(8))
    assert (outlook["schedule"]["people"], outlook["warnings"]) == (1, [])


def test_too_few_hands_are_told_and_the_schedule_takes_as_many_as_are_needed(browser, plan):
    outlook = outlook_of(browser, plan | {"bowls_per_sample": 4})

    assert "16 bowls need 2 people" in outlook["warnings"][0]
    assert outlook["schedule"]["people"] == 2


def test_what_one_more_changes_is_told_of_a_bowl_and_of_a_taster(browser, plan):
    told = {more["what"]: more["sentences"] for more in outlook_of(browser, plan)["one_more"]}

    assert set(told) == {"bowl", "taster"}
    assert any("4 bowls more to pour" in sentence for sentence in told["bowl"])


def test_a_plan_that_cannot_be_laid_is_refused_at_its_field(browser, plan):
    refused = browser.post("/api/tables/preview/outlook", json=plan | {"bowls_per_sample": 11})

    assert (refused.status_code, refused.json()["about"]) == (422, "bowls_per_sample")


def test_nothing_is_kept(browser, plan):
    outlook_of(browser, plan)

    assert browser.get("/api/tables").json() == []
