"""Report: one document for screen, paper and data."""
