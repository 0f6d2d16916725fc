### Words on the phone for readings, the liquid-out check and the weather.

## The keypad of a figure

phone-reading-record = Consigner { $value } { $unit }
phone-reading-type = Saisir la mesure
phone-reading-unit = Unité
phone-reading-next_unit = Unité : { $unit }
phone-reading-due = étalonnage : { $date }
phone-reading-at = { $measured }, { $place }
phone-key-erase = Effacer
phone-key-sign = Plus ou moins
phone-key-mark = Signe décimal
phone-figure-of = { $value } ± { $pm } { $unit }
phone-figure-beyond = Hors de la plage de { $name }
phone-to = { $a } à { $b }
phone-stencil = Selon le marquage du wagon
phone-amount-not_a_number = Ce n’est pas un nombre.
phone-amount-trailing_text = Le texte après le nombre n’est pas une unité.
phone-amount-two_readings = De quel nombre s’agit-il?
phone-amount-cannot_be = Aucun instrument n’affiche ce nombre. Le saisir de nouveau.
phone-amount-other_kind = Cette unité mesure autre chose.
phone-amount-read = Lu : { $shown }
phone-amount-choose = Choisir ci-dessus

## The liquid-out check

phone-proof-timer = depuis l’isolement du wagon
phone-proof-min = min
phone-proof-decide = Décider
phone-proof-you = La décision revient à la personne, avec ses raisons, non à l’application.
phone-proof-first = Arrêter le compresseur, isoler le wagon et attendre. Prendre ensuite la première mesure.
phone-proof-outcome-liquid_indicated = Les mesures indiquent du liquide
phone-proof-outcome-no_liquid_indicated = Aucun liquide indiqué
phone-proof-outcome-not_enough_evidence = Impossible à dire pour l’instant
phone-proof-says-liquid = liquide
phone-proof-says-no_liquid = sans liquide
phone-proof-says-nothing = indéterminé
phone-proof-gauge_rod = Dispositif de jaugeage
phone-proof-liquid_valve = Robinet de liquide
phone-proof-saturation_bound = Par rapport à la saturation
phone-proof-superheat = Surchauffe de la vapeur
phone-proof-hold_test = Maintien de pression
phone-proof-start = Première mesure
phone-decision-word = Décision
phone-decision-yes = Le liquide est sorti
phone-decision-no = Pas encore
phone-decision-grounds = Sur quoi repose-t-elle?
phone-decision-was_yes = Décidé : le liquide est sorti.
phone-decision-was_no = Décidé : le liquide n’est pas sorti.

## The weather

phone-weather-falls = Précipitations
phone-weather-wind = Vent de
phone-weather-force = Force du vent
