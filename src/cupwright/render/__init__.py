"""How it prints: one document to HTML, PDF and JSON; charts drawn once for screen and paper."""
