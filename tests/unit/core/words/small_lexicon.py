"""A lexicon of a few concepts, so that a test says all it depends on."""

from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.lexicon_file import parse_lexicon

CONCEPTS = """
families = ["fruit", "taste", "touch", "finish", "verdict", "colour"]
[concept.fruit]
forms.en = ["{fruit}"]
[concept.citrus]
parents = ["fruit"]
forms.en = ["citrus"]
[concept.lemon]
parents = ["citrus"]
forms.en = ["lemon", "lemon peel"]
slips.en = ["lemmen"]
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
about = "intensity"
low = "low_acidity"
high = "high_acidity"
takes.en = { soft = "slight" }
[concept.low_acidity]
parents = ["acidity"]
forms.en = ["low acid"]
[concept.high_acidity]
parents = ["acidity"]
forms.en = ["acid bomb"]
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
[concept.soft]
parents = ["touch"]
forms.en = ["soft"]
[concept.finish]
forms.en = ["finish"]
[concept.verdict]
forms.en = ["verdict"]
[concept.liked]
parents = ["verdict"]
forms.en = ["liked", "good", "favourite"]
[concept.disliked]
parents = ["verdict"]
forms.en = ["not good"]
[concept.colour]
forms.en = ["hue"]
[concept.orange_colour]
parents = ["colour"]
forms.en = ["orange hue"]
shared.en = ["orange"]
"""

LANGUAGE = """
plain = "a an and the is very coffee notes i of at all in or anything other"
moments = "hot"
real_words = "pearls lemming"
spelling = ["flavour flavor"]
[endings]
number = ["'s:", "ies:y:ie", "es:", "s:", "ier:y", "iest:y", "er::e", "est::e"]
quality = ["iness:y", "ness:", "ish::e", "like:", "y::e"]
doubling = ["er", "est", "y", "ish"]
hissing = ["s", "x", "z", "ch", "sh", "o"]
comparing = ["ier", "iest", "er", "est"]
[marks.empty]
phrase = ["not sure"]
[marks.denial]
deny = ["no", "not", "without", "lacking"]
more = ["without", "lacking"]
back = ["lacking", "missing"]
turn = ["but", "than", "other than"]
over = ["or", "a", "the", "of"]
or = ["or"]
undo = ["only"]
[marks.degree]
slight = ["a little", "slightly"]
very = ["very", "so"]
too = ["too"]
[marks.share]
trace = ["hint of", "hints of"]
[marks.amount]
slight = ["low", "light"]
marked = ["high", "strong"]
[marks.after]
trace = ["hints"]
[marks.comparison]
more = ["more"]
most = ["most"]
less = ["less"]
than = ["than"]
among = ["of the four"]
rank = ["second"]
[marks.hedge]
before = ["maybe", "sort of"]
[marks.stage]
first = ["at first"]
finish = ["finish", "on the finish"]
cooling = ["as it cools", "later"]
becoming = ["got"]
then = ["then"]
[marks.passed]
word = ["a", "of", "notes"]
copula = ["is"]
and = ["and"]
[marks.carrier]
noun = ["acidity", "mouth-feel", "finish"]
[groups]
fruit = ["fruit", "fruits", "fruity"]
body = ["body", "mouth-feel"]
"""

SPANISH = """
plain = "con una de"
[marks.denial]
deny = ["sin"]
[label]
lemon = "limón"
[forms]
lemon = ["limon"]
pear = ["pera", "peras"]
"""


def small_lexicon() -> Lexicon:
    """Fruits, tastes with a low and a high end, weights, a finish, two verdicts, and a little Spanish."""
    return parse_lexicon(CONCEPTS, LANGUAGE, others={"es": SPANISH})
