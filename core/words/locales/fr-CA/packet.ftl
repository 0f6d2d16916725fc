### Le dossier : les mots de ses pages et des faits de la première page.

## Pieces

packet-parts = { $parts }
packet-page = page { $page } de { $pages }
packet-title = Dossier de preuve, wagon { $car }
packet-title-not-known = Dossier de preuve, wagon inconnu
packet-subject = Le registre du séjour d'un wagon-citerne sur une voie d'évitement, avec ses preuves jointes
packet-author = Organisation dont la clé publique est { $key }
packet-kind = Dossier de preuve : le registre du séjour d'un wagon-citerne
packet-car = Wagon { $car }
packet-car-not-known = Wagon inconnu
packet-proved = Ce qui est prouvé, par qui, et ce qui repose sur la seule parole de l'organisation
packet-cited = { $text } ({ $numbers })
packet-number = no { $number }
packet-numbers = no { $numbers }
packet-numbers-more = no { $numbers } et { $more } de plus
packet-other-record = d'un autre registre
packet-and-more = { $named }; et { $more } de plus
packet-not-in-log = absent du journal
packet-by = { $who }, sur { $device }, { $entry }
packet-by-known = { $who }, sur { $device }, { $known }, { $entry }
packet-by-short = { $who }, { $at } ({ $known })
packet-by-disputed = { $by } – CONTESTÉ, voir Divergences
packet-is-disputed = { $text }, CONTESTÉ
packet-disputed = CONTESTÉ
packet-plus-minus = ± { $value }
packet-amount-typed = { $amount } (saisi « { $typed } »)
packet-reason = Raison donnée : { $why }
packet-reason-given = raison donnée : { $why }
packet-no-reason = aucune raison donnée
packet-fate-because = { $fate } : { $why }
packet-not-recorded = non consigné
packet-not-recorded-strong = NON CONSIGNÉ
packet-none-recorded = aucun consigné
packet-not-known = inconnu
packet-no-number = aucun numéro lisible
packet-document = Document { $document }

## The first page: notices. FORMAT.md lists their digests: they change with the layout alone.

packet-notice-what = Voici ce qui a été consigné pendant qu'un wagon-citerne sous pression se trouvait sur une voie d'évitement. L'organisation nommée ci-dessous tient le registre et a scellé ce fichier.
packet-notice-not = Il ne prouve pas qu'une scène était telle qu'affirmée, qu'une photographie montre le wagon indiqué, ni qu'une heure déclarée par un appareil est exacte. C'est la parole de la personne qui a fait l'entrée. Aucun fichier ne peut montrer ce que l'organisation a laissé hors de son registre.
packet-notice-never = Farsiding consigne et calcule. Il ne déclare jamais un wagon sûr, vide ou apte à rouler. Les codes locaux, les instructions du propriétaire et la pratique autorisée passent avant tout.

## The first page: labels. They stand at the beginning of a row.

packet-label-organisation = Organisation
packet-label-car = Wagon
packet-label-site = Site
packet-label-product = Produit
packet-label-procedure = Procédure
packet-label-dates = Dates
packet-label-people = Personnes
packet-label-seals = Scellés
packet-label-pressure = Pression finale
packet-label-gallons = Gallons, calculés
packet-label-alarms = ALARMES
packet-label-holds = Retenues
packet-label-overrides = DÉROGATIONS
packet-label-missing = Manquant
packet-label-differ = Divergences
packet-label-release = Libération
packet-label-aside = Non comptées
packet-label-device = Signature de l'appareil
packet-label-person = Personne
packet-label-log = Journal
packet-label-receipts = Accusés de réception
packet-label-times = Heures
packet-label-witness = Témoin
packet-label-whole = Intégralité

## The first page: facts

