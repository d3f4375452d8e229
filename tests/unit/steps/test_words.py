"""Own words and corrections: added, refused, travelling as a file, used by every reading, each in time."""

from dataclasses import replace

import pytest
from tests.fakes.tools import Bench, bench
from tests.fakes.values import a_correction
from tests.unit.steps.laying import tasting, written

from cupwright.core.analyse.summary import analyse
from cupwright.core.plan.table import Seat
from cupwright.core.taste.joining import Seated
from cupwright.core.words.own_words import MOST_OWN_WORDS, own_concept, own_form
from cupwright.errors import BadFile, Clash, NotFound, Refused, TooLarge
from cupwright.steps.analyse import analysis
from cupwright.steps.ports import KeptWord
from cupwright.steps.reveal import comparison, open_key
from cupwright.steps.taste import write_notes
from cupwright.steps.words import (
    MOST_CORRECTIONS_AT_ONCE,
    add_own_word,
    corrections_at,
    export_own_words,
    import_own_words,
    lexicon,
    list_own_words,
    remove_own_word,
    words_of_seat,
    words_of_taster,
    write_corrections,
)

SODA = own_concept("quince soda", ["quince"], ["quince pop"])
JAM = own_concept("quince soda jam", ["quince_soda"])
FIZZ = own_form("quince_soda", "quince fizz")


@pytest.fixture
def here() -> Bench:
    return bench()


def additions(here: Bench) -> list[object]:
    return [view.kept.addition for view in list_own_words(here.tools)]


def test_an_own_word_is_kept_with_its_moment_and_listed(here):
    kept = add_own_word(here.tools, SODA)

    assert kept.added == here.clock()
    assert [(view.kept, view.why_not) for view in list_own_words(here.tools)] == [(kept, "")]
    assert lexicon(here.tools)["quince_soda"].label == "quince soda"


def test_an_own_word_that_does_not_fit_is_refused_and_not_kept(here):
    add_own_word(here.tools, SODA)

    with pytest.raises(Clash, match="quince soda"):
        add_own_word(here.tools, own_form("plum", "quince pop"))
    with pytest.raises(Refused, match="no concept"):
        add_own_word(here.tools, own_form("rhubarb_soda", "rhubarb pop"))

    assert additions(here) == [SODA]


def test_the_same_own_words_give_the_same_lexicon_without_compiling_it_again(here):
    add_own_word(here.tools, SODA)

    assert lexicon(here.tools) is lexicon(here.tools)


def test_an_own_word_that_others_hang_under_stays_until_they_are_gone(here):
    soda, jam, fizz = (add_own_word(here.tools, one) for one in (SODA, JAM, FIZZ))

    with pytest.raises(Clash, match="'quince soda jam' hangs under"):
        remove_own_word(here.tools, soda.id)
    remove_own_word(here.tools, jam.id)
    with pytest.raises(Clash, match="'quince fizz' was added"):
        remove_own_word(here.tools, soda.id)
    remove_own_word(here.tools, fizz.id)
    remove_own_word(here.tools, soda.id)

    assert additions(here) == []
    assert "quince_soda" not in lexicon(here.tools)


def test_an_own_word_that_is_not_there_cannot_be_removed(here):
    with pytest.raises(NotFound):
        remove_own_word(here.tools, "none")


def test_own_words_travel_to_another_installation_as_a_file_and_twice_does_no_harm(here):
    for one in (FIZZ, JAM, SODA)[::-1]:
        add_own_word(here.tools, one)
    other = bench()

    first = import_own_words(other.tools, export_own_words(here.tools), "mine.toml")
    second = import_own_words(other.tools, export_own_words(here.tools), "mine.toml")

    assert (len(first.added), first.known) == (3, 0)
    assert (len(second.added), second.known) == (0, 3)
    assert set(additions(other)) == {SODA, JAM, FIZZ}


def test_of_a_file_with_one_word_that_does_not_fit_nothing_is_kept(here):
    text = '[[form]]\nconcept = "quince"\nform = "membrillo paste"\n[[form]]\nconcept = "nil"\nform = "xyz"\n'

    with pytest.raises(Refused, match="'nil', which is no concept"):
        import_own_words(here.tools, text, "mine.toml")
    with pytest.raises(BadFile, match=r"mine\.toml"):
        import_own_words(here.tools, "[[form]]", "mine.toml")

    assert additions(here) == []


def test_more_own_words_than_can_be_kept_are_refused(here):
    many = [own_form("quince", f"quincelike {number:b}") for number in range(MOST_OWN_WORDS)]
    with here.tools.store.work() as work:
        work.own_words.add(KeptWord(form.form, form, here.clock()) for form in many)

    with pytest.raises(TooLarge, match=f"{MOST_OWN_WORDS + 1} own words"):
        add_own_word(here.tools, SODA)


def test_a_word_that_a_newer_lexicon_has_itself_says_so_and_opens_all_the_same(here):
    with here.tools.store.work() as work:
        work.own_words.add([KeptWord("w-1", own_concept("quince", ["fruit"]), here.clock())])
    add_own_word(here.tools, SODA)

    shown = {view.kept.addition: view.why_not for view in list_own_words(here.tools)}

    assert "'quince' already" in shown[own_concept("quince", ["fruit"])]
    assert shown[SODA] == ""


