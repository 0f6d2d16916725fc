### The state of the server: what was checked, what was found, and what to do.

office-state-title = État du serveur
office-state-refresh = Actualiser
office-state-well = Toutes les vérifications sont bonnes.
office-state-unwell = Une vérification a échoué. Ce qu’il faut faire est à côté.
office-state-now = Maintenant
office-state-full = Vérification complète
office-state-last = Faite la dernière fois { $time }, et une fois par jour : chaque entrée, photographie et empreinte du registre.
office-state-never = Pas encore faite. Le serveur la fait dix minutes après son démarrage, puis une fois par jour.
office-state-check-now = Faire la vérification complète maintenant
office-state-what = Vérification
office-state-is = État
office-state-found = Constat
office-state-good = Bon
office-state-bad = Mauvais

## The checks

office-part-folder = Dossier de données
office-part-room = Espace disque
office-part-organisation_key = Clé de l’organisation
office-part-signing_key = Clé de signature
office-part-desk_key = Clé de l’appareil du bureau
office-part-clock = Horloge de cette machine
office-part-backup = Sauvegardes
office-part-ledger = Dossiers (ledger.db)
office-part-log = Registre des dossiers
office-part-photographs = Photographies
office-part-register = Comptes, appareils, documents (server.db)
office-part-audit = Chaîne d’audit
office-part-index = Index des séjours (index.db)
office-part-witness = Témoin
office-part-time_stamp = Horodatages

## Folder, disk and keys

office-found-no-answer = Le disque du dossier ne répond pas.
office-found-writable = L’écriture y est possible.
office-found-disk-full = Le disque est plein; rien de ce que les téléphones envoient ne peut être accepté. Libérer de l’espace. Les téléphones gardent leurs entrées d’ici là.
office-found-not-writable = L’écriture y est impossible : { $why }. Rien de ce que les téléphones envoient ne peut être accepté. Vérifier à qui est le dossier et si son disque est monté en lecture seule.
office-found-room-unknown = Impossible de le mesurer : { $why }.
office-found-room-unmeasured = Il n’est pas mesuré sur ce système.
office-found-room = { $room } libres.
office-found-little-room = { $room } libres : les photographies d’un jour pourraient ne pas y entrer. Libérer de l’espace.
office-found-key-unusable = organisation.key est inutilisable : { $why }. Le serveur tourne jusqu’à son arrêt et ne redémarrera pas.
office-found-other-key = organisation.key n’est pas la clé avec laquelle ce serveur a démarré. Remettre la bonne depuis sa copie sûre.
office-found-key = La clé est { $key } …
office-found-desk-key = La clé de l’appareil { $key }.
office-found-desk-key-unusable = desk.key est inutilisable : { $why }.
office-found-key-is-root = La clé racine signe. Pour retirer la racine de ce serveur : farsiding key offline.
office-found-key-works = Elle signe pour la clé racine.
office-found-key-works-until = Elle signe pour la clé racine jusqu’au { $until }.
office-found-key-not-yet = La clé de signature { $key } commence { $from }. Vérifier l’horloge de cette machine.
office-found-key-ended = La clé de signature { $key } a pris fin { $until }. En nommer une autre avec la clé racine : farsiding key renew (ou key request, sign, take).
office-found-key-withdrawn = La clé de signature { $key } a été retirée comme { $why } { $at }. En nommer une autre avec la clé racine : farsiding key renew (ou key request, sign, take).
office-found-key-unknown = La clé racine n’a pas nommé la clé de signature { $key }. En nommer une autre avec la clé racine : farsiding key renew (ou key request, sign, take).
office-found-key-ends-soon = La clé de signature prend fin { $until }. Elle répond aux téléphones d’ici là. Nommer la suivante avec la clé racine : farsiding key renew, ou key request, sign et take.
office-withdrawn-replaced = remplacée
office-withdrawn-lost = perdue
office-withdrawn-stolen = volée

## Clock and backups

office-found-clock-good = Elle concorde avec le registre.
office-found-clock-note = À { $size } entrées, quelqu’un a déclaré qu’elle était déréglée : daté { $held }, affichait { $clock }. « { $why } »
office-found-clock-behind = L’horloge de cette machine a { $stretch } de retard sur son propre registre depuis { $since }. Ce qui arrive est daté { $held } jusqu’à ce qu’elle le rattrape. Si elle est déréglée maintenant, la corriger. Si elle l’était avant, ne rien faire.
office-found-clock-jumped = L’horloge de cette machine a avancé d’un coup de { $stretch } à { $at }. Si elle est déréglée maintenant, la corriger avant que d’autres entrées arrivent : les heures du registre ne reculent pas.
office-found-clock-ahead-of =
    { $count ->
        [one] L’horloge de ce serveur avait { $count } min d’avance sur celle de là-bas. La corriger.
       *[other] L’horloge de ce serveur avait { $count } min d’avance sur celle de là-bas. La corriger.
    }
