### What is wrong with a file of shipping papers, and with a line of it.
reconcile-papers-too-large = Le fichier dépasse { $most } Mo
reconcile-papers-too-wide = Le fichier a plus de { $most } colonnes
reconcile-papers-too-many = Le fichier a plus de { $columns } colonnes ou de { $lines } lignes
reconcile-papers-long-cell = Une cellule a plus de { $most } caractères
reconcile-papers-control-characters = Une cellule contient des caractères de commande
reconcile-papers-no-car = Aucun numéro de wagon
reconcile-papers-odd-car = « { $text } » n’est pas un numéro de wagon
reconcile-papers-no-quantity = « { $text } » n’est pas une quantité
reconcile-papers-no-day = « { $text } » n’est pas un jour (AAAA-MM-JJ ou MM/JJ/AAAA)
reconcile-papers-odd-density = « { $text } » n’est pas une densité relative de gaz de pétrole liquéfié (0,4 à 0,7)
reconcile-papers-odd-odorized = « { $text } » n’est ni oui ni non (odorisé)
reconcile-papers-odd-grade = « { $text } » n’est pas un grade connu ici (propane HD-5, propane commercial, butane commercial, mélange butane-propane, isobutane, propylène)
reconcile-papers-odd-billed-by = « { $text } » n’est pas une façon de mesurer connue ici (table, compteur, balance; par volume peut être table ou compteur)
reconcile-papers-odd-winter = « { $text } » n’est ni hiver ni été, ni oui ni non (rempli aux limites d’hiver)
reconcile-papers-in-column = colonne { $column }, { $head } : { $fault }
