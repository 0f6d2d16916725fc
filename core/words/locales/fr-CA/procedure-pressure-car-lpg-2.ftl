### The sentences of the procedure pressure-car-lpg, edition 2. Its steps and rules are in core/procedures.

procedure-pressure-car-lpg-2 = Déchargement d’un wagon-citerne sous pression de GPL
    .note = Pratique courante en résumé; les codes locaux, les directives du propriétaire et la pratique autorisée ont priorité, et rien ici ne déclare un wagon sûr.

## Cautions

procedure-pressure-car-lpg-2-caution-three_points = Garder un contact en trois points dans l’échelle; la glace et l’huile rendent les barreaux glissants.
procedure-pressure-car-lpg-2-caution-no_ignition = Éloigner toute source d’ignition : ni moteur, ni cigarette, ni téléphone non homologué pour la zone.
procedure-pressure-car-lpg-2-caution-leave = Si une fuite grossit, s’éloigner du côté d’où vient le vent et appeler d’un endroit sûr.
procedure-pressure-car-lpg-2-caution-listen_first = Écouter et regarder le détecteur de gaz avant de se pencher sur l’enceinte protectrice ouverte.
procedure-pressure-car-lpg-2-caution-cover_fingers = Ne pas mettre les doigts sous le couvercle; le vent peut le refermer brusquement.
procedure-pressure-car-lpg-2-caution-turn_nothing = Ne rien tourner encore : le bouchon est peut-être tout ce qui retient la pression.
procedure-pressure-car-lpg-2-caution-slip_tube = La jauge à tube coulissant évacue du gaz : ne jamais lui faire face, et garder mains et tête hors de son axe.
procedure-pressure-car-lpg-2-caution-line_of_fire = Se tenir hors de l’axe du bouchon ou du raccord.
procedure-pressure-car-lpg-2-caution-cold_burns = Le liquide brûle par le froid : porter gants et écran facial.
procedure-pressure-car-lpg-2-caution-carry = Porter la charge près du corps, surveiller où l’on se tient et ce que l’on tient, et ne jamais reculer sur la plate-forme.
procedure-pressure-car-lpg-2-caution-footing = Faire attention où l’on met les pieds sur la glace et la neige.
procedure-pressure-car-lpg-2-caution-locked_liquid = Le liquide emprisonné entre deux robinets fermés se dilate et fait éclater les flexibles : ne jamais fermer le second robinet sur du liquide.
procedure-pressure-car-lpg-2-caution-leak_stop = Une fuite impose l’arrêt : fermer le robinet, détendre la pression, puis réparer; ne jamais frapper un joint qui fuit.
procedure-pressure-car-lpg-2-caution-owner_limit = Ne jamais serrer sous pression au-delà de la limite du propriétaire.
procedure-pressure-car-lpg-2-caution-frost_stop = Un anneau de givre sur la citerne, ou du givre là où il n’y en avait pas : arrêter et chercher la cause.
procedure-pressure-car-lpg-2-caution-from_the_side = Ne jamais regarder dans une sortie : l’observer de côté, à longueur de bras.
procedure-pressure-car-lpg-2-caution-liquid_may_spit = Du liquide peut jaillir de la purge : se tenir de côté, du côté d’où vient le vent.
procedure-pressure-car-lpg-2-caution-carrier_track = Sur la voie d’un transporteur, le GPL va directement au stockage permanent : ne pas y charger de camions-citernes sans avoir demandé.
procedure-pressure-car-lpg-2-caution-gauge_range = S’assurer que la pression est sous la plage du manomètre avant de le poser.

## Stage: receive

procedure-pressure-car-lpg-2-open_visit = Numéro du wagon
    .do = Lire la marque et le numéro sur le wagon, pas sur le document.
    .why = Tout est classé sous ce numéro, qui n’a pas de chiffre de contrôle.

procedure-pressure-car-lpg-2-number_again = Photo du numéro du wagon
    .do = Photographier le marquage et le comparer au numéro consigné; le relire s’ils diffèrent.
    .why = Un mauvais wagon se découvre au second regard ou pas du tout.

