"""days."""
