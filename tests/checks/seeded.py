"""Three small sound pieces that hold one of everything, for mistakes to be seeded in: each is a change of one line."""

from dataclasses import replace

from plankit import Plan, stock
from plankit.shop import Shop, usual
from plankit.shop.reading import shop_of
from plankit.stock import Lumber, Sheet

PLY: Sheet = stock.sheet("plywood", "3/4")
HALF: Sheet = stock.sheet("plywood", "1/2")
THIN: Sheet = stock.sheet("plywood", "1/4")
POST: Lumber = stock.lumber("4x4", species="loblolly pine")
SMALL: Lumber = stock.lumber("2x2", species="Douglas-fir")
STRIP: Lumber = stock.lumber("1x2", species="Douglas-fir")
SLAB: Lumber = stock.lumber("2x10", species="loblolly pine")
MORE = """
name = "what these builds need beside usual tools"
[[tool]]
name = "Flat-bottom bit"
[[tool]]
name = "Round file"
"""
SHOP: Shop = replace(usual(), tools=(*usual().tools, *shop_of(MORE, "more.toml").tools))


def cupboard() -> Plan:
    """A case on tapered feet: shelf on pins behind a door, a drawer over it, thin back, solid top on slots.

    ```
    ═══════════════   top, screwed up through cleats
     ║▭▭▭▭▭▭▭▭▭▭▭║    drawer
     ║═══════════║    rail
     ║· ▁▁▁▁▁▁▁ ·║    shelf on pins, behind the door
     ║═══════════║    bottom
      ▝▘       ▝▘     feet
    ```
    """
    plan = Plan("Cupboard", shop=SHOP)
    foot = plan.board("Foot", POST, runs="up", left="1", front="1", bottom=0, length="4")
    foot.taper(left="1", front="1/2")
    floor = plan.panel("Bottom", PLY, left="1/2", right="24 1/2", front="1/2", back="16", bottom=foot.top)
    feet = plan.at_corners(foot, of=floor)
    side = plan.panel("Side", PLY, left=floor.left, front=floor.front, back=floor.back, bottom=floor.top, top="30")
    other = plan.mirror(side, of=floor)
    between = {"left": side.right, "right": other.left, "front": side.front}
    rail = plan.panel("Rail", PLY, **between, back=side.back, bottom="23")
    cleats = [
        plan.board("Front cleat", STRIP, runs="left-right", wide="front-back", **between, top=side.top),
        plan.board("Back cleat", STRIP, runs="left-right", wide="front-back", left=side.right, right=other.left,
                   back=side.back, top=side.top),
    ]  # fmt: skip
    top = plan.glue_up("Top", SLAB, boards=2, flatten="1/8", left=0, right="25", front=0, back="16 1/2", bottom="30")
    back = plan.panel("Back", THIN, left=floor.left, right=floor.right, front=side.back, bottom=floor.bottom, top="30")
    rows = plan.pin_rows([side, other], lowest="9", highest="20", set_in="2")
    shelf = plan.adjustable_shelf("Shelf", PLY, on=rows, row=5, front=side.front + "1", back=side.back)
    door = plan.door_in("Door", PLY, left=side, right=other, bottom=floor, top=rail)
    plan.band(side, other, edges="front")

    plan.glue(feet, floor)
    plan.screw(feet, through=floor, screws="#8 x 2 1/2", each=2)
    plan.pocket_screw([side, other], into=floor, glued=True)
    plan.pocket_screw(rail, into=[side, other], face="bottom")
    plan.screw(cleats, through=[side, other], screws="#8 x 2", each=1)
    plan.pin(back, edges="left right bottom")
    plan.fasten_top(top, to=cleats, fixed_along="back", screws="#8 x 1 3/4")
    hung = plan.hinges(door, on=side)
    plan.door("Door", door, hinges=hung, opens="90 deg")
    plan.pull(door, runs="up", right="2", top="6")
    drawer = plan.drawer("Drawer", HALF, between=[side, other], bottom=rail, top=cleats[0], thin=THIN, front=PLY)

    plan.step("Cut", works_on=plan.parts, does=["measure", "mark", "break down sheets", "rip", "crosscut"])
    plan.step("Glue up the top", works_on=top, does=["glue", "clamp"], waits="glue")
    plan.step("Feet", brings=[floor, *feet], waits="glue")
    plan.step("Sides", brings=[side, other], onto=floor, waits="glue")
    plan.step("Rail", brings=rail, onto=[side, other])
    plan.step("Cleats", brings=cleats, onto=[side, other])
    plan.step("Back", brings=back, onto=[side, other])
    plan.step("Shelf", brings=shelf, onto=[side, other])
    plan.step("Door", brings=door, onto=side)
    plan.step("Top", brings=top, onto=cleats)
    plan.step("Drawer", brings=drawer, onto=rail)
    return plan


