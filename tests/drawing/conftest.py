"""Lets the drawing tests share their solids and their depth buffer."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