packet-organisation-named = { $name }, selon ce qui est consigné pour le site; { $key }
packet-public-key = clé publique { $key }
packet-car-typed = { $car } (saisi { $typed })
packet-car-again-same = relu { $typed } ({ $read }), le même
packet-car-again-other = relu { $typed } ({ $read }), UN AUTRE NUMÉRO
packet-site = { $place }; les heures sont données en { $zone } et en UTC
packet-site-not-known = inconnu
packet-procedure-named = { $title }; SHA-256 de son texte { $digest }
packet-procedure-not-held = son texte n’est pas conservé ici; SHA-256 { $digest }
packet-into-tank = déchargé dans un réservoir fixe
packet-into-trucks = déchargé dans des camions
packet-into-unknown = le récepteur n'est pas consigné
packet-no-paper = aucun document d'expédition consigné
packet-paper-number = document { $number }
packet-paper-from = de { $shipper }
packet-paper-billed = facturé { $amount }
packet-paper-compared = lu par le bureau dans { $file }, ligne { $line }, et comparé au document en main
packet-placed = placé { $at }
packet-pulled = retiré { $at }
packet-first-entry = première entrée { $at }
packet-last-entry = dernière { $at }
packet-last-received = dernière entrée reçue { $at }
packet-person =
    { $name }, { $count ->
         [one] { $count } entrée
        *[other] { $count } entrées
    }
packet-name-removed = { $code } (nom retiré au bureau)
packet-person-code =
    { $name } ({ $code }), { $count ->
         [one] { $count } entrée
        *[other] { $count } entrées
    }
packet-seal-event = { $event } { $number }
packet-seal-event-broken = { $event } { $number }, NON INTACT
packet-seal-at = { $place } : { $events }
packet-more-places =
    { $count ->
         [one] et { $count } autre endroit
        *[other] et { $count } autres endroits
    }
packet-pressure = { $amount } { $worth } ({ $by })
packet-pressure-not-known = { $amount }, ± inconnu
packet-as-settled = { $text }, selon l'accord
packet-named = { $what } : { $value }
packet-trucks-loaded = Chargé dans les camions : { $value }
packet-no-gallons = rien n'a pu être calculé; voir Valeurs
packet-no-alarms = Aucune signalée par le programme.
packet-counted = { $count } : { $named }
packet-none = Aucune.
packet-holds-called = { $count } en tout : { $named }
packet-passed-over = { $count } avec raison : { $named }
packet-hold-short-open = { $because } (NON LEVÉE)
packet-hold-short-lifted = { $because } (levée : { $lifted })
packet-missing-nothing = Rien de ce que ce registre recherche, sauf les dérogations.
packet-none-open = Aucune n'est ouverte
packet-open-disagreements = { $count } NON RÉGLÉES
packet-differ = { $open }; réglées ou dépassées : { $ended }. Entrées corrigées, retirées ou réglées autrement : { $corrected }.
packet-not-released = Non libéré; étape : { $stage }
packet-released-see = Libéré, selon les entrées; voir celles-ci
packet-released-residue = Libéré comme résidu par { $by }
packet-released-not-residue = Libéré sans déclarer de résidu par { $by }
packet-aside =
    { $count ->
         [one] { $count } entrée est conservée et ne compte pas; sa raison est sous Corrections
        *[other] { $count } entrées sont conservées et ne comptent pas; leurs raisons sont sous Corrections
    }

## The first page: whose word it is

