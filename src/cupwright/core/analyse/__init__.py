"""Analyse: what a table's notes say, how surely, and what could not be read."""