procedure-pressure-car-lpg-2-paper = Document d’expédition
    .do = Comparer le document avec le wagon : numéro, numéro UN, produit, odorisé ou non, quantité; laisser vide ce qu’il ne dit pas.
    .why = Le chargement est reçu selon ce document.

procedure-pressure-car-lpg-2-placement = Mise en place
    .do = Consigner l’heure de la mise en place, celle de l’avis d’arrivée et toute mise en place présumée.
    .why = Les surestaries sont facturées selon ces heures.

procedure-pressure-car-lpg-2-track_secured = Voie protégée
    .do = Poser et cadenasser le dérailleur, ou orienter l’aiguillage et le cadenasser.
    .why = Aucun autre wagon ne doit rouler contre un wagon dont les flexibles sont raccordés.

procedure-pressure-car-lpg-2-hand_brake = Frein à main
    .do = Serrer le frein à main et voir que les sabots appuient sur les roues.
    .why = Le wagon ne doit pas bouger tant que quelque chose est raccordé.

procedure-pressure-car-lpg-2-chocks = Roues calées
    .do = Caler des roues aux deux bouts du wagon, dans les deux sens.
    .why = Le frein à main seul a déjà laissé partir des wagons.

procedure-pressure-car-lpg-2-blue_sign_up = Signal bleu en place
    .do = Placer le signal bleu STOP, Tank Car Connected (wagon-citerne raccordé), là où le voit une équipe venant d’un bout ouvert; il reste jusqu’à ce que chaque fermeture soit assurée.
    .why = Il dit à l’équipe de ne pas toucher au wagon.

procedure-pressure-car-lpg-2-gas_detector = Détecteur de gaz
    .do = Allumer le détecteur de gaz, attendre qu’il passe son essai et le porter.
    .why = L’odorisant peut s’estomper, et un nez froid sent peu.

procedure-pressure-car-lpg-2-weather = Temps et vent
    .do = Noter ce qui tombe, la température de l’air et d’où vient le vent.
    .why = Cela décide où se tenir et comment se comportent fermetures et liquide.

procedure-pressure-car-lpg-2-escape_way = Voie d’évacuation
    .do = Parcourir la voie d’évacuation, contre le vent et de côté, et savoir qui appeler.
    .why = Il n’y a pas le temps de la chercher plus tard.

procedure-pressure-car-lpg-2-emergency_shut_off = Arrêt d’urgence essayé au tableau
    .do = Déclencher l’arrêt d’urgence de l’endroit où l’on se tiendrait et voir se fermer les robinets de l’usine.
    .why = Une soupape d’excès de débit seule n’a pas toujours arrêté une conduite rompue.

procedure-pressure-car-lpg-2-hoses_fit = Flexibles et joints
    .do = Lire sur chaque flexible le service et la date d’essai, et examiner son enveloppe, ses raccords et ses joints.
    .why = Des flexibles du mauvais matériau ou hors date ont éclaté.
    .now = Retirer le flexible du service et en prendre un autre.

procedure-pressure-car-lpg-2-look_round = Faire le tour du wagon
    .do = Faire le tour : citerne, plaques, marques, échelle, plate-forme, enceinte; noter dommages, givre et taches.
    .why = Ce qui est noté maintenant ne pourra être reproché plus tard.
    .now = Consigner la défectuosité avec photo et consulter le bureau avant de décharger.

procedure-pressure-car-lpg-2-test_dates = Dates d’essai
    .do = Lire sur le marquage les dates de la citerne, de la soupape de sûreté et de l’équipement de service.
    .why = Un wagon en retard d’essai peut partir sans charge, mais non être rempli; le propriétaire doit le savoir.

procedure-pressure-car-lpg-2-capacity = Capacité
    .do = Consigner la capacité de la citerne selon le marquage, et la table de creux du propriétaire s’il y en a une.
    .why = La quantité est calculée à partir d’elles, et la table du propriétaire prévaut.

