"""The groups of allergens, against the law that names them."""

from cupwright.core.words.lexicon_checks import ALLERGENS


def test_the_allergens_are_the_fourteen_groups_of_the_regulation():
    """Regulation (EU) No 1169/2011, Annex II, points 1 to 14, in short names (list from memory)."""
    annex = {
        1: "gluten",
        2: "crustaceans",
        3: "egg",
        4: "fish",
        5: "peanut",
        6: "soya",
        7: "milk",
        8: "tree nuts",
        9: "celery",
        10: "mustard",
        11: "sesame",
        12: "sulphites",
        13: "lupin",
        14: "molluscs",
    }

    assert set(annex.values()) == ALLERGENS
