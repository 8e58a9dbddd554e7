"""The build: parts gathered, joints with every screw in its place, hardware counted from them."""

from plankit.build.build import Alike, Assembly, Build, Thing, alike, hardware, weight_of
from plankit.build.contact import Contact, gap, touching
from plankit.build.fasteners import Fastener, Spec, bite, pocket_screw_for, screw
from plankit.build.items import Item, ItemKind
from plankit.build.joints import (
    Joint,
    brads,
    drill_size,
    face_screws,
    fix_top,
    glue,
    meeting,
    pocket_screws,
    slot_travel,
)
from plankit.build.movement import equilibrium_moisture, movement
from plankit.build.moving import Moving, MovingKind, Pivot

__all__ = [
    "Alike", "Assembly", "Build", "Contact", "Fastener", "Item", "ItemKind", "Joint", "Moving", "MovingKind",
    "Pivot", "Spec", "Thing", "alike", "bite", "brads",
    "drill_size", "equilibrium_moisture", "face_screws", "fix_top", "gap", "glue", "hardware", "meeting",
    "movement", "pocket_screw_for", "pocket_screws", "screw", "slot_travel", "touching", "weight_of",
]  # fmt: skip
