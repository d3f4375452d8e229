"""Words: the vocabulary, how a written note is read, and which words are kin."""
