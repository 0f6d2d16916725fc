### Photographs of a record: removed ones, and removing one.

office-photos-removed = Supprimée par { $by }, { $time } : { $why }
office-photos-remove = Supprimer cette photographie
office-photos-remove-note = Le fichier est supprimé ici définitivement. Le dossier indique toujours qu’elle a été prise, et aucun téléphone ne l’envoie de nouveau. Les téléphones qui l’ont et les sauvegardes antérieures gardent leurs copies.
office-photos-why = Pourquoi
office-photos-remove-it = Supprimer
office-photos-not-in-record = Cette photographie n’est pas dans ce dossier.
office-photos-say-why = Indiquer pourquoi la photographie est supprimée.
office-photos-removed-before = Cette photographie a déjà été retirée.
