"""The walk card: the list of a machine on one page, to hang in the cab."""
