### The page of inquiry: one box for a number, a seal, a date or a place.

office-inquiry-title = Recherche
office-inquiry-asked = Numéro du wagon, scellé, date ou lieu
office-inquiry-find = Chercher
office-inquiry-how = Les espaces, les traits d’union et la casse ne comptent pas. Écrire la date 2026-11-09, 11/9/2026 (mois d’abord) ou 9 Nov 2026. L’ajouter à un numéro ou à un lieu pour restreindre.
office-inquiry-none = Rien trouvé pour « { $asked } »
office-inquiry-none-on = Rien trouvé pour « { $asked } » le { $day }
office-inquiry-not-sent = Ce que les téléphones n’ont pas encore envoyé n’est pas connu ici.
office-inquiry-records =
    { $count ->
        [one] { $count } dossier
       *[other] { $count } dossiers
    }
office-inquiry-records-on =
    { $count ->
        [one] { $count } dossier le { $day }
       *[other] { $count } dossiers le { $day }
    }
office-inquiry-more = Il y en a d’autres. Ajouter une date ou un lieu.
office-inquiry-near = À un caractère près
office-inquiry-span = { $from } au { $to }
office-inquiry-released = libéré
office-inquiry-differ = divergence
office-inquiry-record = Dossier
office-inquiry-packet = Dossier de preuve
office-inquiry-record-of = Dossier de { $car }, { $day }
office-inquiry-packet-of = Dossier de preuve de { $car }, { $day }
office-inquiry-why-number = numéro du wagon
office-inquiry-why-begins = début du numéro du wagon
office-inquiry-why-at = à { $site }
office-inquiry-why-day = présent le { $day }
office-inquiry-why-near = à un caractère près : { $said }
