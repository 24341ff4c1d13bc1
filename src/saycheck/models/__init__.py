"""What passes between the stages, as pydantic models. Imports nothing of ours but the models."""
