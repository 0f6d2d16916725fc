### What comparing many cars finds, and why a comparison cannot be made.

## What is compared

reconcile-compared-found = jaugé à l’arrivée moins facturé
reconcile-compared-received = reçu et résidu moins facturé

## Kinds of findings

reconcile_kind-biased_gauge = une jauge dévie toujours du même côté
reconcile_kind-drift = une jauge dérive
reconcile_kind-biased_shipper = les wagons d’un expéditeur diffèrent du même côté
reconcile_kind-biased_site = les wagons d’un site diffèrent du même côté
reconcile_kind-car_short = un wagon a un manquant
reconcile_kind-car_over = un wagon a un excédent
reconcile_kind-overfilled = un wagon est arrivé trop rempli
reconcile_kind-near_number = deux numéros pour un wagon
reconcile_kind-other_car = le document est celui d’un autre wagon
reconcile_kind-seal_on_two_cars = un scellé sur deux wagons
reconcile_kind-lost_entry = une entrée manque
reconcile_kind-broken_chain = les entrées d’un appareil se contredisent

## Findings

reconcile-group-less = { $about } : sur { $count } wagons, { $compared } est de { $mean } par wagon de moins en moyenne (erreur type { $error }); le hasard et ce que les instruments répètent (type { $shared }) expliquent jusqu’à { $limit }.
reconcile-group-less-after-others = { $about } : sur { $count } wagons, { $compared } est de { $mean } par wagon de moins en moyenne (erreur type { $error }); le hasard et ce que les instruments répètent (type { $shared }) expliquent jusqu’à { $limit }. Ce qui est déjà expliqué est retranché.
reconcile-group-more = { $about } : sur { $count } wagons, { $compared } est de { $mean } par wagon de plus en moyenne (erreur type { $error }); le hasard et ce que les instruments répètent (type { $shared }) expliquent jusqu’à { $limit }.
reconcile-group-more-after-others = { $about } : sur { $count } wagons, { $compared } est de { $mean } par wagon de plus en moyenne (erreur type { $error }); le hasard et ce que les instruments répètent (type { $shared }) expliquent jusqu’à { $limit }. Ce qui est déjà expliqué est retranché.
reconcile-car-short = { $car }, { $compared } : manquant de { $rest } ({ $percent } % du facturé). Jusqu’à { $limit } de part et d’autre serait dans l’incertitude de mesure ({ $factor } fois son incertitude type).
reconcile-car-short-after-others = { $car }, { $compared } : manquant de { $rest } ({ $percent } % du facturé), après { $explained } que d’autres expliquent. Jusqu’à { $limit } de part et d’autre serait dans l’incertitude de mesure ({ $factor } fois son incertitude type).
reconcile-car-over = { $car }, { $compared } : excédent de { $rest } ({ $percent } % du facturé). Jusqu’à { $limit } de part et d’autre serait dans l’incertitude de mesure ({ $factor } fois son incertitude type).
reconcile-car-over-after-others = { $car }, { $compared } : excédent de { $rest } ({ $percent } % du facturé), après { $explained } que d’autres expliquent. Jusqu’à { $limit } de part et d’autre serait dans l’incertitude de mesure ({ $factor } fois son incertitude type).
reconcile-drift = { $gauge } : la somme cumulée de { $compared } dépasse son intervalle de décision ({ $interval }) à { $first }; { $reference } par wagon sont permis. Faire vérifier la jauge à partir de là.
reconcile-overfilled = { $car } : à { $reference }, le creux serait { $outage }, au moins { $least } exigé ({ $source }). Trop peu, au-delà de la mesure.
reconcile-fill-in-doubt = { $car } : à { $reference }, le creux serait { $outage }, au moins { $least } exigé ({ $source }). La mesure peut l’expliquer.
reconcile-gap-in-stays = { $gap } Séjours ici auxquels il a pris part : { $count }.
reconcile-seal-on-two-cars = Le scellé { $seal } est dans les registres de { $count } wagons : { $uses }.
reconcile-seal-found = trouvé sur { $car } ({ $site }, { $day })
reconcile-seal-applied = apposé sur { $car } ({ $site }, { $day })
reconcile-seal-removed = retiré de { $car } ({ $site }, { $day })
reconcile-paper-near-car = La visite est celle de { $car }; son document ({ $paper }) nomme { $other }, à une erreur près. Lire la photographie du marquage.
reconcile-paper-other-car = La visite est celle de { $car }; son document ({ $paper }) nomme { $other }.
reconcile-read-again = { $car } a été lu { $again } la seconde fois.
reconcile-paper-without-record = Aucun document ne nomme { $car }; le document { $paper } nomme { $other }, sans registre, à une erreur près.

## Notices

reconcile-same-stay = Deux registres de { $car } à { $site } ces jours-ci. Est-ce un seul séjour?
reconcile-joined = { $car } : registres joints en un séjour : { $count }.
reconcile-incomplete = { $car } : { $lacks }
reconcile-lacks-release = pas de libération, et rien de noté depuis plus de { $count } jours
reconcile-lacks-closing = libéré avec des points ouverts : { $count }
reconcile-lacks-agreement = les entrées diffèrent sur { $about }

