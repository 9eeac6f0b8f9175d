"""darby."""
