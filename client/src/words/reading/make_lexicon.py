"""Writes lexicon.json, the lexicon by which the client reads: run it after any change of the lexicon's files.

    .venv/bin/python client/src/words/reading/make_lexicon.py

tests/contract/test_client_lexicon.py finds out when that was forgotten.
"""

import json
from pathlib import Path

from cupwright.core.words.lexicon_file import builtin_lexicon
from cupwright.core.words.lexicon_for_client import client_lexicon

TARGET = Path(__file__).with_name("lexicon.json")


def client_lexicon_text() -> str:
    """The file's text: one concept or language a line, so that a change shows what changed."""
    data = client_lexicon(builtin_lexicon())
    parts = [f'"families":{_compact(data["families"])}']
    for part in ("concepts", "languages"):
        rows = ",\n".join(f"{_compact(key)}:{_compact(value)}" for key, value in data[part].items())
        parts.append(f'"{part}":{{\n{rows}\n}}')
    return "{" + ",\n".join(parts) + "}\n"


def _compact(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


if __name__ == "__main__":
    TARGET.write_text(client_lexicon_text(), encoding="utf-8")
