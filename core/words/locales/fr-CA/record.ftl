### What a record says about itself: lists, likenesses, chains, quantities and what they rest on.

## One line in a list of cars

list-on-hold = Retenu : { $because }
list-incident = incident : { $source }
list-leak = fuite, { $at }
list-released-open =
    { $count ->
        [one] Remis, { $count } point ouvert
       *[other] Remis, { $count } points ouverts
    }
list-differ = Deux inscriptions divergent : { $about }
list-next = Suivant : { $step }
list-missing-and-more = { $first } Et { $count } de plus.
list-before-unloading = Avant le déchargement ({ $count } ouverts) : { $first }

## Records that may be of one stay

near-same-car = Un autre registre de { $car } à ce site ces jours-ci. Est-ce le même séjour?
near-number = { $theirs } est aussi à ce site ces jours-ci, à un caractère de { $ours }. Un numéro est-il mal saisi?

## Chains of devices

chain-missing-one = L’inscription { $entry } de { $device } n’est pas ici.
chain-missing = Les inscriptions { $from } à { $to } de { $device } ne sont pas ici.
chain-doubled = { $count } inscriptions différentes de { $device } portent le numéro { $entry } : l’appareil a été copié ou restauré d’une sauvegarde.
chain-broken = L’inscription { $entry } de { $device } nomme une autre précédente que celle qui est ici.
chain-not-arrived-one = L’entrée { $entry } de { $device } n’est pas reçue.
chain-not-arrived = Les entrées { $from } à { $to } de { $device } ne sont pas reçues.
chain-doubled-at-office = Des entrées différentes de { $device } portent le numéro { $entry } : l’appareil a été copié ou restauré d’une sauvegarde.

## What the record of a seal lacks

seal-lacks-number = son numéro
seal-lacks-kind = son genre
seal-lacks-place = son emplacement en mots
seal-lacks-photo = une photographie en place, ou pourquoi il n’y en a pas
seal-lacks-intact = être intact

## Quantities

quantity_title-gross_volume = Liquide jaugé, à sa propre température
quantity_title-net_volume = Liquide jaugé, net à 60 °F
quantity_title-against_paper = Excédent ou manquant par rapport au facturé, pris comme net à 60 °F ou comme poids dans le vide
quantity_title-weight_in_vacuum = Poids dans le vide
quantity_title-weight_in_air = Poids dans l’air
quantity_title-vapor_volume = Vapeur dans le wagon, équivalent liquide à 60 °F
quantity_title-receiver_room = Place dans le réservoir récepteur, net à 60 °F
quantity_title-residue = Résidu de vapeur, équivalent liquide à 60 °F
quantity_title-recovery_time = Temps jusqu’à la pression prévue
quantity_title-economic_stop = Arrêt économique, pression dans le wagon
quantity-value = { $value }
quantity-between = { $low } à { $high }
quantity-missing = { $title } : { $why }
quantity-cannot = Ne peut être calculé : { $why }
quantity-entries-differ = les inscriptions divergent ({ $what })
quantity-not-recorded = non consigné ({ $what })
quantity-not-known = inconnu ({ $what })
quantity-not-a-number = « { $text } » n’est pas un nombre
quantity-no-paper = aucun document d’expédition ne dit quel est le produit
quantity-no-un-number = le document d’expédition n’a pas de numéro UN
quantity-unknown-product = aucune formule n’est connue pour { $product }
quantity-no-composition = la composition du produit est inconnue
quantity-no-elevation = l’altitude du site n’est pas connue ici
quantity-no-relative-density = aucune densité relative n’a été lue ni ne figure au document d’expédition
quantity-no-billed = le document d’expédition n’a pas de quantité
quantity-scale-needs-vapor = facturé à la balance, et la vapeur dans le wagon ne peut être calculée
quantity-no-final-temperature = la température finale dans le wagon n’a pas été consignée
quantity-no-tank = aucun réservoir récepteur de ce site n’est connu ici
quantity-no-swept = le volume balayé par le compresseur n’est pas inscrit
quantity-which-tank = le site a { $count } réservoirs et celui qui reçoit n’est pas consigné

## The uncertainty of a reading

uncertainty-not-a-number = pas un nombre
uncertainty-presumed = ±{ $half_width } présumé
uncertainty-absolute-gauge = ± d’un manomètre absolu inconnu
uncertainty-gauge = classe { $grade }, étendue { $span }
uncertainty-usual-gauge = manomètre usuel présumé, classe { $grade }, étendue { $span }
uncertainty-not-known = ± inconnu
