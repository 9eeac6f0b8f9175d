"""A small good job and its firm, invented; the broken ones are small edits of them."""

from __future__ import annotations

JOB = """\
darby = 1

[job]
name = "Wash house"
customer = "nobody"
as_of = 2026-03-02
built = 1990
invented = true

[[wall]]
id = "front"
name = "Front wall"
length = "20'"
height = "9'-4\\""
gable = "2'"
facing = "south"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
left = { kind = "meets old work", up_to = "8'", thickness = "3/4 in", proud = "3/4 in" }
right = { kind = "outside corner", with = "side" }
base_edge = "grade"
top = "soffit"
openings = [
  "door 3068 at 2', reveal 4\\"",
  { id = "shop-window", size = "6' x 4'", at = "10'", up = "3'", reveal = "4\\"", plaster = ["head"] },
]

[[wall.zone]]
id = "patch"
base = "lath over block"
outline = ["17', 0\\"", "19', 0\\"", "19', 2'", "17', 2'"]

[[wall]]
id = "side"
length = "30'"
height = "9'-4\\""
facing = "east"
base = "concrete"
out_of_plane = "1/8 in"
left = { kind = "outside corner", with = "front" }
right = "outside corner"
base_edge = "grade"
top = "top"

[[house]]
id = "shed"
walls = ["10'", "8'", "10'", "8'"]
height = "7'"
facing = "190 deg"
base = "frame"
sheathing = "wood"
studs = "16 in"
gables = { 2 = "3'" }
openings = { 1 = ["window 2' x 3' at 4' up 3', reveal 0\\""] }
base_edge = "floor line"
top = "soffit"

[coats]
finish = "float"
paint = false

[[coats.on]]
surface = "front"
zone = "patch"
choose = "three-coat"
suction = "low"
total = "7/8 in"
thickness = { scratch = "3/8 in" }
wait = { scratch = "48 h" }
cure = "ibc"
why = "it sounded hollow"

[[ordered]]
item = "portland"
amount = "12 bags"
on = 2026-02-27

[[also]]
what = "wash"
hours = "2 h"
surface = "side"

[[also]]
what = "dispose"
cost = "$40.00"

[days]
damp_by = "owner"
week = 5
holidays = [2026-03-09]

[price]
stands_days = 30

[[rule]]
subject = "thickness.block.two-coat"
value = "5/8 in"
why = "the county asks for it"
"""

SHAPES = """
[[garden_wall]]
id = "gw"
name = "Garden wall"
length = "60'"
height = "6'"
thick = "8 in"
facing = "south"
foot = "0'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
cap = "drip"
faces = 2
pilasters = { every = "10'", width = "16 in", out = "4 in", faces = "both" }
left = "outside corner"
right = "outside corner"
openings = ["window 3' x 2' at 12' up 3'"]
retains = "1'"
sprinklers = true

[[box]]
id = "ch"
name = "Chimney"
kind = "chimney"
sides = ["3'", "2'"]
height = "5'"
facing = "south"
foot = "14'"
base = "brick"
brick = "soft"
joints = "struck"
out_of_plane = "1/4 in"
cap = "flashing"
roof = "6 in 12"
base_edge = "roof line"
openings = { 1 = ["vent 1' x 1' at 1' up 2', reveal 0\\""] }
count = 1

[[strip]]
id = "eave"
name = "Soffit"
kind = "soffit"
length = "20'"
width = "2'"
facing = "south"
foot = "9'"
base = "frame"
sheathing = "open studs"
studs = "16 in"
tilt = "180 deg"
inner = "inside corner"
outer = "drip"
left = "inside corner"
right = "inside corner"
openings = ["vent 1' x 1' at 1' up 6 in, reveal 0\\""]
count = 1

[[ring]]
id = "hole"
name = "Patch"
size = "3' x 4'"
width = "6 in"
sides = ["head", "sill", "left", "right"]
kind = "window"
replaced = true
wall = "20' x 9'"
at = "3'"
up = "3'"
facing = "north"
foot = "0'"
base = "painted plaster"
behind = "frame"
out_of_plane = "1/8 in"
tests = { scrape = "holds", water = "beads", tap = "sound", pull = "held" }
thickness = "7/8 in"
proud = "7/8 in"
reveal = "2 in"
plaster = ["head"]
built = 1960
"""
"""One of each shape, nothing left unsaid."""

FIRM = """\
darby_firm = 1
name = "Nobody & Sons"
invented = true
system = "us"
languages = ["en", "es"]

[follow]
thickness = "c926"
cure = { voice = "ibc", why = "the county asks for it" }

[measures]
mixer = "9 cu ft"
bucket = "0.70 cu ft"
gauge = "bucket"

[[crew]]
role = "plasterer"
people = 2
wage = "$34.00/h"

[labor]
burden = "42 % of wage"
day = "8 h"

[pace]
scratch = "110 sq ft/h"
beads = "60 ft/h"

[allow]
spread = "10 %"

[mixes.base]
portland = 1
lime = "3/4"
sand = 5
[mixes.finish]
bagged = "float-finish"

[[bagged]]
id = "float-finish"
weight = "80 lb"
water = "1.5 gal"
yield = "0.75 cu ft"
use_within = "90 min"

[[buys]]
item = "portland"
package = "94 lb bag"
price = "$16.80"

[[buys]]
item = "sand"
package = "cu yd"
price = "$46.00"

[trip]
travel = "$85.00"
set_up = "1.5 h"
least = "4 h"

[[access]]
kind = "ground"
up_to = "6'"

[[access]]
kind = "scaffold"
up_to = "30'"
per_day = "$95.00"
set_up = "8 h"

[money]
overhead = "22 % of cost"
profit = { markup = "12 % of cost and overhead" }
least_charge = "$1,450.00"

[usual]
price = "$8 to $34/sq ft"
bags = "6 to 26 bags/100 sq ft"
pace = "150 to 900 sq ft/day"
"""
