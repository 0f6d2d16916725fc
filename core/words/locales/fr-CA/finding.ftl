### What is pointed out about a record. A finding refuses nothing.

## The car, its paper, its dates

finding-car-number-unusual = « { $car } » n’a pas la forme habituelle d’un numéro de wagon. Conservé tel quel.
finding-car-number-check-digit = Le chiffre de contrôle de { $car } ne concorde pas. Relire le numéro.
finding-car-number-differs = Le numéro a été lu { $first }, puis { $again }. Quel wagon est-ce?
finding-paper-for-another-car = Le document d’expédition est pour { $paper }; le wagon est { $car }.
finding-paper-not-as-sent = Le document d’expédition diffère du fichier du bureau ({ $source }) : { $differences }.
finding-expected-number-near = Un document d’expédition est arrivé pour { $expected }, à un caractère près de { $car }. Relire le numéro sur le wagon ({ $source }).
finding-not-odorized = Le document d’expédition dit que le produit n’est pas odorisé.
finding-capacity-differs = La capacité de la citerne diffère de celle d’une visite précédente. Relire le marquage.
finding-test-overdue = Date d’essai échue : { $test }, { $due }. Le wagon peut partir vide; il ne peut être rempli (49 CFR 173.31(a)(3), lu). Aviser le propriétaire.
finding-test-date-unreadable = La date d’essai « { $due } » ne peut être lue ({ $test }).
finding-known-defect = Défectuosité d’une visite précédente, non réparée d’après ce qui est connu ici : { $defect } ({ $who }).
finding-written-approval-overdue = L’approbation pour « { $defect } » était verbale et n’est pas confirmée par écrit. Échéance : { $due } (deux semaines, 49 CFR 174.50, lu).
finding-approval-without-reference = L’approbation pour « { $defect } » n’a pas de référence.
finding-defect-not-reported = Personne n’a encore signalé « { $defect } ».

## The record

finding-unreadable =
    { $count ->
        [one] { $count } inscription de ce registre est endommagée et illisible ici. Son contenu n’est pas montré.
       *[other] { $count } inscriptions de ce registre sont endommagées et illisibles ici. Leur contenu n’est pas montré.
    }
finding-procedure-unknown = La procédure de ce dossier n’est pas encore ici. Celle qui est intégrée s’affiche jusqu’à son arrivée; synchronisez d’abord.
finding-procedure-leaves-out =
    La procédure omet ou allège : { $what }{ $laws ->
        [0] { "" }
       *[other] { " " }({ $laws })
    }. Raison : { $because }.
finding-procedure-without = La procédure omet une pratique courante : { $what }.
finding-hold-too-short = Le maintien de pression a duré { $minutes } minutes. La procédure en demande { $least }.
finding-entry-misfiled = Une inscription est classée ailleurs que ce qu’elle dit : { $entry }
finding-agreement-on-missing = Une divergence a été réglée en faveur d’une inscription absente ici.
finding-skipped-without-reason = L’étape « { $step } » a été omise sans raison. Elle reste à faire.
finding-step-not-right =
    Non conforme : { $step }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }
    }
finding-check-not-right =
    Non conforme : { $what }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }
    }
finding-out-of-order = « { $later } » a été consignée avant « { $earlier } ».
finding-two-lines-open = Ouverte alors qu’une autre conduite n’était pas fermée : { $second }; l’autre : { $first }. Une conduite à la fois.
finding-vapor-not-last = La conduite de vapeur a été enlevée avant la dernière de liquide. Avec la conduite de vapeur en place, la récupération peut continuer si du liquide apparaît.
finding-item-back-unknown = { $item } : rendu, mais personne ne l’a consigné comme sorti. Le nom est-il juste?
finding-chain-gaps = { $gaps }
finding-entries-not-counted = { $reasons }
finding-entries-not-counted-for =
    { $count ->
        [one] { $count } inscription { $reason }.
       *[other] { $count } inscriptions { $reason }.
    }
finding-override-fell = La dérogation « { $item } » ne tient pas : { $why }.
finding-released-over-open-items =
    Remis avec { $count ->
        [one] { $count } point ouvert
       *[other] { $count } points ouverts
    } sans dérogation.
finding-unloaded-over-open-items =
    Le déchargement a commencé avec { $count ->
        [one] { $count } point ouvert
       *[other] { $count } points ouverts
    } sans dérogation.
finding-fit-over-open-items =
    Signé prêt à décharger avec { $count ->
        [one] { $count } point ouvert
       *[other] { $count } points ouverts
    } sans dérogation.
finding-empty-against-evidence = Le wagon a été accepté comme vidé, mais les valeurs consignées montrent du liquide.

## Clocks, devices

finding-clock-off =
    L’horloge de { $device } est { $by } { $way ->
        [fast] en avance
       *[other] en retard
    }. Les heures sont corrigées, l’heure déclarée à côté.
finding-device-standing = { $device } : { $warning }.
finding-from-the-future =
    { $count ->
        [one] { $count } inscription déclare une heure à venir. Une horloge est fausse.
       *[other] { $count } inscriptions déclarent une heure à venir. Une horloge est fausse.
    }
finding-done-impossible = Une inscription dit avoir été faite après sa saisie, ou avant le début de la visite : { $entry }
finding-clock-set-back = L’horloge de { $device } a été reculée pendant la visite.
finding-far-from-the-others =
    { $count ->
        [one] { $count } inscription déclare une heure à plus d’un mois des autres. Elle figure aux tableaux, pas aux graphiques.
       *[other] { $count } inscriptions déclarent une heure à plus d’un mois des autres. Elles figurent aux tableaux, pas aux graphiques.
    }
