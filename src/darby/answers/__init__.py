"""answers."""
