### Wagons attendus selon les documents du bureau.

phone-expected-title = Wagons attendus
phone-expected-count =
    { $n ->
        [one] { $n } wagon attendu
       *[other] { $n } wagons attendus
    }
phone-expected-on = attendu le { $day }
phone-expected-paper = document { $number }
phone-expected-differ = Deux documents pour ce wagon diffèrent
phone-expected-more =
    { $n ->
        [one] { $n } autre wagon attendu
       *[other] { $n } autres wagons attendus
    }
phone-expected-less = Moins
phone-expected-look = Le document nomme ce wagon. Lire le numéro sur le wagon même.
phone-expected-same = Le wagon montre { $car }
phone-expected-photo-first = Prendre d’abord la photo du marquage, ou taper le numéro.
phone-expected-read = Lu sur le wagon, comme au document
phone-expected-other = Le wagon montre un autre numéro
phone-expected-is = Dans la liste des wagons attendus
phone-expected-near = Attendu : { $car }, à un caractère près. Regarder le wagon et taper le numéro de nouveau.
phone-expected-not = Le document est pour { $car }
phone-paper-check = Comparer chaque ligne au document en main.
phone-paper-as_in_hand = Comme au document en main
phone-paper-not_so = Pas ainsi, ou pas tout
phone-paper-from = Lu par le bureau dans { $file }, ligne { $line }. Envoyé par { $by }.
phone-paper-dated = Jour du document
phone-paper-filled = Rempli d’après le fichier du bureau. Changer ce que le document en main dit autrement.
phone-paper-two = Le bureau a envoyé deux documents qui diffèrent pour ce wagon. Inscrire ce que dit le document en main.
