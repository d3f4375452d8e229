"""Marks: what a phrase does to the words around it. The phrases stand in the files of the languages.

empty.phrase                   says nothing about the coffee
denial.deny more back turn over undo
degree.… share.… amount.… after.…   how much: before the word, of a thing, beside it, behind it
comparison.more most less least than among rank
hedge.before                   how sure the taster was
stage.first finish cooling becoming then
passed.word copula and cups    small words over which a mark reaches its word
carrier.noun                   nouns that are no word of their own where another says how
"""

NONE: frozenset[str] = frozenset()
EMPTY = "empty.phrase"

DENY, DENY_MORE, DENY_BACK = "denial.deny", "denial.more", "denial.back"
TURN, OVER, OR, UNDO = "denial.turn", "denial.over", "denial.or", "denial.undo"

MORE, MOST, LESS, LEAST = "comparison.more", "comparison.most", "comparison.less", "comparison.least"
THAN, AMONG, RANK = "comparison.than", "comparison.among", "comparison.rank"

HEDGE = "hedge.before"

FIRST, FINISH, COOLING = "stage.first", "stage.finish", "stage.cooling"
BECOMING, THEN = "stage.becoming", "stage.then"

PASSED, COPULA, AND, CUPS = "passed.word", "passed.copula", "passed.and", "passed.cups"
CARRIER = "carrier.noun"

DEGREES = ("trace", "slight", "plain", "marked", "very", "too")
DEGREE, SHARE, AMOUNT, AFTER = "degree.", "share.", "amount.", "after."

KINDS = frozenset(
    [EMPTY, DENY, DENY_MORE, DENY_BACK, TURN, OVER, OR, UNDO]
    + [MORE, MOST, LESS, LEAST, THAN, AMONG, RANK]
    + [HEDGE, FIRST, FINISH, COOLING, BECOMING, THEN]
    + [PASSED, COPULA, AND, CUPS, CARRIER]
    + [how + degree for how in (DEGREE, SHARE, AMOUNT, AFTER) for degree in DEGREES]
)


def degree_of(marks: frozenset[str], how: str) -> str:
    """The degree that the marks of one phrase give in a way (DEGREE, SHARE, AMOUNT, AFTER); "" if none."""
    return next((mark.removeprefix(how) for mark in marks if mark.startswith(how)), "")
