### Words on the phone for papers, seals, defects, holds, photographs and handovers.

## Tools and fittings out

phone-tally-title = Non rendus
phone-tally-none = Rien de sorti
phone-tally-back = Rendu
phone-tally-for = À la place de : { $fitting }
phone-tally-add = Consigner la sortie
phone-tally-name = Qu’est-ce qui est sorti?
phone-tally-out = Sorti

## Seals

phone-seal-number = Numéro
phone-seal-again = Numéro, encore
phone-seal-scan = Numériser
phone-number-shown = La photo montre le numéro
phone-seal-same = Pareil les deux fois
phone-seal-different = Les deux diffèrent
phone-seal-kind = Type
phone-seal-place = Endroit
phone-seal-record = Consigner le scellé
phone-seal-plastic = Plastique
phone-seal-metal_strap = Bande
phone-seal-cable = Câble
phone-seal-bolt = Boulon
phone-seal-housing_pin = Goupille
phone-seal-housing_lug = Oreille
phone-seal-gauging_device = Jauge
phone-seal-elsewhere = Autre
phone-seal-empty = Aucun scellé? Laisser les deux vides.
phone-seal-whole = Intact
phone-seal-broken = Brisé
phone-seal-lacks = Manque : { $what }

## Defects and approvals

phone-defect-title = Défectuosité
phone-defect-threads = Filets complets en prise
phone-defect-told = Signalé par téléphone à
phone-defect-record = Consigner le défaut
phone-defect-approval = Approbation requise pour bouger
phone-defect-car = Ce wagon
phone-defect-rule = Ne pas changer le bouchon, le robinet ni la bride. Le signaler.
phone-defect-what = Qu’est-ce qui ne va pas?
phone-defects-title = Défectuosités
phone-defects-none = Aucune défectuosité consignée
phone-defects-new = Nouveau défaut
phone-defects-not_told = Pas encore signalé
phone-defects-told = { $to }, { $how }
phone-defects-no_authority = Pas encore d’approbation
phone-forwarded-to = Signalé à
phone-forwarded-how = Comment?
phone-authority-note = Une approbation verbale doit être confirmée par écrit.
phone-authority-by = Qui l’a donnée?
phone-authority-reference = Son numéro
phone-authority-spoken = De vive voix
phone-authority-written = Par écrit
phone-authority-due = par écrit avant le { $at }
phone-resolved-how = Comment a-t-elle été réparée?

## Entries that differ

phone-differ-look = Aller voir. Consigner ensuite ce qui est vu.
phone-differ-saw = Vérifié sur place. Consigner
phone-differ-later = Impossible de vérifier
phone-differ-why = Les deux inscriptions restent au registre.
phone-differ-agree = Retenir celle-ci
phone-differ-none = Aucune divergence

## Photographs

phone-photo-take = Prendre une photo
phone-photo-keeping = Enregistrement…
phone-photo-elsewhere = Sur un autre téléphone
phone-photo-many =
    { $n ->
        [one] { $n } photo
       *[other] { $n } photos
    }
phone-photo-none = Aucune photo
phone-photo-of = Photo : { $what }

## The shipping paper and due dates

phone-test-due = Échéance : année-mois, p. ex. 2031-05
phone-paper-note = Laisser vide ce que le document ne dit pas.
phone-paper-car = Wagon au document
phone-paper-un_number = Numéro UN
phone-paper-same_car = Le même : { $car }
phone-paper-other_car = Autre numéro de wagon
phone-paper-un = Numéro UN, p. ex. UN1075
phone-paper-un_other = Autre numéro UN
phone-paper-product = Appellation réglementaire
phone-paper-billed = Quantité facturée
phone-paper-odorised = Odorisé?
phone-paper-silent = Non précisé
phone-paper-relative_density = Densité relative
phone-paper-number = Numéro du document
phone-paper-shipper = Expéditeur
phone-again-note = Le lire sur le wagon, sans regarder ce qui a été saisi.

## Holds and handovers

phone-hold-note = Ne pas déplacer le wagon ni rien ouvrir avant la levée de la retenue.
phone-hold-do = Retenir le wagon
phone-hold-lift = Lever la retenue
phone-hold-stands = Retenu
phone-check_in-title = Tout va bien?
phone-check_in-overdue = En retard : tout va bien?
phone-check_in-well = Tout va bien
phone-check_in-last = Dernier signe { $time }. Demandé toutes les { $minutes } minutes tant que vous avez le wagon.
phone-check_in-no_rescue = Ceci n’est pas un appareil de secours. Sans réseau, personne ne voit votre signe, ni qu’il manque. Convenir avec quelqu’un qui sait où vous êtes et quand vous chercher.
phone-remind-reading = Lecture à faire
phone-remind-hold = Maintien de pression terminé
phone-remind-watch = Qui surveille le wagon?
phone-remind-word = Tout va bien?
phone-hold-none = Aucune retenue
phone-hold-was_lifted = Levée

