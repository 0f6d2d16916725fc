### The page of defects, of letters about them, and of fittings that wear.

office-defects-title = Defects
office-defects-open =
    { $count ->
        [one] { $count } open
       *[other] { $count } open
    }
office-defects-overdue-count =
    { $count ->
        [one] { $count } overdue
       *[other] { $count } overdue
    }
office-defects-no-mail = E-mail is not set up. Put a mail.toml into the data folder (host, port, security, from). Letters wait until then.
office-defects-none = No defect recorded.
office-defects-wear = Fittings that wear
office-defects-no-wear = No closing torque is above the usual range or rising.
office-defects-wear-note = Usual range 20 to 40 ft·lbf (common practice, no source). A rise is a Theil–Sen slope beyond its ±.
office-defects-car = Car
office-defects-fitting = Fitting
office-defects-efforts = Torque, ft·lbf
office-defects-says = Result
office-defects-overdue = Overdue: { $why }.
office-defects-noted = Noted by { $by }, { $time }
office-defects-photographs =
    { $count ->
        [one] { $count } photograph
       *[other] { $count } photographs
    }
office-defects-record = The record
office-defects-reported = Reported at the car: { $sent }
office-defects-mail = E-mail to { $to }: { $state }
office-defects-approval = Approval: { $answer }
office-defects-needs-approval = The car moves only with an approval.
office-defects-repaired = Repaired: { $how }
office-defects-forward = Report it by e-mail
office-defects-address = E-mail address
office-defects-words = Text before the extract of the record
office-defects-send = Send
office-defects-sent = sent { $time } ({ $said })
office-defects-failed = FAILED: { $said }
office-defects-waiting = waiting to be sent
office-defects-tried =
    { $count ->
        [one] tried { $count } time, again at { $time }: { $said }
       *[other] tried { $count } times, again at { $time }: { $said }
    }
office-defects-letters = Letters
office-defects-letter-to = To
office-defects-about = About
office-defects-asked = Requested
office-defects-state = State
office-defects-do = Action
office-defects-again = Try again now
office-defects-no-such = There is no such defect.
office-defects-not-an-address = “{ $text }” is not an e-mail address.
office-defects-no-letter = That letter was sent already, or does not exist.
office-overdue-approval =
    { $count ->
        [one] the verbal approval was due in writing { $count } day ago (49 CFR 174.50)
       *[other] the verbal approval was due in writing { $count } days ago (49 CFR 174.50)
    }
office-overdue-not-reported =
    { $count ->
        [one] noted { $count } day ago and not reported to anybody
       *[other] noted { $count } days ago and not reported to anybody
    }
office-overdue-no-answer =
    { $count ->
        [one] waiting for an approval for { $count } day
       *[other] waiting for an approval for { $count } days
    }
