### Words on the phone for fittings under the housing: names where room is short, and the keys of a fitting.

## Names where room is short

phone-fitting-liquid_a = Liquide A
phone-fitting-liquid_b = Liquide B
phone-fitting-vapour = Vapeur
phone-fitting-vapour_two = Vapeur 2
phone-fitting-gauging_device = Jauge
phone-fitting-thermometer_well = Puits therm.
phone-fitting-sample_line = Échantillon
phone-fitting-relief_device = Soupape de sûreté
phone-fitting-cover = Couvercle

## The cover

phone-cover-open = Ouvert
phone-cover-closed = Fermé
phone-cover-pin_in = Goupille posée
phone-cover-pin_out = Sans goupille
phone-cover-record = Consigner : { $what }
phone-cover-no_bolts = Sans boulons, goupille seule
phone-cover-count = { $n } boulons sur { $of }
phone-cover-bolts = Boulons en place
phone-cover-should = Boulons requis
phone-cover-more = { $what } : un de plus
phone-cover-fewer = { $what } : un de moins

## The keys of a fitting

phone-effort-none = Couple
phone-effort-valve = Couple du robinet
phone-effort-closure = Couple du bouchon
phone-effort-high = Couple élevé : fermer sans forcer et signaler
phone-threads-word =
    { $n ->
        [one] filet
       *[other] filets
    }
phone-threads-none = Filets
phone-threads-other = Autre
phone-look-right = Conforme
phone-look-wrong = Non conforme
phone-line-put_on = Raccorder
phone-line-take_off = Débrancher
phone-line-on = Flexible raccordé
phone-line-off = Flexible débranché
phone-listen-due = Fermé depuis; écouter de nouveau
phone-fittings-there = Accessoires de ce wagon
