### What is open before a car may be released, and what overrides it.

gate-note = Farsiding consigne ce que les gens ont fait et dit. Il ne déclare pas le wagon sûr. Les codes locaux, les directives du propriétaire et la pratique autorisée ont priorité.
gate-code = { $kind } ({ $of })

## At a fitting

gate-line-connected = Conduite non consignée comme débranchée ({ $fitting }). La débrancher et le consigner.
gate-valve-open = Robinet consigné comme ouvert ({ $fitting }). Le fermer et le consigner.
gate-valve-not-recorded = Robinet non consigné comme fermé ({ $fitting }). Le fermer et le consigner; un bouchon serré ne dit rien du robinet derrière.
gate-listen-missing = Personne n’a écouté après la dernière fermeture du robinet ({ $fitting }). Écouter et consigner ce qui est entendu.
gate-leak-heard = Fuite au siège du robinet ({ $fitting }). Arrêter et trouver la cause.
gate-closure-not-recorded = Fermeture non consignée comme serrée à l’outil ({ $fitting }). La serrer à l’outil et le consigner.
gate-closure-hand-tight = Fermeture serrée à la main seulement ({ $fitting }). La serrer à l’outil.
gate-closure-removed = Fermeture consignée comme retirée ({ $fitting }). La remettre et la serrer à l’outil.
gate-closure-disputed = Les inscriptions divergent : fermeture serrée à l’outil ou non ({ $fitting }). Vérifier, puis conserver une inscription.
gate-threads = { $count } en prise ({ $fitting }); il faut plus d’un tour complet. Il manque : { $lacks }.
gate-threads-lacks-defect = une inscription de défectuosité
gate-threads-lacks-photo = une photographie
gate-threads-lacks-report = un avis au propriétaire ou au bureau

## Of the whole car

gate-hold-open = Wagon retenu : { $because }. Lever d’abord la retenue.
gate-incident-open = Un incident est ouvert : { $incident }. Mettre le wagon en sûreté, faire les appels et clore d’abord l’incident.
gate-leak-open = Une fuite n’est pas vérifiée étanche : { $leak }. La réparer, la vérifier de nouveau et le consigner.
gate-outcome-unexplained = Le registre ne dit pas pourquoi le wagon part ainsi ({ $because }). Hors d’état : consigner la défectuosité; sinon, donner la raison.
gate-protect-again = Pas consigné de nouveau depuis que le wagon a été déplacé ou laissé : { $protection }. Le mettre et le consigner.
gate-disagreement = Deux inscriptions divergent : { $about }. En conserver une et donner la raison.
gate-authority-missing = « { $defect } » : le wagon ne se déplace qu’avec une approbation. Consigner qui l’a donnée et quand.
gate-not-opened = L’inscription qui a ouvert ce registre n’est pas ici; le wagon n’est pas connu. Synchroniser d’abord.
gate-empty-not-decided = Personne n’a décidé que le liquide est sorti. Peser les signes et décider.
gate-empty-not-accepted = La confirmation de la vidange n’a pas été acceptée. Retirer le liquide, puis décider de nouveau.
gate-empty-contradicted = Un signe de liquide a été consigné après la décision ({ $sign }). Décider de nouveau.
gate-final-pressure-missing = Pression finale non lue au wagon. La lire sur un manomètre à basse plage.
gate-final-pressure-elsewhere = Pression finale lue seulement ici : { $places }. La lire au wagon.
gate-final-pressure-without-gauge = La pression finale ne nomme pas son manomètre. Le nommer.
gate-final-pressure-not-a-number = La pression finale ne peut être lue comme un nombre. La relire et la consigner.
gate-item-out = Non rendu : { $item }. Le rendre et le consigner.
gate-item-out-by = Non rendu : { $item } (sorti : { $who }). Le rendre et le consigner.
gate-cover-not-recorded = Couvercle de l’enceinte non consigné comme fermé. Le fermer et le consigner.
gate-cover-open = Couvercle de l’enceinte consigné comme ouvert. Le fermer et le consigner.
gate-cover-before-work = Le couvercle a été consigné fermé avant le dernier travail en dessous : { $work } Le consigner de nouveau.
gate-cover-not-pinned = La goupille de l’enceinte n’est pas posée. La poser et le consigner.
gate-cover-bolts-not-counted = Boulons du couvercle non comptés. Les compter et consigner le nombre.
gate-cover-bolts = { $count } boulons sur { $of } en place au couvercle. Poser les autres et le consigner.
gate-seal-incomplete = Dossier du scellé incomplet ({ $place }). Il manque : { $lacks }.
gate-seal-missing = Aucun scellé apposé et aucune raison donnée. Apposer un scellé, ou sauter l’étape avec une raison.
gate-blue-sign-down-early = Le signal bleu a été enlevé avant qu’une fermeture soit serrée ({ $fitting }). Le remettre jusqu’à ce que toutes le soient.

## Why an override does not stand

gate-override-voided = la dérogation a été annulée
gate-override-without-reason = aucune raison n’a été donnée
gate-override-overtaken = le registre a changé depuis; regarder de nouveau
