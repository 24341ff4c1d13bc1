"""Sums that a technician would do by hand, one module each, each with its formula, range and source.

Every sum takes readings with what their words leave open (:class:`saycheck.sums.reading.Reading`) and gives
a frozen result whose ``plainly`` is a sentence for the foreman and whose ``caution`` says where work can
hurt (empty where it cannot). Outside its range a sum raises :class:`saycheck.errors.SumError`. A sum is an
aid: the maker's manual, local rules and a competent person come first.
"""
