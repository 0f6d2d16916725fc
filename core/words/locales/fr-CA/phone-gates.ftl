### Words on the phone for the two gates, the last round and answers that hold the job.

## The two gates

phone-gate-met =
    { $n ->
        [one] { $n } point en ordre
       *[other] { $n } points en ordre
    }
phone-gate-signed-unload = Prêt à décharger, signé
phone-gate-signed-release = Libéré
phone-gate-hold-unload = Maintenir pour signer : prêt à décharger
phone-gate-hold-release = Maintenir pour signer : libération
phone-gate-late = Le déchargement a commencé avant cette signature. Le registre le dit.
phone-ask-fit_to_unload = Prêt à décharger
phone-ask-last_round = Dernière ronde des fermetures
phone-override-title = Déroger à plus d’un
phone-override-note = Choisir les points et une raison. Le registre garde votre nom et la raison.
phone-override-which = Choisir les points
phone-override-why = Choisir la raison
phone-override-other = Autre raison
phone-override-words = La raison, en mots libres
phone-override-hold =
    { $n ->
        [one] Maintenir pour déroger à { $n } point
       *[other] Maintenir pour déroger à { $n } points
    }
phone-round-title = Dernière ronde
phone-round-do = Mettre la main sur chaque fermeture, bouchon en place. Écouter. Toucher ce qui n’est pas en ordre.
phone-round-in_order = fermé, serré à l’outil, aucune fuite entendue
phone-round-not = pas en ordre
phone-round-note = Ce qui n’est pas en ordre
phone-round-photo = Photographier l’enceinte protectrice ouverte
phone-round-photo_taken = Photo prise
phone-round-hold =
    { $n ->
        [one] Maintenir pour signer { $n } fermeture
       *[other] Maintenir pour signer { $n } fermetures
    }

## An answer that holds the job

phone-held-title = Travail arrêté
phone-held-hold = Retenir le wagon
phone-ask-earlier = Réponse précédente : { $answer }
phone-undo = Annuler
phone-undo-why = touché par erreur
