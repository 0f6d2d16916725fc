### The page of defects, of letters about them, and of fittings that wear.

office-defects-title = Défectuosités
office-defects-open =
    { $count ->
        [one] { $count } en suspens
       *[other] { $count } en suspens
    }
office-defects-overdue-count =
    { $count ->
        [one] { $count } en retard
       *[other] { $count } en retard
    }
office-defects-no-mail = Le courriel n’est pas configuré. Placer un mail.toml dans le dossier de données (host, port, security, from). Les lettres attendent d’ici là.
office-defects-none = Aucune défectuosité consignée.
office-defects-wear = Accessoires qui s’usent
office-defects-no-wear = Aucun couple de fermeture ne dépasse la plage habituelle ni n’augmente.
office-defects-wear-note = Plage habituelle de 20 à 40 ft·lbf (pratique courante, sans source). Une hausse est une pente de Theil–Sen supérieure à son ±.
office-defects-car = Wagon
office-defects-fitting = Accessoire
office-defects-efforts = Couple, ft·lbf
office-defects-says = Résultat
office-defects-overdue = En retard : { $why }.
office-defects-noted = Noté par { $by }, { $time }
office-defects-photographs =
    { $count ->
        [one] { $count } photographie
       *[other] { $count } photographies
    }
office-defects-record = Le dossier
office-defects-reported = Signalé au wagon : { $sent }
office-defects-mail = Courriel à { $to } : { $state }
office-defects-approval = Approbation : { $answer }
office-defects-needs-approval = Le wagon ne circule qu’avec une approbation.
office-defects-repaired = Réparé : { $how }
office-defects-forward = Le signaler par courriel
office-defects-address = Adresse courriel
office-defects-words = Texte avant l’extrait du dossier
office-defects-send = Envoyer
office-defects-sent = envoyé { $time } ({ $said })
office-defects-failed = ÉCHEC : { $said }
office-defects-waiting = en attente d’envoi
office-defects-tried =
    { $count ->
        [one] { $count } essai, prochain à { $time } : { $said }
       *[other] { $count } essais, prochain à { $time } : { $said }
    }
office-defects-letters = Lettres
office-defects-letter-to = À
office-defects-about = Objet
office-defects-asked = Demandé
office-defects-state = État
office-defects-do = Action
office-defects-again = Réessayer maintenant
office-defects-no-such = Cette défectuosité n’existe pas.
office-defects-not-an-address = « { $text } » n’est pas une adresse courriel.
office-defects-no-letter = Cette lettre est déjà envoyée ou n’existe pas.
office-overdue-approval =
    { $count ->
        [one] l’approbation verbale devait être écrite il y a { $count } jour (49 CFR 174.50)
       *[other] l’approbation verbale devait être écrite il y a { $count } jours (49 CFR 174.50)
    }
office-overdue-not-reported =
    { $count ->
        [one] noté il y a { $count } jour et signalé à personne
       *[other] noté il y a { $count } jours et signalé à personne
    }
office-overdue-no-answer =
    { $count ->
        [one] en attente d’une approbation depuis { $count } jour
       *[other] en attente d’une approbation depuis { $count } jours
    }
