### Accounts, open links, roles and rights, and the audit.

office-role-reader = lecture
office-role-clerk = commis
office-role-supervisor = superviseur
office-role-administrator = administrateur
office-role-inspector = inspecteur
office-role-nobody = non connecté
office-role-allows = { $rights }
office-right-read = lire les dossiers
office-right-record = saisir les documents, les scellés et les lettres
office-right-settle = résoudre les divergences et donner la lecture aux inspecteurs
office-right-publish = modifier et publier les procédures de l’organisation
office-right-administer = gérer les appareils et les comptes
office-accounts-title = Comptes
office-accounts-audit = Qui a consulté quoi
office-accounts-state = État du serveur
office-accounts-lead = Les comptes sont créés, modifiés et désactivés sur le serveur :
office-accounts-name = Nom
office-accounts-role = Rôle
office-accounts-since = Depuis
office-accounts-standing = État
office-accounts-language = Langue
office-accounts-language-organisation = celle de l’organisation
office-accounts-factor = Second facteur
office-accounts-you = vous
office-accounts-later-role = rôle d’une version ultérieure : aucun droit
office-accounts-disabled = désactivé { $time }
office-accounts-may = peut se connecter
office-accounts-roles = Ce que permet chaque rôle
office-accounts-everybody = Un second facteur pour tous
office-accounts-required = Quiconque se connecte en a besoin. Qui n’en a pas encore doit d’abord le configurer.
office-accounts-leave = Laisser chacun décider
office-accounts-optional = Chacun décide. S’il est exigé, quiconque n’en a pas doit d’abord le configurer, vous aussi.
office-accounts-require = L’exiger de tous
office-accounts-links = Liens ouverts
office-accounts-no-links = Aucun. Personne de l’extérieur ne peut lire un dossier.
office-accounts-links-label = Liens
office-accounts-for = Pour qui
office-accounts-opens = Ouvre
office-accounts-made = Créé
office-accounts-until = Valide jusqu’au
office-accounts-record = dossier { $record }
office-accounts-photograph = photographie { $photograph } du dossier { $record }
office-accounts-not-set-up = pas encore configuré
office-accounts-none = aucun
office-accounts-factor-since =
    { $count ->
        [one] depuis { $time }, { $count } code de récupération
       *[other] depuis { $time }, { $count } codes de récupération
    }
office-accounts-reset = Réinitialiser
office-accounts-reset-note = Pour un téléphone perdu. La session de { $name } est fermée, et le mot de passe seul ouvre le compte jusqu’à la configuration d’un autre second facteur.
office-accounts-reset-of = Réinitialiser pour { $name }
office-accounts-say = Choisir si tous ont besoin d’un second facteur.
office-accounts-no-such = Ce compte n’existe pas.

## The audit

office-audit-head = Chaque ligne contient l’empreinte de la précédente. La plus récente :
office-audit-keep = La noter ailleurs. Cette commande montre plus tard si une ligne jusqu’à elle a été changée ou retirée :
office-audit-asked = Nom, acte ou dossier
office-audit-find = Chercher
office-audit-none = Rien trouvé.
office-audit-label = Audit
office-audit-order = La plus récente d’abord. Des lignes s’ajoutent seulement.
office-audit-when = Quand
office-audit-who = Qui
office-audit-as = Rôle
office-audit-did = Acte
office-audit-subject = Sur quoi
office-audit-older = Plus anciennes

## Who is named in the audit beside people

office-who-retention = conservation des données
office-who-command_line = ligne de commande
office-who-the_server_s_command_line = ligne de commande du serveur

## Acts in the audit. The stored words stay as they are; these are their translations

