### The words of the trade, as they stand in the middle of a sentence.

## Fittings under the housing

fitting-liquid_a = robinet de liquide A
fitting-liquid_b = robinet de liquide B
fitting-vapour = robinet de vapeur
fitting-vapour_two = second robinet de vapeur
fitting-gauging_device = dispositif de jaugeage
fitting-thermometer_well = puits à thermomètre
fitting-sample_line = conduite d’échantillonnage
fitting-relief_device = soupape de sûreté

## Valves, closures, what is heard

valve_position-open = ouvert
valve_position-shut = fermé
closure-open = retiré
closure-hand_tight = serré à la main
closure-tool_tight = serré à l’outil
heard-quiet = aucune fuite entendue
heard-hiss = fuite au siège
part-valve = tige du robinet
part-closure = fermeture

## What is measured, where and for what

measured-pressure = pression
measured-temperature = température
measured-outage = creux
measured-level = niveau
measured-relative_density = densité relative
measured-volume = volume
measured-rate = débit
place-car = wagon
place-car_low = wagon, partie basse
place-liquid_line = conduite de liquide
place-vapour_line = conduite de vapeur
place-compressor = compresseur
place-compressor_suction = aspiration du compresseur
place-compressor_discharge = refoulement du compresseur
place-shut_off_panel = panneau d’arrêt d’urgence
place-storage_tank = réservoir de stockage
place-truck = camion-citerne
place-air = air
purpose-arrival = arrivée
purpose-leak_test = essai de fuite
purpose-transfer = transvasement
purpose-recovery = récupération des vapeurs
purpose-hold_test = essai de maintien de pression
purpose-empty_proof = confirmation de la vidange
purpose-final = finale
receiver-fixed_tank = réservoir fixe
receiver-truck = camions-citernes

## Seals and photographs

seal_place-housing_pin = goupille de l’enceinte protectrice
seal_place-housing_lug = oreille de l’enceinte protectrice
seal_place-gauging_device = couvercle du dispositif de jaugeage
seal_place-elsewhere = ailleurs
seal_event-found = trouvé
seal_event-applied = apposé
seal_event-removed = enlevé
seal_kind-plastic = plastique
seal_kind-metal_strap = bande métallique
seal_kind-cable = câble
seal_kind-bolt = boulon
seal_note-no_seal_found = aucun scellé trouvé
override_reason-done_not_recorded = fait, mais non consigné sur le moment
override_reason-not_here = ce wagon ou ce site n’en a pas
override_reason-other_means = démontré par d’autres moyens
override_reason-owner_says_so = le propriétaire ou l’expéditeur a dit de continuer
override_reason-reported = impossible maintenant; signalé, et une autre personne s’en charge
photo_of-car_number = numéro du wagon
photo_of-seal = scellé en place
photo_of-threads = filets en prise
photo_of-defect = défectuosité
photo_of-instrument = cadran de l’instrument
photo_of-housing = enceinte protectrice ouverte
photo_of-paper = document d’expédition
photo_of-other = autre

## Protections: their names, and how they stand

protection-blue_sign = signal bleu
protection-hand_brake = frein à main
protection-chocks = cales de roue
protection-track_secured = dérailleur ou aiguillage
protection-emergency_shut_off = arrêt d’urgence
protection-gas_detector = détecteur de gaz
protection_set-blue_sign = en place
protection_set-hand_brake = serré
protection_set-chocks = en place
protection_set-track_secured = en place et cadenassé
protection_set-emergency_shut_off = essayé, fonctionne
protection_set-gas_detector = allumé et vérifié
protection_away-blue_sign = enlevé
protection_away-hand_brake = desserré
protection_away-chocks = enlevées
protection_away-track_secured = enlevé
protection_away-emergency_shut_off = hors service
protection_away-gas_detector = éteint

## Times of the car, weather, people

clock_event-notice = avis d’arrivée
clock_event-constructive_placement = mise en place présumée
clock_event-ordered_in = demande d’amener
clock_event-actual_placement = mise en place effective
clock_event-carrier_told = remis au transporteur
clock_event-pulled = enlevé par le transporteur
precipitation-dry = sec
precipitation-rain = pluie
precipitation-freezing_rain = pluie verglaçante
precipitation-snow = neige
precipitation-frost = givre
wind_from-n = N
wind_from-ne = NE
wind_from-e = E
wind_from-se = SE
wind_from-s = S
wind_from-sw = SO
wind_from-w = O
wind_from-nw = NO
wind_force-still = calme
wind_force-light = léger
wind_force-fresh = frais
wind_force-strong = fort
wind-both = { $from }, { $force }
presence-here = auprès du wagon
presence-away = a quitté le wagon
told-voice = par téléphone ou en personne
told-writing = par courriel ou par écrit
contact_role-emergency = urgence
contact_role-carrier = transporteur
contact_role-office = bureau
named-by_phone = selon le téléphone
named-held = selon le téléphone pour lequel la personne a signé
named-own_hand = signé avec son propre NIP
named-hand_not_confirmed = signé avec une clé de NIP que le bureau n’a pas confirmée
named-hand_not_theirs = signé avec une clé qui n’est pas la sienne ou qui avait pris fin