## Why a comparison cannot be made

reconcile-not-compared = { $compared } : { $why }
reconcile-missing-billed = facturé : { $why }
reconcile-missing-found = jaugé : { $why }
reconcile-missing-received = reçu : { $why }
reconcile-missing-left = résidu : { $why }
reconcile-not-recorded = non noté
reconcile-no-numbers = les quantités ne sont pas des nombres
reconcile-weight-without-gauging = facturé au poids, et sans jaugeage le poids d’un gallon n’est pas connu
reconcile-nothing-gauged = rien n’a été jaugé à l’arrivée
reconcile-not-at-60 = le liquide a été jaugé, mais pas ramené à 60 °F
reconcile-no-paper = aucun document d’expédition n’a été noté
reconcile-papers-differ = les entrées sur le document diffèrent
reconcile-paper-no-quantity = le document n’a pas de quantité
reconcile-no-quantity = { $amount } n’est pas une quantité de wagon
reconcile-truck-unreadable = le chargement d’un camion n’est pas un volume lisible
reconcile-meter-no-volume = « { $text } » du compteur n’est pas un volume
reconcile-meter-lower = le compteur est plus bas à la fin qu’à l’arrivée
reconcile-nothing-received = ni compteur, ni camion, ni paire de niveaux du réservoir n’a été noté
reconcile-which-tank = il n’est pas noté quel réservoir du site l’a reçu
reconcile-level-no-percentage = un niveau du réservoir n’est pas un pourcentage
reconcile-no-tank-temperature = la température du réservoir n’a pas été notée

## What a quantity and its uncertainty rest on

reconcile-how-gauged = liquide jaugé à l’arrivée, net à 60 °F
reconcile-how-billed = facturé, pris comme net à 60 °F ou comme poids dans le vide
reconcile-how-office-paper = facturé par le document { $paper } que le bureau détient
reconcile-how-trucks = chargé dans des camions
reconcile-how-meter = par compteur, pris comme net à 60 °F
reconcile-how-levels = par le niveau du réservoir avant et après, net à 60 °F
reconcile-how-left = reste en vapeur, équivalent liquide
reconcile-from-by = { $from } avec { $name }
reconcile-from-shipper = la mesure de l’expéditeur
reconcile-from-rest = le reste
reconcile-from-grade = seule la qualité du produit est connue
reconcile-from-outage = creux et table
reconcile-from-density = densité relative
reconcile-from-paper-density = densité relative du document
reconcile-from-temperature = température
reconcile-from-trucks = la mesure des camions eux-mêmes
reconcile-from-meter = compteur
reconcile-from-level = niveau
reconcile-from-final = pression et température finales

## How a bill was measured, and what it is held against

reconcile-basis-unknown = la façon dont la facture a été mesurée n’est pas consignée
reconcile-scale-needs-vapor = facturé par balance, et la vapeur au-dessus du liquide n’est pas connue
reconcile-how-vapor = vapeur au-dessus du liquide à l’arrivée, équivalent liquide
reconcile-from-vapor = vapeur au-dessus du liquide
reconcile-from-shipper-density = densité relative avec laquelle l’expéditeur a converti le poids en gallons
reconcile-method-liquid = liquide contre liquide (facturé par { $basis })
reconcile-method-liquid-weight = liquide contre liquide (facturé par { $basis } en poids, converti en gallons par la densité mesurée)
reconcile-method-scale = par { $basis } : différence de poids, convertie en gallons par la densité mesurée, contre liquide et vapeur moins le reste
reconcile-method-scale-gallons = par { $basis } : différence de poids, facturée en gallons, contre liquide et vapeur moins le reste
reconcile-method-scale-received = par { $basis } : différence de poids, convertie en gallons par la densité mesurée, contre le reçu et la vapeur arrivée au-dessus du liquide; le reste n’est d’aucun côté
reconcile-method-scale-received-gallons = par { $basis } : différence de poids, facturée en gallons, contre le reçu et la vapeur arrivée au-dessus du liquide; le reste n’est d’aucun côté

## Clocks and tariffs

reconcile-no-tariff = il n’y a pas de tarif pour ce site
reconcile-no-event = { $events } n’a pas été noté
reconcile-no-calendar = l’heure de l’événement n’est dans aucun calendrier
reconcile-free-time-never-ends = la période gratuite ne finit jamais selon ce tarif
reconcile-tariff-unusable = le tarif ne peut pas servir : { $why }
reconcile-tariff-events = Dire de quel événement à quel autre le temps court.
reconcile-tariff-time = « { $text } » n’est pas une heure du jour (HH:MM).
reconcile-tariff-day = « { $text } » n’est pas un jour (AAAA-MM-JJ).
reconcile-tariff-amount = « { $text } » n’est pas un montant.
reconcile-tariff-free-time = Plus d’un an de période gratuite est une erreur.
reconcile-no-supplier-tariff = il n’y a pas de tarif du fournisseur de ce wagon
reconcile-days-backward = les jours finissent ({ $until }) avant de commencer ({ $from })
