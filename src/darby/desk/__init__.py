"""The desk: the same answers on a phone at the wall and a laptop at the kitchen table (Django)."""
