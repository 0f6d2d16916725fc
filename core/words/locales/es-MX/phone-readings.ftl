### Words on the phone for readings, the liquid-out check and the weather.

## The keypad of a figure

phone-reading-record = Anotar { $value } { $unit }
phone-reading-type = Escriba la lectura
phone-reading-unit = Unidad
phone-reading-next_unit = Unidad: { $unit }
phone-reading-due = calibración: { $date }
phone-reading-at = { $measured }, { $place }
phone-key-erase = Borrar
phone-key-sign = Más o menos
phone-key-mark = Signo decimal
phone-figure-of = { $value } ± { $pm } { $unit }
phone-figure-beyond = Fuera del alcance de { $name }
phone-to = { $a } a { $b }
phone-stencil = Del rótulo del carro
phone-amount-not_a_number = Esto no es un número.
phone-amount-trailing_text = El texto después del número no es una unidad.
phone-amount-two_readings = ¿Cuál número quiso decir?
phone-amount-cannot_be = Ningún instrumento muestra este número. Escríbalo de nuevo.
phone-amount-other_kind = Esta unidad mide otra cosa.
phone-amount-read = Leído como { $shown }
phone-amount-choose = Elija uno arriba

## The liquid-out check

phone-proof-timer = desde que se aisló el carro
phone-proof-min = min
phone-proof-decide = Decidir
phone-proof-you = Usted decide, con sus razones. La aplicación no.
phone-proof-first = Pare el compresor, aísle el carro y espere. Después tome la primera lectura.
phone-proof-outcome-liquid_indicated = Las lecturas indican líquido
phone-proof-outcome-no_liquid_indicated = No se indica líquido
phone-proof-outcome-not_enough_evidence = Aún no se puede saber
phone-proof-says-liquid = líquido
phone-proof-says-no_liquid = sin líquido
phone-proof-says-nothing = no se sabe
phone-proof-gauge_rod = Dispositivo de medición
phone-proof-liquid_valve = Válvula de líquido
phone-proof-saturation_bound = Frente a la saturación
phone-proof-superheat = Sobrecalentamiento
phone-proof-hold_test = Presión sostenida
phone-proof-start = Primera lectura
phone-decision-word = Su decisión
phone-decision-yes = Ya no hay líquido
phone-decision-no = Aún no
phone-decision-grounds = ¿En qué se basa?
phone-decision-was_yes = Decidido: ya no hay líquido.
phone-decision-was_no = Decidido: aún hay líquido.

## The weather

phone-weather-falls = Precipitación
phone-weather-wind = Viento del
phone-weather-force = Fuerza del viento