def framed() -> Plan:
    """A frame of posts and rails with panels let in, a divider notched round its rails, a back on one half.

    ```
     ═══════════   top, on slots
    ┃▔▔▔▔▔▔▔▔▔┃   rails
    ┃    ┃    ┃   divider
    ┃▁▁▁▁▁▁▁▁▁┃
    ```
    """
    plan = Plan("Potting stand", shop=SHOP)
    frame = plan.frame("Frame", SMALL, STRIP, left=0, right="28", front=0, back="14", bottom=0, top="30")
    front, rear = frame.side("front"), frame.side("back")
    sides = [one for one in frame.rails if one not in {*front, *rear}]
    panels = [plan.let_in("Side panel", PLY, frame=frame.side(face), flush=face) for face in ("left", "right")]
    divider = plan.panel("Divider", PLY, left="14 1/4", front=0, back="14", bottom=0, top="30")
    corners = ("front bottom", "front top", "back bottom", "back top")
    for rail, towards in zip([*front[2:], *rear[2:]], corners, strict=True):
        divider.notch_round(rail)
        plan.pocket_screw(divider, into=rail, face="right", towards=towards)
    back = plan.panel("Back", THIN, left=0, right=divider.right, front=rear[0].back, bottom="1/2", top="30")
    plan.pin(back, into=[rear[0], divider])
    plan.pin(back, into=rear[2:], brads_long="3/4")
    middle = plan.board("Middle rail", STRIP, runs="left-right", wide="up", left=divider.right, right=rear[1].left,
                        back=rear[1].back, bottom="13")  # fmt: skip
    plan.pocket_screw(middle, into=[divider, rear[1]], face="front")
    panels.append(plan.let_in("Rear panel", PLY, frame=[divider, rear[1], rear[2], middle], flush="back"))
    top = plan.glue_up("Top", SLAB, boards=2, flatten="1/8", left="-1/2", right="28 1/2", front="-1/2", back="14 1/2",
                       bottom="30")  # fmt: skip
    plan.fasten_top(top, to=[front[3], rear[3]], fixed_along="back", screws="#8 x 2 1/2", each=2)

    plan.step("Cut", works_on=plan.parts, does=["measure", "mark", "break down sheets", "rip", "crosscut"])
    plan.step("Glue up the top", works_on=top, does=["glue", "clamp"], waits="glue")
    for title, brings in [("Front", front), ("Sides", sides), ("Divider", [divider, middle]), ("Rear", rear)]:
        plan.step(title, brings=brings, waits="glue")
    plan.step("Panels", brings=panels, onto=frame.uprights)
    plan.step("Back", brings=back, onto=rear)
    plan.step("Top", brings=top, onto=front[3])
    return plan


