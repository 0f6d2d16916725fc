### What is wrong with a file of shipping papers, and with a line of it.
reconcile-papers-too-large = The file is larger than { $most } MB
reconcile-papers-too-wide = The file has more than { $most } columns
reconcile-papers-too-many = The file has more than { $columns } columns or { $lines } lines
reconcile-papers-long-cell = A cell is longer than { $most } characters
reconcile-papers-control-characters = A cell holds control characters
reconcile-papers-no-car = No car number
reconcile-papers-odd-car = “{ $text }” is no car number
reconcile-papers-no-quantity = “{ $text }” is no quantity
reconcile-papers-no-day = “{ $text }” is no day (YYYY-MM-DD or MM/DD/YYYY)
reconcile-papers-odd-density = “{ $text }” is no relative density of a liquefied petroleum gas (0.4 to 0.7)
reconcile-papers-odd-odorized = “{ $text }” is neither yes nor no (odorized)
reconcile-papers-odd-grade = “{ $text }” is no grade known here (HD-5 propane, commercial propane, commercial butane, butane-propane mix, isobutane, propylene)
reconcile-papers-odd-billed-by = “{ $text }” is no way of measuring known here (table, meter, scale; by volume may be table or meter)
reconcile-papers-odd-winter = “{ $text }” is neither winter nor summer, yes nor no (filled to winter limits)
reconcile-papers-in-column = column { $column }, { $head }: { $fault }
