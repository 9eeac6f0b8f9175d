"""What the old wall is like, and what that asks: survey, cracks, hollow plaster, patches, re-coats."""
