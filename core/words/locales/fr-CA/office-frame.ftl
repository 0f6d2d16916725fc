### The frame of every page: navigation, times, and the choice of a language.

office-frame-window = { $title } · Farsiding, bureau
office-frame-skip = Aller au contenu
office-frame-home = { $name } : aller à Aujourd’hui
office-frame-places = Pages
office-frame-today = Aujourd’hui
office-frame-inquiry = Recherche
office-frame-reconcile = Rapprochement
office-frame-seals = Scellés
office-frame-defects = Défectuosités
office-frame-instruments = Instruments
office-frame-procedures = Procédures
office-frame-papers = Documents
office-frame-devices = Appareils
office-frame-account = Votre compte
office-frame-one-record = un dossier
office-frame-sign-out = Se déconnecter
office-frame-behind =
    { $count ->
        [one] La page se met à jour : { $count } entrée restante.
       *[other] La page se met à jour : { $count } entrées restantes.
    }

## The choice of a language. A language names itself in its own words

office-language-name = Français (Canada)
office-language-choice = Langue

## How long, and how long ago

office-time-now = maintenant
office-time-just-now = à l’instant
office-time-minutes = { $count } min
office-time-hours = { $count } h
office-time-days =
    { $count ->
        [one] { $count } jour
       *[other] { $count } jours
    }
office-time-ago = il y a { $stretch }
office-time-ahead = en avance de { $stretch }
office-time-behind = en retard de { $stretch }
