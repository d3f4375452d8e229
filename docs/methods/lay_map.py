"""Lays out the map of all words anew: run it after any change of what kinship is made of.

    .venv/bin/python docs/methods/lay_map.py

It writes map_of_words.toml beside the lexicon: where each concept lies, without a unit, centred, the widest
way across; the stress; and the fingerprint of the concepts, facets and weights it was laid by. A test finds
out when it was forgotten. Takes some seconds.
"""

from pathlib import Path

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.ready_map import FILE, kept_map_text

TARGET = Path(__file__).parents[2] / "src/cupwright/core/words" / FILE


if __name__ == "__main__":
    TARGET.write_text(kept_map_text(load_lexicon()), encoding="utf-8")
