"""`cupwright kin` and `cupwright match`: how near words are and why, and two lists of words side by side."""

import argparse
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json, say_rows

if TYPE_CHECKING:
    from cupwright.core.reveal.match import Matched
    from cupwright.core.words.lexicon import Lexicon

_SHOWN = 10


def add_to(commands: Commands) -> None:
    """Make the commands known."""
    says = "How near two words are and why; of one word, its nearest kin."
    asking = command(commands, "kin", kin, says=says)
    asking.add_argument("word", metavar="WORD", help="a word or phrase of tasting, written as one likes")
    asking.add_argument("other", metavar="WORD", nargs="?", help="a second word or phrase")
    with_json(asking)
    says = "Lay two texts side by side: shared, near, missed and own words, and a score."
    laying = command(commands, "match", match_texts, says=says)
    laying.add_argument("--mine", metavar="TEXT", required=True, help="what was written")
    laying.add_argument("--theirs", metavar="TEXT", required=True, help="what it is compared with")
    with_json(laying)


def kin(joint: Joint, chosen: argparse.Namespace) -> None:
    """Two words and why they are kin, or one and its nearest."""
    from cupwright.core.words.look_up import concepts_called

    lexicon = _lexicon(joint, chosen)
    named = concepts_called(chosen.word, lexicon)
    if chosen.other is None:
        _nearest(named, lexicon, as_data=chosen.json)
    else:
        _pair(named, concepts_called(chosen.other, lexicon), lexicon, as_data=chosen.json)


def _nearest(named: tuple[str, ...], lexicon: "Lexicon", *, as_data: bool) -> None:
    from cupwright.core.words.explain import degree, explain_phrases
    from cupwright.core.words.phrase_kinship import nearest_to_phrase

    nearest = nearest_to_phrase(named, lexicon, count=_SHOWN)
    called = " with ".join(lexicon[concept].label for concept in named)
    if as_data:
        why = {other: explain_phrases(named, (other,), lexicon) for other, _ in nearest}
        rows = [{"concept": c, "label": lexicon[c].label, "kinship": k, "why": why[c]} for c, k in nearest]
        say_json({"concepts": named, "kin": rows})
    elif nearest:
        shown = [(lexicon[other].label, f"{near:.2f}", degree(near)) for other, near in nearest]
        say_rows((f"kin of {called}", "kinship", ""), shown)
    else:
        say(f"Nothing in the lexicon is kin of {called}.")


def _pair(one: tuple[str, ...], other: tuple[str, ...], lexicon: "Lexicon", *, as_data: bool) -> None:
    from cupwright.core.words.explain import explain_phrases
    from cupwright.core.words.phrase_kinship import phrase_kinship

    why = explain_phrases(one, other, lexicon)
    if as_data:
        near = phrase_kinship(one, other, lexicon)
        say_json({"a": one, "b": other, "kinship": near.kinship, "why": why, "nearest": near.nearest})
    else:
        say(why)


def match_texts(joint: Joint, chosen: argparse.Namespace) -> None:
    """Two texts, read and laid side by side."""
    from cupwright.core.plain import plain
    from cupwright.core.reveal.match import match
    from cupwright.core.words.reading import read_note

    lexicon = _lexicon(joint, chosen)
    mine, theirs = (read_note(text, lexicon).concepts for text in (chosen.mine, chosen.theirs))
    matched = match(mine, theirs, lexicon)
    if chosen.json:
        say_json(plain(matched))
    else:
        _say_matched(matched, lexicon)


def _say_matched(matched: "Matched", lexicon: "Lexicon") -> None:
    def labels(concepts: tuple[str, ...]) -> str:
        return ", ".join(lexicon[concept].label for concept in concepts) or "-"

    near = ", ".join(f"{lexicon[a].label} ~ {lexicon[b].label} ({k:.2f})" for a, b, k in matched.near)
    say(f"shared  {labels(matched.shared)}")
    say(f"near    {near or '-'}")
    say(f"missed  {labels(matched.missed)}")
    say(f"own     {labels(matched.own)}")
    say(f"score   {matched.score:.2f} of 1; by itself it says nothing about chance")


def _lexicon(joint: Joint, chosen: argparse.Namespace) -> "Lexicon":
    """With this installation's own words."""
    from cupwright.steps.words import lexicon

    with joint.open_tools(data_folder(chosen.data)) as tools:
        return lexicon(tools)
