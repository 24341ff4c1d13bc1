"""The page in which a person reviews a walk, and the same in a terminal: interfaces, beside the command line."""
