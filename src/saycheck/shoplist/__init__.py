"""A shop's own checklist: read from a file, matched to known parts, written as a layer, given back as a sheet."""
