### Words on the phone that every screen shares, and those of the screens that lead to a car.

phone-yes = Yes
phone-no = No
phone-why = Why?
phone-when = When
phone-now = Now
phone-this_phone = this phone
phone-optional = optional
phone-photo = Photo
phone-nav-back = Back
phone-nav-help = Help
phone-nav-plan = Car plan
phone-nav-cars = Cars
phone-nav-more = More
phone-form-next = More { $at }/{ $of }
phone-only-none = all sent
phone-only-short = only here

## Cars

phone-cars-title = Cars here
phone-cars-new = New car
phone-cars-find = Find
phone-cars-clear = No open items
phone-cars-setup = Phone
phone-cars-none = No cars here yet
phone-cars-who = { $name } has this phone
phone-cars-gone =
    { $n ->
        [one] 1 released
       *[other] { $n } released
    }
phone-cars-more = { $n } more
phone-cars-look =
    { $n ->
        [one] 1 alarm
       *[other] { $n } alarms
    }

## This car

phone-more-title = This car
phone-more-proof = Liquid-out check
phone-more-tally = Tools and fittings out
phone-more-seal = Seal
phone-more-defect = Defects
phone-more-differ = Two entries differ
phone-more-reading = Reading
phone-more-protections = Protections
phone-more-pointed =
    { $n ->
        [one] 1 notice
       *[other] { $n } notices
    }
phone-more-left =
    { $n ->
        [one] 1 left
       *[other] { $n } left
    }

## A new car, and finding one

phone-new-title = New car
phone-new-mark = Reporting mark
phone-new-number = Number
phone-new-again = Number again
phone-new-photo = Photo of the stencil
phone-new-receiver = Unloads into
phone-new-open = Open this car
phone-new-differ = The two numbers differ
phone-new-same = Same both times
phone-new-whole = Reporting mark and number
phone-new-spot = Track and spot
phone-new-here = { $car } is here already
phone-find-title = Find a car
phone-find-type = Car or seal number
phone-find-none = No such number here

## The emergency card

phone-help-title = Call first, record later
phone-help-guide = Guide
phone-help-leave = If it grows, leave. Go upwind and away from low ground.
phone-help-look_up = Look it up in the guidebook
phone-help-local = Emergency number
phone-help-no_contacts = No site is known here: these are the public numbers.
phone-help-usual = Liquefied petroleum gas, unless the shipping paper says otherwise
phone-help-paper = as on the shipping paper
