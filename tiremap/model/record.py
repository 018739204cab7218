"""The base of every stored record: frozen, no NaN, fields it does not know are kept."""

from pydantic import BaseModel, ConfigDict


class Record(BaseModel):
    """A frozen record as it stands in a job file. Unknown fields are kept and written back."""

    model_config = ConfigDict(frozen=True, extra="allow", allow_inf_nan=False, strict=True)