## Checks and tests

checked-relief_device = soupape de sûreté
checked-hoses_service_and_test_date = flexibles : service et date d’essai
checked-outside_of_the_car = extérieur du wagon
checked-odorant = odorisant
checked-room_in_the_truck = place dans le camion-citerne
checked-no_tools_under_the_housing = aucun outil dans l’enceinte protectrice
checked-lines_clear_of_the_car = conduites dégagées du wagon
checked-outside_of_the_car_before_it_is_offered = extérieur du wagon, avant de l’offrir
checked-residue_paper_made_out = document d’expédition du résidu établi
checked-loaded_paper = document d’expédition du chargement établi
checked-placards_in_place = plaques en place
checked-plant_signs = signes de sortie du liquide à l’usine
checked-plant_closed = robinets de l’usine fermés, flexibles rangés
checked-platform_up = plate-forme relevée, rien sur le wagon
checked-trap_drained = séparateur de liquide vidangé
checked-number_as_on_paper = numéro lu sur le wagon, pareil au document du bureau
test_date-tank_qualification = qualification de la citerne
test_date-relief_device = essai de la soupape de sûreté
test_date-service_equipment = équipement de service
empty_sign-rod_at_bottom = tige de jauge au fond
empty_sign-vapour_at_liquid_valve = vapeur seulement au robinet de liquide
empty_sign-liquid_at_closure = liquide vu à une fermeture de liquide
empty_sign-frost_ring = anneau de givre sur la citerne
item-adapter = adaptateur
item-at = { $item } ({ $fitting })

## Incidents, leaks, how a car is left

incident_source-fitting = robinet ou ouverture du wagon
incident_source-hose = flexible ou bras
incident_source-coupling = raccord ou adaptateur
incident_source-plant = tuyauterie, compresseur ou réservoir de l’usine
incident_source-relief_device = soupape de sûreté
incident_source-tank = citerne du wagon
incident_source-truck = camion
injury-none = personne de blessé
injury-first_aid = premiers soins
injury-hospital = hospitalisation
injury-death = décès
evacuation-none = personne évacuée
evacuation-site = gens du site
evacuation-public = public, moins d’une heure
evacuation-public_hour = public, une heure ou plus
called-emergency = numéro d’urgence local
called-response_center = National Response Center (É.-U.)
called-canutec = CANUTEC, par téléphone
called-written_report = rapport d’incident écrit envoyé
called-carrier = transporteur
called-shipper = expéditeur
called-owner = propriétaire du wagon
called-office = bureau de l’organisation
leak_at-coupling = raccord ou adaptateur
leak_at-hose = flexible ou bras
leak_at-packing = garniture ou tige
leak_at-plug = bouchon ou capuchon
leak_at-gasket = bride ou joint
leak_at-relief_device = soupape de sûreté
leak_at-plant = tuyauterie de l’usine
leak-at-fitting = { $at } ({ $fitting })
incident-named = { $source }, constaté { $noticed }
left_condition-designated = personne désignée sur le site, connaît le produit et la procédure d’urgence
left_condition-monitored = système d’alarme en veille, ou contrôle toutes les heures
left_condition-valves_closed = robinets du wagon et de l’usine fermés et verrouillés
left_condition-brakes_blocked = frein serré, roues calées
left_condition-track_secured = accès à la voie protégé
car_load-residue = comme résidu
car_load-part_loaded = en partie chargé
car_load-loaded = chargé
feel-easy = facilement
feel-normal = normalement
feel-hard = difficilement
plug_state-sound = en bon état
plug_state-rounded = carré arrondi
plug_state-seized = grippé
cover_part-pin = goupille
cover_part-lug = oreille
cover_part-hinge = charnière
part_state-sound = en bon état
part_state-worn = usure
part_state-bent = déformation
part_state-broken = fissure ou rupture
part_state-missing = absence
tank_moment-before = avant
tank_moment-after = après
gauging_kind-rod = tige ou magnétique
gauging_kind-slip_tube = tube coulissant
gauging_kind-other = autre genre
car_end-a = vers le bout A
car_end-b = vers le bout B
leaves_as-unloaded = déchargé
leaves_as-bad_order = hors d’état
leaves_as-refused = refusé
leaves_as-diverted = dérouté

