"""Words: the vocabulary of tasting, how a written note is read with it, and which words are kin.

    lexicon.toml, english.toml ─> lexicon ─> phrases ─┐
                        a note ─> tokens ─────────────┴─> reading (spelling, negation)
                                             lexicon ───> kinship       colour stands by itself

What a taster wrote is kept word for word; a reading is an interpretation beside it.
"""
