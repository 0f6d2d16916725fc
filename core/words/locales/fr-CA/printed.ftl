### A visit as plain text, for a terminal or a printer.

## Pieces

printed-parts = { $parts }
printed-said = { $what } — { $by }
printed-by = { $who }, sur { $device }
printed-by-unsent = { $who }, sur { $device } · non envoyé
printed-settled-by = { $kept }; réglé par { $by }
printed-because = { $what } ({ $why })
printed-disputed = { $what } — CONTESTÉ
printed-also =
    { $count ->
        [one] { $what } (une autre entrée dit de même)
       *[other] { $what } ({ $count } autres entrées disent de même)
    }
printed-named = { $what } : { $value }
printed-about = { $about } :
printed-why = raison : { $why }

## Head

printed-car-not-known = wagon inconnu
printed-into-tank = dans un réservoir fixe
printed-into-trucks = dans des camions-citernes
printed-product = { $product } (d’après le document)
printed-procedure = D’après : { $title }
printed-procedure-stand-in = D’après : { $title }, à la place d’une procédure inconnue ici
printed-times = Heures en { $zone }. Depuis { $since }. Entrées : { $entries }; pas encore au bureau : { $unsent }.
printed-local-rules = Avant tout : { $rules }
printed-joined = Joint au registre { $visit }.

## Where it stands

printed-heading-state = Où on en est
printed-hold = RETENUE : { $because }
printed-goes = Repart { $load } : { $because }
printed-released-residue = Libéré comme résidu
printed-released-not-residue = Libéré, non comme résidu
printed-stage = Étape : { $stage }
printed-progress = { $stage } { $closed }
printed-tally-none = Décompte : rien n’est dehors.
printed-out = DEHORS : { $item }
printed-offer = { $says } (registre { $visit })

## Disagreements

printed-heading-disagreements = Divergences
printed-heading-ended = Divergences terminées
printed-settled = réglé : { $says }
printed-moved-on = dépassé : { $says }

## What comes next

printed-heading-next = À suivre
printed-heading-again = Redemandé, car le wagon a été laissé ou déplacé
printed-heading-left-behind = Resté en arrière aux étapes précédentes
printed-step = { $title } [{ $id }] — { $status }
printed-step-why = Pourquoi : { $why } ({ $asked_by } : { $source })
printed-caution = ATTENTION : { $caution }

## The gates

printed-signed-by = signé par { $by }
printed-not-signed = non signé
printed-missing = MANQUE : { $what } [{ $code }]
printed-asked-by = demandé par { $asked_by } : { $source }
printed-there = présent : { $what }
printed-nothing-missing = Rien de ce que ce registre recherche ne manque, ou tout a fait l’objet d’une dérogation avec raison.
printed-still-open = encore ouvert : { $what }
printed-overridden = DÉROGATION : { $what }
printed-overridden-fallen = DÉROGATION : { $what } — n’est pas valable : { $why }

## Notices

printed-heading-notices = Avis
printed-alarm = ALARME : { $what }
printed-check = À vérifier : { $what }

## Fittings

printed-heading-fittings = Accessoires
printed-fitting = { $fitting } : { $parts }
printed-valve = robinet { $state }
printed-valve-not-recorded = robinet non consigné
printed-closure = fermeture { $state }
printed-closure-not-recorded = fermeture non consignée
printed-heard-since-shut = { $state } après la fermeture
printed-line-on = CONDUITE RACCORDÉE
printed-line-on-hose = CONDUITE RACCORDÉE (flexible { $hose })
printed-line-off = conduite débranchée
printed-line-off-hose = conduite débranchée (flexible { $hose })
printed-engaged = { $threads } en prise
printed-cover-closed-pin-in = couvercle de l’enceinte : fermé, goupille en place, { $here } de { $all } boulons en place
printed-cover-closed-pin-out = couvercle de l’enceinte : fermé, goupille retirée, { $here } de { $all } boulons en place
printed-cover-open-pin-in = couvercle de l’enceinte : ouvert, goupille en place, { $here } de { $all } boulons en place
printed-cover-open-pin-out = couvercle de l’enceinte : ouvert, goupille retirée, { $here } de { $all } boulons en place
printed-protections = protections : { $what }
printed-protection-set = { $what } : posé
printed-protection-away = { $what } : retiré

## Readings and what was computed

printed-heading-readings = Lectures
printed-reading = { $title } : { $amount }, sur { $name }
printed-reading-no-instrument = { $title } : { $amount }, instrument non nommé
printed-nothing-stands = { $title } : rien ne tient
printed-before = avant
printed-point = { $at } { $amount }
printed-heading-computed = Calculé à partir du registre
printed-largest = la plus grande part du ± vient de { $input }
printed-heading-empty = Le liquide est-il sorti?
printed-yes = oui
printed-no = non
printed-speaks-for-liquid = { $says } — indique du liquide
printed-weighed-liquid = pesé : ce qui est consigné indique du LIQUIDE
printed-weighed-no-liquid = pesé : ce qui est consigné n’indique pas de liquide
printed-weighed-not-enough = pesé : ce qui est consigné ne suffit pas pour le dire
printed-next = à suivre : { $step }
printed-not-weighed = non pesé : { $why }
printed-taken-as-empty = considéré vide de liquide : { $grounds }
printed-not-taken-as-empty = NON considéré vide de liquide : { $grounds }
printed-heading-received = Ce qui a reçu le chargement
printed-trucks-together = en tout { $total } tel que consigné

## Seals, photographs, checks

printed-heading-seals = Scellés
printed-seal-found = { $place }, trouvé : { $says }
printed-seal-now = { $place }, maintenant : { $says }
printed-no-number = sans numéro
printed-kind-not-said = type non précisé
printed-seal-whole = intact
printed-seal-not-whole = NON intact
printed-heading-photographs = Photographies
printed-photograph = { $of } — { $bytes } octets, { $digest }
printed-heading-checks = Vérifications et météo
printed-right = { $what } : conforme
printed-not-right = { $what } : NON conforme

## Defects

printed-heading-defects = Défectuosités
printed-earlier-visit = { $what } (visite antérieure)
printed-forwarded = signalé à { $to } ({ $how })
printed-answered = réponse de { $by }, référence { $reference }
printed-due = { $says }, par écrit au plus tard { $due }
printed-due-past = { $says }, par écrit au plus tard { $due }, DÉPASSÉ
printed-needs-authority = ne se déplace qu’avec l’approbation d’une autorité : aucune consignée
printed-repaired = réparé : { $how }
printed-heading-carried = Pour la prochaine visite

## People, devices, entries

printed-heading-people = Personnes, appareils, heures
printed-gap = LACUNE : { $says }
printed-name-removed = { $name } (nom retiré au bureau)
printed-entries =
    { $count ->
        [one] { $name } : { $count } entrée
       *[other] { $name } : { $count } entrées
    }
printed-responsible = { $says }, responsable maintenant
printed-handover = relève de { $from } à { $to } : signée par les deux
printed-handover-one-sided = relève de { $from } à { $to } : signée d’un seul côté
printed-heading-history = Tout, dans l’ordre
printed-entry = { $at } { $name } : { $says }
printed-entry-binding = { $at } { $name }, { $named } : { $says }
printed-fate = { $says } [{ $fate }]
