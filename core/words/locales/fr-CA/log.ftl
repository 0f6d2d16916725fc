### The event log: each entry as one sentence, with the fields of its kind as arguments. A field that is not filled in is the number 0.

## How entries lean on each other

log-voided = Annulée : { $entries }.
log-settled = Réglée; conservée : { $entry }.
log-corrects = { $says } Corrige { $entries }.
log-quote = « { $claim } »
log-quotes = { $quotes }
log-not-here = inscription { $entry } (absente ici)
log-more = { $count } de plus
log-done = { $says } Fait { $done }, inscrit { $entered }.
log-rests_on = { $says } S’appuie sur l’inscription de { $time } pour { $car } ({ $entry }).
log-rests_on_unknown = { $says } S’appuie sur une inscription pour un autre wagon, { $entry } (absente ici).
log-nothing = rien
log-withdrawn = Annulée.
log-agreement = Réglée.

## Each kind of entry

log-opened =
    Registre de { $car } ouvert{ $spot ->
        [0] { "" }
       *[other] , emplacement { $spot }
    }{ $receiver ->
        [0] { "" }
       *[other] , vers : { $receiver }
    }.
log-paper = Document d’expédition : { $parts }.
log-paper-nothing = Document d’expédition : rien d’inscrit.
log-paper-number = numéro { $text }
log-paper-car = wagon { $text }
log-paper-shipper = de { $text }
log-paper-billed = facturé { $amount }
log-paper-density = densité relative { $amount } à 60 °F
log-paper-odorized = odorisé
log-paper-not-odorized = NON odorisé
log-paper-grade = qualité { $grade }
log-paper-billed-by = facturé par { $by }
log-paper-winter = rempli selon les limites d’hiver
log-paper-not-winter = non rempli selon les limites d’hiver
log-paper-compared = { $says } Comparé au document en main; lu par l’importation du bureau : { $source }.
log-paper-compared-elsewhere = { $says } Comparé au document en main; l’inscription { $entry } du bureau n’est pas dans ce dossier.
log-clock = Heure, { $event } : { $at }.
log-reading =
    Valeur lue, { $title } : { $amount }{ $instrument ->
        [0] , instrument non nommé
       *[other] , sur { $instrument }
    }.
log-step =
    Étape « { $step } » : { $outcome }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-valve = Robinet ({ $fitting }) : { $position }.
log-closure = Fermeture ({ $fitting }) : { $state }.
log-listen = Écoute ({ $fitting }) : { $heard }.
log-line =
    { $connected ->
        [yes] Conduite raccordée
       *[other] Conduite débranchée
    } ({ $fitting }){ $hose ->
        [0] { "" }
       *[other] , flexible { $hose }
    }.
log-effort = Couple de serrage à la fermeture ({ $fitting }, { $part }) : { $amount }.
log-threads = Filets en prise ({ $fitting }) : { $engaged }.
log-item_out =
    Sorti : { $item }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }. À rendre.
log-item_in = Rendu : { $item }.
log-seal =
    Scellé { $number ->
        [0] sans numéro lisible
       *[other] { $number }
    } ({ $kind ->
        [0] genre non précisé
       *[other] { $kind }
    }) : { $event }, { $place }, { $intact ->
        [yes] intact
       *[other] NON intact
    }{ $photo ->
        [0] { "" }
       *[other] , photographié
    }{ $note ->
        [0] { "" }
       *[other] . { $note }
    }{ $because ->
        [0] { "" }
       *[other] . Motif : { $because }
    }.
log-photo =
    Photographie : { $of }{ $about ->
        [0] { "" }
       *[other] { " " }({ $about })
    }, { $bytes } octets, { $digest }.
log-defect =
    Défectuosité{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    } : { $what }.{ $needs_authority ->
        [yes] { " " }Le wagon ne se déplace qu’avec une approbation.
       *[other] { "" }
    }
log-forwarded = Défectuosité signalée à { $to } ({ $how }).
log-authority =
    Approbation pour une défectuosité : { $by }, référence { $reference }{ $spoken_at ->
        [0] { "" }
       *[other] , de vive voix { $spoken_at }
    }{ $written_at ->
        [0] { "" }
       *[other] , par écrit { $written_at }
    }.
