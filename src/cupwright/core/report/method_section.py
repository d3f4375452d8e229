"""Method, caveats and cautions: what a reader must know before acting on the numbers."""

from cupwright.core.analyse.summary import Analysis
from cupwright.core.report.document import Block, Caveat, Heading, Paragraph
from cupwright.core.report.wording import counted, level_name, listed

_FEW = 6
_SOURCES = (
    "Shares: Wilson (1927), J. Am. Stat. Assoc. 22:209–212. Differences of shares: Newcombe (1998), Stat. "
    "Med. 17:873–890, method 10; exact test within tasters: Birch (1964), J. R. Stat. Soc. B 26:313–324; "
    "many looks: Holm (1979), Scand. J. Stat. 6:65–70. Means: Student (1908), Biometrika 6:1–25; all pairs "
    "together: Dunn (1961), J. Am. Stat. Assoc. 56:52–64. Agreement: McGraw & Wong (1996), Psychol. Methods "
    "1:30–46, case 3."
)


def method_section(analysis: Analysis) -> tuple[Block, ...]:
    """How the numbers came about and how wrong they can be, each with its source."""
    level = level_name(analysis.level)
    blocks: list[Block] = [
        Heading("Method and limits"),
        Paragraph(
            "Each note is read into words of a fixed list; different spellings and synonyms count as one "
            "word, and a denied word (“not sweet”) does not count. A word counts once for a taster and a "
            "coffee, in whichever question it was written." + _read_by(analysis)
        ),
        Paragraph(
            f"Intervals are {level} intervals: of many such intervals about that part holds the true value, "
            "if the tasters are like those one wants to speak of and answered independently."
        ),
        Paragraph(_SOURCES),
    ]
    blocks += [Caveat(text) for text in _limits(analysis)]
    return (*blocks, *cautions())


def _read_by(analysis: Analysis) -> str:
    """What the list was changed by here, if anything."""
    own, corrected = analysis.answers.lexicon.own, analysis.answers.corrected
    said = f" {counted(own, 'word')} of this house's own stood in the list." if own else ""
    if corrected:
        said += f" The notes of {counted(corrected, 'taster')} were read by corrections of their own."
    return said


def cautions() -> tuple[Block, ...]:
    """What can hurt when these coffees are tasted again."""
    return (
        Heading("Before tasting these again"),
        Caveat(
            "Coffee above 60 °C burns within seconds: let a spoonful cool. What is swallowed adds up to a "
            "lot of caffeine: spit, and keep away from it if advised to. Use your own spoon or cup, and stay "
            "away when ill. Anyone allergic to something handled at the table should not taste there."
        ),
        Caveat(
            "Whoever suddenly smells or tastes much less than before should see a clinician. This report "
            "speaks of taste, not of food safety; local rules and licensed practice come first."
        ),
    )


def _limits(analysis: Analysis) -> list[str]:
    answers = analysis.answers
    limits = [
        "A word that a taster did not write may have been tasted all the same: free words undercount. "
        "Silence is no finding.",
        "Whether a word sets a coffee apart is judged by comparing each taster with themselves. The interval "
        "printed beside it takes the notes on the other coffees as those of other people: it is too wide "
        "where tasters repeat their words, and somewhat too narrow where they avoid repeating them.",
    ]
    scales = sum(any(mean.n for mean in scale.means) for scale in analysis.scales)
    if scales > 1:
        limits.append(
            f"Each of the {scales} scales is judged by itself: of twenty scales on which no coffees differ, "
            "one would show a difference by chance."
        )
    if len(answers.seats) < _FEW:
        limits.append(
            f"With fewer than {_FEW} tasters the intervals are wide and rest on the assumption that scores "
            "are spread evenly about their mean. Read the tasters' own words first."
        )
    stood = {place for places in answers.places for place in places}
    if any(not stood <= set(seat.order) for seat in answers.seats):
        limits.append(
            "Not every taster was given every coffee. Averages and shares of two coffees then come from "
            "different tasters, and a coffee that generous tasters were given looks better for it."
        )
    doubled = [
        coffee.name for coffee, places in zip(answers.coffees, answers.places, strict=True) if len(places) > 1
    ]
    if doubled:
        limits.append(
            f"{listed(doubled)} stood at several places. Each taster's scores for them were averaged and the "
            "words united; how far each taster's own answers lay apart stands under its own heading."
        )
    return limits
