### A person's own account: language, second factor, password.

office-own-title = Votre compte
office-own-role = Rôle : { $role }. Il permet : { $allows }.
office-own-factor-missing = Votre organisation exige un second facteur de quiconque se connecte. Le configurer ci-dessous pour ouvrir les autres pages.
office-own-language = Langue
office-own-language-label = Langue de ces pages
office-own-language-organisation = Celle de l’organisation : { $language }
office-own-language-keep = Enregistrer
office-own-factor = Second facteur
office-own-factor-lead = Une application d’authentification sur votre téléphone produit des codes. Quiconque apprend votre mot de passe ne peut toujours pas se connecter.
office-own-your-password = Votre mot de passe
office-own-factor-set-up = Configurer
office-own-factor-since = Configuré { $time }. La connexion demande un code de votre téléphone.
office-own-codes-left =
    { $count ->
        [one] Il reste { $count } code de récupération.
       *[other] Il reste { $count } codes de récupération.
    }
office-own-codes-few = En créer de nouveaux, sinon la perte du téléphone bloque l’accès.
office-own-codes-new = Nouveaux codes de récupération
office-own-codes-note = Les codes précédents ne sont alors plus valides.
office-own-codes-make = Créer de nouveaux codes
office-own-factor-required = Votre organisation exige un second facteur; il ne peut donc pas être désactivé ici. Pour changer de téléphone, demander à un administrateur de le réinitialiser.
office-own-factor-off-or = Le désactiver ou changer de téléphone
office-own-factor-off-code = Un code de votre téléphone ou un code de récupération
office-own-factor-turn-off = Désactiver
office-own-password = Mot de passe
office-own-password-old = Mot de passe actuel
office-own-password-new =
    { $count ->
        [one] Nouveau mot de passe, au moins { $count } caractère
       *[other] Nouveau mot de passe, au moins { $count } caractères
    }
office-own-password-again = Nouveau mot de passe, encore une fois
office-own-password-change = Changer le mot de passe
office-own-password-note = Une courte phrase est facile à retenir. Un nouveau mot de passe met fin à vos sessions dans les autres navigateurs.
office-own-password-others =
    { $count ->
        [one] { $count } autre session est ouverte maintenant.
       *[other] { $count } autres sessions sont ouvertes maintenant.
    }
office-own-password-wrong = Ce n’est pas votre mot de passe actuel.
office-own-password-differ = Les deux nouveaux mots de passe ne sont pas identiques.
office-own-password-same = Le nouveau mot de passe est le mot de passe actuel.
office-own-password-length = Un mot de passe compte de { $shortest } à { $longest } caractères. Une courte phrase est facile à retenir.
office-own-password-changed = Votre mot de passe est changé
office-own-password-signed-out = Votre session est fermée dans tous les autres navigateurs.
office-own-back = Aller à votre compte
office-own-factor-title = Configurer le second facteur
office-own-factor-how = Numériser l’image avec l’application d’authentification de votre téléphone, ou y saisir ces lettres.
office-own-factor-code = Les six chiffres affichés maintenant
office-own-factor-works = Confirmer
office-own-factor-until = La connexion reste inchangée tant qu’un code de votre téléphone n’est pas confirmé ici.
office-own-factor-not-now = Ce n’est pas le code actuel. Vérifier l’horloge du téléphone, puis saisir le code suivant.
office-own-factor-none-begun = Aucun second facteur n’est en cours de configuration. Commencer sur votre page.
office-own-factor-done = Le second facteur est configuré
office-own-codes-lead = Chaque code de récupération donne accès une fois si le téléphone est perdu. Ils ne sont affichés que maintenant : les noter et les garder loin du téléphone.
office-own-codes-have = Je les ai notés
office-own-factor-none = Il n’y a pas encore de second facteur.
office-own-factor-exists = Un second facteur est déjà configuré. Le désactiver d’abord.
office-own-factor-failed = Impossible de configurer le second facteur : { $why }
office-own-factor-kept = Votre organisation exige un second facteur. Un administrateur peut le réinitialiser.
office-own-code-wrong = Ce code est erroné ou a déjà servi.
office-own-factor-is-off = Le second facteur est désactivé
office-own-factor-password-alone = Votre mot de passe seul ouvre maintenant ce compte.