procedure-pressure-car-lpg-2-seals_found = Scellés tels que trouvés
    .do = Photographier chaque scellé avant d’y toucher et consigner numéro, genre, endroit et s’il est intact, ou qu’il n’y en a pas.
    .why = Une fois coupé, seule la photo dit ce qu’il était.

procedure-pressure-car-lpg-2-fittings = Sous l’enceinte protectrice
    .do = Ouvrir le couvercle du côté d’où vient le vent, jusqu’à sa butée; regarder charnière, oreille et goupille, et consigner les robinets et ouvertures du wagon.
    .why = Tout ce qui s’y trouve doit être refermé avant la remise.

procedure-pressure-car-lpg-2-line_as_found = Robinet et bouchon tels que trouvés
    .do = Voir que le robinet est fermé et le bouchon serré à l’outil, et écouter; ce sont deux choses et deux inscriptions.
    .why = On a trouvé des robinets ouverts derrière des bouchons serrés.
    .now = Laisser le bouchon en place, aviser le bureau et retenir le wagon jusqu’à ce que le robinet soit fermé et silencieux.

procedure-pressure-car-lpg-2-opening_as_found = Petite ouverture telle que trouvée
    .do = Regarder son couvercle, capuchon, robinet à pointeau ou bouchon : en place, serré, aucune fuite entendue.
    .why = Elle a été sous pression tout le trajet.
    .now = Retenir le wagon et aviser le bureau; en cas de fuite, ne rien serrer au-delà de la limite du propriétaire.

## Stage: gauge

procedure-pressure-car-lpg-2-arrival_pressure = Pression du wagon
    .do = Lire la pression au wagon, sur sa propre prise, et nommer le manomètre.
    .why = Le manomètre au wagon prévaut.

procedure-pressure-car-lpg-2-arrival_temperature = Température du liquide
    .do = Descendre le thermomètre dans le puits à thermomètre, attendre qu’il se stabilise et le lire.
    .why = Un gallon n’est un gallon qu’à sa température.

procedure-pressure-car-lpg-2-arrival_outage = Creux
    .do = Prendre le creux deux fois avec le dispositif de jaugeage du wagon et le consigner quand les deux concordent.
    .why = Il dit combien contient le wagon et s’il a été trop rempli.

procedure-pressure-car-lpg-2-relative_density = Densité relative
    .do = Consigner la densité relative à 60 °F du document d’expédition ou d’un échantillon, et dire lequel.
    .why = Les gallons nets en dépendent.

procedure-pressure-car-lpg-2-odorant = Odorisant
    .do = Vérifier par l’essai du site que le produit est odorisé comme le dit le document, jamais au nez seul.
    .why = L’odorisant peut s’estomper, surtout dans l’acier neuf.
    .now = Ne pas décharger dans un système qui exige un produit odorisé; consulter le bureau.

procedure-pressure-car-lpg-2-room_in_tank = Place dans le réservoir
    .do = Lire le niveau du réservoir qui reçoit et comparer la place avec le contenu du wagon.
    .why = Le réservoir ne doit pas dépasser sa limite de remplissage, le wagon à moitié plein.

procedure-pressure-car-lpg-2-room_in_truck = Place dans le camion-citerne
    .do = Convenir avec le chauffeur de la quantité que prend le camion-citerne et de qui surveille son niveau.
    .why = Le camion-citerne ne doit pas dépasser sa limite de remplissage.
    .now = Ne pas charger ce camion-citerne.

procedure-pressure-car-lpg-2-against_paper = Jaugé et facturé
    .do = Comparer la quantité jaugée à la quantité facturée et aviser aussitôt le bureau si l’écart dépasse l’incertitude.
    .why = Un manquant signalé le jour même est cru.

procedure-pressure-car-lpg-2-fit_to_unload = Prêt à décharger
    .do = Regarder ce qui est encore ouvert et signer que la première fermeture peut s’ouvrir.
    .why = Une fermeture ouverte, ce qui manquait à l’arrivée ne se voit plus.

## Stage: connect

