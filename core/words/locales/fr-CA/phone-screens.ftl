### Words on the phone that every screen shares, and those of the screens that lead to a car.

phone-yes = Oui
phone-no = Non
phone-why = Pourquoi?
phone-when = Quand
phone-now = Maintenant
phone-this_phone = ce téléphone
phone-optional = facultatif
phone-photo = Photo
phone-nav-back = Retour
phone-nav-help = Aide
phone-nav-plan = Plan
phone-nav-cars = Wagons
phone-nav-more = Plus
phone-form-next = Plus { $at }/{ $of }
phone-only-none = tout envoyé
phone-only-short = à envoyer

## Cars

phone-cars-title = Wagons ici
phone-cars-new = Nouveau wagon
phone-cars-find = Trouver
phone-cars-clear = Aucun point ouvert
phone-cars-setup = Profil
phone-cars-none = Aucun wagon ici
phone-cars-who = { $name } a ce téléphone
phone-cars-gone =
    { $n ->
        [one] { $n } libéré
       *[other] { $n } libérés
    }
phone-cars-more = { $n } de plus
phone-cars-look =
    { $n ->
        [one] { $n } alarme
       *[other] { $n } alarmes
    }

## This car

phone-more-title = Ce wagon
phone-more-proof = Vidange confirmée?
phone-more-tally = Outils et pièces sortis
phone-more-seal = Scellé
phone-more-defect = Défectuosités
phone-more-differ = Deux inscriptions divergent
phone-more-reading = Mesure
phone-more-protections = Protections
phone-more-pointed =
    { $n ->
        [one] { $n } avis
       *[other] { $n } avis
    }
phone-more-left =
    { $n ->
        [one] { $n } à faire
       *[other] { $n } à faire
    }

## A new car, and finding one

phone-new-title = Nouveau wagon
phone-new-mark = Marque
phone-new-number = Numéro
phone-new-again = Numéro, encore
phone-new-photo = Photo du marquage
phone-new-receiver = Se décharge dans
phone-new-open = Ouvrir ce wagon
phone-new-differ = Les deux numéros diffèrent
phone-new-same = Pareil les deux fois
phone-new-whole = Marque et numéro
phone-new-spot = Voie et emplacement
phone-new-here = { $car } est déjà ici
phone-find-title = Trouver un wagon
phone-find-type = Numéro de wagon ou de scellé
phone-find-none = Aucun numéro de ce genre ici

## The emergency card

phone-help-title = Appelez d’abord, consignez ensuite
phone-help-guide = Guide
phone-help-leave = Si cela s’aggrave, partez face au vent et loin des endroits bas.
phone-help-look_up = Consultez le guide
phone-help-local = Numéro d’urgence
phone-help-no_contacts = Aucun site connu ici : voici les numéros publics.
phone-help-usual = GPL, sauf indication contraire du document d’expédition
phone-help-paper = selon le document d’expédition
