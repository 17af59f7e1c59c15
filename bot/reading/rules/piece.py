"""What one stretch of a reply says of the body."""

from dataclasses import dataclass

from bot.reading.rules.clauses import Places


@dataclass(slots=True)
class Piece:
    """One stretch between joints: what it says of the body, by index of item. *joint*: the mark before it."""

    joint: str
    start: int
    end: int
    parts: Places = ()
    senses: Places = ()
    sudden: Places = ()
    courses: Places = ()
    levels: Places = ()
    nobear: Places = ()
    well: Places = ()
    negs: Places = ()
    wholes: Places = ()

    @property
    def says(self) -> bool:
        """Whether it says anything of a complaint besides naming a part."""
        return bool(self.senses or self.sudden or self.nobear)
