"""What happens: each step opens the store, asks core, keeps the answer. The only place with a transaction."""
