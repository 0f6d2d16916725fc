### Devices: what they may do, codes for new ones, revoked ones, and their late entries.

office-devices-title = Appareils
office-devices-people = Personnes et clés
office-devices-refresh = Actualiser
office-devices-enroll = Inscrire un appareil
office-devices-name = Nom de l’appareil
office-devices-role = Rôle
office-devices-role-operator = consigner, résoudre et libérer à ses sites
office-devices-role-office = tout ce que peut le bureau
office-devices-role-inspector = lire les sites qui lui sont donnés, rien d’autre
office-devices-grant = Sites, droits et dernier jour : tous les sites, tous les droits de son rôle, jusqu’à la révocation
office-devices-make-code = Créer un code à usage unique
office-devices-late-waiting =
    { $count ->
        [one] { $count } entrée tardive d’un appareil révoqué à examiner :
       *[other] { $count } entrées tardives d’appareils révoqués à examiner :
    }
office-devices-late = Entrées tardives
office-devices-enrolled = Appareils inscrits
office-devices-refused = Données refusées
office-devices-none = Aucun appareil n’est encore inscrit.
office-devices-device = Appareil
office-devices-grants = Sites, droits, validité
office-devices-heard = Dernière synchronisation
office-devices-clock = Horloge
office-devices-unsent = Non envoyé alors
office-devices-chain = Numérotation
office-devices-change = Modifier
office-devices-own-name = se nomme { $name }
office-devices-ended = terminé : { $until }
office-devices-never = jamais
office-devices-clock-right = à l’heure
office-devices-no-gap = aucun manque
office-devices-revoked = révoqué
office-devices-change-of = Modifier ou révoquer { $name }
office-devices-say-role = Choisir ce que l’appareil peut faire.
office-devices-enroll-of = Inscrire { $name }
office-devices-how = Numériser l’image avec le téléphone, ou saisir le code dans l’application.
office-devices-good-for = Valide pour
office-devices-one-until = un appareil, jusqu’au { $time }
office-devices-sites = Sites
office-devices-rights = Droits
office-devices-certificate = Certificat
office-devices-valid = valide { $until }
office-devices-server = Serveur
office-devices-server-key = Clé du serveur
office-devices-replaces = Le code créé auparavant pour ce nom n’est plus valide.
office-devices-once = Le code n’est affiché que maintenant. La première personne à s’en servir inscrit son appareil. S’il est perdu, en créer un autre.
office-devices-back = Aller aux appareils
office-devices-picture = Le code en image. Les lettres sont à côté.
office-devices-no-such = Cet appareil n’existe pas.
office-devices-revoke-title = Révoquer un appareil
office-devices-revoke-question = Révoquer { $name }?
office-devices-revoke-lead = La révocation prend effet maintenant et ne peut pas être annulée. Ce que l’appareil a envoyé reste au dossier. Ce qu’il envoie encore est conservé et ne compte que si le bureau l’admet. Il ne reçoit plus rien.
office-devices-revoke-sure = L’appareil est perdu, volé ou n’est plus utilisé
office-devices-revoke-of = Révoquer { $name }
office-devices-leave = Annuler
office-devices-sure = Cocher la case pour confirmer. Rien n’a été révoqué.
office-devices-key = Clé
office-devices-issued = Délivré
office-devices-renewed = { $issued }, renouvelé { $renewed }
office-devices-over = Il est expiré.
office-devices-revoked-head = Révoqué
office-devices-revoked-after = après son entrée numéro { $number }
office-devices-revoked-before = avant l’arrivée de toute entrée de sa part
office-devices-stays-revoked = Un appareil révoqué le reste. Ce qu’il a envoyé par la suite :
office-devices-renew = Modifier ou renouveler
office-devices-renew-note = L’appareil reçoit le nouveau certificat à sa prochaine synchronisation. Ce qu’il a consigné avant compte comme avant.
office-devices-issue = Délivrer un nouveau certificat
office-devices-lost = Perdu, volé ou hors d’usage
office-devices-all-sites = Tous, y compris ceux ajoutés plus tard
office-devices-these = Ceux-ci :
office-devices-no-site = Aucun site n’est encore connu ici.
office-devices-site = site { $site }
office-devices-all-rights = Tous les droits de son rôle
office-devices-these-rights = Ceux-ci, au lieu de ceux de son rôle :
office-devices-until = Dernier jour (UTC). Vide : jusqu’à la révocation
office-devices-ticked-all = Des sites ou des droits sont cochés, mais « Tous » est choisi au-dessus. Choisir « Ceux-ci » ou n’en cocher aucun.
office-devices-tick-sites = Cocher les sites, ou les choisir tous.
office-devices-tick-rights = Cocher les droits, ou choisir tous ceux de son rôle.
office-devices-say-grant = Choisir les sites et les droits.
office-devices-bad-name = Un appareil doit avoir un nom de 1 à 64 caractères sur une ligne.
office-devices-name-taken = Un autre appareil se nomme « { $name } » ({ $device }). Choisir un autre nom, comme « { $free } ».
office-devices-desk = Poste du bureau
office-devices-office-name = « { $name } » est le nom de l’appareil du bureau. Choisir un autre nom.
office-devices-is-revoked = Cet appareil a été révoqué et le reste. Le configurer de nouveau et créer un nouveau code.

