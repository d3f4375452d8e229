"""Fits: whose notes pick out the coffees, by which words, and when nothing can be said."""

from cupwright.core.reveal.fits import MOST_TASTERS, fit_in_words, taster_fits
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
PRINTED = {"a": {"plum"}, "b": {"lemon"}, "c": {"tobacco"}, "d": {"honey"}}
NAMES = {"a": "Hill lot", "b": "River lot", "c": "Ridge lot", "d": "Lake lot"}


def test_notes_that_say_what_is_printed_beat_every_other_order():
    (fit,) = taster_fits({"ada": PRINTED}, PRINTED, LEXICON)

    assert fit.published is not None
    assert (fit.published.chance.worse, fit.published.chance.ways) == (23, 24)
    assert fit_in_words(fit.published, NAMES) == (
        "Your notes pick out the four coffees on the table better than 23 of 24 ways of shuffling them."
    )
    assert fit_in_words(fit.published, NAMES, "Ada's notes").startswith("Ada's notes pick out the four")


def test_notes_that_fit_every_coffee_alike_beat_no_order():
    same = {coffee: {"plum", "lemon", "tobacco", "honey"} for coffee in "abcd"}

    (fit,) = taster_fits({"ada": same}, PRINTED, LEXICON)

    assert fit.published is not None
    assert fit.published.chance.worse == 0


def test_by_the_others_words_a_taster_is_compared_with_everybody_but_herself():
    swapped = {"a": {"lemon"}, "b": {"plum"}, "c": {"honey"}, "d": {"tobacco"}}

    fits = taster_fits({"ada": PRINTED, "ben": PRINTED, "cy": swapped}, {}, LEXICON)

    assert [fit.published for fit in fits] == [None, None, None]
    assert fits[2].others is not None
    assert fits[2].others.chance.worse < 12
    (alone,) = taster_fits({"ada": PRINTED}, {}, LEXICON)
    assert alone.others is None


def test_a_coffee_without_words_is_left_out_and_named():
    said = {"a": {"plum"}, "b": {"lemon"}, "c": set(), "d": {"honey"}}

    (fit,) = taster_fits({"ada": said}, PRINTED, LEXICON)

    assert fit.published is not None
    told = fit_in_words(fit.published, NAMES)
    assert "better than 5 of 6 ways" in told
    assert "even the best possible fit comes about by luck once in 6. Left out" in told
    assert told.endswith("Left out, for want of words to compare: Ridge lot.")


def test_with_words_on_one_coffee_only_nothing_can_be_said():
    (fit,) = taster_fits({"ada": {"a": {"plum"}, "b": set()}}, PRINTED, LEXICON)

    assert (fit.published, fit.others) == (None, None)


def test_who_wrote_nothing_has_no_fit():
    assert taster_fits({"ada": {"a": set()}}, PRINTED, LEXICON) == ()


def test_a_panel_of_many_is_not_told_one_by_one():
    many = {f"taster-{number}": PRINTED for number in range(MOST_TASTERS + 1)}

    assert taster_fits(many, PRINTED, LEXICON) == ()
