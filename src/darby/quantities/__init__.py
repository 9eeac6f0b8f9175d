"""quantities."""
