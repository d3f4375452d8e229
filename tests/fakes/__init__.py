"""Stand-ins that implement the ports of the steps."""
