"""Reusable painted pieces. ``look`` is the window's one ``Look``; data come from ``shown``.

==================================================  =============================================
constructor                                         acts and signals (all have ``draw(shown)``)
==================================================  =============================================
``PotLine(look, name, shown)``                      ``action()``, ``chosen()``
``NextLine(look, name, shown)``                     ``chosen()``
``Rail(look, name)``                                ``chosen(str)``
``PaneFrame(look, name, title)``                    ``body`` layout, ``set_right``, ``set_focused``,
                                                    ``set_steps(words, present)``, ``show_sheet``
``FigureView(look, name, shown)``                   ``explain_asked()``
``Countdown(look, name, label, role)``              ``set_digits(text)``, ``say(words)``
``WaitBlock(look, name, shown)``                    ``set_digits(text)``, ``explain_asked()``
``RuledEdge(look, name, shown)``
``DeviationRule(look, name, shown)``
``Stops(look, name)``                               ``place(entry)`` at the present stop
``AnswerButton(look, name, shown)``                 ``clicked()``
``AnswerGrid(look, name)``                          ``draw``, ``answered(str)``, ``listen(scope)``
``StopButton(look, name, words, second)``           ``clicked()``
``HoldButton(look, name, shown, ticker, now)``      ``held()``; ``set_two_presses(on)``
``PotCardFrame(look, name, column)``                 ``top``, ``right``, ``foot``; ``fold(w)``
``QuietColumn(look, name, heading)``
``Lid(look, name, shown)``
``Heading(look, name, words, role, ink)``           ``draw(words)``; wraps
``Question(look, name, words)``                     ``draw(words)``; large, a line break a sentence
``Hair(look, down=False)``
``AmberNote(look, name)``                           ``draw(what, why)``; empty hides it
``AlarmBand(look, name, ticker)``                   ``acknowledged()``, ``silenced()``
``Card(look, name, shown)``                         ``clicked()``; ``set_row(on)``
``ExplainMark(look, name, label)``                  ``clicked()``
``ExplainSheet(look, name)``                        ``closed()``
``LimitsCard(look, name, title, lines, words)``     ``read()``
``CardRoom(spacing)``                               ``column``; whole lines, scrolled where low
``BenchView(look, name)``                           ``set_digits(text)``, ``left()``
``FocusRing(window, look)``                         one a window
``Theme(app, look, choice)``                        ``choose(choice)``
==================================================  =============================================

Ordinary controls are Qt's own, dressed by the theme through properties: ``QPushButton`` with
``kind`` = ``primary`` or ``quiet``; ``QLabel`` with ``kind`` = ``label``, ``strong``, ``title``,
``typed``, ``range`` or ``error``; ``QLineEdit`` with ``typed`` and ``state`` = ``error``. A list to
drop down is a ``Choice``; ``ChoiceRows`` breaks buttons into rows; a ``LongButton`` may be narrower
than its words. A form hands its keys to ``onward.go_on``: Enter takes an entry and goes on.
"""
