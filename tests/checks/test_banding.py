"""Banding that a joint closes on."""

from dataclasses import replace

from plankit.build import Build
from plankit.checks import banding, check
from plankit.parts import Banding
from plankit.units import L
from tests.checks.small_builds import INCHES, sided
from tests.plan.demo import bench

VENEER = L("1/2 mm")


def with_band(build: Build, part_id: str, edge) -> Build:
    parts = tuple(
        part.with_features([Banding(edge, VENEER)]) if part.id == part_id else part for part in build.parts
    )
    return replace(build, parts=parts)


def test_banding_under_a_joint_is_looked_at():
    """A side stands on the floor on its banded lower edge."""
    (found,) = banding(with_band(sided(), "side", "bottom"))
    assert (found.level, found.check, found.part) == ("look at", "banding in a joint", "Side")
    assert "bottom edge" in found.what
    assert found.place == "against Bottom"


def test_banding_on_the_part_that_is_joined_to_is_found_as_well():
    (found,) = banding(with_band(sided(), "floor", "top"))
    assert found.part == "Bottom"


def test_banding_beside_a_joint_is_fine():
    assert not banding(with_band(sided(), "side", "front"))
    assert not banding(sided())


def test_the_demo_bench_has_banding_and_none_of_it_in_a_joint():
    build = bench().build()
    assert any(isinstance(one, Banding) for part in build.parts for one in part.features)
    assert not banding(build)


def test_every_build_is_asked():
    found = check(with_band(sided(), "side", "bottom"), None, INCHES)
    assert any(one.check == "banding in a joint" for one in found)
