### The page of a visit: state, differing entries, open items, readings, event log, links, and what is done there.

office-visit-not-here = Aucun dossier de ce genre ici. Ce que les téléphones n’ont pas encore envoyé n’est pas connu ici.
office-visit-car-unknown = Wagon inconnu
office-visit-car = Le wagon
office-visit-receiver = vers : { $receiver }
office-visit-product = { $product } (selon le document d’expédition)
office-visit-since =
    { $count ->
        [one] Depuis { $since }. { $count } entrée. Heures en { $zone }.
       *[other] Depuis { $since }. { $count } entrées. Heures en { $zone }.
    }
office-visit-joined = Plusieurs dossiers d’un même séjour, réunis.
office-visit-procedure = Procédure : { $procedure }.
office-visit-refresh = Actualiser
office-visit-packet = Dossier de preuve
office-visit-by = { $name }, { $time }, sur { $device }
office-visit-released-residue = Libéré comme résidu
office-visit-released-not-residue = Libéré, pas comme résidu
office-visit-out = Non rendu : { $items }
office-visit-hold = RETENU : { $because }
office-visit-next-time = De la visite précédente : { $what }
office-visit-see-other = Le voir
office-visit-differ = Divergence entre entrées : { $about }
office-visit-received-at = reçu { $time }
office-visit-because = motif : { $why }
office-visit-reopened = Résolue auparavant, puis rouverte
office-visit-why-stands = Pourquoi garder cette entrée
office-visit-settle-note = Les deux entrées restent au dossier. La clé du bureau signe le choix à votre nom, et il est envoyé aux téléphones.
office-visit-settle = Garder celle-ci
office-visit-notices = Avis
office-visit-alarm = Alarme :
office-visit-check = À vérifier :
office-visit-fittings = Accessoires
office-visit-fitting = Accessoire
office-visit-valve = Robinet
office-visit-closure = Fermeture
office-visit-heard = Écoute
office-visit-line = Conduite
office-visit-entries-differ = (divergence)
office-visit-not-recorded = non consigné
office-visit-engaged = Filets en prise : { $threads }
office-visit-after-shut = après la fermeture du robinet
office-visit-line-on = raccordée
office-visit-line-off = désaccouplée
office-visit-cover = Couvercle de l’enceinte protectrice
office-visit-cover-state =
    { $closed ->
        [yes] fermé
       *[other] ouvert
    }, { $pinned ->
        [yes] goupille en place
       *[other] goupille retirée
    }, { $there } de { $wanted } boulons en place
office-visit-weather = Météo
office-visit-open-at-release = Points en suspens à la libération
office-visit-open-items = Points en suspens avant la libération
office-visit-items =
    { $count ->
        [one] { $count } point
       *[other] { $count } points
    }
office-visit-asked-by = Exigé par { $who } : { $source }
office-visit-overridden = Dérogations, avec motif
office-visit-fallen = n’est plus valide : { $why }
office-visit-seals = Scellés
office-visit-seal = { $event } : { $number }
office-visit-not-intact = NON intact
office-visit-lacks = manque : { $what }
office-visit-no-number = sans numéro lisible
office-visit-photographs = Photographies
office-visit-photo-alt = Photographie : { $of }, { $name }, { $time }
office-visit-photo-to-come = Pas encore reçue. Le téléphone l’a toujours.
office-visit-defects = Défectuosités
office-visit-defect-authority = Le wagon ne circule qu’avec une approbation.
office-visit-reported = Signalé à { $to } ({ $how })
office-visit-answered = Approbation de { $by }, référence { $reference }
office-visit-written-due = par écrit d’ici { $due }
office-visit-overdue = en retard
office-visit-repaired = Réparé : { $how }
office-visit-defect-open = en suspens
office-visit-holds-over = Retenues levées
office-visit-lifted = levée : { $because }
office-visit-ended = Divergences et leur résolution
office-visit-agreed = gardée
office-visit-later = Par la suite :
office-visit-devices = Appareils et leurs entrées
office-visit-device-entries =
    { $count ->
        [one] { $count } entrée
       *[other] { $count } entrées
    }
