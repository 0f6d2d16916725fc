### What every other catalogue leans on: typed words, lists, units.

# What a person typed, and nothing else.
typed = { $text }
own-words = { $otherwise }
# An amount whose text has another, more usual reading.
amount-read-as = { $typed } (se leyó como { $value })
list-and = { $first } y { $last }
list-or = { $first } o { $last }

## Units beside a number

unit-psi_gauge = psi (man.)
unit-kilopascal_gauge = kPa
unit-bar_gauge = bar
unit-psi_absolute = psi (abs.)
unit-kilopascal_absolute = kPa (abs)
unit-fahrenheit = °F
unit-celsius = °C
unit-kelvin = K
unit-fahrenheit_difference = °F
unit-celsius_difference = °C
unit-psi_difference = psi
unit-kilopascal_difference = kPa
unit-bar_difference = bar
unit-inch = pulg
unit-foot = pie
unit-metre = m
unit-millimetre = mm
unit-gallon = gal (EUA)
unit-litre = L
unit-cubic_foot = pie³
unit-cubic_metre = m³
unit-pound = lb
unit-kilogram = kg
unit-pound_per_cubic_foot = lb/pie³
unit-kilogram_per_cubic_metre = kg/m³
unit-pound_per_gallon = lb/gal (EUA)
unit-gallon_per_minute = gal (EUA)/min
unit-gallon_per_hour = gal (EUA)/h
unit-cubic_foot_per_minute = pie³/min
unit-foot_pound = pie·lbf
unit-newton_metre = N·m
unit-second = s
unit-minute = min
unit-hour = h
unit-one = { "" }
unit-percent = %
unit-turns = vueltas
unit-pieces = pzas
unit-money = dinero
unit-money_per_hour = dinero/h
