"""What a person changes on a walk: edits, photographs, and the walk replayed with them."""
