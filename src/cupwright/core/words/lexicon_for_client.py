"""The lexicon as the client needs it to read by itself: what is read, no references and no causes of faults.

Lists are joined to texts, since that is small after compression and quick to split. The client's side is
client/src/words/reading/lexicon.ts.
"""

from collections.abc import Iterable
from typing import Any

from cupwright.core.words.lexicon import Concept, Endings, Language, Lexicon

BETWEEN_FORMS = "|"


def client_lexicon(lexicon: Lexicon) -> dict[str, Any]:
    """Everything that reading a note needs, as data; keys without a value are left out.

    Concepts stand in the order of the lexicon, because of two phrases that are alike the later one holds.
    """
    return {
        "families": list(lexicon.families),
        "concepts": {concept.id: _concept(concept) for concept in lexicon},
        "languages": {
            language.code: _language(language) for language in (lexicon.language, *lexicon.others.values())
        },
    }


def _concept(concept: Concept) -> dict[str, Any]:
    told = {
        "label": concept.label if concept.label != concept.id.replace("_", " ") else "",
        "parents": " ".join(concept.parents),
        "forms": _joined(concept.synonyms),
        "slips": _joined(concept.slips),
        "shared": _joined(concept.shared),
        "about": concept.about if concept.about != "character" else "",
        "takes": dict(concept.takes),
        "low": concept.low,
        "middle": concept.middle,
        "high": concept.high,
        "denied": concept.denied,
        "labels": dict(concept.labels),
        "written": {code: _joined(forms) for code, forms in concept.forms.items()},
    }
    return {key: value for key, value in told.items() if value}


def _language(language: Language) -> dict[str, Any]:
    return {
        "plain": " ".join(sorted(language.plain)),
        "moments": " ".join(sorted(language.moments)),
        "realWords": " ".join(sorted(language.real_words)),
        "marks": {kind: _joined(phrases) for kind, phrases in language.marks.items()},
        "spelling": dict(language.spelling),
        "endings": _endings(language.endings),
        "groups": {name: _joined(group) for name, group in language.groups.items()},
    }


def _endings(endings: Endings) -> dict[str, Any]:
    return {
        "number": _replaced(endings.number),
        "quality": _replaced(endings.quality),
        "doubling": sorted(endings.doubling),
        "hissing": list(endings.hissing),
        "comparing": list(endings.comparing),
    }


def _replaced(endings: Iterable[tuple[str, tuple[str, ...]]]) -> list[list[str]]:
    return [[ending, *replacements] for ending, replacements in endings]


def _joined(forms: Iterable[str]) -> str:
    return BETWEEN_FORMS.join(forms)
