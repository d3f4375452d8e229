"""The lexicon that the client reads by is made from the program's, is up to date, and is small."""

import gzip
import runpy
from pathlib import Path

FOLDER = Path(__file__).parents[2] / "client/src/words/reading"
MOST_BYTES = 60_000


def test_the_clients_lexicon_is_up_to_date():
    """If not, run client/src/words/reading/make_lexicon.py and commit what it writes."""
    made = runpy.run_path(str(FOLDER / "make_lexicon.py"))["client_lexicon_text"]()

    assert (FOLDER / "lexicon.json").read_text(encoding="utf-8") == made


def test_the_clients_lexicon_takes_less_than_60_kb_compressed():
    assert len(gzip.compress((FOLDER / "lexicon.json").read_bytes())) < MOST_BYTES
