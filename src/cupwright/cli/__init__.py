"""Who asks, from the command line: one file a room."""
