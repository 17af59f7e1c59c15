"""Invented people on the real conversation: who they are, how they behave, what becomes of them in weeks.

The model is of our own making and has never been held against anybody real: its figures say nothing about people. It
is there to walk the whole program for a long time, and to see where a rule of the conversation acts in it.
"""
