"""What was found, for a person to read."""
