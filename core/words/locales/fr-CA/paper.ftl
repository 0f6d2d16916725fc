### Documents que le bureau a envoyés à un site : d’où ils ont été lus, et ce qui en diffère.

paper-source = { $file }, ligne { $line }, envoyé par { $by }, { $at }
paper-differs = { $fact } : { $here } inscrit, { $there } dans le fichier
paper_fact-car = wagon
paper_fact-number = numéro du document
paper_fact-un_number = numéro UN
paper_fact-billed = quantité facturée
paper_fact-relative_density = densité relative
paper_fact-odorised = odorisé
paper_fact-grade = grade
paper_fact-billed_by = mesuré par
paper_fact-winter_fill = rempli aux limites d’hiver
paper_odorized-yes = oui
paper_odorized-no = non
