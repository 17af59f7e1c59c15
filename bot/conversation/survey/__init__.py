"""The survey by which somebody enrols."""

from bot.conversation.survey.hear_health import with_sign
from bot.conversation.survey.invited import invited
from bot.conversation.survey.talk import survey

__all__ = ["invited", "survey", "with_sign"]