packet-said-devices = Chacune des { $entries } entrées du séjour est signée par l'appareil sur lequel elle a été faite. Appareils munis d'un certificat de cette organisation : { $devices }. Qui tenait l'appareil est une autre question.
packet-said-people = Entrées qui comptent : { $people }.
packet-said-nobody = Entrées qui comptent : aucune.
packet-named-own-hand = { $count } avec la clé propre et confirmée de la personne
packet-named-held = { $count } sur un téléphone que la personne avait signé détenir
packet-named-by-phone = { $count } où seul le téléphone nomme la personne
packet-named-not-confirmed = { $count } avec une clé que personne n'a confirmée
packet-named-not-theirs = { $count } avec une clé qui n'est pas la leur
packet-said-no-checkpoint = Aucun point de contrôle du journal n'est valide.
packet-said-log = L'organisation a signé que son journal avait { $count } entrées, chacune de celles-ci à sa place. Elle ne peut ni les changer ni les déplacer sans contredire cette signature.
packet-said-no-receipts = Aucun n'est joint.
packet-said-receipts = { $count } signés par l'organisation lors des synchronisations. Ils couvrent { $entries } entrées du séjour.
packet-said-times-alone = Une heure « déclarée » est celle d'un appareil. Une heure « reçue » est celle de l'organisation et repose sur sa seule parole : aucun horodatage d'un tiers n'est joint.
packet-said-times-stamped = Une heure « déclarée » est celle d'un appareil. Une heure « reçue » est celle de l'organisation. L'horodatage d'un tiers (RFC 3161) sur le journal est joint. Qui s'y fie et le vérifie sait que les entrées existaient alors. Les heures antérieures reposent sur la parole de l'organisation.
packet-said-no-witness = Aucun témoin n'a signé le point de contrôle du journal qui est joint.
packet-said-witness = D'autres ont aussi signé le point de contrôle du journal. Leurs clés s'obtiennent auprès d'eux.
packet-said-gaps = Des numéros MANQUENT dans la chaîne d'un appareil, voir Appareils.
packet-said-whole = Les { $entries } entrées de ce séjour que contenait le journal de { $count } entrées sont jointes : son point de contrôle en fixe le nombre. Ce qui n'est jamais parvenu au journal, et qu'il n'y en ait qu'un, repose sur la parole de l'organisation.
packet-said-chains-whole = Entre la première et la dernière entrée d'un appareil, aucune ne manque. Que celles d'autres appareils, ou de plus tardives, aient été omises repose sur la parole de l'organisation.
packet-said-not-whole = Que d'autres aient été omises repose sur la parole de l'organisation.

## Headings

packet-heading-defects = 1  Défectuosités et retenues
packet-heading-disagreements = 2  Divergences
packet-heading-corrections = 3  Corrections, et ce qui ne compte pas
packet-heading-not-counted = Entrées conservées qui ne comptent pas
packet-heading-passed-over = 4  Avant la libération : ce qui manquait, ce qui a été dérogé
packet-heading-passed = Dérogations
packet-heading-findings = 5  Ce que signale le programme
packet-heading-fittings = 6  Accessoires, fermetures et couvercle à la fin du registre
packet-heading-readings = 7  Lectures
packet-heading-received = Réservoirs, camions, flexibles, inspections
packet-told-by = { $text } – { $by }
packet-heading-empty = Le liquide était-il sorti? Ce qui a été consigné
packet-heading-seals = 8  Scellés
packet-heading-photographs = 9  Photographies
packet-heading-check = 10  Comment vérifier ce fichier
packet-annex-story = Annexe A  Toutes les entrées du séjour, dans l'ordre du temps
packet-annex-others = Annexe B  Ce que l'on savait du wagon, du site et des personnes
packet-annex-series = Annexe C  Séries de lectures
packet-annex-values = Annexe D  Valeurs calculées à partir du registre
packet-annex-devices = Annexe E  Appareils, leurs certificats et chaînes
packet-annex-receipts = Annexe F  Accusés de réception et journal
packet-annex-files = Annexe G  Fichiers joints
packet-heading-responsible = Qui était responsable
packet-heading-attendance = Périodes sans signe de surveillance, une conduite étant raccordée

## Columns and rows. They stand at the top of a column or at the beginning of a row.