procedure-pressure-car-lpg-2-open_closure = Retirer le bouchon
    .do = Écouter, puis dévisser le bouchon lentement, de côté et prêt à le revisser.
    .why = En cas de fuite au siège du robinet, il y a de la pression derrière le bouchon.

procedure-pressure-car-lpg-2-threads_inspected = Filets et joint
    .do = Regarder les filets et le joint du robinet et du bouchon, et le carré du bouchon : sain, arrondi ou grippé.
    .why = Des filets usés et de vieux joints ont cédé.
    .now = Photographier la défectuosité, aviser le propriétaire et ne pas raccorder ici.

procedure-pressure-car-lpg-2-adapter_in = Adaptateur posé
    .do = Poser l’adaptateur et le compter comme sorti jusqu’à son retour.
    .why = Ce qui entre dans le robinet du wagon doit en ressortir.

procedure-pressure-car-lpg-2-hose_on = Flexible raccordé
    .do = Raccorder le flexible, consigner son numéro et le mener sans pli et sans que son poids porte sur le robinet.
    .why = Un flexible oublié et tiré est le pire accident : le registre doit savoir qu’il est là.

procedure-pressure-car-lpg-2-shut_off_line_on = Air du robinet d’urgence raccordé
    .do = Raccorder la conduite d’air ou de commande du robinet d’urgence de ce flexible, côté wagon.
    .why = Elle ferme le robinet quand personne ne peut approcher.

procedure-pressure-car-lpg-2-esv_proved = Robinet d’urgence éprouvé
    .do = Ouvrir et fermer le robinet d’urgence côté wagon par sa propre conduite et le voir bouger, avant d’ouvrir le robinet du wagon.
    .why = Un robinet que personne n’a vu se fermer n’arrête rien.
    .now = Garder le robinet du wagon fermé et remplacer ou réparer le robinet d’urgence.

procedure-pressure-car-lpg-2-vapor_test = Essai à l’eau savonneuse à la vapeur
    .do = Admettre d’abord de la vapeur ou de l’azote dans le flexible, savonner chaque raccord et consigner s’il est étanche.
    .why = Une fuite de vapeur est petite, une fuite de liquide ne l’est pas.
    .now = Détendre la pression, réparer le raccord et reprendre l’essai au début.

procedure-pressure-car-lpg-2-open_valve = Ouvrir le robinet, lentement
    .do = Ouvrir lentement le robinet du wagon, en se tenant de côté.
    .why = Ouvert vite, la soupape d’excès de débit se ferme et le flexible prend un coup.

procedure-pressure-car-lpg-2-leak_check = Contrôle d’étanchéité à pleine pression
    .do = Vérifier de nouveau chaque raccord à l’eau savonneuse ou au détecteur, à pleine pression, et consigner s’il y a fuite.
    .why = Un raccord étanche à la vapeur peut fuir à pleine pression.
    .now = Fermer le robinet du wagon, détendre la pression, réparer et reprendre l’essai à l’eau savonneuse.

## Stage: transfer

procedure-pressure-car-lpg-2-attend = Surveiller le wagon
    .do = Consigner la prise en charge du wagon, du premier raccordement au dernier; passer la relève ou y mettre fin au départ.
    .why = Un wagon raccordé est surveillé sur place.

procedure-pressure-car-lpg-2-transfer_readings = Lectures du transvasement
    .do = Lire la pression du wagon à l’heure prévue et parcourir les flexibles chaque fois.
    .why = Un changement lent ne se voit que dans une série.

procedure-pressure-car-lpg-2-tank_level = Niveau du réservoir
    .do = Lire le niveau du réservoir qui reçoit avec chaque pression du wagon.
    .why = La limite de remplissage du réservoir vient avant la fin du wagon.

procedure-pressure-car-lpg-2-truck_loads = Chargements de camion-citerne
    .do = Caler les roues du camion-citerne tant qu’il est raccordé et consigner ce qu’il a reçu avant son départ.
    .why = Ce qui part en camion doit correspondre au contenu du wagon.

## Stage: recover

