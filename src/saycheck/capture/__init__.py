"""Sound comes in: any recording is read, kept as it was heard, measured and cut into phrases."""
