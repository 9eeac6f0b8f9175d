"""Measurements against a peer, side by side in one run: ``make bench``."""
