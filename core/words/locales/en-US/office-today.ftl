### The page of today: every car at every site, and what phones have not sent.

office-today-title = Today
office-today-refresh = Refresh
office-today-cars =
    { $count ->
        [one] { $count } car
       *[other] { $count } cars
    }
office-today-sites =
    { $count ->
        [one] { $count } site
       *[other] { $count } sites
    }
office-today-count = { $cars } at { $sites }.
office-today-held =
    { $count ->
        [one] { $count } car on hold.
       *[other] { $count } cars on hold.
    }
office-today-differ =
    { $count ->
        [one] { $count } car with entries that differ.
       *[other] { $count } cars with entries that differ.
    }
office-today-device = device { $device }
office-today-all-in = Everything that the phones reported has arrived. What they recorded since their last sync is not known here.
office-today-behind = Not received yet
office-today-sent-all = Reported that everything was sent
office-today-unsent = Unsent: { $what }
office-today-heard = Last sync: { $ago }
office-today-never = never
office-today-photos =
    { $count ->
        [one] { $count } photograph announced, file not received yet
       *[other] { $count } photographs announced, files not received yet
    }
office-today-site-unknown = Site not known yet
office-today-no-site = No site is known yet. The first phone that syncs sends its own.
office-today-no-car = No car at this site.
office-today-since-placement = since placement
office-today-since-entry = since the first entry
office-today-number-unknown = number not known
office-today-alarm = Alarm: see the record
office-today-nothing = No open items
office-today-leaving = Released, not recorded as pulled
office-today-released-cars = Released cars
office-today-car = Car
office-today-site = Site
office-today-released = Released
office-today-notices = Notices
office-today-entries =
    { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }
office-today-photographs =
    { $count ->
        [one] { $count } photograph
       *[other] { $count } photographs
    }
office-today-nothing-unsent = nothing
office-today-items = { $items }

## Who has a car and is overdue

office-overdue-title =
    { $count ->
        [one] 1 person is overdue
       *[other] { $count } people are overdue
    }
office-overdue-signal = They have a car and said nothing since. Silence may be lack of signal alone: call them, then whoever is near. This is no rescue device.
office-overdue-since = Overdue for { $since }: last heard { $last }, asked every { $minutes } minutes.
