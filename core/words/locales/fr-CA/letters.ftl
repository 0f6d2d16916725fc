### Letters that the office sends by e-mail: a line for each fact, then an extract of the record.

letters-subject = Wagon { $car } : { $what }
letters-subject-at = Wagon { $car }, { $fitting } : { $what }
letters-extract = Extrait du dossier de { $car } à { $site }
letters-stay = Séjour { $stay }
letters-extract-holds = Il contient ce qui est consigné sur cette défectuosité et son accessoire. Le dossier de preuve du séjour contient toutes les entrées, signées.
letters-by = { $name }, sur { $device }
letters-entry = entrée { $entry }
letters-car = Wagon : { $car }
letters-site = Site : { $site }
letters-fitting = Accessoire : { $fitting }
letters-defect = Défectuosité : { $what }
letters-noted = Noté : { $by }, { $time }
letters-waits = En attente de : une approbation. Le wagon ne circule pas avant.
letters-approval = Approbation : { $answer }
letters-reported = Signalé auparavant : { $sent }
letters-record = Dossier : { $visit }
letters-id = Id. de la défectuosité : { $id }
letters-photo-missing = La photographie { $sha256 } n’est pas jointe : pas encore au bureau, ou trop volumineuse.