procedure-pressure-car-lpg-2-liquid_closed = Robinets de liquide fermés, piège vidangé
    .do = Abaisser la pression du flexible de liquide, fermer les robinets de liquide du wagon et du réservoir et vidanger le piège avant de passer le compresseur en récupération.
    .why = Le liquide aspiré par un compresseur le brise.
    .now = Ne pas commencer la récupération avant que les robinets de liquide soient fermés et le piège vidangé.

procedure-pressure-car-lpg-2-recovery_readings = Récupération des vapeurs
    .do = Récupérer les vapeurs au compresseur et suivre la baisse de pression du wagon.
    .why = La vapeur laissée dans le wagon est du produit non reçu.

procedure-pressure-car-lpg-2-planned_stop = Arrêt prévu atteint
    .do = Arrêter la récupération à la pression prévue et donner la raison d’un arrêt ailleurs.
    .why = Un wagon ne porte un résidu que s’il a été déchargé autant que possible.

procedure-pressure-car-lpg-2-pressure_hold = Essai de maintien de pression
    .do = Arrêter le compresseur, isoler et lire la pression deux fois à quelques minutes d’intervalle.
    .why = Une pression qui remonte seule, c’est du liquide qui bout.

## Stage: prove_empty

procedure-pressure-car-lpg-2-rod = Dispositif de jaugeage au fond
    .do = Descendre le dispositif de jaugeage et voir s’il est au fond.
    .why = Une tige qui flotte révèle du liquide; au fond, elle dit seulement qu’il en reste peu.
    .now = Reprendre la récupération, puis jauger de nouveau.

procedure-pressure-car-lpg-2-liquid_valve_vapour = Vapeur à la conduite de liquide
    .do = Voir ce qui arrive par la conduite de liquide : de la vapeur, ou encore du liquide.
    .why = Le tube plongeur finit au-dessus du fond : la vapeur ici est nécessaire, mais ne suffit pas.
    .now = Reprendre le transvasement jusqu’à la vapeur.

procedure-pressure-car-lpg-2-frost_ring = Anneau de givre
    .do = Chercher une ligne de givre ou d’humidité au bas de la citerne; sur un wagon chemisé ou isolé, l’omettre comme non visible.
    .why = Il marque le liquide qui bout à l’intérieur.
    .now = Reprendre la récupération jusqu’à la disparition de l’anneau.

procedure-pressure-car-lpg-2-low_temperature = Température au bas et pression
    .do = Lire ensemble la température au bas du wagon et la pression; l’omettre comme illisible sur un wagon chemisé ou isolé.
    .why = Une pression à saturation pour cette température révèle du liquide.

procedure-pressure-car-lpg-2-plant_signs = Signes à l’usine
    .do = Vérifier que le voyant montre de la vapeur, que l’écart de pression du compresseur est tombé et que le niveau du réservoir s’est arrêté.
    .why = Les signes loin du wagon disent la même chose ou avertissent.
    .now = Reprendre le transvasement et vérifier de nouveau.

procedure-pressure-car-lpg-2-empty_decision = Liquide sorti?
    .do = Peser les signes et décider sous son nom; dans le doute, la réponse est non.
    .why = Un wagon dit sans liquide qui en contient encore est l’erreur classique.
    .now = Reprendre la récupération, relever les signes et décider de nouveau.

## Stage: disconnect

procedure-pressure-car-lpg-2-shut_valve = Fermer le robinet
    .do = Fermer le robinet du wagon jusqu’à son siège, sans forcer, et arrêter; garder le robinet d’urgence ouvert.
    .why = C’est la première de deux barrières, et forcé davantage il ne fait que s’user.

procedure-pressure-car-lpg-2-draw_down = Abaisser la pression du flexible
    .do = Abaisser la pression du flexible par l’usine, fermer le robinet de l’usine et lire le manomètre du flexible.
    .why = En pratique courante il reste de 5 à 15 psi; davantage, ou une remontée, indique une fuite au siège d’un robinet.
    .now = Ne pas purger : trouver quel robinet a une fuite au siège pendant que le flexible est encore raccordé.

