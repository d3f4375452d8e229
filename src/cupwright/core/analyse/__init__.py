"""Analyse: what the notes and points of a table say, and how sure that is."""
