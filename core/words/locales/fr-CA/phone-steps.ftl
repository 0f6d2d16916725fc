### Words on the phone for steps, what they ask for, and open items before release.

## Steps

phone-step-done = Fait
phone-step-later = Plus tard
phone-step-skip = Omettre, avec raison
phone-step-none = Aucune étape à faire
phone-step-skip_short = Omettre
phone-step-other = Autre réponse
phone-steps-title = Toutes les étapes
phone-steps-left =
    { $n ->
        [one] { $n } étape à faire
       *[other] { $n } étapes à faire
    }
phone-truck-which = Quel camion-citerne?
phone-caution = Attention
phone-local_first = Les codes locaux et les instructions du propriétaire priment.

## The transfer that goes on

phone-running-title = Transvasement en cours
phone-running-next =
    { $n ->
        [one] Prochain relevé dans { $n } minute
       *[other] Prochain relevé dans { $n } minutes
    }
phone-running-over = Transvasement terminé

## Steps that one key records

phone-together-all =
    { $n ->
        [one] Fait comme indiqué
       *[other] Les { $n } comme indiqué
    }
phone-together-read_on = Lire la suite
phone-together-not = Pas ainsi
phone-together-to =
    { $n ->
        [0] Répondre à cette étape
        [one] Consigner { $n } comme indiqué, puis répondre
       *[other] Consigner { $n } comme indiqué, puis répondre
    }
phone-together-type =
    { $n ->
        [one] Taper { $n } relevé
       *[other] Taper { $n } relevés
    }

## Open items and release

phone-gate-short =
    { $n ->
        [one] ouvert
       *[other] ouverts
    }
phone-gate-next = Suite
phone-gate-in_way = Point ouvert
phone-gate-open =
    { $n ->
        [one] point ouvert
       *[other] points ouverts
    }
phone-gate-none = Aucun point ouvert au registre
phone-gate-holding = Continuer d’appuyer
phone-gate-tap = Impossible de maintenir? Toucher deux fois
phone-gate-tap_again = Toucher encore pour signer
phone-gate-note = Voici ce qui a été consigné. Cela ne déclare pas le wagon sûr.
phone-gate-missing =
    { $n ->
        [one] { $n } point ouvert
       *[other] { $n } points ouverts
    }
phone-gate-passed = Dérogation de { $name } : { $why }
phone-released = Libéré
phone-blocker-pass = Déroger, avec raison
phone-blocker-note = Le registre garde le nom et la raison. Le point se rouvre si le registre change.
phone-blocker-go = Aller le faire
phone-blocker-gone = N’est plus ouvert
phone-join-do = Même séjour
phone-join-not = Pas le même
phone-join-note = Les registres joints s’affichent en un seul. Les deux restent entiers.

## What a step asks for

phone-protection-set = En place
phone-protection-away = Pas en place
phone-presence-here = Je surveille le wagon
phone-presence-away = Je quitte
phone-what-seen = Qu’avez-vous vu?
phone-ask-opened = Numéro du wagon
phone-ask-car_number_again = Numéro du wagon, encore
phone-ask-paper = Document d’expédition
phone-ask-cover = Couvercle
phone-ask-weather = Météo
phone-ask-empty_decision = Liquide sorti?
phone-ask-truck_load = Charge du camion
phone-ask-car_fittings = Accessoires de l’enceinte
phone-ask-car_capacity = Capacité de la citerne
phone-ask-car_diameter = Diamètre intérieur
phone-ask-outage_table = Table de creux
phone-ask-released = Remise
phone-ask-defect = Défectuosité
phone-ask-forwarded = Signalé
phone-ask-authority = Approbation
phone-ask-resolved = Réparé
phone-ask-hold = Retenue
phone-ask-incident = Incident
phone-ask-incident_stopped = Incident arrêté
phone-ask-incident_call = Appel ou rapport
phone-ask-incident_closed = Incident clos
phone-ask-leak = Fuite trouvée
phone-ask-leak_checked = Fuite vérifiée de nouveau
phone-ask-car_left = Wagon laissé
phone-ask-car_moved = Wagon déplacé
phone-ask-outcome = Départ du wagon
phone-ask-next_time = Note pour la prochaine fois
phone-ask-next_time_done = Réglée
phone-ask-valve_feel = Comment le robinet a tourné
phone-ask-plug_condition = Bouchon et carré
phone-ask-cover_condition = Goupille, oreille, charnière
phone-ask-hose_pressure = Pression dans le flexible
phone-steps-again = Redemandé : le wagon a été laissé ou déplacé.
phone-ask-tank_gauged = Réservoir récepteur
phone-ask-recovery_planned = Plan de récupération
phone-ask-inspection = Inspection
phone-ask-remark = Remarque
phone-ask-attendance = Surveillance
phone-ask-valve = Robinet
phone-ask-closure = Bouchon
phone-ask-listen = Fuites, à l’oreille
phone-ask-line = Flexible
phone-ask-threads = Filets en prise
phone-ask-effort = Couple
phone-ask-office = Se fait au bureau
