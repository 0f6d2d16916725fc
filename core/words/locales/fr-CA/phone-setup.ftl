### Words about this phone: its settings, what is only on it, sending and transfer files.

## Only on this phone

phone-here-title = Sur ce téléphone seulement
phone-here-entries =
    { $n ->
        [one] inscription
       *[other] inscriptions
    }
phone-here-photos =
    { $n ->
        [one] photo
       *[other] photos
    }
phone-here-count =
    { $n ->
        [one] { $n } inscription
       *[other] { $n } inscriptions
    }
phone-here-free = Plus de { $size } libres
phone-here-gigabytes = { $n } Go
phone-here-megabytes = { $n } Mo
phone-here-no_room = Plus d’espace sur ce téléphone
phone-here-send = Envoyer
phone-here-carry = Fichier de transfert
phone-here-only = ici seulement
phone-here-little = Peu d’espace. Envoyer des photos ou libérer de l’espace.
phone-here-not_kept = Ce téléphone peut supprimer des registres
phone-here-ask_keep = Le navigateur peut les supprimer. Lui demander de les conserver.
phone-here-damaged =
    { $n ->
        [one] { $n } ligne endommagée sur ce téléphone
       *[other] { $n } lignes endommagées sur ce téléphone
    }
phone-here-put_off = Pour l’instant, le bureau ne prend plus rien de ce téléphone. Le reste demeure ici et sera envoyé plus tard.
phone-here-differing =
    { $n ->
        [one] { $n } registre diffère de celui du bureau
       *[other] { $n } registres diffèrent de ceux du bureau
    }
phone-here-differing_do = Rien n’est perdu ici. Envoyer de nouveau. Si cela persiste, aviser le bureau.
phone-here-left =
    { $n ->
        [one] { $n } registre retiré de ce téléphone
       *[other] { $n } registres retirés de ce téléphone
    }
phone-here-left_where = Ce téléphone n’a plus ce site. Le bureau les a.
phone-here-aside =
    { $n ->
        [one] { $n } élément refusé et mis de côté
       *[other] { $n } éléments refusés et mis de côté
    }

## Sending

phone-sync-idle = Pas encore envoyé
phone-sync-running = Envoi
phone-sync-met = Envoyé au bureau à { $at }
phone-sync-no_office = Bureau non joint à { $at }
phone-sync-not_enrolled = Non inscrit : rien n’est envoyé
phone-sync-answered = Le bureau a répondu par l’erreur { $status }.

## Settings

phone-setup-title = Ce téléphone
phone-setup-operator = Opérateur
phone-setup-site = Site
phone-setup-text = Taille du texte
phone-setup-look = Affichage
phone-setup-day = Jour
phone-setup-night = Nuit
phone-setup-auto = Auto
phone-setup-lang = Langue
phone-setup-pressure = Pression
phone-setup-temperature = Température
phone-setup-volume = Volume
phone-setup-torque = Couple
phone-setup-enrol = Inscrire avec un code
phone-setup-enrolled = Inscrit
phone-setup-keep = Terminé
phone-setup-coming = Chargement du bureau
phone-setup-photo_place = Garder le lieu dans les photos?
phone-setup-reminders = Son quand un relevé ou un signe est dû
phone-setup-position = Consigner le lieu des inscriptions?
phone-setup-key = clé { $key }

## The language

phone-language-yours = { $name } lit cette langue sur ce téléphone.
phone-language-phone = La langue de ce téléphone, jusqu’à ce que quelqu’un dise qui il est.
phone-language-not_read = Traduit sans relecture par un locuteur natif
phone-language-not_here = Cette langue exige une connexion une première fois. Réessayer en ligne.

## Transfer files

phone-carry-title = Fichier de transfert
phone-carry-out = Exporter un fichier
phone-carry-in = Importer un fichier
phone-carry-note = Pour deux téléphones hors ligne. Le fichier est signé, et l’importer deux fois est sans effet. Les photos suivent tant qu’il y a de la place.
phone-carry-made =
    { $n ->
        [one] { $n } wagon
       *[other] { $n } wagons
    }, { $photos ->
        [one] { $photos } photo
       *[other] { $photos } photos
    } dans le fichier
phone-carry-took =
    Nouvelles inscriptions : { $n } sur { $of }, { $photos ->
        [one] { $photos } photo
       *[other] { $photos } photos
    }
phone-carry-made_some =
    { $n ->
        [one] { $n } wagon
       *[other] { $n } wagons
    }, { $photos ->
        [one] { $photos } photo
       *[other] { $photos } photos
    } dans le fichier; photos sans place : { $left }

## Enrolling, who, where

phone-enrol-why = Avec le code à usage unique du bureau
phone-enrol-note = Le bureau donne un code à usage unique. Le coller, le saisir ou le numériser.
phone-enrol-code = Code
phone-enrol-name = Nom de ce téléphone
phone-enrol-do = Inscrire ce téléphone
phone-enrol-other_server = Un autre serveur que celui qui a donné le code a répondu. S’adresser au bureau.
phone-who-title = Qui êtes-vous?
phone-who-why = Le nom reste avec tout ce qui est consigné.
phone-who-code = Code court
phone-who-me = C’est moi
phone-where-title = Quel site?
phone-where-none = Aucun site connu ici. Inscrire le téléphone ou importer un fichier de transfert.

## When nothing can be recorded

phone-refused-title = Impossible de consigner ici
phone-refused-why = Cette fenêtre du navigateur oublie tout à la fermeture. Ouvrir l’application depuis l’écran d’accueil, pas en navigation privée.
phone-refused-help = L’aide fonctionne toujours
phone-waiting-title = Ouvert dans une autre fenêtre
phone-waiting-why = Une seule fenêtre peut consigner. Aller à l’autre ou continuer ici.
phone-waiting-take = Continuer ici
phone-broken-title = Erreur de l’application, les inscriptions sont enregistrées
phone-broken-why = Redémarrer l’application. Ce qui a été confirmé est sur ce téléphone.
phone-broken-again = Redémarrer
phone-trouble-full = Plus d’espace sur ce téléphone. Ceci n’a PAS été consigné. Libérer de l’espace, puis réessayer.
phone-trouble-why = Indiquer d’abord la raison, en haut
phone-trouble-code = Aucun code lisible. Le saisir.
phone-trouble-no_network = Le bureau ne peut être joint. Vérifier le signal, puis réessayer.
phone-trouble-read = Compris
phone-trouble-not_lasting = Ce navigateur peut supprimer ce qui est consigné. Ceci n’a PAS été consigné. Mettre l’application sur l’écran d’accueil et l’ouvrir de là, pas en navigation privée.
phone-trouble-no_picture = L’image est vide. La reprendre.
phone-lasting-do = Mettre d’abord l’application sur l’écran d’accueil : ce navigateur peut supprimer ce qui est consigné.
phone-update-ready = Une nouvelle version est prête
phone-update-take = Mettre à jour
phone-starting = Ouverture des registres
phone-opening = Ouverture du wagon
