"""`cupwright own-words`: concepts and forms of one's own, listed, added, removed, to and from a file."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_text, say, say_json, say_rows, write_file

if TYPE_CHECKING:
    from cupwright.core.words.lexicon import Lexicon
    from cupwright.core.words.own_words import Addition
    from cupwright.steps.words import OwnWordView

LARGEST_OWN_WORDS_FILE = 2_000_000
_SAYS = "List, add, remove, export or import words of your own, by which notes are read beside the lexicon."


def add_to(commands: Commands) -> None:
    """Make the command and its acts known."""
    parser = commands.add_parser("own-words", help=_SAYS, description=_SAYS, allow_abbrev=False)
    acts = parser.add_subparsers(title="acts", metavar="ACT", required=True)
    with_json(command(acts, "list", list_words, says="List the own words."))
    adding = command(acts, "add", add, says="Add a concept (--under), or one more form of a concept (--of).")
    adding.add_argument("word", metavar="WORD", help="how it is called, or written")
    where = adding.add_mutually_exclusive_group(required=True)
    where.add_argument(
        "--under", metavar="CONCEPT", action="append", help="what it is a kind of; may be given several times"
    )
    where.add_argument("--of", metavar="CONCEPT", help="the concept that is written so, too")
    adding.add_argument(
        "--form", metavar="FORM", action="append", default=[], help="with --under: another way to write it"
    )
    with_json(adding)
    removing = command(acts, "remove", remove, says="Remove an own word.")
    removing.add_argument("word", metavar="WORD", help="its label, its form or its id")
    exporting = command(acts, "export", export, says="Write the own words to a TOML file, or print them.")
    exporting.add_argument("-o", "--output", metavar="FILE.toml", type=Path)
    importing = command(acts, "import", take_in, says="Add the own words of such a file: all or none.")
    importing.add_argument("file", metavar="FILE.toml", type=Path)
    with_json(importing)


def list_words(joint: Joint, chosen: argparse.Namespace) -> None:
    """All own words, with what they hang under."""
    from cupwright.core.plain import plain
    from cupwright.steps.words import lexicon, list_own_words

    with joint.open_tools(data_folder(chosen.data)) as tools:
        views, words = list_own_words(tools), lexicon(tools)
    if chosen.json:
        say_json([plain(view) for view in views])
    elif views:
        say_rows(("word", "what it is", "also written", "id"), [_row(view, words) for view in views])
    else:
        say("There are no own words.")


def add(joint: Joint, chosen: argparse.Namespace) -> None:
    """A concept or a form; what it hangs under may be named as one likes."""
    from cupwright.core.plain import plain
    from cupwright.steps.words import add_own_word, lexicon

    if chosen.of and chosen.form:
        chosen.wrong_use("--form goes with --under; with --of the word itself is the form")
    with joint.open_tools(data_folder(chosen.data)) as tools:
        kept = add_own_word(tools, _addition(chosen, lexicon(tools)))
    if chosen.json:
        say_json(plain(kept))
    else:
        say(f"Added '{_name(kept.addition)}'.")


def remove(joint: Joint, chosen: argparse.Namespace) -> None:
    """By its id or by what it is called."""
    from cupwright.core.plan.names import folded
    from cupwright.errors import NotFound
    from cupwright.steps.words import list_own_words, remove_own_word

    with joint.open_tools(data_folder(chosen.data)) as tools:
        called = folded(chosen.word)
        kept = [view.kept for view in list_own_words(tools)]
        found = [one for one in kept if chosen.word == one.id or folded(_name(one.addition)) == called]
        if not found:
            raise NotFound(f"There is no own word '{chosen.word}'.", todo="See cupwright own-words list.")
        remove_own_word(tools, found[0].id)
    say(f"Removed '{_name(found[0].addition)}'.")


def export(joint: Joint, chosen: argparse.Namespace) -> None:
    """To a file, or to standard output."""
    from cupwright.steps.words import export_own_words

    with joint.open_tools(data_folder(chosen.data)) as tools:
        text = export_own_words(tools)
    if chosen.output:
        write_file(chosen.output, text.encode())
        say(f"Wrote {chosen.output}.")
    else:
        say(text.rstrip("\n"))


def take_in(joint: Joint, chosen: argparse.Namespace) -> None:
    """All of the file's own words, or none."""
    from cupwright.steps.words import import_own_words

    text = read_text(chosen.file, largest=LARGEST_OWN_WORDS_FILE)
    with joint.open_tools(data_folder(chosen.data)) as tools:
        imported = import_own_words(tools, text, chosen.file.name)
    if chosen.json:
        say_json({"added": len(imported.added), "known": imported.known})
    else:
        say(f"{len(imported.added)} own words were added; {imported.known} were here already.")


def _addition(chosen: argparse.Namespace, lexicon: "Lexicon") -> "Addition":
    from cupwright.core.words.look_up import concept_called
    from cupwright.core.words.own_words import own_concept, own_form

    if chosen.of:
        return own_form(concept_called(chosen.of, lexicon), chosen.word)
    return own_concept(chosen.word, [concept_called(one, lexicon) for one in chosen.under], chosen.form)


def _name(addition: "Addition") -> str:
    from cupwright.core.words.own_words import OwnConcept

    return addition.label if isinstance(addition, OwnConcept) else addition.form


def _row(view: "OwnWordView", lexicon: "Lexicon") -> tuple[str, str, str, str]:
    from cupwright.core.words.own_words import OwnConcept

    def label(concept: str) -> str:
        return lexicon[concept].label if concept in lexicon else concept

    addition, kept = view.kept.addition, view.kept
    if isinstance(addition, OwnConcept):
        above = ", ".join(label(parent) for parent in addition.parents)
        what, forms = f"a kind of {above}", ", ".join(addition.forms)
    else:
        what, forms = f"a way to write {label(addition.concept)}", ""
    return _name(addition), f"not read: {view.why_not}" if view.why_not else what, forms, kept.id
