"""Looks through all vocabulary files, shipped ones and a shop's own, for what is wrong with them."""
