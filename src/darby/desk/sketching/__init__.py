"""Walls drawn and written by hand: one line a shape, corners and openings dragged or typed, what was found and read.

Nothing here keeps anything: each verb hands back the document as it would be, and ``kept.saving`` reads it strictly.
"""