packet-column-number = No
packet-column-of = De
packet-column-about = Sujet
packet-column-who-device = Qui, sur quoi
packet-column-received = Reçu
packet-column-said = Ce qui a été dit
packet-column-by-when = Par qui, quand
packet-column-first = Dit d'abord
packet-column-stands = Ce qui vaut à sa place, par qui
packet-column-reason = Raison donnée
packet-column-why-not = Pourquoi ne compte pas
packet-column-missing = Manquant
packet-column-asked = Demandé par
packet-column-what = Quoi
packet-column-reason-by = Raison donnée, par qui
packet-column-reading = Lecture
packet-column-plus-minus = ±
packet-column-method = Instrument et méthode
packet-column-who-when = Qui, quand
packet-column-who = Qui
packet-column-claimed = Déclaré
packet-column-when = Quand
packet-column-value = Valeur
packet-column-result = Résultat
packet-column-formula = Formule, version
packet-column-source = Source
packet-column-fitting = Accessoire
packet-column-valve = Robinet
packet-column-closure = Bouchon, capuchon
packet-column-besides = En outre
packet-column-where = Où
packet-column-found = Trouvé à l'arrivée
packet-column-at-end = À la fin
packet-column-device = Appareil
packet-column-key = Clé publique (Ed25519)
packet-column-standing = Statut
packet-column-clock = Entrées, horloge
packet-column-signed-at = Signé
packet-column-covered = Entrées couvertes
packet-column-digest = Début du SHA-256
packet-column-file = Fichier joint
packet-column-bytes = Octets
packet-column-file-what = Ce que c'est
packet-column-recorded = Ce qui a été consigné
packet-row-noted = Noté
packet-row-movement = Déplacement
packet-row-reported = Signalé
packet-row-authority = Autorité
packet-row-put-right = Corrigé
packet-row-photograph = Photographie
packet-row-checkpoint = Point de contrôle
packet-row-log = Journal
packet-row-places = Places

## Defects, holds, disagreements, corrections