log-resolved = Défectuosité réparée : { $how }.
log-incident =
    INCIDENT : { $source }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }, constaté { $noticed_at }.{ $what ->
        [0] { "" }
       *[other] { " " }{ $what }.
    }{ $injury ->
        [0] { "" }
       *[other] { " " }Blessures : { $injury }.
    }{ $ignition ->
        [yes] { " " }Feu.
        [no] { " " }Pas de feu.
       *[other] { "" }
    }{ $evacuation ->
        [0] { "" }
       *[other] { " " }Évacuation : { $evacuation }.
    }{ $closed ->
        [yes] { " " }Route, voie ou installation interdite une heure ou plus.
        [no] { " " }Rien d’interdit une heure.
       *[other] { "" }
    }
log-incident_stopped =
    Incident arrêté { $at }{ $loss ->
        [0] { "" }
       *[other] , perte estimée { $loss }
    }.{ $minimal ->
        [yes] { " " }Quantité minime au branchement ou au débranchement, sans dommage.
        [no] { " " }Plus qu’une quantité minime.
       *[other] { "" }
    }
log-incident_call =
    Avisé de l’incident : { $to }, { $at }{ $number ->
        [0] { "" }
       *[other] , numéro { $number }
    }.
log-incident_closed = Incident clos : { $how }.
log-leak =
    FUITE : { $at }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }.{ $action ->
        [0] { "" }
       *[other] { " " }Mesure prise : { $action }.
    }
log-leak_checked =
    Fuite vérifiée de nouveau : { $tight ->
        [yes] étanche
       *[other] FUIT ENCORE
    }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-car_left =
    Wagon laissé, { $connected ->
        [yes] branché
       *[other] débranché
    }{ $until ->
        [0] { "" }
       *[other] , jusqu’à { $until }
    }.{ $conditions ->
        [0] { "" }
       *[other] { " " }Assuré : { $conditions }.
    }{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }
log-car_moved =
    Wagon déplacé pendant son séjour{ $to ->
        [0] { "" }
       *[other] , vers { $to }
    }{ $by ->
        [0] { "" }
       *[other] , par { $by }
    }.
log-outcome =
    Le wagon part { $load } : { $because }{ $to ->
        [0] { "" }
       *[other] , vers { $to }
    }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }
log-next_time =
    La prochaine fois : { $what }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }.
log-next_time_done =
    Note pour la prochaine fois réglée{ $how ->
        [0] { "" }
       *[other]  : { $how }
    }.
log-valve_feel = Le robinet de { $fitting } a tourné : { $feel }.
log-plug_condition =
    Bouchon de { $fitting } : { $state }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-cover_condition =
    Couvercle de l’enceinte, { $part } : { $state }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-hose_pressure = Flexible de { $fitting } après la baisse de pression : { $amount }.
log-hold = RETENU : { $because }.
log-hold_lifted = Retenue levée : { $because }.
log-handover_given = Relève donnée à { $to }.
log-handover_taken = Relève prise de { $from }.
log-attendance = Surveillance : { $presence }.
log-checked_in = Tout va bien, dit qui a le wagon.
log-cover =
    Couvercle de l’enceinte { $closed ->
        [yes] fermé
       *[other] ouvert
    }, goupille { $pinned ->
        [yes] posée
       *[other] enlevée
    }, { $bolts_in_place } boulons sur { $bolts_required } en place.
log-protection = Protection, { $what } : { $state }.
log-weather =
    Météo : { $precipitation }{ $wind ->
        [0] { "" }
       *[other] , vent { $wind }
    }.
log-empty_sign =
    Signe, { $sign } : { $seen ->
        [yes] oui
       *[other] non
    }.
log-empty_decision =
    { $accepted ->
        [yes] Vidange acceptée
       *[other] Vidange NON acceptée
    } : { $grounds }.
log-truck_load =
    Camion-citerne { $truck } chargé de { $amount }{ $ticket ->
        [0] { "" }
       *[other] , billet { $ticket }
    }{ $driver ->
        [0] { "" }
       *[other] , conducteur { $driver }
    }{ $level ->
        [0] { "" }
       *[other] , niveau { $level }
    }{ $temperature ->
        [0] { "" }
       *[other] , température { $temperature }
    }{ $seal ->
        [0] { "" }
       *[other] , scellé { $seal }
    }.
log-tank_gauged =
    Réservoir { $tank }, { $moment }{ $level ->
        [0] { "" }
       *[other] , niveau { $level }
    }{ $pressure ->
        [0] { "" }
       *[other] , pression { $pressure }
    }{ $temperature ->
        [0] { "" }
       *[other] , température { $temperature }
    }{ $meter ->
        [0] { "" }
       *[other] , compteur { $meter }
    }.
