### What every other catalogue leans on: typed words, lists, units.

# What a person typed, and nothing else.
typed = { $text }
own-words = { $otherwise }
# An amount whose text has another, more usual reading.
amount-read-as = { $typed } (read as { $value })
list-and = { $first } and { $last }
list-or = { $first } or { $last }

## Units beside a number

unit-psi_gauge = psig
unit-kilopascal_gauge = kPa
unit-bar_gauge = bar
unit-psi_absolute = psia
unit-kilopascal_absolute = kPa (abs)
unit-fahrenheit = °F
unit-celsius = °C
unit-kelvin = K
unit-fahrenheit_difference = °F
unit-celsius_difference = °C
unit-psi_difference = psi
unit-kilopascal_difference = kPa
unit-bar_difference = bar
unit-inch = in
unit-foot = ft
unit-metre = m
unit-millimetre = mm
unit-gallon = gal
unit-litre = L
unit-cubic_foot = ft³
unit-cubic_metre = m³
unit-pound = lb
unit-kilogram = kg
unit-pound_per_cubic_foot = lb/ft³
unit-kilogram_per_cubic_metre = kg/m³
unit-pound_per_gallon = lb/gal
unit-gallon_per_minute = gal/min
unit-gallon_per_hour = gal/h
unit-cubic_foot_per_minute = ft³/min
unit-foot_pound = ft·lbf
unit-newton_metre = N·m
unit-second = s
unit-minute = min
unit-hour = h
unit-one = { "" }
unit-percent = %
unit-turns = turns
unit-pieces = pcs
unit-money = money
unit-money_per_hour = money/h
