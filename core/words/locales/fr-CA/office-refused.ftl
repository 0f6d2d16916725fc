### Why a page is refused, and what to do.

office-refused-to-sign-in = Se connecter
office-refused-to-today = Aller à Aujourd’hui
office-refused-unchanged = Rien n’a été changé
office-refused-account = Votre compte n’y a pas accès
office-refused-no-right = Votre compte n’a pas ce droit : { $right }. S’adresser à un administrateur.
office-refused-again = Se connecter de nouveau
office-refused-over = La session est terminée.
office-refused-you = Accès refusé
office-refused-not-yours = La session est ouverte, mais pas pour cette page. Un lien ouvre un seul dossier et son dossier de preuve.
office-refused-no-token = Le formulaire ne vient pas d’une page de cette session. Revenir, recharger la page, puis l’envoyer.
office-refused-other-site = Un autre site Web a envoyé ce formulaire. Se déconnecter si l’envoi n’était pas voulu.
office-refused-not-here = Introuvable
office-refused-failed = Le serveur n’a pas pu le faire
office-refused-no-page = Cette page n’existe pas.
office-refused-form = Le formulaire est incomplet. Revenir, recharger la page, puis l’envoyer.
office-refused-too-large = Le formulaire est trop gros ou n’est pas arrivé en entier.
office-refused-not-text = Le fichier n’est pas du texte UTF-8. L’enregistrer en « CSV UTF-8 ». Rien n’a été importé.
office-refused-desk-revoked = L’appareil du bureau a été révoqué. Rien ne peut être signé avec lui.
office-language-unknown = Choisir une des langues de la liste.

## Failures of the server

office-problem-failed = Le serveur a échoué. Réessayer plus tard.
office-problem-busy = Le serveur est occupé. Réessayer dans un instant.
office-problem-too-often = Trop de requêtes sont venues de votre adresse. Réessayer dans un instant.
office-problem-full = Le disque du serveur est plein.
office-problem-ledger = L’écriture dans les dossiers du serveur est impossible pour l’instant. Rien n’est perdu. Réessayer plus tard.
office-problem-not-found = Il n’y a rien à cette adresse.
office-problem-not-here = Cette photographie n’est pas arrivée au serveur.
