"""Why two words are kin, said in plain words."""

from cupwright.core.words.facets import facets_of
from cupwright.core.words.kinship import Kin, kin_of
from cupwright.core.words.kinship_weights import builtin_kinship_weights, family_of
from cupwright.core.words.lexicon import Lexicon

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
    first, second = lexicon[a], lexicon[b]
    if a == b:
        return f"It is one word: {first.label}."
    kin = kin_of(lexicon)
    near = float(kin.kinship[kin.row[a], kin.row[b]])
    opening = f"{_capital(first.label)} and {second.label}: {degree(near)} ({near:.2f})."
    if first.scale and first.scale == second.scale:
        return f"{opening} {_on_one_scale(first.scale, abs(first.place - second.place))}"
    reasons = [*_graph(a, b, lexicon), *_facets(a, b, lexicon), *_co_use(a, b, lexicon, kin)]
    if not reasons:
        return f"{opening} Nothing we know of makes them kin."
    return " ".join([opening, *(f"{_capital(reason)}." for reason in reasons)])


def degree(kinship: float) -> str:
    """A kinship in words, from very near to strangers."""
    return next((name for least, name in DEGREES if kinship >= least), _STRANGERS)


def _on_one_scale(scale: str, apart: float) -> str:
    if apart <= _SAME_PLACE:
        return f"Both speak of {scale}, and mean much the same of it."
    if apart >= _OTHER_END:
        return f"Both speak of {scale}, but from its two ends."
    return f"Both speak of {scale}, some way apart."


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
