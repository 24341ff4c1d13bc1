"""What there is to show at any moment; filled by the listener, read by the screen."""

from dataclasses import dataclass, field


@dataclass
class View:
    """The present state in plain words; ``notices`` are the newest few things worth knowing."""

    unit: str = ""
    zone: str = ""
    part: str = ""
    said: str = ""
    state: str = ""
    quote: str = ""
    draft: str = ""
    corrected: str = ""
    level_db: float = -90.0
    noise_db: float | None = None
    over_noise_db: float | None = None
    speaking: bool = False
    paused: bool = False
    open_here: list[str] = field(default_factory=list)
    open_in_all: int = 0
    trouble: str = ""
    answer: str = ""
    answer_parts: list[str] = field(default_factory=list)
    answer_is_new: bool = False
    notices: list[str] = field(default_factory=list)
    device: str = ""
    recorded_s: float = 0.0
    behind_s: float = 0.0
    heard_s: float = 0.0
    settling_s: float = 0.0
    found: int = 0
    ready: bool = False
    ending: bool = False