def tilting() -> Plan:
    """A case with a tilt-out bin between bottom and shelf, its holder, and both its stops.

    ```
     ┃▔▔▔▔▔▔▔▔▔┃   top
     ┃▔▔▔▔▔▔▔▔▔┃   shelf, with a strip and a stop block under it
     ╲         ┃   bin
     ┃╲▁▁▁▁▁▁▁▁┃   bottom
    ```
    """
    plan = Plan("Sorting stand", shop=SHOP)
    left = plan.panel("Side", PLY, left=0, front=0, back="15 3/4", bottom=0, top="30")
    right = plan.mirror(left, across="24")
    between = {"left": left.right, "right": right.left, "front": left.front, "back": left.back}
    floor = plan.panel("Bottom", PLY, **between, bottom="3")
    shelf = plan.panel("Shelf", PLY, **between, bottom="18")
    top = plan.panel("Top", PLY, **between, top=left.top)
    back = plan.panel("Back", THIN, left=left.left, right=right.right, front=left.back, bottom=floor.bottom,
                      top=left.top)  # fmt: skip
    gap = "1/8"
    front = plan.panel("Bin front", PLY, left=left.right + gap, right=right.left - gap, front=left.front,
                       bottom=floor.top + gap, top=shelf.bottom - gap)  # fmt: skip
    cheek = plan.panel("Bin side", HALF, left=front.left + "1/2", front=front.back, back="9",
                       bottom=front.bottom + "2 1/2", top=front.top - "3")  # fmt: skip
    cheeks = [cheek, plan.mirror(cheek, of=front)]
    tray = plan.panel("Bin bottom", HALF, left=cheek.right, right=cheeks[1].left, front=front.back, back=cheek.back,
                      bottom=cheek.bottom)  # fmt: skip
    rear = plan.panel("Bin back", HALF, left=cheek.right, right=cheeks[1].left, back=cheek.back, bottom=tray.top,
                      top=cheek.top)  # fmt: skip
    strip = plan.board("Strip", STRIP, runs="left-right", wide="front-back", left=left.right, right=right.left,
                       front=front.back, top=shelf.bottom)  # fmt: skip

    plan.pocket_screw([floor, shelf, top], into=[left, right], glued=True, face="bottom")
    plan.pocket_screw([*cheeks, tray], into=front)
    plan.screw([tray, rear], through=cheeks, screws="#6 x 1 1/4")
    plan.pin(back, into=[left, right, floor, shelf, top])
    hung = plan.hinges(front, on=floor)
    inside = plan.space(left=tray.left, right=tray.right, front=tray.front, back=rear.front, bottom=tray.top,
                        top=rear.top)  # fmt: skip
    plan.thing("A tray of labels", size=("10", "3", "4"), inside=inside, pounds=6)
    opening = plan.tilt_out("Bin", front, with_=[*cheeks, tray, rear], turns_about=hung, stop=strip,
                            contents="A tray of labels")  # fmt: skip
    under = shelf.bottom
    behind = opening.stop_place("16 deg", face="back", low=under - "1 1/2", high=under)
    rail = plan.board("Rail", STRIP, runs="left-right", wide="up", left=left.right, right=right.left, front="9 3/4",
                      top=shelf.bottom)  # fmt: skip
    block = plan.board("Stop block", STRIP, runs="left-right", wide="up", left=cheek.left, length="3", back=behind,
                       top=under)  # fmt: skip
    opening.stopped_by(block)
    plan.screw(strip, through=shelf, screws="#8 x 1 1/4", each=2)
    plan.screw([rail, block], through=shelf, screws="#8 x 1 1/2", each=2)
    plan.pull(front, top="2")

    plan.step("Cut", works_on=plan.parts, does=["measure", "mark", "break down sheets", "rip", "crosscut"])
    plan.step("Case", brings=[left, right, floor, shelf, top], waits="glue")
    plan.step("Back", brings=back, onto=left)
    plan.step("Holder", brings=[*cheeks, tray, rear, front])
    plan.step("Strip, rail and block", brings=[strip, rail, block], onto=shelf)
    return plan
