### Words on the phone for the record of a car: entries, who made them, what became of them.

phone-history = Historique
phone-history-all = Journal
phone-history-none = Rien de consigné ici
phone-recorded = Consigné
phone-record = Consigner
phone-gone = Ce n’est plus ici
phone-entry-withdraw = Invalider
phone-entry-correct = Corriger
phone-entry-note = Les deux restent au registre, avec la raison.
phone-entry-who = Qui
phone-entry-when = Quand
phone-entry-device = Appareil
phone-entry-stands = État
phone-entry-office = Bureau
phone-entry-receipted = Accusé signé par le bureau
phone-entry-place = Lieu
phone-instead-of = Corrige :
phone-instead-why = Pourquoi était-ce erroné?
phone-instead-leave = Laisser l’inscription telle quelle
phone-clock-fast = horloge en avance de { $by }
phone-clock-slow = horloge en retard de { $by }
phone-span-minutes = { $n } min
phone-span-hours =
    { $n ->
        [one] { $n } heure
       *[other] { $n } heures
    }
phone-span-days =
    { $n ->
        [one] { $n } jour
       *[other] { $n } jours
    }
phone-span-years =
    { $n ->
        [one] { $n } an
       *[other] { $n } ans
    }
