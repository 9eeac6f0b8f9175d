"""A quote as it was sent: frozen with all it stood on, and held against what stands now."""
