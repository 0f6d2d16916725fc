### The page of shipping papers: files taken in, and papers without a record.

office-papers-title = Documents d’expédition
office-papers-unreadable = Le fichier est illisible. { $why }. Rien n’a été importé.
office-papers-lead = Importer les documents d’expédition sous forme de tableau : en-têtes à la première ligne; virgule, point-virgule ou tabulation entre les colonnes. Rien n’est enregistré avant la vérification de l’aperçu.
office-papers-file = Un fichier
office-papers-csv = CSV, jusqu’à 2 Mo
office-papers-preview = Aperçu
office-papers-text = Ou son texte
office-papers-name = Nom
office-papers-lines = Lignes copiées, en-têtes d’abord
office-papers-preview-text = Aperçu du texte
office-papers-files = Fichiers importés
office-papers-no-files = Aucun pour l’instant.
office-papers-files-label = Fichiers
office-papers-file-head = Fichier
office-papers-taken = Importé
office-papers-taken-by = { $time }, par { $by }
office-papers-tables = Exportations
office-papers-tables-note = Le mois en classeur, CSV ou JSON :
office-papers-reconcile = Rapprochement
office-papers-packets-note = Dossiers de preuve d’un mois entier :
office-papers-unmatched = Documents d’expédition des 100 derniers jours sans dossier
office-papers-of = { $count } sur { $all }
office-papers-all-matched = Chaque document a son wagon.
office-papers-paper = document { $number }, { $day }, { $shipper }
office-papers-near = À un caractère près, sans document propre :
office-papers-not-whole = Le fichier est revenu incomplet. Le choisir de nouveau.
office-papers-choose = Choisir un fichier ou coller son texte.
office-papers-as-last = Colonnes comme au dernier fichier ayant ces en-têtes.
office-papers-new-heads = Ces en-têtes sont nouveaux. Choisir les colonnes.
office-papers-as-said = Colonnes telles que choisies.
office-papers-good = { $good } lignes sur { $all } peuvent être importées. Les autres restent dans le fichier, qui est conservé en entier.
office-papers-no-column = absent de ce fichier
office-papers-unit = Unité d’une quantité sans unité
office-papers-refresh = Actualiser
office-papers-take =
    { $count ->
        [one] Importer { $count } document
       *[other] Importer { $count } documents
    }
office-papers-lines-label = Lignes
office-papers-line = Ligne
office-papers-paper-head = Document
office-papers-car = Wagon
office-papers-shipper = Expéditeur
office-papers-day = Jour
office-papers-billed = Facturé
office-papers-wrong = Problème
office-papers-more =
    { $count ->
        [one] et { $count } autre ligne
       *[other] et { $count } autres lignes
    }
office-papers-previewed = Documents d’expédition, aperçu
office-papers-first = Voir d’abord l’aperçu du fichier.
office-papers-no-file = Ce fichier n’existe pas.
office-papers-no-heads = Le fichier n’a pas de première ligne avec les en-têtes de colonne. Rien n’a été importé.

## Columns of a file of shipping papers

office-column-number = Numéro du document
office-column-car = Numéro du wagon
office-column-mark = Marque seulement
office-column-shipper = Expéditeur
office-column-day = Jour
office-column-billed = Quantité facturée
office-column-density = Densité relative
office-column-un_number = Numéro UN
office-column-product = Appellation réglementaire
office-column-odorised = Odorisé
office-column-grade = Grade
office-column-billed_by = Facturé selon (table, compteur ou balance)
office-column-winter_fill = Rempli aux limites d’hiver
office-column-expected = Attendu le

## Documents envoyés aux sites

office-papers-says = Ce que dit le document
office-papers-expected = Wagon attendu
office-papers-send-to = Envoyer à un site
office-papers-send-title = Envoyer des documents d’expédition à un site
office-papers-send-lead = Les téléphones du site montrent alors ces wagons comme attendus, avec ce que { $file } dit de chacun. Au wagon, le numéro se lit toujours sur le wagon, et le document en main est comparé.
office-papers-send-nothing = Aucune ligne de ce fichier ne peut être envoyée.
office-papers-send-site = Site
office-papers-send-choose = Choisir un site
office-papers-send-note = Les documents récents sont choisis. Un wagon qui figure deux fois au fichier est ici une fois, avec son dernier document.
office-papers-send-do = Envoyer les documents choisis
office-papers-send-choose-site = Choisir le site auquel vont les documents.
office-papers-send-choose-lines = Choisir au moins un document.
office-papers-send-too-many = Choisir au plus { $most } documents.
office-papers-send-stand-there = Ces documents sont déjà au site. Rien n’a été envoyé.
office-papers-sent = Envoyés aux sites
office-papers-none-sent = Rien n’a été envoyé à un site.
office-papers-site = Site
office-papers-sent-at = Envoyé
office-papers-became = Arrivée
office-papers-came = ici depuis le { $day }
office-papers-waits = attendu
office-papers-waited = pas venu à temps; n’est plus montré
office-papers-two = Deux documents pour ce wagon diffèrent. Envoyer de nouveau le bon.
office-papers-take-back = Retirer
office-papers-take-back-because = Pourquoi il est retiré
office-papers-take-back-do = Retirer ce document
office-papers-take-back-why = Dire en 400 caractères au plus pourquoi le document est retiré.
office-papers-not-sent = Ce document n’est pas au site.
