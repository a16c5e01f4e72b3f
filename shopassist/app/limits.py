"""What the program is not: shown on the first run, in About, on the pot line, on every sheet."""

LIMITS: tuple[str, ...] = (
    "This program cannot see or feel your pot. It keeps the order of the steps and what you type.",
    "It is no safety device. It replaces neither relief valve nor working gauge.",
    "The maker's instructions come first; they win wherever they are stricter than the list here.",
    "Follow local rules, and ask a competent person about the vessel.",
    "Cure times are estimates. Resin heats, fumes and burns: gloves, eye protection, fresh air.",
    "Wood dust harms the lungs and spinning work throws pieces: mask, face shield, out of line.",
)
TITLE = "Limits of this program"
READ = "I have read this"
ABOUT = (
    "Shopassist works out a batch, keeps its clocks and its pot's list, remembers what worked.",
    "Everything stays on this computer. Numbers with the equals sign explain themselves.",
    "Times, tolerances and the leak allowance of the pot's list are the project's own choices.",
    "They want a competent person's review.",
)
