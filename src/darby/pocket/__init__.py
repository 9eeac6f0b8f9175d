"""The pocket sheet: one file for the phone that works sums with tables exported by the core."""
