### What was refused of devices, and records kept out of the lists.

office-quarantine-title = Données refusées
office-quarantine-lead = Données d’appareils qui n’ont pas pu être acceptées, et dossiers qu’aucun appareil inscrit n’a ouverts. Les appareils ont été avisés. Rien ici ne change ce qui est accepté.
office-quarantine-refused = Refusé
office-quarantine-none = Rien n’a été refusé.
office-quarantine-when = Quand
office-quarantine-from = De
office-quarantine-bytes = Octets
office-quarantine-why = Motif
office-quarantine-unknown = inconnu
office-quarantine-kept = Seuls les 4096 premiers octets de chacun sont conservés. Cette commande les écrit dans des fichiers :
office-quarantine-sure = Plus personne n’a besoin de les examiner
office-quarantine-purge = Tout supprimer
office-quarantine-hidden = Masqués des listes
office-quarantine-no-hidden = Aucun dossier n’est masqué.
office-quarantine-tick = Cocher la case pour confirmer. Rien n’a été supprimé.
office-quarantine-did = Masqué par { $by }, { $time } : { $why }
office-quarantine-show = Le remettre dans les listes
office-quarantine-phantom = Aucun appareil inscrit n’a ouvert ce dossier
office-quarantine-phantom-note = Il peut être masqué des listes du bureau. Ses entrées restent, aussi dans le registre. Il revient lorsqu’un appareil inscrit l’ouvre.
office-quarantine-hide = Le masquer des listes
office-quarantine-say-why = Indiquer pourquoi il est masqué.
office-quarantine-enrolled = Un appareil inscrit a ouvert ce dossier; il reste dans les listes.
