"""Matching a finish: what the old face is made of, and the sample boards that lead to it."""
