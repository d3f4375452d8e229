"""Every way to write a form."""

from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.forms import spellings


def of(form):
    return set(spellings(form, small_lexicon().language))


def test_a_group_in_braces_stands_for_each_of_its_words():
    assert of("light {body}") == {("light", "body"), ("light", "mouth", "feel"), ("light", "mouthfeel")}


def test_a_hyphen_stands_for_together_and_apart():
    assert of("blue-berry pie") == {("blueberry", "pie"), ("blue", "berry", "pie")}


def test_a_word_that_two_shores_write_differently_stands_for_both():
    assert of("sour flavour") == of("sour flavor") == {("sour", "flavour"), ("sour", "flavor")}


def test_spellings_come_in_one_order_so_that_every_reader_plants_them_alike():
    assert spellings("blue-berry", small_lexicon().language) == (("blue", "berry"), ("blueberry",))
