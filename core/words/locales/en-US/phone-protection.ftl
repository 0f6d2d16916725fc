### Words about what protects this phone and its records: keys, PINs, the lock.

## A person’s PIN

phone-pin-title = Your PIN
phone-pin-head = PIN
phone-pin-typed = { $n } of 6 digits
phone-pin-act = It signs what you are about to record.
phone-pin-shift = It signs for you until the end of the shift.
phone-pin-checking = One moment
phone-pin-without = Continue without signing
phone-pin-forgotten = Forgot it
phone-pin-wrong =
    { $n ->
        [one] Wrong PIN. 1 try left; then the key on this phone is deleted.
       *[other] Wrong PIN. { $n } tries left.
    }
phone-pin-waits = Too many wrong tries. Try again at { $at }, or continue without signing.
phone-pin-locked = Your key on this phone was deleted after ten wrong tries. Tell the office and make a new PIN. What you signed stays signed.
phone-pin-ended = The office ended your key on this phone. Make a new PIN.
phone-pin-weak = This PIN is too easy to guess. Choose another.
phone-pin-make = Make your PIN
phone-pin-choose = Choose six digits that nobody guesses: no birthday, no row of keys.
phone-pin-six = Six digits
phone-pin-again = Once more
phone-pin-old = Your PIN so far
phone-pin-two_differ = The two were not the same. Choose again.
phone-pin-none = Not signed by you
phone-pin-why = What you record here is named by the phone, not signed by you. With your own PIN you sign it.
phone-pin-alone = Only you know it, not even the office. Never tell it to anybody.
phone-pin-short = So that you sign what binds you
phone-pin-have = Signed by you
phone-pin-confirmed = The office has confirmed your key.
phone-pin-not_confirmed = The office will ask you for these digits by telephone. They are no secret.
phone-pin-digits = Your key
phone-pin-change = Change the PIN
phone-pin-forgotten_title = Forgot the PIN?
phone-pin-forgotten_why = Nobody can give it back. Your key on this phone is deleted, and you make a new one. Tell the office to end the old one. What you signed stays signed.
phone-pin-drop = Delete the key
phone-pin-later = Later
phone-pin-lock = Lock now: end of shift
phone-pin-holds = { $name } holds this phone until { $at }
phone-pin-held = held by { $name }
phone-pin-unsigned = Named by the phone, not signed by you.
phone-pin-needed = Your organization counts this only with your own signature.

## How this phone is protected

phone-guard-title = Protection of this phone
phone-guard-key = The key of this phone
phone-guard-records = Records and photos on it
phone-guard-wrapped = Kept by the browser; no page can read it.
phone-guard-sealed = Encrypted. A copy of the record files alone cannot be read.
phone-guard-open = Anybody who copies this phone’s files can read it.
phone-guard-aside = Older records cannot be read
phone-guard-aside_why = The browser lost their key. They stay as they are. What was sent comes back from the office.
phone-guard-short = Its key, its records, its lock
phone-lock-on = Opens with a PIN
phone-lock-on_why = Guessing the PIN of a copied phone takes days. Emergency numbers, cars, spots and cautions stay readable.
phone-lock-off = Opens without a PIN
phone-lock-off_why = Anybody who has the phone, or a copy of all its files with the browser’s, has the records.
phone-lock-cannot = A lock would hide the screen and protect nothing here, so there is none.
phone-lock-make = Choose the phone’s PIN
phone-lock-old = The phone’s PIN so far
phone-lock-end = Open without a PIN
phone-lock-now = Lock now
phone-lock-after = Locks after
phone-lock-title = Locked
phone-lock-asks = The phone’s PIN
phone-lock-cars =
    { $n ->
        [one] Caution at 1 car
       *[other] Caution at { $n } cars
    }
phone-lock-wrong = Wrong PIN. Try again.
phone-lock-waits = Too many wrong tries. Try again at { $at }.
phone-lock-waits_a_while = Too many wrong tries. Wait a while.
phone-lock-failed = That did not work. Nothing was changed.
phone-lock-forgotten = Forgot the PIN?
phone-lock-forgotten_why = Nobody can give it back, not even the office. Ask whoever else used this phone. What was sent is at the office. The rest stays encrypted on this phone and is never deleted.
phone-lost-title = The key of this phone is lost
phone-lost-why = The browser lost it. The records on this phone stay, but cannot be read here. What was sent is at the office. Tell the office before you clear anything.
