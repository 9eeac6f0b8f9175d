"""Lengths as people write them, units, exact limits, surfaces and shapes. Floor 1; imports nothing of darby."""
