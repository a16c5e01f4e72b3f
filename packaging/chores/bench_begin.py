"""What ``python -m shopassist`` does before Qt comes in; imported before all else."""

import gc
from importlib import import_module

gc.disable()
import_module("shopassist.app")
