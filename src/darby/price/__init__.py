"""What it costs: by coats and by trips, and which of them set the price."""

from darby.price.hourly import break_even, hour_must_bring
from darby.price.loading import loaded, margin_of, markup_of
from darby.price.pricing import price
from darby.price.what_if import ranked, sensitivity

__all__ = ["break_even", "hour_must_bring", "loaded", "margin_of", "markup_of", "price", "ranked", "sensitivity"]
