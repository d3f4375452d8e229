"""A lexicon of a few concepts, so that a test says all it depends on."""

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.lexicon_file import parse_lexicon

CONCEPTS = """
families = ["fruit", "taste", "touch"]
[concept.fruit]
forms.en = ["{fruit}"]
[concept.citrus]
parents = ["fruit"]
forms.en = ["citrus"]
[concept.lemon]
parents = ["citrus"]
forms.en = ["lemon", "lemon peel"]
[concept.orange]
parents = ["citrus"]
forms.en = ["orange"]
[concept.berry]
parents = ["fruit"]
forms.en = ["berry"]
[concept.blueberry]
parents = ["berry"]
forms.en = ["blue-berry"]
[concept.pear]
parents = ["fruit"]
forms.en = ["pear"]
[concept.taste]
forms.en = ["basic taste"]
[concept.sweet]
parents = ["taste"]
forms.en = ["sweet"]
[concept.acidity]
parents = ["taste"]
forms.en = ["acidity", "acid"]
[concept.sour_citrus]
parents = ["citrus", "acidity"]
forms.en = ["sour citrus"]
[concept.touch]
forms.en = ["mouth-feel"]
[concept.light]
parents = ["touch"]
forms.en = ["light {body}"]
scale = "weight"
place = -0.6
[concept.thin]
parents = ["touch"]
forms.en = ["thin"]
scale = "weight"
place = -1.0
[concept.heavy]
parents = ["touch"]
forms.en = ["heavy"]
shared.en = ["thin"]
scale = "weight"
place = 1.0
[concept.disliked]
parents = ["touch"]
forms.en = ["not good"]
"""

LANGUAGE = """
plain = "a an and the is very coffee notes i of at all in or"
moments = "hot"
empty_phrases = ["not sure"]
negators = "no not without lacking"
carrying = "without lacking"
trailing = "lacking missing"
contrasts = "but than"
linking = "or very"
not_denying = "only"
real_words = "pearls lemming"
[groups]
fruit = ["fruit", "fruits", "fruity"]
body = ["body", "mouth-feel"]
"""


def small_lexicon() -> Lexicon:
    """Six fruits, three tastes, three weights and one verdict."""
    return parse_lexicon(CONCEPTS, LANGUAGE)