log-recovery_planned =
    Récupération prévue jusqu’à { $target }{ $swept ->
        [0] { "" }
       *[other] , compresseur { $swept }
    }{ $efficiency ->
        [0] { "" }
       *[other] , rendement { $efficiency }
    }{ $price ->
        [0] { "" }
       *[other] , prix du gallon { $price }
    }{ $cost ->
        [0] { "" }
       *[other] , coût d’une heure { $cost }
    }.
log-inspection =
    Inspecté par { $by }{ $looked_at ->
        [0] { "" }
       *[other]  : { $looked_at }
    }.{ $found ->
        [yes] { " " }Quelque chose à corriger.
        [no] { " " }Rien trouvé.
       *[other] { "" }
    }{ $finding ->
        [0] { "" }
       *[other] { " " }{ $finding }.
    }{ $copy_left ->
        [yes] { " " }Une copie a été laissée.
        [no] { " " }Aucune copie laissée.
       *[other] { "" }
    }
log-check =
    Vérification, { $what } : { $right ->
        [yes] conforme
       *[other] NON conforme
    }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-remark = Remarque : { $text }
log-joined = Même séjour que le registre { $other }.
log-not_joined = Pas le même séjour que le registre { $other }.
log-passed_over = Dérogation : { $item }.
log-overridden =
    Dérogation à « { $gate } », { $count ->
        [one] 1 point
       *[other] { $count } points
    } : { $items }. Raison : { $reason }.
log-last_round =
    Dernière ronde, tout en ordre : { $fittings }.{ $except ->
        [0] { "" }
       *[other] { " " }Exceptions : { $except }.
    }{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }{ $photo ->
        [0] { "" }
       *[other] { " " }Photographie { $photo }.
    }
log-fit_to_unload = Prêt à décharger.
log-released =
    Wagon remis{ $as_residue ->
        [yes] { " " }comme résidu
       *[other] , non comme résidu
    }.
log-car_number_again = Numéro relu sur le wagon : { $car }.
log-car_fittings =
    Dans l’enceinte protectrice : { $fittings }{ $gauging ->
        [0] { "" }
       *[other] . Dispositif de jaugeage : { $gauging }
    }{ $vapour_end ->
        [0] { "" }
       *[other] . Robinet de vapeur : { $vapour_end }
    }.
log-car_capacity =
    Capacité de la citerne { $capacity }{ $insulation ->
        [0] { "" }
       *[other] , { $insulation }
    }.
log-car_diameter = Diamètre intérieur { $diameter }.
log-outage_table =
    Table de creux { $name }, { $rows } lignes, gallons US de { $liquid ->
        [yes] liquide
       *[other] creux
    }.
log-car_test_date = Date d’essai, { $test } : échéance { $due }.
log-site = Site { $name }, fuseau horaire { $zone }.
log-tank = Réservoir { $name }, { $water_capacity }.
log-instrument = Instrument { $name } pour { $measures }, étendue { $span }.
log-hose = Flexible { $name } pour { $service }.
log-contact = Personne à joindre, { $role } : { $name }, { $telephone }.
log-seal_stock = Scellés { $from } à { $to } remis.
log-operator =
    { $named ->
        [0] { $operator } est { $name }.
       *[other] { $operator } est sur la liste des personnes; le nom est gardé à part.
    }
log-person_key = { $person } a créé une clé de NIP sur ce téléphone ({ $key }).
log-person_key_confirmed = Clé { $key } de { $person } confirmée.
log-person_key_ended = Clé { $key } de { $person } terminée.
log-name_forgotten = Le nom de { $person } a été retiré au bureau.
log-held_by = Ce téléphone est maintenant tenu par { $person }.
log-admitted = Inscription tardive { $entry } admise.
log-rules = Règles de l’organisation établies : NIP { $unlocking }.
log-unrecognised = Une inscription d’un genre que cette version ne connaît pas ({ $kind }). Elle est conservée entière.
log-procedure_published =
    Procédure { $procedure } publiée pour { $sites }, faite à partir de { $from }.{ $note ->
        [0] { "" }
       *[other] { " " }Changement : { $note }.
    }
log-procedure_withdrawn = Procédure { $procedure } retirée : { $because }.
log-paper_expected =
    Le wagon { $car } est attendu. { $paper } Lu dans { $file }, ligne { $line }.{ $expected ->
        [0] { "" }
       *[other] { " " }Attendu le { $expected }.
    }
log-paper_taken_back = Le document du wagon attendu { $car } est retiré : { $because }.
log-all-sites = tous les sites
log-sites =
    { $count ->
        [one] un site
       *[other] { $count } sites
    }