## A device's grant

office-grant-all-sites = tous les sites
office-grant-all-sites-later = tous les sites, y compris ceux ajoutés plus tard
office-grant-no-site = aucun site
office-grant-list = { $items }
office-grant-all-rights = tous les droits de son rôle
office-grant-no-right = aucun droit
office-grant-revoked = jusqu’à la révocation
office-grant-until = jusqu’à la fin du { $day } UTC
office-grant-no-such-site = Aucun site ne se nomme « { $text } ».
office-grant-two-sites = Plusieurs sites se nomment « { $text } ».
office-grant-no-such-right = « { $text } » n’est pas un droit.
office-grant-no-date = « { $text } » n’est pas une date. L’écrire 2027-06-30.
office-grant-over = { $text } est déjà passé.
office-grant-inspector = Choisir les sites que l’appareil de l’inspecteur peut lire.
office-grant-role-operator = opérateur
office-grant-role-office = bureau
office-grant-role-inspector = inspecteur
office-grant-right-record = consigner
office-grant-right-settle = résoudre les divergences, réunir des dossiers
office-grant-right-lift_hold = lever une retenue
office-grant-right-override = accorder une dérogation
office-grant-right-release = libérer un wagon
office-grant-right-withdraw_others = annuler ce que d’autres ont consigné
office-grant-right-keep_site = modifier les sites
office-grant-right-issue_seals = remettre des scellés
office-grant-right-keep_people = modifier la liste des personnes
office-grant-right-publish_procedures = publier des procédures
office-grant-right-admit = admettre des entrées tardives
office-grant-right-enrol = inscrire et révoquer des appareils
office-grant-right-read = lire les dossiers

## Late entries of revoked devices

office-late-title = Entrées tardives
office-late-lead = Ces entrées sont venues d’un appareil après sa révocation. Elles sont conservées et ne comptent pas, car quiconque a le téléphone a pu les faire. N’admettre une entrée que si elle est reconnue vraie. Le dossier montre alors qui l’a admise, et pourquoi.
office-late-none = Rien n’est venu d’un appareil révoqué.
office-late-revoked = révoqué { $time }
office-late-count =
    { $count ->
        [one] { $count } entrée tardive
       *[other] { $count } entrées tardives
    }
office-late-more = Seules les { $count } premières sont affichées. Les autres sont conservées.
office-late-last = Dernière entrée avant la révocation : numéro { $number }
office-late-why = Motif : { $why }
office-late-by = De
office-late-claimed = selon l’appareil
office-late-came = Reçue
office-late-unknown = inconnu
office-late-about = À propos de
office-late-number = Numéro
office-late-before-last = avant la dernière que le bureau avait. Elle est peut-être restée sur le téléphone.
office-late-admitted = Admise par { $by }, { $time } : { $why }
office-late-why-back = Pourquoi retirer l’admission
office-late-take-back = Retirer l’admission
office-late-why-admit = Pourquoi l’entrée est vraie
office-late-admit = Admettre
office-late-reason = Indiquer un motif de 1000 caractères au plus. Le dossier le conserve.
office-late-already = Cette entrée est déjà admise.
office-late-not-now = Cette entrée n’est pas admise maintenant.
office-late-no-such = Cette entrée tardive n’existe pas.
office-late-kind = Une entrée du type « { $kind } »
office-late-record-of = { $car }, dossier { $record }
office-late-car = données du wagon { $car }
office-late-site = site { $site }
office-late-people = personnes de l’organisation
