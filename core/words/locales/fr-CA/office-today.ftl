### The page of today: every car at every site, and what phones have not sent.

office-today-title = Aujourd’hui
office-today-refresh = Actualiser
office-today-cars =
    { $count ->
        [one] { $count } wagon
       *[other] { $count } wagons
    }
office-today-sites =
    { $count ->
        [one] { $count } site
       *[other] { $count } sites
    }
office-today-count = { $cars } à { $sites }.
office-today-held =
    { $count ->
        [one] { $count } wagon retenu.
       *[other] { $count } wagons retenus.
    }
office-today-differ =
    { $count ->
        [one] { $count } wagon avec des divergences.
       *[other] { $count } wagons avec des divergences.
    }
office-today-device = appareil { $device }
office-today-all-in = Tout ce que les téléphones ont annoncé est arrivé. Ce qu’ils ont consigné depuis leur dernière synchronisation n’est pas connu ici.
office-today-behind = Pas encore reçu
office-today-sent-all = A indiqué que tout est envoyé
office-today-unsent = Non envoyé : { $what }
office-today-heard = Dernière synchronisation : { $ago }
office-today-never = jamais
office-today-photos =
    { $count ->
        [one] { $count } photographie annoncée, fichier pas encore reçu
       *[other] { $count } photographies annoncées, fichiers pas encore reçus
    }
office-today-site-unknown = Site pas encore connu
office-today-no-site = Aucun site n’est encore connu. Le premier téléphone synchronisé envoie le sien.
office-today-no-car = Aucun wagon à ce site.
office-today-since-placement = depuis la mise en place
office-today-since-entry = depuis la première entrée
office-today-number-unknown = numéro inconnu
office-today-alarm = Alarme : voir le dossier
office-today-nothing = Rien en suspens
office-today-leaving = Libérés, retrait non consigné
office-today-released-cars = Wagons libérés
office-today-car = Wagon
office-today-site = Site
office-today-released = Libéré
office-today-notices = Avis
office-today-entries =
    { $count ->
        [one] { $count } entrée
       *[other] { $count } entrées
    }
office-today-photographs =
    { $count ->
        [one] { $count } photographie
       *[other] { $count } photographies
    }
office-today-nothing-unsent = rien
office-today-items = { $items }

## Qui a un wagon et est en retard

office-overdue-title =
    { $count ->
        [one] 1 personne est en retard
       *[other] { $count } personnes sont en retard
    }
office-overdue-signal = Elles ont un wagon et n’ont rien dit depuis. Le silence peut n’être qu’un manque de réseau : les appeler, puis qui est proche. Ceci n’est pas un appareil de secours.
office-overdue-since = En retard de { $since } : dernier signe { $last }, demandé toutes les { $minutes } minutes.