office-found-clock-behind-of =
    { $count ->
        [one] L’horloge de ce serveur avait { $count } min de retard sur celle de là-bas. La corriger.
       *[other] L’horloge de ce serveur avait { $count } min de retard sur celle de là-bas. La corriger.
    }
office-found-backup-last = Dernière bonne sauvegarde : { $at } ({ $file }, { $bytes } octets).
office-found-backup-none = Aucune sauvegarde n’a encore été faite.
office-found-backup-unplanned = { $last } Ce serveur n’en fait aucune de lui-même (--backup-to).
office-found-backup-failed = Le dernier essai a échoué : { $why }. { $last }
office-found-backup-damaged =
    { $count ->
        [one] { $last } { $count } ligne était endommagée alors; les sauvegardes antérieures sont donc gardées. Lancer farsiding check.
       *[other] { $last } { $count } lignes étaient endommagées alors; les sauvegardes antérieures sont donc gardées. Lancer farsiding check.
    }
office-found-backup-overdue = Une sauvegarde est en retard. { $last }

## The full check

office-found-records = { $entries } entrées, { $changes } changements, { $receipts } accusés de réception, { $certificates } certificats : tout tel que signé ou écrit.
office-found-leaves = { $leaves } feuilles, et chaque empreinte au-dessus est exacte.
office-found-photographs = { $count } photographies, { $bytes } octets : tout tel que reçu.
office-found-audit = { $rows } lignes, et chacune concorde avec la précédente.
office-found-whole = Aucun dommage.
office-found-damaged-rows =
    { $count ->
        [one] { $count } ligne endommagée. La première : { $part } { $row } : { $why }. { $advice }
       *[other] { $count } lignes endommagées. La première : { $part } { $row } : { $why }. { $advice }
    }
office-found-check-advice = Lancer farsiding check --data sur ce dossier : la commande nomme chaque ligne et, avec --mend, répare les entrées. Sinon, garder le dossier tel quel et restaurer la sauvegarde la plus récente dans un nouveau. Les téléphones rapportent ce qui y manque.
office-found-index-advice = Il est dérivé. Arrêter le serveur, supprimer index.db, puis redémarrer.
office-found-damaged = Endommagé : { $why }. { $advice }
office-found-unreadable = Lecture impossible : { $why }. { $advice }
office-found-check-failed = La vérification a échoué : { $why }.

## Witnesses and time stamps

office-found-tries =
    { $count ->
        [one] depuis { $since } : { $why }
       *[other] depuis { $since }, { $count } essais : { $why }
    }
office-found-of = { $name } : { $found }
office-found-all = { $items }
office-found-two = { $first } { $second }
office-found-signed =
    { $count ->
        [one] Il a signé le registre de { $count } entrée { $at }.
       *[other] Il a signé le registre de { $count } entrées { $at }.
    }
office-found-signed-nothing = Il n’a encore rien signé.
office-found-refuses = Il refuse de signer, { $told }. { $signed } Si une sauvegarde a été restaurée, le déclarer (farsiding restored). Sinon, quelqu’un a changé le registre : garder le dossier tel quel.
office-found-does-not-sign = Il ne signe pas, { $told }. { $signed }
office-found-stamped =
    { $count ->
        [one] Le registre de { $count } entrée a été horodaté { $at } par { $authority }.
       *[other] Le registre de { $count } entrées a été horodaté { $at } par { $authority }.
    }
office-found-stamped-no-root =
    { $count ->
        [one] Le registre de { $count } entrée a été horodaté { $at } par { $authority } (qui la certifie n’est pas vérifié : aucune racine n’a été donnée).
       *[other] Le registre de { $count } entrées a été horodaté { $at } par { $authority } (qui la certifie n’est pas vérifié : aucune racine n’a été donnée).
    }
office-found-stamped-nothing = Rien n’a encore été horodaté.
office-found-no-stamp = { $authority } ne donne aucun horodatage, { $told }. { $last }
