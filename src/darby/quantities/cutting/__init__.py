"""Cutting stock: whole numbers, weighings, the linear programme over patterns, and the sheet to saw from."""
