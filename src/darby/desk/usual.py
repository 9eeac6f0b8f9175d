"""Which few things of a table are asked at once, the others with one tap more; what a job may say of the firm."""

from __future__ import annotations

from collections.abc import Mapping

OF_FIRM = ("crew", "labor", "pace", "allow", "trip", "access", "money", "usual")
"""What a job may say otherwise than the firm file."""
OF_LETTERHEAD = ("name", "line", "address", "phone", "email", "license", "invented", "system", "languages", "units")
"""Keys of the firm file before its first table, but for its version."""
OF_BASE = ("base", "block", "joints", "brick", "behind", "sheathing", "studs", "out_of_plane")
USUAL: Mapping[str, tuple[str, ...]] = {
    "job": ("name", "customer", "address", "number", "as_of", "built"),
    "wall": ("name", "length", "height", "gable", "facing", *OF_BASE, "openings", "left", "right"),
    "house": ("name", "walls", "height", "facing", *OF_BASE, "openings", "gables", "tests"),
    "garden_wall": ("name", "length", "height", "thick", "facing", *OF_BASE, "cap", "pilasters", "sprinklers"),
    "box": ("name", "kind", "sides", "height", "roof", "foot", "facing", *OF_BASE, "cap"),
    "strip": ("name", "kind", "length", "width", "foot", "facing", *OF_BASE, "left", "right", "tests"),
    "ring": ("name", "size", "width", "wall", "at", "up", "foot", *OF_BASE, "thickness", "proud", "replaced"),
    "survey": ("name", "size", "openings", "hollow", "crack", "loose"),
    "patch": ("surface", "hollow", "lines", "flange", "old", "cut"),
    "recoat": ("returns", "weep", "vent", "eave", "fixture", "wash", "mask", "roughen"),
    "vent": ("name", "surface", "at", "up", "clear", "count"),
    "eave": ("name", "surface", "clear"),
    "fixture": ("what", "count", "each"),
    "hollow": ("name", "size", "at", "up", "push"),
    "loose": ("name", "size", "at", "up"),
    "crack": ("name", "line", "width", "gauge", "reading"),
    "reading": ("on", "width", "air"),
    "coats": ("finish", "sand", "colored", "paint", "on"),
    "on": ("surface", "choose", "total", "suction", "why"),
    "zone": ("name", "outline", *OF_BASE),
    "also": ("what", "says", "hours", "length", "area", "cost"),
    "match": ("surface", "says", "looks", "retained", "depths", "paint_coats"),
    "readings": ("surface", "points"),
    "joints": ("surface", "block", "upright", "not_upright"),
    "ordered": ("item", "amount", "on"),
    "buys": ("item", "name", "package", "price", "supplier"),
    "price": ("stands_days", "says"),
    "letterhead": ("name", "line", "address", "phone", "email", "license", "invented", "system", "languages"),
    "crew": ("role", "people", "wage"),
    "access": ("kind", "up_to", "per_day", "set_up"),
    "usual": ("price", "bags", "pace"),
}  # fmt: skip
"""By table, what is asked at once and in this order; the rest opens with one tap."""
