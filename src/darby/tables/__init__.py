"""Answers as ruled tables in words: the rows that a terminal prints and the desk shows. Nothing is computed here."""
