"""Marks: what a phrase does to the words around it. The phrases stand in the files of the languages.

empty.phrase                   says nothing about the coffee
denial.deny more back answer turn anew both either over or undo
habit.phrase back              what the taster usually drinks, likes or wishes for
degree.… share.… amount.… after.…   how much: before the word, of a thing, beside it, behind it
comparison.more most less least than wished among rank ranked
hedge.before                   how sure the taster was
stage.first finish cooling becoming then
passed.word within copula and  small words over which a mark reaches its word
carrier.noun                   nouns that are no word of their own where another says how
"""

NONE: frozenset[str] = frozenset()
EMPTY = "empty.phrase"

DENY, DENY_MORE, DENY_BACK = "denial.deny", "denial.more", "denial.back"
ANSWER = "denial.answer"
TURN, ANEW = "denial.turn", "denial.anew"
BOTH, EITHER = "denial.both", "denial.either"
OVER, OR, UNDO = "denial.over", "denial.or", "denial.undo"

MORE, MOST, LESS, LEAST = "comparison.more", "comparison.most", "comparison.less", "comparison.least"
THAN, WISHED, AMONG = "comparison.than", "comparison.wished", "comparison.among"
RANK, RANKED = "comparison.rank", "comparison.ranked"

HEDGE = "hedge.before"
HABIT, HABIT_BACK = "habit.phrase", "habit.back"

FIRST, FINISH, COOLING = "stage.first", "stage.finish", "stage.cooling"
BECOMING, THEN = "stage.becoming", "stage.then"

PASSED, WITHIN, COPULA, AND = "passed.word", "passed.within", "passed.copula", "passed.and"
CARRIER = "carrier.noun"

DEGREES = ("trace", "slight", "plain", "marked", "very", "too")
DEGREE, SHARE, AMOUNT, AFTER = "degree.", "share.", "amount.", "after."

KINDS = frozenset(
    [EMPTY, DENY, DENY_MORE, DENY_BACK, ANSWER, TURN, ANEW, BOTH, EITHER, OVER, OR, UNDO]
    + [MORE, MOST, LESS, LEAST, THAN, WISHED, AMONG, RANK, RANKED]
    + [HEDGE, HABIT, HABIT_BACK, FIRST, FINISH, COOLING, BECOMING, THEN]
    + [PASSED, WITHIN, COPULA, AND, CARRIER]
    + [how + degree for how in (DEGREE, SHARE, AMOUNT, AFTER) for degree in DEGREES]
)


def degree_of(marks: frozenset[str], how: str) -> str:
    """The degree that the marks of one phrase give in a way (DEGREE, SHARE, AMOUNT, AFTER); "" if none."""
    return next((mark.removeprefix(how) for mark in marks if mark.startswith(how)), "")
