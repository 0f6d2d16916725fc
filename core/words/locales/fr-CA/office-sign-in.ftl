### Signing in, the code of the second factor, and the door of an inspector's link.

office-sign-in-title = Se connecter
office-sign-in-name = Nom
office-sign-in-password = Mot de passe
office-sign-in-made = Les comptes sont créés sur le serveur :
office-sign-in-wait =
    { $count ->
        [one] Trop d’essais erronés. Attendre { $count } seconde, puis réessayer.
       *[other] Trop d’essais erronés. Attendre { $count } secondes, puis réessayer.
    }
office-sign-in-many = Beaucoup de personnes se connectent en ce moment. Attendre quelques secondes, puis réessayer.
office-sign-in-wrong = Nom ou mot de passe erroné.
office-sign-in-code-title = Votre code
office-sign-in-code-lead = Saisir les six chiffres que votre téléphone affiche maintenant pour Farsiding. Si le téléphone est perdu, saisir un code de récupération.
office-sign-in-code = Code
office-sign-in-code-neither = Ni téléphone ni code de récupération? Demander à un administrateur de réinitialiser le second facteur, puis
office-sign-in-code-again = se connecter de nouveau
office-sign-in-code-late = Plus de cinq minutes se sont écoulées. Se connecter de nouveau.
office-sign-in-code-wrong = Ce code est erroné ou a déjà servi. Saisir le prochain code que le téléphone affiche.
office-sign-in-link-title = Vous avez accès à un dossier
office-sign-in-link-for = Pour { $label }, de { $by }, jusqu’au { $until }.
office-sign-in-link-note = Le lien ouvre un dossier et son dossier de preuve. Le bureau voit que vous l’avez consulté, et quand.
office-sign-in-link-open = Ouvrir le dossier
office-sign-in-link-over = Ce lien n’ouvre rien : il est expiré, révoqué ou incomplet. En demander un nouveau au bureau.