finding-code-is-none =
    { $count ->
        [one] { $count } inscription nomme sa personne par un code non valide (1 à 64 caractères). Montré abrégé.
       *[other] { $count } inscriptions nomment leur personne par un code non valide (1 à 64 caractères). Montré abrégé.
    }

## Kept as typed and not used

finding-unused =
    Conservé tel quel, ni tracé ni calculé : { $entries }{ $more ->
        [0] { "" }
       *[other] { " " }Et { $more } de plus.
    }
finding-unused-entry = « { $entry } » { $why }.
finding-unused-bolts = compte plus de boulons que tout couvercle
finding-unused-rows = a des lignes impossibles, ou plus que toute table
finding-unused-cannot-be = n’est pas une quantité possible
finding-unused-does-not-fit = a un nombre qui ne correspond pas au texte
finding-unused-not-read = commence comme un nombre et n’est pas compris

## Instruments, hoses, seals, signs, people

finding-instrument-unknown = { $name } n’est pas un instrument du site.
finding-calibration-overdue = L’étalonnage de { $name } était dû { $due }.
finding-hose-unknown = Le flexible { $name } n’est pas du site.
finding-hose-test-overdue = L’essai du flexible { $name } était dû { $due }.
finding-seal-not-from-stock = Le scellé { $number } n’a pas été remis à ce site.
finding-frost-ring = Anneau de givre sur la citerne : du liquide bout à l’intérieur, ou la citerne refroidit là où elle ne devrait pas. Arrêter et trouver la cause.
finding-blue-sign-not-up = Une conduite est raccordée et le signal bleu n’est pas consigné en place. Le poser.
finding-training-overdue = La dernière formation inscrite de { $person } date de plus de trois ans (49 CFR 172.704, de mémoire).
finding-handover-one-sided = La relève de { $from } à { $to } n’est signée que par { $by }.
finding-attendance-gap =
    { $minutes } min sans inscription alors qu’une conduite était raccordée, { $valves ->
        [closed] robinets consignés fermés
       *[other] un robinet consigné ouvert
    } : { $shown }.{ $left ->
        [yes] { " " }Quelqu’un a consigné son départ.
       *[other] { "" }
    }

## Incidents, leaks, how a car is left

finding-incident-open = Incident ouvert : { $incident }. Le travail reprend quand il est clos.
finding-incident-telephone =
    { $binds ->
        [must] Rapport téléphonique à faire
       *[other] Vérifier si un rapport téléphonique est exigé
    }, avant { $due }{ $late ->
        [yes] , échu
       *[other] { "" }
    } : { $incident }. La règle donne 12 heures en cas de décès, d’hospitalisation, ou d’une heure d’évacuation ou d’interdiction (49 CFR 171.15, lu { $read }; au Canada, voir TMD 8.2 et 8.4).
finding-incident-written =
    { $binds ->
        [must] Rapport écrit à faire
       *[other] Vérifier si un rapport écrit est exigé
    }, avant { $due }{ $late ->
        [yes] , échu
       *[other] { "" }
    } : { $incident }. La règle donne 30 jours, sauf un rejet minime au branchement ou au débranchement sans dommage (49 CFR 171.16, lu { $read }).
finding-leak-open = Fuite ouverte : { $leak }. Le travail reprend quand elle est vérifiée étanche.
finding-left-for-next = De la visite précédente : { $says } ({ $who })
finding-not-in-order = { $says } La prochaine visite le montre jusqu’à ce qu’un bon état ou un état normal soit inscrit.
finding-tank-unknown = Le réservoir { $name } n’est pas du site.
finding-hose-pressure = Le flexible de { $fitting } tient encore { $amount } après la baisse de pression ; jusqu’à { $most } est usuel (pratique courante, sans source). Baisser encore avant de le purger.
finding-suction-above = L’aspiration du compresseur ({ $suction }) dépasse son refoulement ({ $discharge }). Vérifier le robinet à quatre voies et les manomètres.
finding-inspection = L’inspection de { $by } a trouvé : { $finding }
finding-protect-again = Le wagon a été déplacé ou laissé. Mettre et consigner de nouveau : { $again }.
finding-track-ended = Repris de { $car } : « { $says } » Là, c’est terminé depuis { $time }. S’en occuper à ce wagon et consigner de nouveau.
finding-left-with-line = Le wagon a été laissé comme débranché, et un flexible est consigné branché ({ $who }).
finding-left-at-tank = Le wagon a été laissé branché. À un réservoir fixe, quelqu’un reste jusqu’à ce que les flexibles soient retirés (29 CFR 1910.110(b)(14)(i), (b)(15)(iv), lu { $read }; exceptions (i)(2)). 49 CFR 174.67(k) ne vaut que pour le transbordement.
finding-left-at-truck = Le wagon a été laissé branché. Pas consigné, de ce que demande 49 CFR 174.67(k) (lu { $read }) : { $missing }.
finding-released-otherwise = Le wagon a été libéré autrement que dit ({ $load }). Corriger l’un des deux.

## From formulas

finding-of-fitting = Au point { $fitting } : { $says }
finding-receiving-tank = Réservoir récepteur tel qu’il est : { $says }
finding-no-freeze-advice = Aucun conseil sur le gel : { $why }.
