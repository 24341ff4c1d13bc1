"""The ears: recognisers behind one protocol, and how two of them are made one reading."""