def test_comparison_and_analysis_read_with_the_own_words(here):
    add_own_word(here.tools, own_form("cherry", "gorse berry"))
    add_own_word(here.tools, own_concept("gorse tea", ["black_tea"]))
    table = tasting(here.tools)
    seat = table.seats[0]
    write_notes(here.tools, table.id, seat.id, [written(table, seat, value="gorse berry, Gorsetea")])
    open_key(here.tools, table.id)

    compared = comparison(here.tools, table.id)
    counted = analyse(analysis(here.tools, table.id))

    (matched,) = [taster.published for coffee in compared.coffees for taster in coffee.tasters]
    assert (matched.shared, matched.own) == (("cherry",), ("gorse_tea",))
    assert compared.lexicon["gorse_tea"].label == "gorse tea"
    assert sorted(word.label for words in counted.words for word in words) == ["cherry", "gorse tea"]


# corrections


def ada(here: Bench) -> Seated:
    table = tasting(here.tools)
    return Seated(table, table.seats[0])


def test_corrections_are_the_tasters_at_whatever_table(here):
    first = ada(here)
    kept = write_corrections(here.tools, first, [a_correction(1), a_correction(2, surface="plum")])

    elsewhere = Seated(replace(first.table, id="other"), Seat("other-seat", " ADA ", ()))
    somebody = Seated(first.table, first.table.seats[1])

    assert kept == ("correction-0001", "correction-0002")
    assert len(words_of_seat(here.tools, elsewhere).corrections) == 2
    assert words_of_seat(here.tools, somebody).corrections == ()


def test_a_tasters_corrections_are_found_by_name_without_a_table(here):
    write_corrections(here.tools, ada(here), [a_correction(1)])

    words, corrected = words_of_taster(here.tools, " ADA ")
    _, of_somebody = words_of_taster(here.tools, "Ben")

    assert words is lexicon(here.tools)
    assert corrected.meant == ((("grippy",), "drying"),)
    assert not of_somebody


def test_a_taster_who_never_sat_here_is_not_found(here):
    ada(here)

    with pytest.raises(NotFound, match="'Zoe'"):
        words_of_taster(here.tools, "Zoe")


def test_a_correction_is_of_whoever_sits_there_whatever_it_says(here):
    seated = ada(here)

    write_corrections(here.tools, seated, [a_correction(1, taster="ben")])

    assert words_of_seat(here.tools, seated).corrections == (a_correction(1, taster="ada"),)


def test_a_malformed_correction_and_a_flood_of_them_are_refused_whole(here):
    seated = ada(here)

    with pytest.raises(Refused):
        write_corrections(here.tools, seated, [a_correction(1), a_correction(2, surface="?")])
    with pytest.raises(TooLarge):
        write_corrections(here.tools, seated, [a_correction(1)] * (MOST_CORRECTIONS_AT_ONCE + 1))

    assert words_of_seat(here.tools, seated).corrections == ()


def test_a_device_gets_the_own_words_that_are_read_and_no_other(here):
    with here.tools.store.work() as work:
        work.own_words.add([KeptWord("w-1", own_concept("quince", ["fruit"]), here.clock())])
    add_own_word(here.tools, SODA)

    assert words_of_seat(here.tools, ada(here)).own == (SODA,)


def test_at_a_table_the_corrections_count_that_came_before_its_key_was_opened(here):
    seated = ada(here)
    write_corrections(here.tools, seated, [a_correction(1)])
    here.clock.forward(seconds=1)
    opened = open_key(here.tools, seated.table.id)
    here.clock.forward(seconds=1)
    write_corrections(
        here.tools, seated, [a_correction(2, concept="cherry"), a_correction(3, surface="x ray")]
    )

    with here.tools.store.reading() as work:
        at_that_table = corrections_at(work, opened)
        at_the_next = corrections_at(work, seated.table)

    assert at_that_table[seated.seat.id].meant == ((("grippy",), "drying"),)
    assert at_the_next[seated.seat.id].meant == ((("grippy",), "cherry"), (("x", "ray"), "drying"))


def test_comparison_and_analysis_read_each_taster_by_the_own_corrections(here):
    table = tasting(here.tools)
    first, second = table.seats
    for seat in table.seats:
        write_notes(here.tools, table.id, seat.id, [written(table, seat, value="zonkberry")])
    write_corrections(
        here.tools, Seated(table, first), [a_correction(1, surface="Zonkberry", concept="cherry")]
    )
    here.clock.forward(seconds=1)
    open_key(here.tools, table.id)

    compared = comparison(here.tools, table.id)
    counted = analyse(analysis(here.tools, table.id))

    read = {taster.seat: taster.concepts for coffee in compared.coffees for taster in coffee.tasters}
    assert read == {first.id: {"cherry"}, second.id: frozenset()}
    assert [(word.label, word.count) for words in counted.words for word in words] == [("cherry", 1)]


def test_a_correction_to_a_word_that_was_removed_meanwhile_is_passed_over(here):
    soda = add_own_word(here.tools, SODA)
    seated = ada(here)
    write_corrections(
        here.tools, seated, [a_correction(1, concept="quince_soda"), a_correction(2, surface="plum")]
    )
    remove_own_word(here.tools, soda.id)

    with here.tools.store.reading() as work:
        held = corrections_at(work, seated.table)

    assert held[seated.seat.id].meant == ((("plum",), "drying"),)