packet-no-defects = Aucune défectuosité ni retenue n'est consignée.
packet-defect = Défectuosité : { $what }
packet-defect-at = Défectuosité ({ $fitting }) : { $what }
packet-defect-earlier = Défectuosité : { $what } (notée lors d'un séjour antérieur, visite { $visit })
packet-defect-at-earlier = Défectuosité ({ $fitting }) : { $what } (notée lors d'un séjour antérieur, visite { $visit })
packet-noted-received = { $by }; reçu { $received }
packet-needs-authority = dit exiger l'approbation d'une autorité (49 CFR 174.50)
packet-reported = à { $to } ({ $how }); { $by }
packet-authority = { $by }, référence { $reference }
packet-authority-spoken = de vive voix { $at }
packet-authority-written = par écrit { $at }
packet-authority-due = attendu par écrit d'ici le { $due }
packet-authority-overdue = attendu par écrit d'ici le { $due } (EN RETARD)
packet-put-right = { $how }; { $by }
packet-not-put-right = non consigné : OUVERT
packet-photograph-elsewhere = nommée, d'un autre séjour
packet-hold-open = RETENUE : { $because } ({ $by }). NON LEVÉE
packet-next-time = Pour la prochaine visite : { $what } ({ $by })
packet-hold-lifted = RETENUE : { $because } ({ $by }). Levée : { $lifted } ({ $lifter })
packet-agreed-on = CONVENU : { $sentence }
packet-no-disagreements = Aucune paire d'entrées faites séparément ne dit des choses différentes.
packet-disagreements-what = Deux entrées divergent quand elles diffèrent et qu'aucune ne nomme l'autre comme connue. Les deux sont conservées. Ce qui a été convenu vaut.
packet-not-settled = NON RÉGLÉ : { $about }
packet-settled = Réglé : { $about }
packet-moved-on = Dépassé : { $about }
packet-reopened = C'était réglé. L'accord a été retiré par { $by } (raison donnée : { $why }).
packet-settled-by = Réglé par { $by } : { $what } ({ $why })
packet-later-by = Une entrée ultérieure l'a remplacée, par { $by } : { $what } ({ $why })
packet-no-corrections = Aucune entrée n'a été corrigée ni retirée.
packet-not-counted-what = Elles sont parvenues au bureau et sont jointes comme les autres, mais leur auteur ne pouvait pas dire cela ici. Elles n'entrent dans aucun état, aucune mesure ni aucune liste de ce document.
packet-nothing-missing = Rien de ce que ce registre recherche ne manque, ou tout a fait l'objet d'une dérogation avec raison.
packet-asked-by = { $basis } : { $source }
packet-does-not-stand = N'est pas valable : { $why }.
packet-nothing-found = Rien.
packet-finding-alarm = ALARME : { $what }
packet-finding-check = À vérifier : { $what }
packet-checked = Vérifié, { $what } : { $result } ({ $by })
packet-check-right = conforme
packet-check-wrong = NON conforme
packet-unrecognised =
    { $count ->
         [one] { $count } entrée est d'un type que cette version ne connaît pas. Elle est jointe en entier.
        *[other] { $count } entrées sont d'un type que cette version ne connaît pas. Elles sont jointes en entier.
    }

## The state at the end

packet-plan-in-words = Plan des accessoires sous l'enceinte selon le dernier état consigné. Le tableau ci-dessous dit la même chose en mots.
packet-plan-caption = Ouvertures sous l'enceinte selon le dernier état consigné, vues d'en haut, le wagon étant de gauche à droite. Les places sont une disposition usuelle (pratique courante, sans source), non le dessin de ce wagon. Plein : fermeture serrée à l'outil. Demi : serrée à la main. Vide : ouverte. Point d'interrogation : non consigné. Barre en travers de la tige : robinet fermé.
packet-plan-above = vu d'en haut
packet-plan-valve = robinet : { $state }
packet-plan-valve-not-recorded = robinet : non consigné
packet-plan-closure = fermeture : { $state }
packet-plan-closure-not-recorded = fermeture : non consigné
packet-plan-cover-not-recorded = couvercle : non consigné
packet-plan-seal = scellé { $number } : { $place }
packet-cover-closed-pin-in = couvercle fermé, goupille en place
packet-cover-closed-pin-out = couvercle fermé, goupille RETIRÉE
packet-cover-open-pin-in = couvercle OUVERT, goupille en place
packet-cover-open-pin-out = couvercle OUVERT, goupille RETIRÉE
packet-bolts = { $here } de { $count } boulons en place
packet-has-none = n'en a pas
packet-heard = entendu : { $heard }
packet-heard-since-shut = entendu après la fermeture : { $heard }
packet-engaged = { $threads } en prise
packet-line-on = CONDUITE RACCORDÉE
packet-line-on-hose = CONDUITE RACCORDÉE, flexible { $hose }
packet-line-off = conduite débranchée
packet-line-off-hose = conduite débranchée, flexible { $hose }
packet-effort = effort { $amount } ({ $at })
packet-cover = Enceinte protectrice : { $state }; { $by }.
packet-no-cover = Le couvercle de l'enceinte n'a pas été consigné.
packet-protection-set = { $what } : posé; { $by }
packet-protection-away = { $what } : retiré; { $by }
packet-tally-none = Décompte : rien de ce qui a été retiré n'est consigné comme encore dehors.
packet-still-out = ENCORE DEHORS : { $item }
packet-still-out-by = ENCORE DEHORS : { $item }, retiré par { $by }

## Seals and photographs

packet-seals-what = Un scellé trouvé intact sous son numéro consigné indique que personne n'a ouvert ce qu'il ferme. Il ne remplace jamais le contrôle des fermetures (pratique courante, sans source).
packet-no-seals = Aucun scellé n'a été consigné.
packet-kind-not-said = type non précisé
packet-seal = { $number } ({ $kind }) { $event }
packet-seal-whole = intact
packet-seal-not-whole = NON INTACT
packet-seal-lacks = manque { $what }
packet-see-photograph = photographie { $numbers }
packet-no-photographs = Le registre ne nomme aucune photographie.
packet-photographs-what = Telles que reçues au bureau, octet pour octet. Le nom de chaque fichier joint est le SHA-256 de ses octets, que l'entrée signe. Ce que montre une photographie, et quand elle a été prise, est la parole de l'auteur de l'entrée.
packet-shows-about = { $what } ({ $about })
packet-attached-as = jointe sous { $name }
packet-not-at-office = ABSENTE DU BUREAU lors de la création; son SHA-256 est { $digest }
packet-photograph = Photographie { $number }, dite montrer : { $what }. { $by }; reçue { $received }. { $bytes } octets, { $media }; { $place }
packet-picture-not-shown = non montrée ici, voir la légende

## Readings and values

packet-no-instrument = instrument non nommé
packet-unknown-instrument = { $name } (absent de la liste du site)
packet-calibration-due = étalonnage dû { $due }
packet-before = avant
packet-no-readings = Aucune lecture individuelle n'a été consignée.
packet-readings-what = ± est la demi-largeur de l'intervalle à 95 % (JCGM 100) que laisse l'instrument, selon ce qui est nommé à côté. Une valeur entre parenthèses ne vaut plus. Les séries de lectures sont à l'annexe C.
packet-a-series = { $title }, une série
packet-chart-caption = { $title }, { $unit }, dans le temps. Les points sont des lectures, les barres leur ±. La ligne ne fait que les relier.
packet-chart-in-words = Graphique de { $title }. Le tableau ci-dessous a les mêmes chiffres.
packet-chart-left = { $day }; { $left } de { $count } lectures sont d'une autre heure et ne sont pas tracées
packet-all-on = Toutes avec { $how }; { $worth }.
packet-sign-yes = { $sign } : oui ({ $by })
packet-sign-yes-liquid = { $sign } : oui – indique du liquide ({ $by })
packet-sign-no = { $sign } : non ({ $by })
packet-sign-no-liquid = { $sign } : non – indique du liquide ({ $by })
packet-weighed-liquid = Pesé par un modèle, qui ne décide rien : ce qui est consigné indique du LIQUIDE. { $caution }
packet-weighed-no-liquid = Pesé par un modèle, qui ne décide rien : ce qui est consigné n'indique pas de liquide. { $caution }
packet-weighed-not-enough = Pesé par un modèle, qui ne décide rien : ce qui est consigné ne suffit pas. { $caution }
packet-no-grounds = aucun motif donné
packet-taken-as-empty = Considéré vide de liquide : { $grounds } ({ $by })
packet-not-taken-as-empty = NON considéré vide de liquide : { $grounds } ({ $by })
packet-annex-values-what = Personne n'a saisi ces valeurs. Chacune vient des lectures ci-dessus par la formule nommée. ± est la demi-largeur de l'intervalle à 95 % (JCGM 100). Là où il manquait quelque chose, c'est dit à la place d'un nombre.
packet-nothing-computed = Rien n'a été calculé.
packet-for-product = pour { $product }
packet-largest = la plus grande part du ± vient de { $input }

## The story

packet-annex-story-what = « Déclaré » est l'heure de l'appareil. L'heure corrigée figure dessous si l'on a constaté que son horloge s'écartait de deux minutes ou plus. « Reçu » est le moment où le journal du bureau a eu l'entrée, dans l'ordre des accusés. Les entrées qui ne valent plus sont montrées avec leur sort, celles qui ne comptent pas avec la raison. La façon dont une personne est connue figure avec les actes qui engagent et ce qu'elle a signé. No est la place de l'entrée dans le séjour selon l'arrivée. Il est cité partout. Hors de cette colonne, les heures des entrées sont corrigées selon l’écart constaté à la synchronisation.
packet-corrected-time = corrigée : { $time }
packet-clock-never-compared = horloge jamais comparée
packet-later-changed = changé plus tard
packet-no-part = (ne fait pas partie du registre) { $what }
packet-no-longer = (ne vaut plus) { $what }
packet-handover = { $from } a passé la relève à { $to }, { $at }
packet-handover-one-sided = { $from } a passé la relève à { $to }, { $at } (signé d'un seul côté)
packet-gap = { $when } ({ $minutes } min)
packet-gap-away = quelqu'un avait écrit partir
packet-gap-shut = chaque robinet ayant une conduite consigné fermé
packet-of-car = wagon
packet-of-site = site
packet-of-people = personnes
packet-annex-others-what = Ces entrées sont d'autres registres. Ce qui en compte est entré dans celui-ci. Elles sont jointes en entier.

## Proofs

packet-certified = certifié { $at }
packet-for-sites =
    { $count ->
         [one] pour { $count } site
        *[other] pour { $count } sites
    }
packet-until = jusqu'à { $at }
packet-revoked = RÉVOQUÉ { $at } : ce qui est arrivé ensuite est conservé, son heure déclarée ne prouve rien
packet-not-certified = NON CERTIFIÉ par l'organisation
packet-clock-never = jamais comparée
packet-clock-against = { $seconds } s par rapport au bureau
packet-other-devices = En outre, des entrées dont aucune ne compte (section 3) sont jointes, signées avec { $keys }.
packet-chains-whole = Chaque appareil numérote ses entrées et nomme dans chacune la précédente. Entre la première et la dernière de ce séjour, aucun numéro ne manque sur aucun appareil. Les entrées d'autres registres entre elles sont listées par leur empreinte.
packet-chain-elsewhere =
    { $count ->
         [one] { $count } entrée d'un autre registre se trouve entre celles-ci. Seule son empreinte est jointe.
        *[other] { $count } entrées d'autres registres se trouvent entre celles-ci. Seules leurs empreintes sont jointes.
    }
packet-no-receipts = Le bureau ne conserve aucun accusé de réception couvrant ces entrées. Le journal ci-dessous dit quand chacune a été reçue.
packet-receipts-what = Le bureau a signé ces accusés de réception quand les appareils ont apporté leurs entrées :
packet-receipt-covers = { $here } de ce dossier, { $all } en tout
packet-log-what = Le bureau inscrit ce qu'il reçoit dans un seul journal qui ne fait que croître (arbre de Merkle, RFC 9162). Un point de contrôle est sa parole signée sur sa longueur et son contenu. Qui détient un autre point de contrôle peut vérifier si les deux peuvent être d'un même journal.
packet-checkpoint = { $count } entrées, racine { $root }
packet-checkpoint-stamped = horodaté par un tiers (RFC 3161), jeton joint
packet-checkpoint-witnessed = signé aussi par { $others }
packet-places = { $first } à { $last }, reçues { $from } à { $until }
packet-check-proof = Les pages servent à la lecture. La preuve est jointe dans ce PDF. Avec le fichier et la clé publique de l'organisation (d'une autre source que ce fichier), chacun peut le vérifier sans rien demander à l'organisation :
packet-check-how = ou avec un programme à soi : { $description } décrit chaque octet. Les vérifications : chaque entrée de { $entries } porte la signature de son appareil. Chaque appareil dont les entrées comptent a un certificat de l'organisation. Le journal contient chaque entrée à sa place et à son heure. Rien ne manque entre la première et la dernière entrée d'un appareil. Chaque photographie est, octet pour octet, celle qui est signée. { $seal } est la signature de l'organisation sur tout ce fichier. Les pages, redessinées à partir de ce qui est joint, sont celles-ci. Ainsi, même qui détient la clé de l'organisation ne peut imprimer autre chose sans que cela se voie. Un programme qui ne les redessine pas compare la première page aux entrées par { $front } et le dit.
packet-check-not = Le fichier seul ne peut montrer si l'organisation a retenu d'autres registres ou avait une horloge fausse. Un point de contrôle gardé par quelqu'un d'autre, ou l'horodatage d'un tiers, restreint ce doute.
packet-check-characters = Un caractère que les polices de ce document ne peuvent montrer s'écrit { $form } avec son numéro Unicode. Les entrées jointes l'ont tel qu'il a été saisi.

## What each attached file is

packet-file-entries = les entrées signées, octet pour octet
packet-file-certificates = les certificats des appareils
packet-file-receipts = les accusés de réception du bureau
packet-file-keys = ce que la racine a dit des clés de l'organisation
packet-file-names = noms de personnes, avec les sels qui les prouvent
packet-file-log = places dans le journal, points de contrôle, chaînes
packet-file-view = le registre résultant, pour les programmes
packet-file-last-entry = la place de la dernière entrée dans le journal, en C2SP tlog-proof
packet-file-description = description de ce format, comment vérifier
packet-file-procedure = la procédure du séjour, SHA-256 { $digest }
packet-file-procedure-words = les phrases de la procédure dans cette langue, SHA-256 { $digest }
packet-file-front = les faits de la première page et leurs entrées, pour les programmes
packet-file-pages = le texte de chaque page
packet-file-seal = le scellé numérique de l'organisation sur ce fichier
packet-file-photograph = photographie, octet pour octet
