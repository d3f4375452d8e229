"""Pour: how much coffee and water, and what to do with each bowl at which second."""
