"""Plan: which coffees, in which bowls, under which codes, before whom, in which order."""
