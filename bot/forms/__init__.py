"""JSON from people -> the planner's values, and back: all that is wrong with a profile at once, one line each."""

from bot.forms.plan import plan_to_json, session_to_json
from bot.forms.profile import profile_from_json, profile_to_json

__all__ = ["plan_to_json", "profile_from_json", "profile_to_json", "session_to_json"]
