### What formulas point out about their results.

## Pressures in words

calc-pressure = { $pressure }
calc-pressure-both = { $gauge } ({ $absolute })
calc-pressure-between = { $low } à { $high }

## Limits that nobody stated

calc-presumed = Le ± repose sur des limites que personne n’a données : { $limits }.
calc-presumed-limits = { $input } ±{ $half_width }
calc-presumed-gauge = { $input } : un manomètre de classe { $grade }, étendue { $span }
calc-presumed-efficiency = rendement du compresseur présumé : { $efficiency }
calc-presumed-as-car = température du réservoir, celle du wagon ±{ $half_width }
calc-calibration-overdue = L’instrument qui a mesuré { $input } a dépassé sa date d’étalonnage : ses limites ont été doublées.
calc-gauge-low = { $reading } est dans le dixième inférieur d’un manomètre de { $span } : ±{ $half_width }. Employer un manomètre de plus faible étendue.

## Arrival

calc-arrival-fits = Lu { $read } ± { $spread }; { $product } à { $temperature } sature à { $saturation }. Les deux concordent.
calc-arrival-above = Lu { $read } ± { $spread }; { $product } à { $temperature } sature à { $saturation }. Trop élevé : air ou azote dans la vapeur, autre produit, ou mauvaise lecture.
calc-arrival-below = Lu { $read } ± { $spread }; { $product } à { $temperature } sature à { $saturation }. Trop bas : mauvaise lecture, autre produit, ou liquide et vapeur à des températures différentes.
calc-nearly-full = La citerne contient { $share } % de liquide : il ne reste presque pas de place pour qu’il se réchauffe.
calc-overfilled = { $net } nets à 60 °F deviennent { $warm } à { $reference } dans une citerne de { $shell } : creux { $outage }, au moins { $least } exigés. Trop rempli : ne pas laisser chauffer, aviser l’expéditeur, éloigner les gens.
calc-not-overfilled = { $net } nets à 60 °F deviennent { $warm } à { $reference } dans une citerne de { $shell } : creux { $outage }, au moins { $least } exigés.
calc-fill-ask-insulation = À { $reference }, le creux serait { $outage }; au moins { $least } est exigé à 115 °F, 110 °F ou 105 °F selon l’isolation du wagon (49 CFR 173.314(c), note 9, lu). Noter comment le wagon est isolé; rien n’est jugé d’ici là.
calc-fill-ask-winter = À { $reference }, le creux serait { $outage }, au moins { $least } exigé; selon les limites d’hiver, c’est assez (49 CFR 173.314(c), note 10, lu). Le wagon a-t-il été rempli selon les limites d’hiver? Chercher l’avis de l’expéditeur.
calc-fill-winter = Rempli selon les limites d’hiver : creux { $outage } à { $reference }, au moins { $least } exigé (49 CFR 173.314(c), note 10, lu). Garder l’avis de l’expéditeur; décharger dès que possible après mars.
calc-fill-not-checked = Le remplissage n’a pas été vérifié : { $why }
calc-vapor-saturated = La pression lue, { $read }, n’est pas sous la saturation, { $saturation }; la vapeur a été prise comme saturée.
calc-estimated-pair = L’interaction du propylène avec le n-butane est estimée, non publiée.
calc-density-ratio-used = La correction est le rapport des masses volumiques de l’équation d’état, non la table 24E.
calc-table-coarse = Les lignes sont espacées de { $apart } au plus. Entre elles, la table se lit sur une courbe lisse; une droite s’en écarterait de { $bow } au plus. Demander au propriétaire une table au pouce ou moins.
calc-table-odd-row = À { $outage }, la table dit { $volume }; ses voisines donnent { $expected }. Est-ce mal saisi?

## Bill

calc-bill-agrees = Jaugé { $found }, facturé { $billed } : l’écart de { $difference } ({ $percent } %) est dans l’incertitude de mesure.
calc-bill-over = Jaugé { $found }, facturé { $billed } : excédent de { $difference } ({ $percent } %).
calc-bill-short = Jaugé { $found }, facturé { $billed } : manquant de { $difference } ({ $percent } %).
calc-bill-heel = Facturé à la balance : le reste de liquide avant le chargement n’appartient à aucun côté et n’est pas encore connu. Il sera retranché quand la pression finale sera notée.
calc-credit = Résidu en vapeur : { $gallons } nets à 60 °F, { $pounds } dans le vide, { $percent } % de { $billed } facturés.

## Receiving tank

