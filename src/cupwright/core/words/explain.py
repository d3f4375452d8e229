"""Why two words are kin, said in plain words."""

from collections.abc import Sequence

from cupwright.core.words.facets import facets_of
from cupwright.core.words.kinship import Kin, kin_of
from cupwright.core.words.kinship_weights import builtin_kinship_weights, family_of
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.phrase_kinship import phrase_kinship

# From here down to the next: what a kinship is called.
DEGREES = ((0.75, "very near"), (0.5, "near"), (0.3, "distant kin"), (0.1, "hardly kin"))
_STRANGERS = "strangers"
_SAME_PLACE, _OTHER_END = 0.35, 1.2


def explain(a: str, b: str, lexicon: Lexicon) -> str:
    """How near two concepts are and what makes them so, in one or more sentences.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.
    """
    if a == b:
        return f"It is one word: {lexicon[a].label}."
    kin = kin_of(lexicon)
    near = float(kin.kinship[kin.row[a], kin.row[b]])
    reasons = _reasons(a, b, lexicon) or ["nothing we know of makes them kin"]
    opening = f"{_capital(lexicon[a].label)} and {lexicon[b].label}: {degree(near)} ({near:.2f})."
    return " ".join([opening, *(f"{_capital(reason)}." for reason in reasons)])


def explain_phrases(one: Sequence[str], other: Sequence[str], lexicon: Lexicon) -> str:
    """The same of two phrases, each of one or more concepts: which word of one meets which of the other.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.
    """
    if len(one) == len(other) == 1:
        return explain(one[0], other[0], lexicon)
    near = phrase_kinship(one, other, lexicon)
    shared = [concept for concept in one if concept in other]
    names = [" with ".join(lexicon[concept].label for concept in phrase) for phrase in (one, other)]
    told = [f"{_capital(names[0])}, and {names[1]}: {degree(near.kinship)} ({near.kinship:.2f})."]
    if shared:
        told.append(f"Both name {_and([lexicon[concept].label for concept in shared])}.")
    if not near.kinship:
        return f"{told[0]} Nothing we know of makes them kin."
    met = {frozenset(pair[:2]): pair for pair in near.nearest if pair[0] != pair[1]}
    told += [_met(*pair, lexicon) for pair in met.values()]
    return " ".join(told)


def _met(concept: str, nearest: str, near: float, lexicon: Lexicon) -> str:
    """Jelly comes nearest to jam (near, 0.62): both belong to cooked fruit."""
    label = _capital(lexicon[concept].label)
    if near < DEGREES[-1][0]:
        return f"{label} has no kin there."
    why = "; ".join(_reasons(concept, nearest, lexicon))
    return f"{label} comes nearest to {lexicon[nearest].label} ({degree(near)}, {near:.2f}): {why}."


def _reasons(a: str, b: str, lexicon: Lexicon) -> list[str]:
    """What makes two different concepts kin, as clauses; none if nothing does."""
    first, second = lexicon[a], lexicon[b]
    if first.scale and first.scale == second.scale:
        return [_on_one_scale(first.scale, abs(first.place - second.place))]
    return [*_graph(a, b, lexicon), *_facets(a, b, lexicon), *_co_use(a, b, lexicon, kin_of(lexicon))]


def degree(kinship: float) -> str:
    """A kinship in words, from very near to strangers."""
    return next((name for least, name in DEGREES if kinship >= least), _STRANGERS)


def _on_one_scale(scale: str, apart: float) -> str:
    if apart <= _SAME_PLACE:
        return f"both speak of {scale}, and mean much the same of it"
    if apart >= _OTHER_END:
        return f"both speak of {scale}, but from its two ends"
    return f"both speak of {scale}, some way apart"


def _graph(a: str, b: str, lexicon: Lexicon) -> list[str]:
    above_a, above_b = lexicon.ancestors(a), lexicon.ancestors(b)
    if b in above_a or a in above_b:
        under, over = (a, b) if b in above_a else (b, a)
        return [f"{lexicon[under].label} belongs to {lexicon[over].label}"]
    shared = above_a & above_b
    higher = {
        over
        for concept in shared
        for parent in lexicon[concept].parents
        for over in lexicon.ancestors(parent)
    }
    nearest = [concept for concept in lexicon.concepts if concept in shared - higher]
    return [f"both belong to {_and([lexicon[c].label for c in nearest])}"] if nearest else []


def _facets(a: str, b: str, lexicon: Lexicon) -> list[str]:
    one, other = facets_of(lexicon)[a], facets_of(lexicon)[b]
    reasons = []
    above = lexicon.ancestors(a) & lexicon.ancestors(b)
    if made_of := sorted((one.made_of & other.made_of) - above):
        reasons.append(f"both come from {_and(_plain(made_of))}")
    if feels := sorted(one.feels & other.feels):
        reasons.append(f"what carries both is {_and(feels)}")
    # That two things are fresh is worth saying only where nothing else joins them.
    if one.state and one.state == other.state and (one.state != "fresh" or not (above or reasons)):
        reasons.append("both are peel" if one.state == "peel" else f"both are {one.state}")
    return reasons


def _co_use(a: str, b: str, lexicon: Lexicon, kin: Kin) -> list[str]:
    if not kin.co_use[kin.row[a], kin.row[b]]:
        return []
    families = builtin_kinship_weights().families
    one, other = family_of(a, lexicon, families), family_of(b, lexicon, families)
    if one in lexicon.ancestors(other) or other in lexicon.ancestors(one):
        return []
    return [
        f"in tasters' notes, words of {lexicon[one].label} and of {lexicon[other].label} keep like company"
    ]


def _plain(words: list[str]) -> list[str]:
    return [word.replace("_", " ") for word in words]


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
