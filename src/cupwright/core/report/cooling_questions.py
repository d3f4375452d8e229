"""What moves as the cups of a table cool, beside its scales: words and colours."""

from math import isnan

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.as_it_cools import cooling_trend
from cupwright.core.analyse.warm_answers import warm_colours, warm_words
from cupwright.core.analyse.words_as_they_cool import words_as_they_cool
from cupwright.core.report.cooling_section import cooling_section, words_cooling_section
from cupwright.core.report.document import Block, Heading, Paragraph
from cupwright.core.report.question import question
from cupwright.errors import Refused

_COLOURS = "Which way do the colours go as it cools?"


def words_cooling_question(answers: Answers, *, level: float) -> tuple[Block, ...]:
    """Which words go with warm or cool cups; nothing where no temperature is known."""
    warm = warm_words(answers)
    if all(isnan(celsius) for celsius in warm.celsius):
        return ()
    names = {concept: answers.lexicon[concept].label for concept in warm.used}
    found = words_as_they_cool(warm.used, warm.block, warm.celsius, level=level)
    return question("Which words go with warmth?", [("", words_cooling_section(found, names))])


def colours_cooling_question(answers: Answers, *, level: float) -> tuple[Block, ...]:
    """How lightness and hue of the colours picked move; nothing without colours or temperatures."""
    parts: list[tuple[str, tuple[Block, ...]]] = []
    for component, scores in warm_colours(answers).items():
        if scores.temperature is None or all(isnan(celsius) for celsius in scores.temperature):
            return ()
        try:
            trend = cooling_trend(scores, level=level)
            parts.append((component, cooling_section(trend, unit="of OKLab", name="colours-cooling")))
        except Refused as refusal:
            parts.append((component, (Heading(_COLOURS), Paragraph(refusal.message))))
    return question(_COLOURS, parts)
