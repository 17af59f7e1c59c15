"""The survey by which somebody enrols."""

from bot.conversation.survey.talk import survey

__all__ = ["survey"]
