"""The language model of the trade ear: sentences made from the vocabulary, estimated as an n-gram."""
