### Why a formula has no result, and the limits of its inputs.

## Errors

calc-error-missing = { $input } : donnée manquante; la donner en { $wanted }.
calc-error-not-a-number = { $input } n’est pas un nombre : { $found }
calc-error-out-of-range = { $input } est { $value }; les limites sont { $low } à { $high }
calc-error-because = { $said } ({ $why })
calc-error-above-saturation = { $pressure } n’est pas sous { $saturation }, pression à laquelle la vapeur se condense à { $temperature } : il y a du liquide, ou une lecture est fausse.
calc-error-wrong-unit = { $input } est en { $found }; la valeur doit pouvoir se convertir en { $wanted }.
calc-error-not-converged = Aucune solution trouvée pour { $what }. Vérifier les données; ne pas employer d’estimation à la place.

## What was solved for

calc-solved-saturation = la saturation de { $mix }
calc-solved-boiling = la température d’ébullition
calc-solved-density = la masse volumique de la vapeur
calc-solved-formula = la formule

## Limits

calc-limits-tool = limites de cet outil
calc-limits-sidings = aucune voie d’évitement n’est en dehors
calc-limits-scale = l’échelle du manomètre
calc-limits-half-diameter = au plus la moitié du diamètre
calc-limits-diameter = de 0 au diamètre intérieur
calc-limits-hold = durée possible de l’essai
calc-limits-plus-minus = ± à 95 %, non négatif
calc-limits-rows = les lignes de la table
calc-limits-base-density = densités à 60 °F de 0,3500 à 0,6880, API MPMS 11.2.4
calc-limits-metric = API MPMS 11.2.4 / GPA TP-27; limites de mémoire et égales à celles de la table 24E
calc-limits-critical = à cette densité, le liquide prend fin à sa température pseudo-critique
calc-limits-boiling = entre −80 °F et la plus haute température couverte pour { $mix }
calc-limits-near-critical = trop près du point critique de { $mix }

## Inputs that contradict each other

calc-plus-minus-too-wide = Le ± de { $input } dépasse ce que couvre la formule. Mieux le préciser.
calc-heads-hold-more = Les fonds d’une citerne de { $diameter } contiennent à eux seuls { $heads }, plus que les { $total } donnés pour le tout.
calc-liquid-over-capacity = { $liquid } de liquide dépassent une capacité de { $capacity }.
calc-net-over-shell = { $net } nets n’ont jamais tenu dans une citerne de { $shell }, même chargée très froide.
calc-slope-points = { $count } points ne donnent pas de pente ici (2 à 2000).
calc-slope-one-place = Tous les points sont au même endroit : pas de pente.
calc-torque-band = Un intervalle de { $low } à { $high } est vide.
calc-level-times = Les heures des lectures de niveau n’augmentent pas, ou de moins d’une seconde.
calc-recovery-end = La fin, { $end }, n’est pas sous le début, { $start }.
calc-recovery-never-pays = Une heure de récupération coûte plus qu’elle ne rapporte, même au début.
calc-recovery-always-pays = Une heure de récupération est encore rentable à 1 psia : autre chose fixe l’arrêt.
calc-mix-twice = { $fluid } est deux fois dans le mélange.
calc-mix-sum = Les fractions molaires du mélange totalisent { $sum }; elles doivent totaliser 1.
calc-no-composition = Aucune composition connue pour la qualité.
calc-not-for-propylene = La table 24E ne vaut pas pour le propylène ({ $mix }) : l’écart va de −1,7 % à −40 °F à +3,0 % à 130 °F. Employer le rapport des masses volumiques de l’équation d’état (density_ratio).

## Outage tables

calc-table-not-a-row = Ligne { $line } : « { $text } » n’est pas un creux et un volume.
calc-table-not-monotone = Ligne { $line } : à un creux de { $outage }, le volume { $volume } ne suit pas la ligne précédente. L’une des deux est mal saisie.
calc-table-repeated = Ligne { $line } : le creux { $outage } y est deux fois.
calc-table-too-few = Une table de creux demande quatre lignes ou plus; celle-ci en a { $count }.
calc-table-impossible = Ligne { $line } : { $text } ne peut pas être un creux et un volume de wagon.
calc-table-units = Une table de creux est en longueur et en volume, non en { $outage } et { $volume }.
calc-table-needs-total = Une table de volumes de creux demande le volume total de la citerne.
