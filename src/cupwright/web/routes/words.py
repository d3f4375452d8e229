"""Words: the lexicon, which words are kin, and the own words of this installation."""

from typing import Annotated

from fastapi import APIRouter, Query, Response

from cupwright.core.words.look_up import concepts_called
from cupwright.core.words.own_words import Addition, own_concept, own_form
from cupwright.errors import NotFound, Refused
from cupwright.steps import words as steps
from cupwright.web import worded
from cupwright.web.files import as_file
from cupwright.web.here import ToolsNow
from cupwright.web.revealed import ReadingShown
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id, OwnWordIn, PastedIn, ReadIn, TextsIn

router = APIRouter(prefix="/api", tags=["words"], dependencies=[DeskOnly])

Called = Annotated[str, Query(max_length=200)]


@router.get("/words")
def list_words(tools: ToolsNow) -> list[worded.ListedConcept]:
    """Every concept of the lexicon, own ones too, by label."""
    return worded.listed_concepts(steps.lexicon(tools))


@router.get("/words/map")
def map_of_words(tools: ToolsNow, around: Called = "") -> worded.MapShown:
    """Where the words lie by their kinship; with `around` only that concept and its nearest kin."""
    lexicon, laid = steps.map_of_words(tools, around)
    return worded.map_shown(lexicon, laid)


@router.get("/words/{concept_id}")
def get_word(tools: ToolsNow, concept_id: Id) -> worded.ConceptView:
    """One concept: what it hangs under, how it is written, its nearest kin and why."""
    lexicon = steps.lexicon(tools)
    if concept_id not in lexicon:
        raise NotFound(f"The lexicon has no concept '{concept_id}'.", todo="Look it up by name.")
    return worded.concept_view(concept_id, lexicon)


@router.get("/kin")
def kin(tools: ToolsNow, a: Called, b: Called) -> worded.PairShown:
    """How near two words or phrases are, named as one likes, and why."""
    lexicon = steps.lexicon(tools)
    return worded.pair_shown(concepts_called(a, lexicon), concepts_called(b, lexicon), lexicon)


@router.post("/read")
def read(tools: ToolsNow, body: ReadIn) -> list[ReadingShown]:
    """Texts word for word, and how each is read; nothing is kept."""
    return worded.texts_read(body.notes, body.field, steps.lexicon(tools))


@router.post("/match")
def match(tools: ToolsNow, body: TextsIn) -> worded.TextsMatchedShown:
    """Two texts, read and laid side by side: shared, near, missed, own."""
    return worded.texts_matched(body.mine, body.theirs, steps.lexicon(tools))


@router.get("/own-words")
def list_own_words(tools: ToolsNow) -> list[worded.OwnWordShown]:
    """The own words, in the order in which they came."""
    return [worded.own_word_shown(view) for view in steps.list_own_words(tools)]


@router.post("/own-words", status_code=201)
def add_own_word(tools: ToolsNow, body: OwnWordIn) -> worded.OwnWordShown:
    """Add a concept (label, parents, forms), or with `concept` one more form of one that exists."""
    kept = steps.add_own_word(tools, _addition(body))
    return worded.own_word_shown(steps.OwnWordView(kept, ""))


@router.delete("/own-words/{word_id}", status_code=204)
def remove_own_word(tools: ToolsNow, word_id: Id) -> None:
    """Forget an own word."""
    steps.remove_own_word(tools, word_id)


@router.get("/own-words/file", response_class=Response)
def own_words_file(tools: ToolsNow) -> Response:
    """The own words as a file, to take to another installation."""
    return as_file(steps.export_own_words(tools).encode(), "toml", "own words")


@router.post("/own-words/import")
def import_own_words(tools: ToolsNow, body: PastedIn) -> worded.ImportedWordsShown:
    """Add the own words of such a file, all of them or none."""
    return worded.imported_shown(steps.import_own_words(tools, body.text, "own words"))


def _addition(body: OwnWordIn) -> Addition:
    if body.label:
        return own_concept(body.label, body.parents, body.forms)
    if not body.concept:
        raise Refused("An own word needs a label, or the concept that it is a form of.", todo="Say which.")
    if len(body.forms) != 1:
        raise Refused("Of a concept that exists, one form is added at a time.", todo="Give one form.")
    return own_form(body.concept, body.forms[0])
