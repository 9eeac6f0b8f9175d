"""Quantities: areas by the firm's custom, mortar with every allowance on its own line, materials, edges, the order.

``volumes(ask)`` for one surface and ``order(ask)`` for the job stand in the graph; ``quick_sum`` and
``by_dry_volume`` need no job.
"""

from darby.quantities.dry_volume import by_dry_volume
from darby.quantities.edges import accessory_for
from darby.quantities.model import (
    Allowances,
    BagLabel,
    Buy,
    Coat,
    Cover,
    DryVolume,
    EdgeLine,
    EdgeRun,
    Film,
    Material,
    Mortar,
    Opening,
    Order,
    OrderAsk,
    Ordered,
    OrderLine,
    QuickSum,
    Reveal,
    Sand,
    SealedJoint,
    Volumes,
    VolumesAsk,
    Zone,
    ZoneArea,
)
from darby.quantities.openings import measured_area, opening_rule
from darby.quantities.order import order
from darby.quantities.sums import quick_sum
from darby.quantities.volumes import volumes

__all__ = [
    "Allowances",
    "BagLabel",
    "Buy",
    "Coat",
    "Cover",
    "DryVolume",
    "EdgeLine",
    "EdgeRun",
    "Film",
    "Material",
    "Mortar",
    "Opening",
    "Order",
    "OrderAsk",
    "OrderLine",
    "Ordered",
    "QuickSum",
    "Reveal",
    "Sand",
    "SealedJoint",
    "Volumes",
    "VolumesAsk",
    "Zone",
    "ZoneArea",
    "accessory_for",
    "by_dry_volume",
    "measured_area",
    "opening_rule",
    "order",
    "quick_sum",
    "volumes",
]
