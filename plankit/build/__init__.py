"""The build: parts gathered, joints with every screw in its place, hardware counted from them."""

from plankit.build.brackets import Bracket, bracket, restraint
from plankit.build.build import Alike, Assembly, Build, Thing, alike, hardware, weight_of
from plankit.build.butts import BUTT, LOOSE_PIN, PIANO, ButtHinge, butt_hinges
from plankit.build.contact import Contact, contacts, gap, touching
from plankit.build.fasteners import Fastener, Spec, bite, nail, pocket_screw_for, screw
from plankit.build.fittings import (
    Caster,
    Catch,
    Fitted,
    LevellingFoot,
    Pull,
    casters,
    catch,
    corners,
    levelling_feet,
    pull,
)
from plankit.build.hanging import Hanging, Lap, carried_by, hanging, hinge_count, hinge_pivot
from plankit.build.hinges import CUP_HINGE, CupHinge, Hung, cup_hinges, hinge_places
from plankit.build.items import Item, ItemKind
from plankit.build.joints import Joint, JointKind, glue, meeting
from plankit.build.joints_dowels import Doweled, dowel, dowel_for, dowels
from plankit.build.joints_pins import brads, pinned, pinned_along
from plankit.build.joints_pocket import pocket_screws
from plankit.build.joints_rows import Row
from plankit.build.joints_screws import drill_size, face_screws, nails
from plankit.build.joints_top import Button, buttons, fix_top, slot_travel
from plankit.build.movement import equilibrium_moisture, movement
from plankit.build.moving import Moving, MovingKind, Pivot

__all__ = [
    "BUTT",
    "CUP_HINGE",
    "LOOSE_PIN",
    "PIANO",
    "Alike",
    "Assembly",
    "Bracket",
    "Build",
    "ButtHinge",
    "Button",
    "Caster",
    "Catch",
    "Contact",
    "CupHinge",
    "Doweled",
    "Fastener",
    "Fitted",
    "Hanging",
    "Hung",
    "Item",
    "ItemKind",
    "Joint",
    "JointKind",
    "Lap",
    "LevellingFoot",
    "Moving",
    "MovingKind",
    "Pivot",
    "Pull",
    "Row",
    "Spec",
    "Thing",
    "alike",
    "bite",
    "bracket",
    "brads",
    "butt_hinges",
    "buttons",
    "carried_by",
    "casters",
    "catch",
    "contacts",
    "corners",
    "cup_hinges",
    "dowel",
    "dowel_for",
    "dowels",
    "drill_size",
    "equilibrium_moisture",
    "face_screws",
    "fix_top",
    "gap",
    "glue",
    "hanging",
    "hardware",
    "hinge_count",
    "hinge_pivot",
    "hinge_places",
    "levelling_feet",
    "meeting",
    "movement",
    "nail",
    "nails",
    "pinned",
    "pinned_along",
    "pocket_screw_for",
    "pocket_screws",
    "pull",
    "restraint",
    "screw",
    "slot_travel",
    "touching",
    "weight_of",
]  # fmt: skip
