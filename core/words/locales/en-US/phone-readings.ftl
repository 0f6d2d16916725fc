### Words on the phone for readings, the liquid-out check and the weather.

## The keypad of a figure

phone-reading-record = Record { $value } { $unit }
phone-reading-type = Type the reading
phone-reading-unit = Unit
phone-reading-next_unit = Unit: { $unit }
phone-reading-due = calibration due { $date }
phone-reading-at = { $measured }, { $place }
phone-key-erase = Backspace
phone-key-sign = Plus or minus
phone-key-mark = Decimal mark
phone-figure-of = { $value } ± { $pm } { $unit }
phone-figure-beyond = Outside the range of { $name }
phone-to = { $a } to { $b }
phone-stencil = From the stencil on the car
phone-amount-not_a_number = This is not a number.
phone-amount-trailing_text = The text after the number is not a unit.
phone-amount-two_readings = Which number do you mean?
phone-amount-cannot_be = No instrument shows this number. Type it again.
phone-amount-other_kind = This unit measures something else.
phone-amount-read = Read as { $shown }
phone-amount-choose = Choose one above

## The liquid-out check

phone-proof-timer = since the car was blocked in
phone-proof-min = min
phone-proof-decide = Decide
phone-proof-you = You decide, with your reasons. The app does not.
phone-proof-first = Stop the compressor, block in the car and hold. Then take the first reading.
phone-proof-outcome-liquid_indicated = Readings show liquid
phone-proof-outcome-no_liquid_indicated = No liquid shown
phone-proof-outcome-not_enough_evidence = Cannot tell yet
phone-proof-says-liquid = liquid
phone-proof-says-no_liquid = no liquid
phone-proof-says-nothing = cannot tell
phone-proof-gauge_rod = Gauging device
phone-proof-liquid_valve = Liquid valve
phone-proof-saturation_bound = Against saturation
phone-proof-superheat = Superheat
phone-proof-hold_test = Pressure hold
phone-proof-start = First reading
phone-decision-word = Your decision
phone-decision-yes = Liquid is out
phone-decision-no = Not yet
phone-decision-grounds = What is it based on?
phone-decision-was_yes = Decided: the liquid is out.
phone-decision-was_no = Decided: the liquid is not out.

## The weather

phone-weather-falls = Precipitation
phone-weather-wind = Wind from
phone-weather-force = Wind force
