### On what ground something is asked for.

basis-read = { $cites } (texte lu; vérifier le texte en vigueur)
basis-read-on = { $cites } (texte lu { $day }; vérifier le texte en vigueur)
basis-laws = { $laws }
basis-law = { $cites }, pour { $whom }
basis-except = { $cites } (sauf aux sites que { $except } excepte)
basis-binds-others = pratique courante ici; { $cites }
basis-from-memory = { $cites } (de mémoire; confirmer avant de s’y fier)
basis-practice = usage courant, sans source
basis-transloading-only = usage courant; { $cites } ne le demande que pour le déchargement en camions-citernes (interprétations 06-0114, 07-0136, 10-0104)
basis-contradiction = un registre où deux inscriptions divergent n’en prouve aucune
basis-unreadable = une inscription illisible peut être une retenue
basis-car-number = tout est classé sous le numéro du wagon
basis-alarm = une alarme demeure jusqu’à ce que quelqu’un y réponde avec une raison
basis-unloaded-as-far-as-practicable = 49 CFR 173.29(a) avec l’interprétation 14-0024 : déchargé autant que possible