procedure-pressure-car-lpg-2-bleed = Purger le flexible
    .do = Purger lentement ce qui reste, dans le sens du vent, jusqu’à ce que le manomètre soit à zéro.
    .why = Un flexible ouvert sous pression fouette.

procedure-pressure-car-lpg-2-listen = Écouter, encore raccordé
    .do = Écouter à la purge, le robinet d’urgence encore ouvert et le flexible encore raccordé.
    .why = Fermé, le robinet d’urgence cache un robinet du wagon qui fuit et emprisonne du liquide.
    .now = Resserrer une fois le robinet du wagon et écouter de nouveau; si la fuite continue, laisser le flexible et retenir le wagon.

procedure-pressure-car-lpg-2-break_coupling = Défaire le raccord
    .do = Défaire le raccord lentement, en se tenant de côté, et le laisser se vidanger.
    .why = La dernière pression part pendant que le filet tient encore.

procedure-pressure-car-lpg-2-listen_open = Écouter au raccord ouvert
    .do = Écouter au raccord ouvert avant de tourner l’adaptateur.
    .why = C’est le dernier moment où l’adaptateur retient encore un robinet qui fuit.
    .now = Laisser l’adaptateur, resserrer une fois le robinet et retenir le wagon si la fuite continue.

procedure-pressure-car-lpg-2-adapter_out = Adaptateur retiré, en vue
    .do = Retirer l’adaptateur et le poser bien en vue; il compte toujours comme sorti.
    .why = Il n’est rangé que lorsque le bouchon est remis.

procedure-pressure-car-lpg-2-look_for_liquid = Liquide à la sortie?
    .do = Observer la sortie de côté, à longueur de bras : brume, goutte, givre ou sifflement disent une fuite au siège du robinet ou un reste de liquide.
    .why = C’est le seul moment où l’on voit la sortie.
    .now = Remettre le bouchon, retenir le wagon et confirmer de nouveau la vidange.

procedure-pressure-car-lpg-2-closure_tight = Bouchon remis, serré à l’outil
    .do = Visser le bouchon à la main, puis le serrer à l’outil; ne jamais forcer.
    .why = Serré à la main pour l’instant s’oublie avant le soir.
    .now = Prendre la clé et serrer le bouchon à l’outil maintenant; la main ne suffit pas.

procedure-pressure-car-lpg-2-threads = Filets en prise
    .do = Compter les tours complets en prise quand le bouchon a touché le fond.
    .why = Un bouchon qui n’a qu’un filet ou moins ne tient pas.
    .now = Consigner la défectuosité, la photographier et la signaler; seul le propriétaire ou un atelier peut changer le bouchon ou la bride.

procedure-pressure-car-lpg-2-adapter_away = Adaptateur rendu
    .do = Remettre l’adaptateur dans sa boîte seulement maintenant et le compter comme rendu.
    .why = Le compte des outils doit revenir à zéro.

procedure-pressure-car-lpg-2-hose_capped = Coiffer et suspendre le flexible
    .do = Coiffer le flexible sans serrer, pour l’ôter à la main, et le suspendre bout en bas; par gel, huiler l’épaulement et le filet mâle, jamais le filet femelle.
    .why = Le capuchon protège des intempéries, et gelé il ne s’ôte plus.

procedure-pressure-car-lpg-2-shut_off_line_off = Air du robinet d’urgence débranché
    .do = Débrancher la conduite d’air du robinet d’urgence et tourner son bout à l’abri des intempéries.
    .why = L’eau y gèle, et alors elle ne ferme plus rien.

## Stage: final_pressure

procedure-pressure-car-lpg-2-final_pressure = Pression finale
    .do = Poser le manomètre à basse plage au wagon après le retrait de la dernière conduite, ouvrir le petit robinet à la main, lire, fermer et remettre son bouchon à la clé.
    .why = Les manomètres du compresseur et du tableau lisent un flexible, pas le wagon.

procedure-pressure-car-lpg-2-final_temperature = Température finale
    .do = Lire la température dans le wagon avec la pression finale.
    .why = Ce qui reste dans le wagon est calculé à partir des deux.