## Incidents, leaks, how the car is left

phone-else-title = Consigner autre chose
phone-else-stop = Arrête le travail
phone-else-car = Le wagon
phone-else-more = Le reste
phone-earlier-title = Fait plus tôt
phone-earlier-note = Chaque inscription porte aussi cette heure, jusqu’à la fin. Le journal montre les deux heures.
phone-earlier-time = Fait à
phone-earlier-do = Utiliser cette heure
phone-earlier-as = Consigné comme fait { $time }
phone-earlier-change = Changer l’heure
phone-earlier-end = Revenir à maintenant
phone-incident-source = D’où
phone-incident-noticed = Constaté
phone-incident-injury = Blessés
phone-incident-ignition = Feu
phone-incident-evacuation = Évacués
phone-incident-closed = Route, voie ou installation interdite une heure
phone-incident-note = Les personnes d’abord : s’éloigner et appeler. Le consigner une fois en sûreté.
phone-incident-stopped = Arrêté
phone-incident-loss = Perte estimée
phone-incident-minimal = Seulement un rejet minime au branchement ou au débranchement, sans dommage
phone-incident-to = Avisé
phone-incident-number = Numéro ou nom
phone-incident-how = Ce qui a été fait
phone-incident-call = Avis
phone-incident-more = Ajouter des faits
phone-incident-stop = Arrêté
phone-incident-close = Clore
phone-incident-due-telephone = Par téléphone avant { $time }
phone-incident-due-written = Par écrit avant { $time }
phone-leak-at = Où
phone-leak-action = Mesure prise
phone-leak-fitting = À quel raccord
phone-leak-note = Détendre la pression avant de serrer quoi que ce soit. Le travail attend que la fuite soit vérifiée étanche.
phone-leak-tight = Étanche maintenant
phone-leak-how = Comment c’était vérifié
phone-leak-check = Vérifier de nouveau
phone-leak-yes = Étanche
phone-leak-no = Fuit encore
phone-left-connected = Équipement de déchargement laissé en place
phone-left-yes = Branché
phone-left-no = Débranché
phone-left-conditions = Assuré
phone-left-until = Jusqu’à
phone-left-note = À un réservoir fixe, quelqu’un reste jusqu’au retrait des flexibles. Pour les camions, les cinq sont demandés.
phone-moved-to = Où il est maintenant
phone-moved-by = Déplacé par
phone-moved-note = Remettre les protections à la nouvelle place, et les consigner.
phone-outcome-load = Il part
phone-outcome-because = Parce que
phone-outcome-to = Vers où
phone-outcome-note = Chargé, il ne demande pas le contrôle de liquide, mais un document du chargement.
phone-carried-title = De la visite précédente
phone-carried-none = Rien des visites précédentes
phone-carried-more = { $n } de plus
phone-carried-again = Inscrire de nouveau
phone-next-what = Que doit savoir la prochaine personne ?
phone-next-note = En tête de la prochaine visite du wagon, jusqu’à ce que quelqu’un la dise réglée.
phone-next-how = Ce qui a été fait
phone-feel-how = Il a tourné
phone-feel-note = À la main. Un couple seulement avec une clé dynamométrique.
phone-part-which = Quelle pièce
phone-part-state = État
phone-hose-number = Numéro du flexible
phone-hose-other = Un autre numéro
phone-hose-left = Après la baisse de pression
phone-hose-note = Vanne de l’usine fermée. Lire au flexible.
phone-tank-which = Quel réservoir
phone-tank-moment = Quand
phone-tank-meter = Compteur
phone-truck-ticket = Billet
phone-truck-driver = Conducteur
phone-truck-amount = Chargé
phone-truck-seal = Scellé
phone-plan-target = Jusqu’à
phone-plan-swept = Le compresseur balaie
phone-plan-efficiency = Son rendement
phone-plan-price = Prix du gallon
phone-plan-cost = Coût d’une heure
phone-plan-note = Le temps et l’arrêt économique sont sous Plus. S’il reste du liquide, les deux sont trop courts.
phone-inspection-by = Qui a inspecté
phone-inspection-looked = Ce qui a été regardé
phone-inspection-found = Quelque chose à corriger ?
phone-inspection-finding = Constat
phone-inspection-copy = Copie laissée ?
phone-else-fitting = Organes
phone-else-transfer = Transfert
phone-paper-grade = Grade du produit
phone-paper-billed_by = Facturé selon
phone-paper-winter = Rempli aux limites d’hiver ?
phone-fittings-gauging = Dispositif de jaugeage
phone-fittings-vapor = Robinet de vapeur
phone-shell-insulation = Coque
phone-seal-where = Où il est
phone-seal-because = Pourquoi remplacé ou retiré
phone-note = Note
phone-handover-give = Donner la relève
phone-handover-take = Prendre la relève
phone-handover-note = Elle compte quand l’autre personne la prend.
phone-handover-to = À qui?
phone-handover-from = De { $name }
