### Words about what protects this phone and its records: keys, PINs, the lock.

## A person’s PIN

phone-pin-title = NIP personnel
phone-pin-head = NIP
phone-pin-typed = { $n } chiffres sur 6
phone-pin-act = Il signe ce qui va être consigné.
phone-pin-shift = Il signe jusqu’à la fin du quart.
phone-pin-checking = Un instant
phone-pin-without = Continuer sans signer
phone-pin-forgotten = Oublié
phone-pin-wrong =
    { $n ->
        [one] NIP erroné. Il reste 1 essai; ensuite la clé de ce téléphone est supprimée.
       *[other] NIP erroné. Il reste { $n } essais.
    }
phone-pin-waits = Trop d’essais erronés. Réessayer à { $at } ou continuer sans signer.
phone-pin-locked = La clé personnelle sur ce téléphone a été supprimée après dix essais erronés. Aviser le bureau et créer un nouveau NIP. Ce qui est signé le reste.
phone-pin-ended = Le bureau a mis fin à la clé personnelle sur ce téléphone. Créer un nouveau NIP.
phone-pin-weak = Ce NIP est trop facile à deviner. En choisir un autre.
phone-pin-make = Créer un NIP personnel
phone-pin-choose = Choisir six chiffres difficiles à deviner : ni anniversaire ni rangée de touches.
phone-pin-six = Six chiffres
phone-pin-again = Encore une fois
phone-pin-old = NIP actuel
phone-pin-two_differ = Les deux n’étaient pas pareils. Choisir de nouveau.
phone-pin-none = Sans signature personnelle
phone-pin-why = Ce qui est consigné ici porte le nom donné par le téléphone, sans signature personnelle. Un NIP personnel permet de signer.
phone-pin-alone = Seule la personne connaît son NIP, pas même le bureau. Ne le dire à personne.
phone-pin-short = Pour signer soi-même ce qui engage
phone-pin-have = Avec signature personnelle
phone-pin-confirmed = Le bureau a confirmé la clé.
phone-pin-not_confirmed = Le bureau demandera ces chiffres par téléphone. Ils ne sont pas secrets.
phone-pin-digits = Clé personnelle
phone-pin-change = Changer le NIP
phone-pin-forgotten_title = NIP oublié?
phone-pin-forgotten_why = Personne ne peut le redonner. La clé sur ce téléphone est supprimée; en créer une nouvelle. Aviser le bureau de mettre fin à l’ancienne. Ce qui est signé le reste.
phone-pin-drop = Supprimer la clé
phone-pin-later = Plus tard
phone-pin-lock = Verrouiller : fin du quart
phone-pin-holds = { $name } a ce téléphone jusqu’à { $at }
phone-pin-held = tenu par { $name }
phone-pin-unsigned = Au nom donné par le téléphone, sans signature personnelle.
phone-pin-needed = L’organisation ne le compte qu’avec une signature personnelle.

## How this phone is protected

phone-guard-title = Protection de ce téléphone
phone-guard-key = La clé de ce téléphone
phone-guard-records = Registres et photos sur lui
phone-guard-wrapped = Gardée par le navigateur; aucune page ne peut la lire.
phone-guard-sealed = Chiffrés. Une copie des fichiers seule ne peut être lue.
phone-guard-open = Quiconque copie les fichiers de ce téléphone peut le lire.
phone-guard-aside = Des registres antérieurs sont illisibles
phone-guard-aside_why = Le navigateur a perdu leur clé. Ils restent tels quels. Ce qui a été envoyé revient du bureau.
phone-guard-short = Sa clé, ses registres, son verrou
phone-lock-on = S’ouvre avec un NIP
phone-lock-on_why = Deviner le NIP d’un téléphone copié prend des jours. Les numéros d’urgence, wagons, emplacements et mises en garde restent lisibles.
phone-lock-off = S’ouvre sans NIP
phone-lock-off_why = Quiconque a le téléphone, ou une copie de tous ses fichiers et de ceux du navigateur, a les registres.
phone-lock-cannot = Un verrou cacherait l’écran sans rien protéger; il n’y en a donc pas ici.
phone-lock-make = Choisir le NIP du téléphone
phone-lock-old = Le NIP actuel du téléphone
phone-lock-end = Ouvrir sans NIP
phone-lock-now = Verrouiller
phone-lock-after = Se verrouille après
phone-lock-title = Verrouillé
phone-lock-asks = Le NIP du téléphone
phone-lock-cars =
    { $n ->
        [one] Attention à { $n } wagon
       *[other] Attention à { $n } wagons
    }
phone-lock-wrong = NIP erroné. Réessayer.
phone-lock-waits = Trop d’essais erronés. Réessayer à { $at }.
phone-lock-waits_a_while = Trop d’essais erronés. Attendre un peu.
phone-lock-failed = Cela n’a pas fonctionné. Rien n’a changé.
phone-lock-forgotten = NIP oublié?
phone-lock-forgotten_why = Personne ne peut le redonner, pas même le bureau. Demander aux autres personnes qui ont utilisé ce téléphone. Ce qui a été envoyé est au bureau. Le reste demeure chiffré sur ce téléphone et n’est jamais supprimé.
phone-lost-title = La clé de ce téléphone est perdue
phone-lost-why = Le navigateur l’a perdue. Les registres restent sur ce téléphone, mais ne peuvent être lus ici. Ce qui a été envoyé est au bureau. Aviser le bureau avant d’effacer quoi que ce soit.