## Stage: close

procedure-pressure-car-lpg-2-last_round = Dernière ronde
    .do = Y mettre la main, en tout dernier avant d’abaisser le couvercle : robinet fermé, bouchon ou capuchon serré à la clé, couvercle ou robinet à pointeau selon son genre, aucune fuite entendue.
    .why = Ce qui a été consigné à l’arrivée ne compte pas : une fermeture trouvée lâche plus tard est présumée jamais vérifiée.
    .now = Fermer, serrer à l’outil et écouter de nouveau; s’il y a encore fuite, retenir le wagon.

procedure-pressure-car-lpg-2-tools_look = Dernière recherche d’outils
    .do = Chercher dans l’enceinte protectrice outils, chiffons, adaptateurs et bouchons, et la photographier ouverte.
    .why = Une clé sous le couvercle voyage avec le wagon.
    .now = Le retirer et regarder de nouveau.

procedure-pressure-car-lpg-2-cover_down = Couvercle abaissé et verrouillé
    .do = Abaisser le couvercle et le verrouiller comme sur ce wagon : la goupille, ou tous ses boulons comptés; regarder oreille, charnière et goupille.
    .why = Des couvercles ont voyagé mal fixés, et une goupille peut sortir.

procedure-pressure-car-lpg-2-seal = Scellé
    .do = Apposer le scellé par la goupille ou l’oreille, avec une chaîne si le trou est trop loin, et le photographier en place.
    .why = Aucune règle lue ne l’exige sur un wagon déchargé; le scellé protège la personne qui l’a libéré et ne remplace jamais la vérification d’une fermeture.

procedure-pressure-car-lpg-2-number_last = Numéro et scellé sur une photo
    .do = Photographier encore le numéro du wagon avec le couvercle fermé.
    .why = La photo lie le scellé à ce wagon.

## Stage: release

procedure-pressure-car-lpg-2-lines_clear = Conduites dégagées
    .do = Faire une fois le tour du wagon : aucun flexible, conduite ou câble ne le touche.
    .why = L’équipe tire ce qu’on lui remet.
    .now = Dégager la conduite et refaire le tour.

procedure-pressure-car-lpg-2-plant_closed = Robinets de l’usine fermés, flexibles rangés
    .do = Fermer les robinets de l’usine et ranger les flexibles.
    .why = Un robinet ouvert derrière un flexible attend la prochaine erreur.
    .now = Fermer les robinets et ranger les flexibles maintenant.

procedure-pressure-car-lpg-2-platform_up = Plate-forme relevée, rien sur le wagon
    .do = Relever plate-forme et échelle, et ne laisser ni outil ni téléphone sur le wagon.
    .why = Une plate-forme baissée est heurtée par le wagon en mouvement.
    .now = La relever et dégager le wagon maintenant.

procedure-pressure-car-lpg-2-look_round_again = Inspecter avant d’offrir
    .do = Inspecter tout le wagon : citerne et têtes, tuyauterie et joints, boulons, fermetures, enceinte, soupape de sûreté, systèmes de protection, marques et dates.
    .why = Un wagon avec résidu est offert comme un wagon chargé, et la personne qui l’offre détermine qu’il est en bon état.
    .now = Consigner la défectuosité, retenir le wagon et consulter le propriétaire.

procedure-pressure-car-lpg-2-residue_paper = Document du résidu
    .do = Établir le document du résidu avec RESIDUE: LAST CONTAINED et la description de base; un wagon laissé en partie chargé est libéré comme chargé.
    .why = Le résidu est expédié comme le plein chargement.
    .now = Corriger le document d’expédition avant d’aviser le transporteur.

procedure-pressure-car-lpg-2-loaded_paper = Document du chargement
    .do = Établir le document d’expédition de ce que le wagon contient : numéro UN, nom, classe et quantité.
    .why = Un wagon qui garde son chargement ou une partie est offert comme chargé, pas comme résidu.
    .now = Corriger le document d’expédition avant d’aviser le transporteur.

