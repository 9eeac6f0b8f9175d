"""buildup."""
