### C

office-chart-label = Graphique. Les valeurs figurent au tableau des lectures.
office-chart-elsewhere =
    { $count ->
        [one] { $count } lecture d’un autre moment non tracée
       *[other] { $count } lectures d’un autre moment non tracées
    }
office-chart-over = H excédent
office-chart-short = H manquant
office-chart-no-signal = Aucune somme ne dépasse son intervalle.
office-chart-signal = Une somme dépasse son intervalle à { $car }.
office-chart-signals =
    { $count ->
        [one] Une somme dépasse son intervalle d’abord à { $car }, puis { $count } autre fois après la remise à 0.
       *[other] Une somme dépasse son intervalle d’abord à { $car }, puis { $count } autres fois après la remise à 0.
    }
office-chart-sums =
    { $count ->
        [one] Sommes cumulées de { $name } sur { $count } wagon. { $says }
       *[other] Sommes cumulées de { $name } sur { $count } wagons. { $says }
    }
office-chart-read = Points : écart de chaque wagon. { $says } Valeur de référence K { $reference } gal US, intervalle de décision H { $interval } gal US, σ d’un wagon { $sigma } gal US.
