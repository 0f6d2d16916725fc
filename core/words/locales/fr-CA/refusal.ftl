### Why an act is refused, and what to do: texts of errors that a person reads.

## Storage

refusal-store-failed = Cet appareil n’a pas pu écrire le registre. Les inscriptions enregistrées sont conservées. Réessayer.
refusal-store-full = Plus d’espace sur cet appareil. Les inscriptions enregistrées sont conservées. Libérer de l’espace, puis réessayer.
refusal-store-busy = Une autre fenêtre ou un autre programme utilise ces registres. Le fermer, puis réessayer.
refusal-store-no-place = Les registres ne peuvent être conservés ici. Utiliser une fenêtre normale du navigateur ou un autre dossier.
refusal-store-too-new = Une version plus récente de l’application a écrit ces registres. Mettre l’application à jour.

## Data from outside that does not verify; nothing is changed by it

refusal-change-unreadable = Ces données ne peuvent être lues comme des registres. Rien n’a été modifié.
refusal-change-not-allowed = Ces données ne sont pas un simple ajout d’inscriptions. Elles ont été refusées et rien n’a été modifié.
refusal-device-copied = Cet appareil a été copié ou restauré d’une sauvegarde. Aviser le bureau avant de consigner autre chose.
refusal-entry-unreadable = Ce n’est pas une inscription signée de Farsiding. Rien n’a été modifié.
refusal-signature = La signature ne se vérifie pas. Les données ont été modifiées ou une autre clé les a signées.
refusal-other-signer = Une autre clé que la clé exigée a signé ceci.
refusal-person-signature = La signature de la personne ne se vérifie pas. Déverrouiller la clé, puis signer de nouveau.
refusal-key-unknown = Une clé qui n’est pas connue ici comme celle de l’organisation a signé ceci.
refusal-key-period = La clé de l’organisation n’était pas en vigueur à ce moment.
refusal-key-withdrawn = L’organisation a retiré la clé qui a signé ceci.
refusal-certificate = Ce certificat d’appareil se contredit. En demander un autre au bureau.
refusal-no-device-key = Cette clé ne peut être celle d’un appareil. Inscrire l’appareil de nouveau.
refusal-of-later-version = Une version plus récente a écrit ceci. Mettre l’application à jour.

## Entries that are not made

refusal-entry-too-large = L’inscription est trop longue. Raccourcir le texte.
refusal-no-reason = Donner une raison. Une inscription qui en remplace une autre l’exige.
refusal-person-code = Le code d’une personne compte de 1 à { $most } caractères visibles, sans espace aux extrémités.
refusal-person-name = Le nom d’une personne compte au plus { $most } octets. Le raccourcir.
refusal-skip-without-reason = Donner une raison pour sauter l’étape.
refusal-done-later = L’heure où c’était fait est à venir. Corriger l’heure.
refusal-done-before-visit = L’heure où c’était fait précède le début de la visite. Corriger l’heure, ou inscrire quand le wagon a été placé.
refusal-override-without-reason = Donner une raison pour la dérogation.
refusal-about-nothing = Choisir les inscriptions visées par cette décision.
refusal-item-without-name = Nommer l’outil ou l’accessoire.
refusal-note-empty = Dire ce que la prochaine personne doit savoir.
refusal-paper-expected = Un document envoyé à un site a besoin d’un numéro de wagon de forme usuelle et de textes courts.
refusal-level = Un niveau est entre 0 et 100 %.
refusal-statement-unknown = Cette version ne peut faire ce type d’inscription. Mettre l’application à jour.
refusal-not-in-disagreement = Cette inscription ne fait partie d’aucun désaccord ouvert. Le registre a pu changer; regarder de nouveau.
refusal-not-resolved = Cette inscription ne fait partie d’aucune décision annulable. Le registre a pu changer; regarder de nouveau.
refusal-not-in-record = Cette inscription n’est pas dans ce registre.
refusal-no-open-item = Ce n’est plus un point ouvert. Le registre a pu changer; regarder de nouveau.
refusal-still-open = Non libéré. Points ouverts : { $items }
refusal-released-otherwise = Le registre dit que le wagon part { $load }. Le libérer ainsi, ou corriger le départ.
refusal-not-fit-to-unload = Non signé prêt à décharger. Points ouverts : { $items }
refusal-no-gate = La procédure de ce registre n’a pas ce contrôle.
refusal-not-here = Ce registre n’est pas sur cet appareil. Synchroniser, puis regarder de nouveau.
refusal-no-operator = Indiquer d’abord qui est là.

## PIN and key of a person

refusal-pin-not-six-digits = Un NIP compte six chiffres.
refusal-pin-too-easy = Ce NIP est trop facile à deviner. En choisir un autre.
refusal-pin-wrong =
    { $left ->
        [one] NIP erroné. Il reste { $left } essai.
       *[other] NIP erroné. Il reste { $left } essais.
    }
refusal-pin-wait = Trop de NIP erronés. Attendre, puis réessayer.
refusal-pin-locked = La clé a été supprimée après { $tries } NIP erronés. Aviser le bureau, puis créer une nouvelle clé.
refusal-pin-no-key = Aucune clé sur cet appareil pour { $person }.
refusal-pin-has-key = Une clé se trouve déjà sur cet appareil pour { $person }.
refusal-pin-ended = Le bureau a mis fin à cette clé. En créer une nouvelle.
refusal-pin-nothing-beside = Le secret de l’appareil manque. Fermer l’application, puis la rouvrir.
refusal-pin-damaged = La clé conservée ne peut être lue. Aviser le bureau, puis créer une nouvelle clé.

## Sync with the office

refusal-not-the-office = La réponse ne vient pas du bureau. Vérifier le réseau (page de connexion?) et l’adresse.
refusal-other-request = Le bureau a répondu à une autre demande. Synchroniser de nouveau.
refusal-not-enrolled = Cet appareil n’est pas inscrit. Demander au bureau un code à usage unique.
refusal-still-differs = Après { $rounds } échanges, les registres diffèrent encore de ceux du bureau. Synchroniser plus tard.
refusal-request-unreadable = Le bureau ne peut lire la demande de cet appareil. Mettre l’application à jour.
refusal-unknown-device = Cet appareil n’est pas inscrit auprès de cette organisation. S’adresser au bureau.
refusal-revoked = Le bureau a révoqué cet appareil. S’adresser au bureau.
refusal-too-much = L’appareil a demandé trop de choses à la fois. Synchroniser de nouveau.

## The office’s log contradicts what was shown before

refusal-log-rewritten = Le journal du bureau a été réécrit. Il ne commence plus par ce qui a été montré à cet appareil.
refusal-log-two-versions = Le bureau a signé deux versions différentes de son journal. Les deux ne peuvent être vraies.
refusal-log-shorter = Le journal du bureau est plus court qu’avant; des inscriptions manquent. Le bureau doit déclarer une sauvegarde restaurée.
refusal-log-another = Le bureau montre un autre journal qu’avant et n’a pas déclaré pourquoi.
refusal-log-entry-missing = Le bureau a donné un accusé pour une inscription absente de son journal.
refusal-log-proof-fails = La preuve du bureau que des inscriptions sont dans son journal ne se vérifie pas. L’appareil la redemandera.
refusal-log-two-roots = La clé racine de l’organisation a signé deux déclarations différentes; quelqu’un d’autre la possède. S’adresser au bureau.

## The shell

refusal-wrong-call = Erreur de l’application. Les inscriptions sont enregistrées. Aviser le bureau.
