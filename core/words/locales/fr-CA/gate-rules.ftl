### What the rules of the two gates say while something is missing, and what is said of what is there.

gate-unload = Prêt à décharger
gate-release = Prêt à libérer
gate-nothing-open = Rien ne manque, ou tout a fait l’objet d’une dérogation avec une raison.
gate-signed = Signé : { $who }.
gate-not-signed = Non signé.
gate-signed-and-open = { $signed } Points ouverts : { $items }
gate-there = En place : { $count }
gate-met-by = { $what } ({ $who })
gate-number-read-once = Numéro du wagon lu une seule fois, sans photographie. Le relire sur le marquage au pochoir, ou le photographier.
gate-paper-missing = Document d’expédition non consigné. Le comparer avec le wagon et le consigner.
gate-paper-without-car = Le document d’expédition consigné ne nomme aucun wagon. Inscrire le numéro du wagon qui y figure.
gate-product-not-taken = Cette procédure ne vise pas { $number }. Arrêter et appeler le bureau.
gate-product-not-named = Le produit n’est pas consigné. Inscrire le numéro UN du document d’expédition.
gate-protection-not-set = Non consigné comme en place : { $protection }. Le mettre en place et le consigner.
gate-shut-off-not-tried = Arrêt d’urgence non consigné comme essayé. L’essayer et le consigner.
gate-weather-missing = Temps et vent non consignés. Les consigner.
gate-escape-route-open = Voie d’évacuation non confirmée. La parcourir et le consigner.
gate-step-open = Étape non faite : { $step }. Faites-la et inscrivez-la.
gate-seals-not-found = Scellés non consignés tels que trouvés. Regarder chaque scellé et le consigner.
gate-fittings-not-found = Fermetures non consignées telles que trouvées : { $fittings }. Regarder chaque fermeture et la consigner.
gate-arrival-pressure-missing = Pression à l’arrivée non lue au wagon. La lire et la consigner.
gate-arrival-pressure-not-a-number = La pression à l’arrivée ne peut être lue comme un nombre. La relire et la consigner.
gate-finding-stands = { $finding } Trouver d’abord la cause.
gate-tank-level-missing = Niveau du réservoir récepteur non lu. Le lire et le consigner.
gate-tank-level-not-a-number = Le niveau du réservoir récepteur ne peut être lu comme un nombre. Le relire et le consigner.
gate-check-missing = Vérification non consignée, ou pas depuis le débranchement de la dernière conduite : { $check }. La faire et la consigner.
gate-overfilled = Le wagon semble trop rempli. { $alarm }
gate-last-round-missing = Fermetures non vérifiées depuis le dernier travail sur le wagon : { $fittings }. Mettre la main sur chaque fermeture, écouter et consigner la dernière ronde.
gate-liquid-sign = Un signe de liquide figure au registre ({ $sign }). Retirer le liquide, regarder de nouveau et consigner ce qui est vu.
gate-final-pressure-early = La pression finale a été lue avant le débranchement de la dernière conduite. La relire au wagon.
gate-final-pressure-off-scale = La pression finale est hors de l’échelle de son manomètre. La lire sur un manomètre qui convient.
gate-final-pressure-span = L’échelle du manomètre { $instrument } ({ $span }) est trop large pour la pression finale. La lire sur un manomètre à basse plage.
gate-final-pressure-span-unknown = Le manomètre { $instrument } n’est pas sur la liste du site; son échelle n’est pas connue. Lire la pression finale sur un manomètre à basse plage de la liste.
gate-photo-missing = Photographie absente : { $photo }. La prendre.
gate-sign-down-while-connected = Une conduite était branchée sans le signal bleu : { $entry }
gate-unloading-not-cleared = Le déchargement a commencé avant que quelqu’un signe « prêt à décharger » : { $entry }
gate-protection-out-of-order =
    Consigné hors d’usage : { $protection }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Le réparer, l’essayer de nouveau et le consigner.
gate-check-not-right =
    Vérification consignée non conforme : { $check }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Corriger, vérifier de nouveau et le consigner.
gate-step-not-right =
    Étape consignée non conforme : { $step }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    } Corriger, refaire l’étape et la consigner.
