"""Reveal: the sealed key, who may see what at which step, and how two lists of words compare."""
