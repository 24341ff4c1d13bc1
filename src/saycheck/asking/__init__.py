"""Open questions asked one at a time: the answer is heard, understood, read back, and kept."""
