### The page of instruments and hoses.

office-instruments-title = Instruments and hoses
office-instruments-described =
    { $count ->
        [one] The sites describe { $count }.
       *[other] The sites describe { $count }.
    }
office-instruments-none-late = None is overdue.
office-instruments-late =
    { $count ->
        [one] { $count } overdue.
       *[other] { $count } overdue.
    }
office-instruments-twice = Readings of an overdue instrument count with twice its ±.
office-instruments-name = Name
office-instruments-what = What
office-instruments-site = Site
office-instruments-due = Due
office-instruments-used = Used when overdue
office-instruments-hose = hose: { $service }
office-instruments-gauge = { $measures }, { $span }
office-instruments-graded = { $measures }, { $span }, grade { $grade }
office-instruments-no-date = no date recorded
office-instruments-overdue = overdue since { $day }
office-instruments-more = and { $count } more
office-instruments-unknown = Named in records, described by no site
office-instruments-stays =
    { $count ->
        [one] { $count } stay
       *[other] { $count } stays
    }