gate-alarm-unanswered = Alarme sans réponse. { $alarm }

## What is there

gate_met-line_connected = Toutes les conduites débranchées
gate_met-valve_not_shut = Tous les robinets fermés
gate_met-listen_missing = Écoute faite après la fermeture de chaque robinet
gate_met-hiss_heard = Aucune fuite entendue
gate_met-closure_not_tool_tight = Toutes les fermetures serrées à l’outil
gate_met-threads_one_or_less = Filets en prise, ou signalés
gate_met-unreadable_entries = Toutes les inscriptions sont lisibles
gate_met-not_opened = Registre ouvert pour ce wagon
gate_met-empty_not_accepted = Confirmation de la vidange acceptée
gate_met-empty_contradicted = Aucun signe de liquide
gate_met-final_pressure_missing = Pression finale lue au wagon
gate_met-final_pressure_doubtful = Pression finale lue en dernier, sur un manomètre qui convient
gate_met-item_out = Tout est rendu
gate_met-cover_not_closed = Couvercle fermé après le dernier travail
gate_met-cover_not_pinned = Goupille de l’enceinte posée
gate_met-cover_bolts = Tous les boulons du couvercle en place
gate_met-seal_incomplete = Dossier du scellé complet
gate_met-seal_missing = Scellé apposé, ou raison donnée
gate_met-blue_sign_down_early = Signal bleu en place jusqu’à ce que toutes les fermetures soient serrées
gate_met-hold_open = Aucune retenue
gate_met-disagreement = Aucune inscription ne diverge
gate_met-authority_missing = Aucune approbation manquante
gate_met-alarm = Aucune alarme sans réponse
gate_met-doubt = Les lectures concordent
gate_met-number_not_checked = Numéro du wagon lu deux fois ou photographié
gate_met-paper_not_compared = Document d’expédition comparé avec le wagon
gate_met-product_not_taken = Le produit est un de ceux qui sont reçus
gate_met-protection_not_set = En place : { $of }
gate_met-protection_out_of_order = Aucune protection hors d’usage
gate_met-not_recorded_as_found = Consigné tel que trouvé : { $of }
gate_met-check_missing = Vérifié : { $of }
gate_met-check_not_right = Aucune vérification consignée non conforme
gate_met-step_open = Étape faite : { $of }
gate_met-step_not_right = Aucune étape consignée non conforme
gate_met-reading_missing = Lu : { $of }
gate_met-photo_missing = Photographié : { $of }
gate_met-last_round_missing = Dernière ronde de toutes les fermetures faite
gate_met-sign_down_while_connected = Signal bleu en place chaque fois qu’une conduite était branchée
gate_met-incident_open = Aucun incident ouvert
gate_met-leak_open = Aucune fuite ouverte
gate_met-outcome_unexplained = Départ du wagon expliqué

## What an item is about

gate_of-overfilled = trop rempli
gate_of-unloading_not_cleared = déchargement sans signature
gate_of-unloaded_over_open_items = déchargement avec des points ouverts
gate_of-weather = temps
gate_of-seals = scellés
gate_of-housing = fermetures sous le couvercle
gate_of-arrival_pressure = pression à l’arrivée
gate_of-tank_level = niveau du réservoir
gate_of-escape_way = voie d’évacuation
gate_of-car_number_differs = numéro du wagon différent
gate_of-paper_for_another_car = document d’un autre wagon
gate_of-not_odorised = non odorisé
gate_of-procedure_unknown = procédure pas encore ici
gate_of-unreadable_entries = inscriptions illisibles
gate_of-known_defect = défectuosité connue
gate_of-blue_sign_not_up = signal bleu absent
gate_of-frost_ring = anneau de givre
gate_of-empty_against_evidence = les lectures indiquent du liquide
gate_of-attendance_gap = intervalle sans surveillance
gate_of-does_not_fit = pas de place dans le réservoir
gate_of-liquid_full_when_warm = réservoir plein une fois réchauffé
gate_of-pressure_above_saturation = pression à l’arrivée trop haute
gate_of-pressure_below_saturation = pression à l’arrivée trop basse
