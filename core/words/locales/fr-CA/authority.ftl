### Why a device may not record something, and who may.

authority-keep-site = Seul un appareil du bureau peut modifier un site.
authority-issue-seals = Seul un appareil du bureau peut remettre des scellés.
authority-keep-people = Seul un appareil du bureau peut modifier qui appartient à l’organisation.
authority-publish-procedures = Seul un appareil du bureau peut publier des procédures.
authority-admit = Seul un appareil du bureau peut admettre des inscriptions tardives.
authority-release = Cet appareil ne peut libérer un wagon. S’adresser au bureau.
authority-override = Cet appareil ne peut déroger aux points ouverts. S’adresser au bureau.
authority-lift-hold = Cet appareil ne peut lever une retenue. S’adresser au bureau.
authority-settle = Cet appareil ne peut ni corriger ni trancher ce que d’autres ont consigné. S’adresser au bureau.
authority-not-this = Cet appareil ne peut consigner ceci. S’adresser au bureau.
authority-not-own = Seul le bureau peut annuler ce qu’un autre a consigné. Consigner ce qui est vu comme nouvelle inscription.
authority-misplaced = Ceci n’appartient pas à ce type de registre.
