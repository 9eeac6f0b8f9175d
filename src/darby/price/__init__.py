"""price."""
