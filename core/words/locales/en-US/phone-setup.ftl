### Words about this phone: its settings, what is only on it, sending and transfer files.

## Only on this phone

phone-here-title = Only on this phone
phone-here-entries =
    { $n ->
        [one] entry
       *[other] entries
    }
phone-here-photos =
    { $n ->
        [one] photo
       *[other] photos
    }
phone-here-count =
    { $n ->
        [one] 1 entry
       *[other] { $n } entries
    }
phone-here-free = More than { $size } free
phone-here-gigabytes = { $n } GB
phone-here-megabytes = { $n } MB
phone-here-no_room = No space left on this phone
phone-here-send = Send now
phone-here-carry = Transfer file
phone-here-only = only here
phone-here-little = Little space left. Send photos or free some space.
phone-here-not_kept = This phone may delete records
phone-here-ask_keep = The browser may delete them. Ask it to keep them.
phone-here-damaged =
    { $n ->
        [one] 1 damaged row on this phone
       *[other] { $n } damaged rows on this phone
    }
phone-here-put_off = The office takes no more from this phone for now. The rest stays here and is sent later.
phone-here-differing =
    { $n ->
        [one] 1 record differs from the office’s
       *[other] { $n } records differ from the office’s
    }
phone-here-differing_do = Nothing is lost here. Send again. If this stays, tell the office.
phone-here-left =
    { $n ->
        [one] 1 record taken off this phone
       *[other] { $n } records taken off this phone
    }
phone-here-left_where = This phone no longer has their site. The office has them.
phone-here-aside =
    { $n ->
        [one] 1 item refused and set aside
       *[other] { $n } items refused and set aside
    }

## Sending

phone-sync-idle = Not sent yet
phone-sync-running = Sending
phone-sync-met = Sent to the office at { $at }
phone-sync-no_office = Office not reached at { $at }
phone-sync-not_enrolled = Not enrolled: nothing is sent
phone-sync-answered = The office answered with error { $status }.

## Settings

phone-setup-title = This phone
phone-setup-operator = Operator
phone-setup-site = Site
phone-setup-text = Text size
phone-setup-look = Display
phone-setup-day = Day
phone-setup-night = Night
phone-setup-auto = Auto
phone-setup-lang = Language
phone-setup-pressure = Pressure
phone-setup-temperature = Temperature
phone-setup-volume = Volume
phone-setup-torque = Torque
phone-setup-enrol = Enroll with a code
phone-setup-enrolled = Enrolled
phone-setup-keep = Done
phone-setup-coming = Loading from the office
phone-setup-photo_place = Keep the place inside photos?
phone-setup-reminders = Sound when a reading or a word is due
phone-setup-position = Record where entries are made?
phone-setup-key = key { $key }

## The language

phone-language-yours = { $name } reads this language on this phone.
phone-language-phone = The language of this phone, until somebody says who they are.
phone-language-not_read = Translated without a native reader
phone-language-not_here = This language needs signal once. Try again with signal.

## Transfer files

phone-carry-title = Transfer file
phone-carry-out = Export a transfer file
phone-carry-in = Import a transfer file
phone-carry-note = For two phones without signal. The file is signed, and importing it twice is harmless. Photos go along as far as they fit.
phone-carry-made =
    { $n ->
        [one] 1 car
       *[other] { $n } cars
    }, { $photos ->
        [one] 1 photo
       *[other] { $photos } photos
    } in the file
phone-carry-took =
    New entries: { $n } of { $of }, { $photos ->
        [one] 1 photo
       *[other] { $photos } photos
    }
phone-carry-made_some =
    { $n ->
        [one] 1 car
       *[other] { $n } cars
    }, { $photos ->
        [one] 1 photo
       *[other] { $photos } photos
    } in the file; photos that did not fit: { $left }

## Enrolling, who, where

phone-enrol-why = With the one-time code from the office
phone-enrol-note = The office gives a one-time code. Paste it, type it or scan it.
phone-enrol-code = Code
phone-enrol-name = Name of this phone
phone-enrol-do = Enroll this phone
phone-enrol-other_server = Another server answered than the one that gave the code. Ask the office.
phone-who-title = Who are you?
phone-who-why = Your name is kept with everything you record.
phone-who-code = Your short code
phone-who-me = That is me
phone-where-title = Which site?
phone-where-none = No site is known here. Enroll, or import a transfer file.

## When nothing can be recorded

phone-refused-title = Cannot record here
phone-refused-why = This browser window forgets everything when it closes. Open the app from the home screen, not in a private window.
phone-refused-help = Help still works
phone-waiting-title = Open in another window
phone-waiting-why = Only one window may record. Go to the other one, or continue here.
phone-waiting-take = Continue here
phone-broken-title = App error, your entries are saved
phone-broken-why = Start the app again. What was confirmed is on this phone.
phone-broken-again = Start again
phone-trouble-full = No space left on this phone. This was NOT recorded. Free some space, then try again.
phone-trouble-why = First say why, at the top
phone-trouble-code = No code could be read. Type it.
phone-trouble-no_network = The office cannot be reached. Check the signal, then try again.
phone-trouble-read = OK
phone-trouble-not_lasting = This browser may delete what is recorded here. This was NOT recorded. Put the app on the home screen and open it from there, not in a private window.
phone-trouble-no_picture = The picture is empty. Take it again.
phone-lasting-do = Put the app on the home screen first: this browser may delete what is recorded here.
phone-update-ready = A new version is ready
phone-update-take = Update now
phone-starting = Opening the records
phone-opening = Opening the car
