"""Which condition, number and mark belongs to which part: from mentions to statements."""
