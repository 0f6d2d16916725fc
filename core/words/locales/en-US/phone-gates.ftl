### Words on the phone for the two gates, the last round and answers that hold the job.

## The two gates

phone-gate-met =
    { $n ->
        [one] 1 item in order
       *[other] { $n } items in order
    }
phone-gate-signed-unload = Fit to unload, signed
phone-gate-signed-release = Released
phone-gate-hold-unload = Hold to sign: fit to unload
phone-gate-hold-release = Hold to sign: release
phone-gate-late = Unloading began before this gate was signed. The record says so.
phone-ask-fit_to_unload = Fit to unload
phone-ask-last_round = Last round of all closures
phone-override-title = Override several
phone-override-note = Choose the items and one reason. The record keeps your name and the reason.
phone-override-which = Choose the items
phone-override-why = Choose the reason
phone-override-other = Other reason
phone-override-words = Reason, in your words
phone-override-hold =
    { $n ->
        [one] Hold to override 1 item
       *[other] Hold to override { $n } items
    }
phone-round-title = Last round
phone-round-do = Put a hand on each closure, with the plug or cap in. Listen. Tap what is not in order.
phone-round-in_order = closed, tool-tight, no leak heard
phone-round-not = not in order
phone-round-note = What is not in order
phone-round-photo = Photograph the open housing
phone-round-photo_taken = Photograph taken
phone-round-hold =
    { $n ->
        [one] Hold to sign 1 closure
       *[other] Hold to sign { $n } closures
    }

## An answer that holds the job

phone-held-title = Job held
phone-held-hold = Put a hold on the car
phone-ask-earlier = Earlier answer: { $answer }
phone-undo = Undo
phone-undo-why = tapped by mistake
