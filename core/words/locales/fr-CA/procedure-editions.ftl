### Éditions des procédures propres à l’organisation : pourquoi un texte est refusé, ce qu’une édition change, les nombres qu’elle fixe.

## Pourquoi un texte est refusé

procedure-error-on-line = Ligne { $line } : { $what }
procedure-error-unreadable = Impossible à lire comme procédure : { $why }
procedure-error-too-large = Le texte compte { $bytes } octets. Le maximum est { $most }.
procedure-error-empty = La procédure n’a aucune étape.
procedure-error-empty-field =
    { $step ->
        [0] { "" }
       *[other] Étape « { $step } » :{ " " }
    }« { $field } » est vide.
procedure-error-no-language =
    { $step ->
        [0] { "" }
       *[other] Étape « { $step } » :{ " " }
    }« { $field } » est écrit pour ce qui n’est pas une langue.
procedure-error-bad-id = Étape « { $step } » : l’identifiant d’une étape se compose de a à z, de 0 à 9 et de _.
procedure-error-duplicate-id = Deux étapes ont l’identifiant « { $step } ».
procedure-error-stage-order = L’étape « { $step } » vient après une étape d’une phase ultérieure.
procedure-error-unknown-after = L’étape « { $step } » doit venir après « { $after } », qui ne la précède pas.
procedure-error-bad-record = Étape « { $step } » : une inscription est illisible : { $why }
procedure-error-fitting = Étape « { $step } » : ce qu’elle inscrit et les raccords où elle se répète ne vont pas ensemble.
procedure-error-holds = Étape « { $step } » : « holds » nomme ce qui n’est pas une réponse de son inscription.
procedure-error-sentence = L’étape « { $step } » a une phrase, mais les phrases de cette procédure sont dans les catalogues.
procedure-error-unit = Étape « { $step } » : l’unité ne convient pas à ce qui est mesuré.
procedure-error-law = Étape « { $step } » : sa loi ne dit ni qui elle lie ni comment elle est connue.
procedure-error-interval = Étape « { $step } » : l’intervalle est de 1 à 1 440 minutes, donné une fois.
procedure-error-order = Une règle d’ordre nomme « { $step } », qui n’est pas une étape répétée sur les conduites.
procedure-error-together = Étapes ensemble « { $group } » : { $why }.
procedure-error-gate = Point de contrôle « { $rule } » : { $why }.
procedure-error-blocks-too-late = L’étape « { $step } » ne peut pas bloquer « { $gate } » : elle vient après cette signature.
procedure-error-unknown-start = Le texte ne dit pas de quelle édition intégrée il part, ou cette version n’a pas cette édition.
procedure-error-note = La note au-dessus des étapes reste celle de l’édition dont part le texte.
procedure-error-step-unexplained = La loi exige l’étape « { $step } ». Donnez la raison de son omission ou de son allégement.
procedure-error-rule-unexplained = La loi exige le point de contrôle « { $rule } ». Donnez la raison de son omission ou de son allégement.
procedure-error-left-out-unclear = Ce qui est omis nomme une étape ou un point de contrôle et a une raison : « { $name } ».
procedure-error-left-out-stands = « { $name } » est dit omis, mais figure dans le texte.
procedure-error-essential = « { $name } » ne peut pas être omis. Sans cela, aucun dossier ne peut être tenu.
procedure-error-out-of-bounds = { $threshold } : entrez de { $least } à { $most }.
procedure-error-other-digest = Le texte publié n’est pas celui que nomme son inscription.
procedure-gate-mistake-one-of-three = il demande exactement un des trois : inscription (record), condition (condition), étape (step)
procedure-gate-mistake-no-record = il ne demande aucune inscription
procedure-gate-mistake-record-of-fitting = son inscription porte sur un raccord, mais la règle ne se répète pas par raccord
procedure-gate-mistake-event-of-fitting = son événement porte sur un raccord, mais la règle ne se répète pas par raccord
procedure-gate-mistake-no-slot = son inscription ne peut pas être cherchée
procedure-gate-mistake-condition-each = sa condition et « each » ne vont pas ensemble
procedure-gate-mistake-unknown-step = il nomme une étape que la procédure n’a pas
procedure-gate-mistake-no-gate = il ne nomme aucun contrôle
procedure-gate-mistake-empty-sentence = il a une phrase vide
procedure-gate-mistake-law-unclear = sa loi n’est pas claire : comment elle est connue, qui elle lie ou quand elle a été lue
procedure-gate-mistake-law-and-because = « law » et « because » ne vont pas ensemble
procedure-together-mistake-no-such-step = il nomme une étape qui n’existe pas, ou aucune
procedure-together-mistake-order = ses étapes sont dans un autre ordre que dans la procédure
procedure-together-mistake-two-groups = une de ses étapes appartient aussi à un autre groupe
procedure-together-mistake-stages = ses étapes sont de plusieurs phases
procedure-together-mistake-more-than-a-tap = une étape demande plus qu’un toucher; seules des étapes qui demandent toutes des lectures le peuvent
procedure-together-mistake-not-over-lines = il a une touche par conduite, et une de ses étapes ne se répète pas par conduite
procedure-together-mistake-no-title = il n’a pas de titre ou ne dit pas quoi faire
procedure-read-syntax = ici, le texte n’est pas du TOML
procedure-read-unknown = « { $name } » n’est pas connu ici. Sont connus : { $known }
procedure-read-missing = « { $name } » manque
procedure-read-twice = « { $name } » figure deux fois
procedure-read-other-kind = une valeur d’une autre sorte est requise ici

## Ce qu’une édition change

procedure-change-title = Titre : { $title }
procedure-change-item = point de contrôle : { $item }
procedure-change-left-out =
    Omis ou allégé : { $what }{ $laws ->
        [0] { "" }
       *[other] { " " }({ $laws })
    }.{ $because ->
        [0] { "" }
       *[other] { " " }Raison : { $because }
    }
procedure-change-added = Nouvelle étape : { $step }
procedure-change-words = Reformulé : { $step }
procedure-change-moved = Déplacé : { $step }
procedure-change-interval = Intervalle de { $step } : { $minutes } minutes
procedure-change-blocks = { $step } bloque : { $gate }
procedure-change-threshold = { $threshold } : { $number }
procedure-change-threshold-usual = { $threshold } : comme d’habitude

## Les nombres qu’une organisation fixe

procedure-threshold-reading_interval_minutes = Intervalle des lectures, minutes
procedure-threshold-hold_minutes = Durée minimale du maintien de pression, minutes
procedure-threshold-final_pressure_span_psi = Étendue maximale du manomètre pour la pression finale, psig
procedure-threshold-attendance_gap_minutes = Temps maximal sans signe de présence, minutes
procedure-threshold-check_in_minutes = Tout va bien : à quel intervalle le dit qui a le wagon, minutes (vide : non demandé)
