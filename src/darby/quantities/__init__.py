"""Quantities: areas by the firm's custom, mortar with every allowance on its own line, materials, edges, the order.

``volumes(ask)`` for one surface and ``order(ask)`` for the job stand in the graph; ``quick_sum`` and
``by_dry_volume`` need no job. ``cut_lists(ask)`` stands in the graph too, ``cut_list`` needs no job.
"""

from darby.quantities.cut_list import cut_list, cut_lists
from darby.quantities.cutting.model import (
    Bar,
    Bought,
    Cut,
    CutAsk,
    CutList,
    CutLists,
    Offcut,
    Piece,
    Placed,
    Profile,
    ProfileCuts,
    Splice,
    Stock,
)
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
    "Bar",
    "Bought",
    "Buy",
    "Coat",
    "Cover",
    "Cut",
    "CutAsk",
    "CutList",
    "CutLists",
    "DryVolume",
    "EdgeLine",
    "EdgeRun",
    "Film",
    "Material",
    "Mortar",
    "Offcut",
    "Opening",
    "Order",
    "OrderAsk",
    "OrderLine",
    "Ordered",
    "Piece",
    "Placed",
    "Profile",
    "ProfileCuts",
    "QuickSum",
    "Reveal",
    "Sand",
    "SealedJoint",
    "Splice",
    "Stock",
    "Volumes",
    "VolumesAsk",
    "Zone",
    "ZoneArea",
    "accessory_for",
    "by_dry_volume",
    "cut_list",
    "cut_lists",
    "measured_area",
    "opening_rule",
    "order",
    "quick_sum",
    "volumes",
]
