"""What money looks like on a page."""

import re

MONEY = re.compile(r"[$€£]|\b\d[\d.,]* ?(?:dollars|dólares|USD|EUR)\b", re.IGNORECASE)
"""A price is never written by darby without its sign; what people write may name the money."""
