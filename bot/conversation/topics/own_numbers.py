"""Questions about numbers of one's own: the cards whose answer is worked out, where it may be given."""

from collections.abc import Callable, Mapping

from bot.conversation.scene import Part, Scene
from bot.conversation.topics.energy import energy
from bot.conversation.topics.finish import finish
from bot.conversation.topics.heart import heart_rate
from bot.conversation.topics.ready import ready

OWN_NUMBERS: Mapping[str, Callable[[Scene], Part | None]] = {
    "energy": energy,
    "finish": finish,
    "heart_rate": heart_rate,
    "ready": ready,
}
"""What answers, by the name of the card; where it gives None the card is told as it stands."""