## Steps and stages

step_outcome-done = fait
step_outcome-not_right = non conforme
step_outcome-skipped = omis
step_status-open = à faire
step_status-partly = consigné en partie
step_status-recorded = consigné
step_status-done = fait
step_status-not_right = non conforme
step_status-skipped = omis
step_status-not_used = conduite non utilisée
step_status-held = arrêté par une réponse
stage-receive = réception
stage-gauge = jaugeage
stage-connect = raccordement
stage-transfer = transvasement
stage-recover = récupération des vapeurs
stage-prove_empty = confirmation de la vidange
stage-disconnect = désaccouplement
stage-final_pressure = pression finale
stage-close = fermeture
stage-release = remise au transporteur

## Who asks for a thing; what became of an entry; whether it counts

asked_by-law = loi
asked_by-practice = usage
asked_by-this_record = ce registre
fate-live = en vigueur
fate-moved_on = remplacée
fate-corrected = corrigée
fate-withdrawn = annulée
fate-withdrawal = en annule une autre
fate-settled = réglée autrement
fate-agreed = retenue
fate-kept = conservée, non comptée
kept-no_device = conservée, non comptée : aucun appareil de cette organisation ne l’a signée
kept-after_revocation = conservée, non comptée : reçue après la révocation de l’appareil
kept-expired = conservée, non comptée : le certificat de l’appareil était échu
kept-other_site = conservée, non comptée : l’appareil n’est pas pour ce site
kept-no_right = conservée, non comptée : l’appareil ne peut pas consigner ceci
kept-not_own = conservée, non comptée : elle annule l’inscription d’une autre personne
kept-misplaced = conservée, non comptée : elle n’appartient pas à ce genre de registre
kept-ground_fell = conservée, non comptée : l’inscription pour l’autre wagon de la voie sur laquelle elle s’appuie ne tient pas
not_checked-no_certificate = non vérifiée : le certificat de l’appareil signataire n’est pas arrivé ici
not_checked-before_revocation_unknown = non vérifiée : l’appareil a été révoqué; on ignore ici si le bureau l’avait déjà
not_checked-site_unknown = non vérifiée : le site de ce séjour n’est pas connu ici
not_checked-replaced_unknown = non vérifiée : l’inscription qu’elle annule n’est pas ici
not_checked-kind_unknown = non vérifiée : cette version ne connaît pas ce genre d’inscription
not_checked-ground_unknown = non vérifiée : l’inscription pour l’autre wagon sur laquelle elle s’appuie n’est pas ici
standing-before_enrolment = signé avant l’inscription de l’appareil
standing-not_certified = appareil sans certificat
standing-revoked = appareil révoqué

## Rights, keys

right-record = consigner
right-settle = régler les divergences
right-lift_hold = lever les retenues
right-override = déroger
right-release = libérer les wagons
right-withdraw_others = annuler les inscriptions d’autrui
right-keep_site = tenir les données du site
right-issue_seals = remettre des scellés
right-keep_people = tenir la liste des personnes
right-publish_procedures = publier des procédures
right-admit = admettre les inscriptions tardives
right-enrol = inscrire des appareils
right-read = lire
unlocking-act = à chaque acte
unlocking-shift = une fois par quart
key_kept-pin = NIP
key_kept-platform = verrou de cet appareil

## What is open before release

