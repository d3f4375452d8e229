"""Where it is kept: one schema for SQLite and PostgreSQL; rows and core values are turned into each other by hand."""
