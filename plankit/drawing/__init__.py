"""Drawings made from a build: projection, visible lines, fills, and the pictures made of them."""
