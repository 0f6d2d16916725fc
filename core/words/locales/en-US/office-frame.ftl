### The frame of every page: navigation, times, and the choice of a language.

office-frame-window = { $title } · Farsiding office
office-frame-skip = Skip to the page
office-frame-home = { $name }: go to Today
office-frame-places = Pages
office-frame-today = Today
office-frame-inquiry = Inquiry
office-frame-reconcile = Reconcile
office-frame-seals = Seals
office-frame-defects = Defects
office-frame-instruments = Instruments
office-frame-procedures = Procedures
office-frame-papers = Papers
office-frame-devices = Devices
office-frame-account = Your account
office-frame-one-record = one record
office-frame-sign-out = Sign out
office-frame-behind =
    { $count ->
        [one] The page is being updated: { $count } entry left.
       *[other] The page is being updated: { $count } entries left.
    }

## The choice of a language. A language names itself in its own words

office-language-name = English (United States)
office-language-choice = Language

## How long, and how long ago

office-time-now = now
office-time-just-now = just now
office-time-minutes = { $count } min
office-time-hours = { $count } h
office-time-days =
    { $count ->
        [one] { $count } day
       *[other] { $count } days
    }
office-time-ago = { $stretch } ago
office-time-ahead = { $stretch } ahead
office-time-behind = { $stretch } behind