office-visit-device-clock = son horloge : { $off }
office-visit-chains-whole = Chaque appareil numérote ses entrées dans tous les dossiers. Aucune ne manque avant la plus récente ici.
office-visit-log = Registre des événements
office-visit-log-note = Déclarée : selon l’horloge de l’appareil. Si elle était déréglée à la comparaison, l’heure corrigée figure dessous. Reçue : selon l’horloge de ce serveur.
office-visit-claimed = Déclarée
office-visit-received = Reçue
office-visit-cargo = Ce qui a reçu le chargement
office-visit-recorded = Ce qui est consigné
office-visit-who = Qui, sur quoi
office-visit-clock-about = son horloge : { $off }; environ { $time }
office-visit-why-kept = pourquoi elle est gardée : { $why }
office-visit-why-gone = pourquoi elle n’est plus à jour : { $why }
office-visit-inspector = Laisser un inspecteur lire ce dossier
office-visit-link-note = Un lien ouvre ce dossier et son dossier de preuve à quiconque le possède, jusqu’à son expiration.
office-visit-link-for = Pour qui
office-visit-link-days = Pour combien de jours
office-visit-link-make = Créer un lien
office-visit-link-right = Créer un lien exige le droit de résoudre les divergences. Les liens déjà créés figurent ici.
office-visit-link-made = { $label }, créé par { $by }
office-visit-link-revoked = révoqué { $time }
office-visit-link-good = valide jusqu’au { $time }
office-visit-link-expired = expiré { $time }
office-visit-link-revoke = Révoquer
office-visit-link-revoke-of = Révoquer le lien pour { $label }
office-visit-looked = Qui a consulté ce dossier
office-visit-nobody = Personne avant vous.
office-visit-readings = Lectures
office-visit-readings-note = Telles que lues, avec le ± du manomètre selon sa classe si le site l’a consignée
office-visit-reading = Lecture
office-visit-value = Valeur
office-visit-instrument = Instrument
office-visit-who-when = Qui et quand
office-visit-disputed = divergence
office-visit-no-instrument = instrument non nommé
office-visit-computed = Calculé à partir du dossier
office-visit-computed-label = Quantités calculées
office-visit-computed-note = ± est la demi-largeur de l’intervalle à 95 %. Rien ici n’est conservé : tout est recalculé chaque fois à partir des entrées.
office-visit-quantity = Quantité
office-visit-method = Méthode et source
office-visit-for-product = pour { $product }
office-visit-largest = part principale du ± : { $largest }
office-visit-reopen = Rouvrir
office-visit-reopen-why = Pourquoi rouvrir
office-visit-reopen-note = La résolution reste au dossier avec le motif. Les entrées divergent de nouveau.
office-visit-choose-settlement = Choisir la résolution à rouvrir.
office-visit-reopen-reason = Indiquer pourquoi la rouvrir, en 1000 caractères au plus. Le dossier conserve le motif.
office-visit-no-record = Ce dossier n’existe pas.
office-visit-no-settlement = Cette résolution n’existe pas.
office-visit-choose-entry = Choisir l’entrée à garder.
office-visit-settle-reason = Indiquer pourquoi garder cette entrée, en 1000 caractères au plus. Le dossier conserve le motif.
office-visit-changed = Le dossier a changé depuis la consultation : d’autres entrées sont arrivées, ou la divergence est résolue. Actualiser avant de choisir.
office-visit-link-1-90 = Un lien est valide de 1 à 90 jours.
office-visit-link-label = Indiquer pour qui est le lien, en 64 caractères au plus.
office-visit-link-title = Un lien
office-visit-link-title-for = Un lien pour { $label }
office-visit-link-once = Il ouvre un dossier et son dossier de preuve jusqu’au { $time }. Il n’est affiché qu’une fois et n’est pas conservé ici : le copier maintenant.
office-visit-back = Retour au dossier
office-visit-no-photo = Cette photographie n’est pas ici.
office-visit-amount = { $amount }
office-visit-amount-within = { $amount } ± { $half_width } { $unit }
