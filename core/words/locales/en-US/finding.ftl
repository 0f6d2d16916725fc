### What is pointed out about a record. A finding refuses nothing.

## The car, its paper, its dates

finding-car-number-unusual = “{ $car }” is not the usual form of a car number. It is kept as typed.
finding-car-number-check-digit = The check digit of { $car } does not fit. Read the number again.
finding-car-number-differs = The number was read as { $first } and then as { $again }. Which car is this?
finding-paper-for-another-car = The shipping paper is for { $paper }; the car is { $car }.
finding-paper-not-as-sent = The shipping paper differs from the office's file ({ $source }): { $differences }.
finding-expected-number-near = A shipping paper came for { $expected }, one character different from { $car }. Read the number on the car again ({ $source }).
finding-not-odorized = The shipping paper says that the product is not odorized.
finding-capacity-differs = The shell capacity differs from what an earlier visit recorded. Read the stencil again.
finding-test-overdue = Test date past: { $test }, due { $due }. The car may leave empty; it may not be filled (49 CFR 173.31(a)(3), read). Tell the owner.
finding-test-date-unreadable = Test date “{ $due }” cannot be read as a date ({ $test }).
finding-known-defect = Defect from an earlier visit, not repaired as far as is known here: { $defect } ({ $who }).
finding-written-approval-overdue = The approval for “{ $defect }” was verbal and is not confirmed in writing. That was due { $due } (two weeks, 49 CFR 174.50, read).
finding-approval-without-reference = The approval for “{ $defect }” has no reference.
finding-defect-not-reported = Nobody has reported “{ $defect }” yet.

## The record

finding-unreadable =
    { $count ->
        [one] One entry of this record is damaged and cannot be read here. What it says is not shown.
       *[other] { $count } entries of this record are damaged and cannot be read here. What they say is not shown.
    }
finding-procedure-unknown = The procedure of this record is not here yet. The built-in one is shown until it arrives; sync first.
finding-procedure-leaves-out =
    The procedure leaves out or asks for less: { $what }{ $laws ->
        [0] { "" }
       *[other] { " " }({ $laws })
    }. Reason: { $because }.
finding-procedure-without = The procedure leaves out common practice: { $what }.
finding-hold-too-short = The pressure hold lasted { $minutes } minutes. The procedure asks for { $least }.
finding-entry-misfiled = An entry is filed elsewhere than what it says: { $entry }
finding-agreement-on-missing = A difference was resolved in favor of an entry that is not here.
finding-skipped-without-reason = Step “{ $step }” was skipped without a reason. It stays open.
finding-step-not-right =
    Not right: { $step }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }
    }
finding-check-not-right =
    Not right: { $what }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }
    }
finding-out-of-order = “{ $later }” was recorded before “{ $earlier }”.
finding-two-lines-open = Opened while another line was not closed yet: { $second }, then { $first }. One line at a time.
finding-vapor-not-last = The vapor line came off before the last liquid line. With the vapor line on, recovery can go on if liquid shows.
finding-item-back-unknown = { $item } was returned, but nobody recorded it as taken out. Is the name right?
finding-chain-gaps = { $gaps }
finding-entries-not-counted = { $reasons }
finding-entries-not-counted-for =
    { $count ->
        [one] 1 entry { $reason }.
       *[other] { $count } entries { $reason }.
    }
finding-override-fell = The override of “{ $item }” does not stand: { $why }.
finding-released-over-open-items =
    Released with { $count ->
        [one] 1 open item
       *[other] { $count } open items
    } that nobody overrode.
finding-unloaded-over-open-items =
    Unloading began over { $count ->
        [one] 1 open item
       *[other] { $count } open items
    } that nobody overrode.
finding-fit-over-open-items =
    Signed fit to unload over { $count ->
        [one] 1 open item
       *[other] { $count } open items
    } that nobody overrode.
finding-empty-against-evidence = The car was accepted as empty of liquid, but the recorded readings show liquid.

## Clocks, devices

finding-clock-off =
    The clock of { $device } is { $by } { $way ->
        [fast] fast
       *[other] slow
    }. Times are shown corrected, with the claimed time beside them.
finding-device-standing = { $device }: { $warning }.
finding-from-the-future =
    { $count ->
        [one] 1 entry claims a time later than now. A clock is wrong.
       *[other] { $count } entries claim a time later than now. A clock is wrong.
    }
finding-done-impossible = An entry claims to have been done after it was made, or before the visit began: { $entry }
finding-clock-set-back = The clock of { $device } was set back during the visit.
finding-far-from-the-others =
    { $count ->
        [one] 1 entry claims a time more than a month from the others. It stands in the tables, not in the charts.
       *[other] { $count } entries claim a time more than a month from the others. They stand in the tables, not in the charts.
    }
