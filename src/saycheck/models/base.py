"""What every model between two stages shares: unknown keys are refused, values are checked."""

from pydantic import BaseModel, ConfigDict


class Model(BaseModel):
    """Base of all saycheck models: strict about keys, checked on assignment."""

    model_config = ConfigDict(extra="forbid", validate_assignment=True)
