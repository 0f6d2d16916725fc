### What every other catalogue leans on: typed words, lists, units.

# What a person typed, and nothing else.
typed = { $text }
own-words = { $otherwise }
# An amount whose text has another, more usual reading.
amount-read-as = { $typed } (lu comme { $value })
list-and = { $first } et { $last }
list-or = { $first } ou { $last }

## Units beside a number

unit-psi_gauge = lb/po² (man.)
unit-kilopascal_gauge = kPa
unit-bar_gauge = bar
unit-psi_absolute = lb/po² (abs.)
unit-kilopascal_absolute = kPa (abs)
unit-fahrenheit = °F
unit-celsius = °C
unit-kelvin = K
unit-fahrenheit_difference = °F
unit-celsius_difference = °C
unit-psi_difference = psi
unit-kilopascal_difference = kPa
unit-bar_difference = bar
unit-inch = po
unit-foot = pi
unit-metre = m
unit-millimetre = mm
unit-gallon = gal US
unit-litre = L
unit-cubic_foot = pi³
unit-cubic_metre = m³
unit-pound = lb
unit-kilogram = kg
unit-pound_per_cubic_foot = lb/pi³
unit-kilogram_per_cubic_metre = kg/m³
unit-pound_per_gallon = lb/gal US
unit-gallon_per_minute = gal US/min
unit-gallon_per_hour = gal US/h
unit-cubic_foot_per_minute = pi³/min
unit-foot_pound = pi·lbf
unit-newton_metre = N·m
unit-second = s
unit-minute = min
unit-hour = h
unit-one = { "" }
unit-percent = %
unit-turns = tours
unit-pieces = pièces
unit-money = argent
unit-money_per_hour = argent/h
