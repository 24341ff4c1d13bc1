"""What the walk covered and what it left out: the checklist, the questions, the way back."""
