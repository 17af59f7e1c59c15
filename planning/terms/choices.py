"""The closed lists of words: every choice that a plan, a log entry or a complaint can hold."""

from enum import IntEnum, StrEnum


class Role(StrEnum):
    """What somebody is to the bot."""

    RUNNER = "runner"
    COACH = "coach"


class Weekday(IntEnum):
    """Days of the week, numbered as `date.weekday()` numbers them."""

    MON = 0
    TUE = 1
    WED = 2
    THU = 3
    FRI = 4
    SAT = 5
    SUN = 6


class Do(StrEnum):
    """What is done in one segment of a session. `CROSS` stands only in a session that replaces a sore one."""

    WALK = "walk"
    RUN = "run"
    REST = "rest"
    STRETCH = "stretch"
    CROSS = "cross"


class Purpose(StrEnum):
    """What a session is for."""

    EASY = "easy"
    LONG = "long"
    BRISK = "brisk"
    RACE = "race"


class WeekKind(StrEnum):
    """What a week is for."""

    START = "start"
    BUILD = "build"
    EASIER = "easier"
    HOLD = "hold"
    TAPER = "taper"
    RACE = "race"
    RECOVER = "recover"


class RaceMode(StrEnum):
    """How the race is to be covered."""

    RUN_WALK = "run_walk"
    WALK = "walk"


class Sex(StrEnum):
    """As the published formulas that need it know it."""

    FEMALE = "f"
    MALE = "m"


class Units(StrEnum):
    """The distance unit that a person reads."""

    KM = "km"
    MILES = "mi"


class Share(StrEnum):
    """What a runner lets the coach see."""

    LOG = "log"
    BODY = "body"
    WEIGHT = "weight"
    MOOD = "mood"
    CARE = "care"


class Activity(StrEnum):
    """The kind of one thing done. `SESSION` is the planned thing, its kind not said."""

    WALK = "walk"
    RUN = "run"
    RUN_WALK = "run_walk"
    STRETCH = "stretch"
    STRENGTH = "strength"
    CROSS = "cross"
    SESSION = "session"


class Part(StrEnum):
    """Body parts that a complaint can name."""

    TOE = "toe"
    FOOT = "foot"
    ARCH = "arch"
    HEEL = "heel"
    ANKLE = "ankle"
    ACHILLES = "achilles"
    CALF = "calf"
    SHIN = "shin"
    KNEE = "knee"
    THIGH = "thigh"
    HAMSTRING = "hamstring"
    GROIN = "groin"
    HIP = "hip"
    GLUTE = "glute"
    LOWER_BACK = "lower_back"
    BACK = "back"
    NECK = "neck"
    SHOULDER = "shoulder"
    ARM = "arm"
    HAND = "hand"
    RIBS = "ribs"
    CHEST = "chest"
    STOMACH = "stomach"
    HEAD = "head"
    LEGS = "legs"
    BODY = "body"


class Side(StrEnum):
    """Which side of the body."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


class Sense(StrEnum):
    """What a complaint feels like."""

    SORE = "sore"
    PAIN = "pain"
    SWOLLEN = "swollen"
    NUMB = "numb"
    UNSTABLE = "unstable"
    SKIN = "skin"
    CRAMP = "cramp"


class Course(StrEnum):
    """How a complaint went on during the session."""

    EASED = "eased"
    WORSE = "worse"
    SAME = "same"


class Danger(StrEnum):
    """Signs that must not be trained through."""

    CHEST = "chest"
    BREATH = "breath"
    FAINT = "faint"
    HEART = "heart"
    STROKE = "stroke"
    CLOT = "clot"
    BONE = "bone"
    NERVE = "nerve"
    HEAT = "heat"
    URINE = "urine"
    SUGAR = "sugar"
    EATING = "eating"
    SELF_HARM = "self_harm"


class Alarm(StrEnum):
    """More signs that are answered like danger."""

    ALLERGY = "allergy"
    HEAD = "head"
    SEIZURE = "seizure"
    SALT = "salt"
    PREGNANCY = "pregnancy"
    UNSAFE = "unsafe"
    OTHER = "other"


class Colour(StrEnum):
    """State of a body complaint."""

    GREEN = "green"
    AMBER = "amber"
    RED = "red"


class Mood(StrEnum):
    """A feeling that was said."""

    LOW = "low"
    GOOD = "good"
