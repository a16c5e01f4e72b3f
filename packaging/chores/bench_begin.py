"""How ``python -m shopassist`` begins, with Qt brought in; imported before all else."""

import gc
from importlib import import_module

gc.disable()
import_module("shopassist.app").bring_in_qt()
