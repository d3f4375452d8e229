"""Cupwright: from a fair blind table to words and decisions that hold up."""

__version__ = "0.1.0"
