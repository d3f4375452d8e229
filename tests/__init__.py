"""A package by name: a library used by the tests installs a `tests` of its own, which would hide this."""
