"""Who asks, by HTTP: routes named as the steps they ask for."""
