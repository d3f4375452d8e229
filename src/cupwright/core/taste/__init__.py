"""Taste: the sheet that asks, the notes that answer, and how notes from many devices become one."""