finding-code-is-none =
    { $count ->
        [one] 1 entry names its person by a code that is not valid (1 to 64 printable characters). It is shown shortened.
       *[other] { $count } entries name their person by a code that is not valid (1 to 64 printable characters). It is shown shortened.
    }

## Kept as typed and not used

finding-unused =
    Kept as typed, neither drawn nor calculated with: { $entries }{ $more ->
        [0] { "" }
       *[other] { " " }And { $more } more.
    }
finding-unused-entry = “{ $entry }” { $why }.
finding-unused-bolts = has more bolts than any cover
finding-unused-rows = has rows that cannot be, or more than any table
finding-unused-cannot-be = is not a possible amount
finding-unused-does-not-fit = has a number that does not fit what was typed
finding-unused-not-read = begins as a number and is not understood

## Instruments, hoses, seals, signs, people

finding-instrument-unknown = { $name } is not one of the site’s instruments.
finding-calibration-overdue = Calibration of { $name } was due { $due }.
finding-hose-unknown = Hose { $name } is not one of the site’s hoses.
finding-hose-test-overdue = Test of hose { $name } was due { $due }.
finding-seal-not-from-stock = Seal { $number } was not issued to this site.
finding-frost-ring = Frost ring on the shell: liquid is boiling inside, or the shell cools where it should not. Stop and find the cause.
finding-blue-sign-not-up = A line is connected and the blue sign is not recorded as up. Put it up.
finding-training-overdue = The last training of { $person } on record is more than three years old (49 CFR 172.704, from memory).
finding-handover-one-sided = The handover from { $from } to { $to } is signed by { $by } only.
finding-attendance-gap =
    { $minutes } min without an entry while a line was connected, { $valves ->
        [closed] valves recorded closed
       *[other] a valve recorded open
    }: { $shown }.{ $left ->
        [yes] { " " }Somebody recorded leaving.
       *[other] { "" }
    }

## Incidents, leaks, how a car is left

finding-incident-open = Incident open: { $incident }. Work goes on when it is closed.
finding-incident-telephone =
    { $binds ->
        [must] Telephone report to make
       *[other] Check whether a telephone report is due
    }, by { $due }{ $late ->
        [yes] , which is past
       *[other] { "" }
    }: { $incident }. The rule asks within 12 hours for a death, a hospital, or an hour of evacuation or of a road closed (49 CFR 171.15, read { $read }; in Canada see TDG 8.2 and 8.4).
finding-incident-written =
    { $binds ->
        [must] Written report to make
       *[other] Check whether a written report is due
    }, by { $due }{ $late ->
        [yes] , which is past
       *[other] { "" }
    }: { $incident }. The rule asks within 30 days, except for a minimal release from connecting or disconnecting that damaged nothing (49 CFR 171.16, read { $read }).
finding-leak-open = Leak open: { $leak }. Work goes on when it was checked tight.
finding-left-for-next = From the last visit: { $says } ({ $who })
finding-not-in-order = { $says } The next visit shows it until it is recorded as sound or as usual.
finding-tank-unknown = Tank { $name } is not one of the site’s tanks.
finding-hose-pressure = The hose at { $fitting } still holds { $amount } after drawing down; up to { $most } is usual (common practice, no source). Draw it down further before you bleed it.
finding-suction-above = Compressor suction ({ $suction }) is above its discharge ({ $discharge }). Check the four-way valve and the gauges.
finding-inspection = Inspection by { $by } found: { $finding }
finding-protect-again = The car was moved or left. Set and record again: { $again }.
finding-track-ended = Taken over from { $car }: “{ $says }” There it ended { $time }. See to it at this car, and record it again.
finding-left-with-line = The car was left as disconnected, and a line is recorded as on ({ $who }).
finding-left-at-tank = The car was left connected. At a fixed tank an attendant stays until the lines are off (29 CFR 1910.110(b)(14)(i), (b)(15)(iv), read { $read }; exceptions (i)(2)). 49 CFR 174.67(k) is for transloading only.
finding-left-at-truck = The car was left connected. Not recorded, of what 49 CFR 174.67(k) asks (read { $read }): { $missing }.
finding-released-otherwise = The car was released otherwise than it was said to go ({ $load }). Correct one of the two.

## From formulas

finding-of-fitting = At the { $fitting }: { $says }
finding-receiving-tank = Receiving tank as it stands now: { $says }
finding-no-freeze-advice = No advice on freezing: { $why }.
