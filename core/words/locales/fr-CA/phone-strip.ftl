### Words of the steps on paper, which office and phone print alike.

phone-strip-title = Étapes sur papier
phone-strip-print = Imprimer les étapes
phone-strip-note = Pour les lieux où un téléphone est interdit. Saisir ensuite ce qui est écrit, avec « Fait plus tôt ».
phone-strip-now = Imprimer
phone-strip-aid = Aide sur papier, et non le registre. Saisir ensuite au téléphone ce qui est écrit, chaque chose avec l’heure où elle a été faite.
phone-strip-first = Les instructions du propriétaire et les codes locaux priment. Une coche ne déclare pas le wagon sûr.
phone-strip-stop = Si une étape n’est pas comme décrite, arrêter. Si une fuite grandit, partir. D’abord appeler, ensuite écrire.
phone-strip-car = Wagon
phone-strip-site = Site
phone-strip-as_of = Coché selon ce qui était consigné { $time }
phone-strip-digest = SHA-256 { $digest }
phone-strip-page = Page { $page } de { $pages }
phone-strip-strip = Bande { $n } de { $of }
phone-strip-done_at = Fait à
phone-strip-initials = Initiales
phone-strip-not_so = Pas comme décrit
phone-strip-every = De nouveau toutes les { $minutes } min
phone-strip-aside = Si autre chose arrive
phone-strip-remarks = Remarques
phone-strip-unknown = Le texte exact de cette procédure n’est pas ici; celui du programme est imprimé.
phone-strip-instrument = Manomètre ou instrument
phone-strip-except = Sauf
phone-strip-residue = Comme résidu
phone-strip-by = { $status } : { $by }
