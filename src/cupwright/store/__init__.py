"""Where it is kept: one schema for SQLite and PostgreSQL; rows become core values, and back, by hand."""