procedure-pressure-car-lpg-2-placards_stay = Les plaques restent
    .do = Voir que les plaques sont en place et lisibles des deux côtés et aux deux bouts.
    .why = Un wagon déchargé contient encore de la vapeur inflammable.
    .now = Remplacer la plaque avant d’offrir le wagon.

procedure-pressure-car-lpg-2-chocks_away = Cales retirées
    .do = Retirer les cales seulement avec le frein à main serré.
    .why = Une cale oubliée fait dérailler le wagon.

procedure-pressure-car-lpg-2-brake_left_set = Frein à main laissé serré
    .do = Laisser le frein à main serré et le dire au transporteur.
    .why = Un wagon libre roule, et une équipe qui l’ignore le traîne freiné.
    .now = Resserrer le frein à main, ou convenir par écrit avec le transporteur qu’il est desserré.

procedure-pressure-car-lpg-2-track_open = Dérailleur retiré
    .do = Retirer le dérailleur, ou remettre l’aiguillage, selon la demande du transporteur.
    .why = La voie est rendue comme elle a été reçue.

procedure-pressure-car-lpg-2-blue_sign_down = Signal bleu retiré, en dernier
    .do = Retirer le signal bleu en dernier, quand chaque fermeture est assurée et que tous sont à l’écart.
    .why = Tant qu’il est en place, l’équipe ne touche pas au wagon.

procedure-pressure-car-lpg-2-carrier_told = Remis au transporteur
    .do = Aviser le transporteur en même temps que la remise, pas avant, et consigner l’heure.
    .why = Les surestaries cessent quand le transporteur est avisé, et une équipe peut venir aussitôt.

procedure-pressure-car-lpg-2-release = Libérer
    .do = Lire les points ouverts, les fermer ou y déroger avec une raison, puis libérer sous son nom.
    .why = Le registre montre ce qui a été consigné et ce à quoi on a dérogé; il ne déclare pas le wagon sûr.

## Étapes qu'une seule touche consigne

procedure-pressure-car-lpg-2-together-protections = Protéger la voie et le wagon
    .do = Faire et regarder chacun de ces points.
procedure-pressure-car-lpg-2-together-stencil = Marquage comme la dernière fois
    .do = Regarder le marquage : chaque donnée est-elle encore juste?
procedure-pressure-car-lpg-2-together-as_found = Fermetures telles que trouvées
    .do = Faire le tour de l’enceinte : robinets fermés, bouchons et chapeaux serrés, aucune fuite entendue.
procedure-pressure-car-lpg-2-together-arrival = Relevés à l’arrivée
    .do = Lire chacun au wagon et au réservoir, et les taper l’un après l’autre.
procedure-pressure-car-lpg-2-together-cargo = Chargement et document
    .do = Vérifier chaque point avant de signer apte au déchargement.
procedure-pressure-car-lpg-2-together-line_on = Raccorder la ligne
    .do = Les faire dans l’ordre; arrêter au premier qui n’est pas bon.
procedure-pressure-car-lpg-2-together-line_open = Ouvrir le robinet
    .do = Ouvrir lentement, puis vérifier de nouveau chaque joint.
procedure-pressure-car-lpg-2-together-round = Tournée de relevés
    .do = Lire chacun maintenant et suivre les flexibles.
procedure-pressure-car-lpg-2-together-signs = Signes que le liquide est sorti
    .do = Chercher chaque signe; celui qui dit le contraire a sa propre touche.
procedure-pressure-car-lpg-2-together-line_shut = Fermer, vider, purger, écouter
    .do = Les faire dans l’ordre; le flexible reste en place jusqu’à ce qu’on n’entende rien.
procedure-pressure-car-lpg-2-together-line_off = Débrancher la ligne
    .do = Les faire dans l’ordre, cette ligne seule, jusqu’à ce que son bouchon soit serré à l’outil.
procedure-pressure-car-lpg-2-together-clear = Dégager le wagon et la voie
    .do = Refaire un tour et les faire dans l’ordre; le signal bleu est retiré en dernier.