blocker_kind-line_connected = conduite raccordée
blocker_kind-valve_not_shut = robinet non fermé
blocker_kind-listen_missing = écoute non faite
blocker_kind-hiss_heard = robinet qui fuit au siège
blocker_kind-closure_not_tool_tight = fermeture non serrée à l’outil
blocker_kind-threads_one_or_less = un filet ou moins en prise
blocker_kind-unreadable_entries = inscriptions illisibles
blocker_kind-not_opened = inscription d’ouverture absente
blocker_kind-empty_not_accepted = vidange non acceptée
blocker_kind-empty_contradicted = signe de liquide après la confirmation
blocker_kind-final_pressure_missing = pression finale absente
blocker_kind-item_out = non rendu
blocker_kind-cover_not_closed = couvercle de l’enceinte non fermé
blocker_kind-cover_not_pinned = goupille non posée
blocker_kind-cover_bolts = boulons du couvercle
blocker_kind-seal_incomplete = dossier du scellé incomplet
blocker_kind-seal_missing = aucun scellé
blocker_kind-blue_sign_down_early = signal bleu enlevé trop tôt
blocker_kind-hold_open = retenue
blocker_kind-disagreement = deux inscriptions divergent
blocker_kind-authority_missing = approbation absente
blocker_kind-final_pressure_doubtful = pression finale douteuse
blocker_kind-alarm = alarme
blocker_kind-doubt = chiffre douteux
blocker_kind-number_not_checked = numéro du wagon lu une fois
blocker_kind-paper_not_compared = document d’expédition non comparé
blocker_kind-product_not_taken = produit non reçu ici
blocker_kind-protection_not_set = non en place
blocker_kind-protection_out_of_order = hors d’usage
blocker_kind-not_recorded_as_found = non consigné tel que trouvé
blocker_kind-check_missing = vérification absente
blocker_kind-check_not_right = vérification non conforme
blocker_kind-step_open = étape ouverte
blocker_kind-step_not_right = étape non conforme
blocker_kind-reading_missing = lecture absente
blocker_kind-photo_missing = photographie absente
blocker_kind-last_round_missing = dernière ronde absente
blocker_kind-sign_down_while_connected = conduite branchée sans le signal bleu
blocker_kind-incident_open = incident ouvert
blocker_kind-leak_open = fuite non vérifiée
blocker_kind-outcome_unexplained = raison du départ manquante

## What an entry is about

slot_part-valve = robinet
slot_part-closure = fermeture
slot_part-listen = écoute
slot_part-line = conduite
slot_part-threads = filets en prise
slot_part-effort = couple de serrage
slot_part-feel = rotation du robinet
slot_part-plug = état du bouchon
slot_part-hose_pressure = pression restante dans le flexible
slot-at = { $fitting } : { $part }
slot-named = { $kind } { $name }
slot-seal = scellé ({ $place })
slot-seal-found = scellé trouvé ({ $place })
slot-step = étape { $step }
slot-opened = ouverture du registre
slot-paper = document d’expédition
slot-cover = couvercle de l’enceinte protectrice
slot-released = remise du wagon
slot-fit_to_unload = prêt à décharger
slot-last_round = dernière ronde de toutes les fermetures
slot-overridden = dérogations
slot-outcome = départ du wagon
slot-car_left = wagon laissé
slot-car_moved = wagon déplacé
slot-empty_decision = décision de vidange
slot-car_number_again = numéro du wagon, deuxième lecture
slot-car_fittings = accessoires du wagon
slot-car_capacity = capacité de la citerne
slot-car_diameter = diamètre intérieur du wagon
slot-outage_table = table de creux du wagon
slot-outage_table_or_diameter = table de creux ou diamètre intérieur du wagon
slot-site = site
slot-rules = règles de l’organisation
slot-photos = photographies
slot-handovers = relèves
slot-attendance = surveillance
slot-checked_in = tout va bien
slot-weather = météo
slot-truck_loads = chargements de camion-citerne
slot-remarks = remarques
slot-tanks_gauged = réservoirs avant et après
slot-recovery_planned = récupération prévue
slot-inspections = inspections du site
slot-defect = défectuosité
slot-hold = retenue
slot-incident = incident signalé
slot-leak = fuite
slot-next_time = note pour la prochaine fois
slot-expected = document d’un wagon attendu
slot-joined = même séjour ou non
slot-tank = réservoir
slot-instrument = instrument
slot-hose = flexible
slot-contact = personne à joindre
slot-seal_stock = scellés remis à partir de
slot-operator = personne
reading-title = { $purpose } : { $measured } ({ $place })
step-as_recorded = Comme consigné le { $day } : { $says }
step-as_on_track = Comme sur { $track } à { $time }, avec { $car } : toujours ainsi.
step-at = { $title } · { $fitting }
step-procedure = { $title }, édition { $edition }

## Spans of time, signatures

span-minutes = { $minutes } min
span-hours = { $hours } h { $minutes } min
span-days = { $days } j { $hours } h
attribution = { $name }, { $time }
attribution-revoked = { $name }, { $time } (appareil révoqué)
attribution-done = fait { $done }, inscrit { $entered }

binds-unloading = tout déchargement
binds-transloading = le transvasement vers des camions-citernes seulement
binds-fixed_tank = le déchargement dans un réservoir fixe
binds-offeror = toute personne qui remet le wagon au transporteur
binds-paper_keeper = toute personne qui conserve le document
binds-possessor = toute personne qui a le produit en sa possession
span-between = { $from } à { $until }

## How a bill was measured, how a car is insulated

billed_by-table = table de creux
billed_by-meter = compteur
billed_by-scale = balance
insulation-none = non isolé
insulation-thermal_protection = protection thermique sous enveloppe
insulation-insulated = isolé sous enveloppe
