"""What is remembered across walks: an index over walk folders, never the record itself."""