calc-room-fits = Permis { $allowed } moins contenu { $held } laisse place à { $room } nets à 60 °F; { $coming } doivent venir. Tout entre.
calc-room-barely = Permis { $allowed } moins contenu { $held } laisse place à { $room } nets à 60 °F; { $coming } doivent venir. C’est dans ± { $spread } : surveiller la jauge du réservoir et arrêter à sa limite.
calc-room-short = Permis { $allowed } moins contenu { $held } laisse place à { $room } nets à 60 °F; { $coming } doivent venir. Tout n’entre pas.
calc-room-full-when-warm = Avec tout dedans, le réservoir serait plein de liquide avant { $warm }.
calc-room-local-code = La limite de remplissage est un réglage de ce site; le code local et la plaque du réservoir passent avant.

## Transfer and recovery

calc-flow-slowing = { $moved } sont sortis du wagon dans les dernières { $elapsed }; une lecture vaut ±{ $limit }. C’est moins du cinquième du débit d’avant : vérifier les robinets, les pressions et le réservoir.
calc-flow-stalled = { $moved } sont sortis du wagon dans les dernières { $elapsed }; une lecture vaut ±{ $limit }. Aucun débit qu’une lecture puisse montrer : une soupape d’excès de débit a pu se fermer, ou il n’y a plus de liquide.
calc-flow-reversed = { $moved } sont sortis du wagon dans les dernières { $elapsed }; une lecture vaut ±{ $limit }. Du liquide revient dans le wagon : arrêter et chercher pourquoi.
calc-recovery-isothermal = Calculé à une seule température et sans liquide : un reste de liquide, ou un wagon qui refroidit, prend plus de temps.
calc-recovery-saturated = Le début, { $start }, n’est pas sous la saturation, { $saturation } : il peut rester du liquide, et la durée est un minimum.
calc-efficiency-presumed = Aucun rendement volumétrique n’a été donné : 1 a été pris, la durée est donc la plus courte possible.

## Leak test

calc-leak-found = Par la température seule, { $expected } sont attendus, { $read } ont été lus : { $change } en { $minutes }. Fuite indiquée : la trouver avant de continuer, et ne jamais serrer sous pression au-delà de la limite du propriétaire.
calc-leak-rose = Par la température seule, { $expected } sont attendus, { $read } ont été lus : { $change } en { $minutes }. Du gaz entre, du liquide bout, ou la température n’est pas celle du gaz.
calc-leak-none = Par la température seule, { $expected } sont attendus, { $read } ont été lus : { $change } en { $minutes }. Pas de fuite de plus de { $visible } par heure; une plus petite ne se verrait pas. Écouter et employer aussi de l’eau savonneuse.
calc-leak-cannot-tell = Par la température seule, { $expected } sont attendus, { $read } ont été lus : { $change } en { $minutes }. Cet essai ne permet pas de conclure : employer un manomètre plus fin à température stable et recommencer.

## Closing torque

calc-torque-high = La dernière fermeture a demandé { $last }; le plus habituel est { $usual }. S’attendre à une pièce usée : ne pas forcer, le signaler.
calc-torque-low = La dernière fermeture n’a demandé que { $last }; le moins habituel est { $usual }. S’assurer de l’appui au siège, et écouter.
calc-torque-rising = Le couple de fermeture augmente d’environ { $rise } par an sur { $count } visites : la pièce s’use.

## Freezing

calc-freeze-flash = Le liquide détendu à l’air se refroidit à { $flash } : il brûle la peau et forme de la glace dans une pièce par tout temps, et la glace peut tenir ouvert un robinet qui semble fermé. Détendre lentement, mains et visage couverts, et écouter de nouveau après le dégel.
calc-freeze-threads = { $air } et { $precipitation } : huiler les filets mâles, jamais les femelles, pour que la prochaine personne puisse les ouvrir. Pratique courante, sans source.
calc-freeze-covers = Laisser lâches les couvercles contre les intempéries qui ne sont pas des fermetures : gelés, ils finissent frappés. Pratique courante, sans source.
calc-freeze-point-away = Orienter les raccords et les bouts ouverts à l’abri des intempéries, pour que l’eau n’y gèle pas.
calc-freeze-underfoot = { $air } et { $precipitation } : l’échelle, la plate-forme et le sol peuvent être glacés. Garder trois points de contact, porter près du corps, faire des pas sans se tordre.
calc-freeze-moisture = { $air } et { $precipitation } : l’humidité laissée dans une pièce ou une conduite gèle. La souffler ou la vidanger avant de fermer.
calc-freeze-wet = Il fait { $air } mais c’est mouillé ({ $precipitation }) : l’eau sur une pièce où du liquide se vaporise gèle aussitôt. L’essuyer d’abord.

## The residue’s paper

calc-paper-placards = Les plaques restent jusqu’à ce que le wagon soit nettoyé et purgé.
calc-paper-full-load = Le résidu voyage selon les règles du plein chargement.
calc-paper-telephone = Un numéro de téléphone d’urgence figure sur le document.
calc-paper-kept = L’expéditeur garde le document deux ans.
