### The page of instruments and hoses.

office-instruments-title = Instruments et tuyaux flexibles
office-instruments-described =
    { $count ->
        [one] Les sites en décrivent { $count }.
       *[other] Les sites en décrivent { $count }.
    }
office-instruments-none-late = Aucun n’est en retard.
office-instruments-late =
    { $count ->
        [one] { $count } en retard.
       *[other] { $count } en retard.
    }
office-instruments-twice = Les lectures d’un instrument en retard comptent avec le double de son ±.
office-instruments-name = Nom
office-instruments-what = Description
office-instruments-site = Site
office-instruments-due = Échéance
office-instruments-used = Utilisé en retard
office-instruments-hose = tuyau flexible : { $service }
office-instruments-gauge = { $measures }, { $span }
office-instruments-graded = { $measures }, { $span }, classe { $grade }
office-instruments-no-date = aucune date consignée
office-instruments-overdue = en retard depuis { $day }
office-instruments-more = et { $count } de plus
office-instruments-unknown = Nommés dans des dossiers, décrits par aucun site
office-instruments-stays =
    { $count ->
        [one] { $count } séjour
       *[other] { $count } séjours
    }