office-did-asked_everybody_for_a_second_factor = a exigé un second facteur de tous
office-did-left_the_second_factor_to_each = a laissé chacun décider du second facteur
office-did-changed_the_tariff = a changé le tarif
office-did-changed_their_password = a changé son mot de passe
office-did-chose_a_language = a choisi une langue
office-did-confirmed_a_key = a confirmé une clé
office-did-decided_about_signatures = a changé les règles de signature
office-did-declared_void = a déclaré annulé
office-did-ended_a_key = a mis fin à une clé
office-did-exported = a exporté
office-did-failed_at_the_code_after_the_right_password = code erroné après le bon mot de passe
office-did-failed_to_sign_in = échec de connexion
office-did-forgot_what_was_refused = a supprimé les données refusées
office-did-forwarded = a signalé par courriel
office-did-gave_a_wrong_code_on_their_own_page = code erroné sur sa propre page
office-did-gave_a_wrong_password_on_their_own_page = mot de passe erroné sur sa propre page
office-did-had_go_what_is_kept_no_longer = a supprimé des données échues
office-did-issued_seals = a remis des scellés
office-did-printed_the_steps = a imprimé les étapes
office-did-started_a_procedure = a commencé un brouillon de procédure
office-did-changed_a_procedure = a modifié un brouillon de procédure
office-did-published_a_procedure = a publié une procédure
office-did-took_back_a_procedure = a retiré une procédure
office-did-sent_papers_to_a_site = a envoyé des documents à un site
office-did-took_a_sent_paper_back = a retiré un document envoyé
office-did-discarded_a_procedure = a jeté un brouillon de procédure
office-did-kept_out_of_the_lists = a masqué des listes
office-did-looked = a consulté
office-did-looked_at_a_photograph = a vu une photographie
office-did-looked_for = a cherché
office-did-made_a_code_for = a créé un code à usage unique pour
office-did-made_a_link = a créé un lien
office-did-made_new_recovery_codes = a créé de nouveaux codes de récupération
office-did-noted_that_somebody_left = a consigné un départ
office-did-opened_a_link = a ouvert un lien
office-did-read = a lu
office-did-read_the_databases_through = a vérifié les bases de données
office-did-removed_a_photograph = a retiré une photographie
office-did-renewed = a renouvelé
office-did-reopened = a rouvert
office-did-reset_a_second_factor = a réinitialisé un second facteur
office-did-revoked = a révoqué
office-did-revoked_a_link = a révoqué un lien
office-did-set_up_a_second_factor = a configuré un second facteur
office-did-settled = a résolu une divergence
office-did-showed_in_the_lists_again = a remis dans les listes
office-did-signed_in = s’est connecté
office-did-signed_in_with_a_recovery_code = s’est connecté avec un code de récupération
office-did-signed_out = s’est déconnecté
office-did-took_papers_in = a importé des documents
office-did-took_the_packet = a pris le dossier de preuve
office-did-tried_again = a réessayé
office-did-turned_their_second_factor_off = a désactivé son second facteur
office-did-made_an_account = a créé un compte
office-did-changed_a_role = a changé un rôle
office-did-changed_a_language = a changé une langue
office-did-gave_a_new_password = a donné un nouveau mot de passe
office-did-disabled_an_account = a désactivé un compte
office-audit-let-in = a admis l’entrée tardive { $entry }
office-audit-took-back = a retiré l’admission de l’entrée tardive { $entry }

## What an act was on

office-on-accounts = comptes
office-on-audit = audit
office-on-defects = défectuosités
office-on-devices = appareils
office-on-instruments = instruments
office-on-late_entries = entrées tardives
office-on-papers = documents
office-on-people = personnes
office-on-reconcile = rapprochement
office-on-refused = données refusées
office-on-seals = scellés
office-on-state_of_the_server = état du serveur
office-on-today = aujourd’hui
office-subject-account = compte { $what }
office-subject-defect = défectuosité { $what }
office-subject-device = appareil { $what }
office-subject-entry = entrée { $what }
office-subject-key = clé { $what }
office-subject-mail = lettre { $what }
office-subject-papers = documents { $what }
office-subject-person = personne { $what }
office-subject-photo = photographie { $what }
office-subject-reconcile = rapprochement { $what }
office-subject-seal = scellé { $what }
office-subject-site = site { $what }
