"""No test here asserts how long something takes: a busy machine must not fail one."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
