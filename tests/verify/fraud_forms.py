"""What a fraud is: who can commit it, what it does, what both verifiers say of it."""

from dataclasses import dataclass
from typing import Callable, Optional

from damage import OFFICE

OUTSIDER = "somebody without any key"
PEOPLE = "an operator, or a phone"
THIEVES = "a thief of a phone's key"
OFFICES = "the office, with its keys"
THIEVES_OF_OURS = "a thief of a key of the organisation"


@dataclass(frozen=True)
class Fraud:
    who: str
    name: str
    what: str
    # "broken CODE", "marked CODE", "page WORDS" (a page of the packet says so) or "word" (nothing shows in the file:
    # the verdict's last line says that it rests on the organisation's word).
    says: str
    make: Callable
    helps: str = ""
    # A checkpoint that somebody else keeps, by the name of the packet it was written with, or made by a function.
    against: Optional[object] = None
    # Code words that FORMAT.md must list first; the fraud is skipped, and said to be, until it does.
    needs: Optional[str] = None
    # An option that both verifiers must know first; skipped likewise.
    option: Optional[str] = None
    # Who alone can see it: the verifier that knows the fold and the layout.
    only: Optional[str] = None
    # What the reader gives besides: more arguments of both verifiers.
    asks: Callable = lambda: []
    key: object = OFFICE


def ledger(name):
    """A packet as the example `fraud_packets` made it from a ledger."""
    return lambda bank: bank[name].data


def on(name, change):
    """A packet changed."""
    return lambda bank: change(bank[name])


def honest(change):
    return on("honest", change)
