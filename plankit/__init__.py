"""plankit: furniture build plans computed from a notebook."""
