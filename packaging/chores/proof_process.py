"""One stretch of one proof in a process of its own, answered as a line of JSON."""

import importlib
import json
import sys
import time

FULL = 1_000
STRETCHES = 40


def main(words: list[str]) -> None:
    """Answer ``NAME facts`` or run ``NAME COUNT SEED``."""
    module = importlib.import_module(f"tests.proofs.{words[0]}")
    if words[1] == "facts":
        import platformdirs

        full = int(getattr(module, "FULL", FULL))
        stretch = int(getattr(module, "STRETCH", max(1, full // STRETCHES)))
        cache = platformdirs.user_cache_path("shopassist") / "proofs"
        answer = {"full": full, "stretch": stretch, "cache": str(cache)}
    else:
        begun = time.perf_counter()
        report = module.run(int(words[1]), int(words[2]))
        answer = {
            "count": report.count,
            "seconds": time.perf_counter() - begun,
            "failures": list(report.failures),
            "figures": dict(report.figures),
        }
    print()
    print(json.dumps(answer))


if __name__ == "__main__":
    main(sys.argv[1:])
