"""The routes, one file a room."""
