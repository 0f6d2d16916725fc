### The state of the server: what was checked, what was found, and what to do.

office-state-title = State of the server
office-state-refresh = Refresh
office-state-well = All checks passed.
office-state-unwell = A check failed. What to do is beside it.
office-state-now = Now
office-state-full = Full check
office-state-last = Last made { $time }, and once a day: every entry, photograph and hash of the log.
office-state-never = Not made yet. The server makes it ten minutes after it starts, then once a day.
office-state-check-now = Run the full check now
office-state-what = Check
office-state-is = State
office-state-found = Found
office-state-good = OK
office-state-bad = not OK

## The checks

office-part-folder = Data folder
office-part-room = Disk space
office-part-organisation_key = Organization’s key
office-part-signing_key = Signing key
office-part-desk_key = Office device’s key
office-part-clock = This machine’s clock
office-part-backup = Backups
office-part-ledger = Records (ledger.db)
office-part-log = Log of the records
office-part-photographs = Photographs
office-part-register = Accounts, devices, papers (server.db)
office-part-audit = Audit chain
office-part-index = Index of stays (index.db)
office-part-witness = Witness
office-part-time_stamp = Time stamps

## Folder, disk and keys

office-found-no-answer = The disk of the folder does not answer.
office-found-writable = It can be written to.
office-found-disk-full = The disk is full, so nothing that phones send can be accepted. Free some space. Phones keep their entries until then.
office-found-not-writable = It cannot be written to: { $why }. Nothing that phones send can be accepted. Check who owns the folder, and whether its disk is mounted read-only.
office-found-room-unknown = It cannot be measured: { $why }.
office-found-room-unmeasured = It is not measured on this system.
office-found-room = { $room } free.
office-found-little-room = { $room } free: one day’s photographs may not fit. Free some space.
office-found-key-unusable = organisation.key cannot be used: { $why }. The server runs until it is stopped, and will not start again.
office-found-other-key = organisation.key is not the key that this server started with. Put the right one back from its safe copy.
office-found-key = The key is { $key } …
office-found-desk-key = The key of device { $key }.
office-found-desk-key-unusable = desk.key cannot be used: { $why }.
office-found-key-is-root = The root key signs. To take the root off this server: farsiding key offline.
office-found-key-works = It signs for the root key.
office-found-key-works-until = It signs for the root key until { $until }.
office-found-key-not-yet = The signing key { $key } begins at { $from }. Check this machine’s clock.
office-found-key-ended = The signing key { $key } ended at { $until }. Name another with the root key: farsiding key renew (or key request, sign, take).
office-found-key-withdrawn = The signing key { $key } was withdrawn as { $why } at { $at }. Name another with the root key: farsiding key renew (or key request, sign, take).
office-found-key-unknown = The root key did not name the signing key { $key }. Name another with the root key: farsiding key renew (or key request, sign, take).
office-found-key-ends-soon = The signing key ends at { $until }. Phones are answered by it until then. Name the next one with the root key: farsiding key renew, or key request, sign and take.
office-withdrawn-replaced = replaced
office-withdrawn-lost = lost
office-withdrawn-stolen = stolen

## Clock and backups

office-found-clock-good = It agrees with the log.
office-found-clock-note = At { $size } entries someone stated that it had been wrong: dated { $held }, shown { $clock }. “{ $why }”
office-found-clock-behind = This machine’s clock is { $stretch } behind its own log since { $since }. What comes in is dated { $held } until the clock has caught up. If the clock is wrong now, correct it. If it was wrong before, do nothing.
office-found-clock-jumped = This machine’s clock jumped forward by { $stretch } at { $at }. If it is wrong now, correct it before more entries arrive: times in the log cannot go back.
office-found-clock-ahead-of =
    { $count ->
        [one] This server’s clock was { $count } min ahead of the clock there. Correct it.
       *[other] This server’s clock was { $count } min ahead of the clock there. Correct it.
    }
office-found-clock-behind-of =
    { $count ->
        [one] This server’s clock was { $count } min behind the clock there. Correct it.
       *[other] This server’s clock was { $count } min behind the clock there. Correct it.
    }
office-found-backup-last = Last good backup: { $at } ({ $file }, { $bytes } bytes).
office-found-backup-none = No backup was made yet.
office-found-backup-unplanned = { $last } This server makes none by itself (--backup-to).
office-found-backup-failed = The last attempt failed: { $why }. { $last }
office-found-backup-damaged =
    { $count ->
        [one] { $last } { $count } row was damaged when it was made, so older backups are kept. Run farsiding check.
       *[other] { $last } { $count } rows were damaged when it was made, so older backups are kept. Run farsiding check.
    }
office-found-backup-overdue = A backup is overdue. { $last }

## The full check

office-found-records = { $entries } entries, { $changes } changes, { $receipts } receipts, { $certificates } certificates: all as signed or written.
office-found-leaves = { $leaves } leaves, and every hash above them is correct.
office-found-photographs = { $count } photographs, { $bytes } bytes: all as received.
office-found-audit = { $rows } rows, and each fits the row before it.
office-found-whole = No damage found.
office-found-damaged-rows =
    { $count ->
        [one] { $count } damaged row. The first: { $part } { $row }: { $why }. { $advice }
       *[other] { $count } damaged rows. The first: { $part } { $row }: { $why }. { $advice }
    }
office-found-check-advice = Run farsiding check --data on this folder: it names every row, and with --mend it repairs entries. Otherwise keep the folder as it is and restore the newest backup into a new one. Phones bring back what it lacks.
office-found-index-advice = It is derived. Stop the server, delete index.db, then start again.
office-found-damaged = Damaged: { $why }. { $advice }
office-found-unreadable = It cannot be read: { $why }. { $advice }
office-found-check-failed = The check failed: { $why }.

## Witnesses and time stamps

office-found-tries =
    { $count ->
        [one] since { $since }: { $why }
       *[other] since { $since }, tried { $count } times: { $why }
    }
office-found-of = { $name }: { $found }
office-found-all = { $items }
office-found-two = { $first } { $second }
office-found-signed =
    { $count ->
        [one] It signed the log of { $count } entry at { $at }.
       *[other] It signed the log of { $count } entries at { $at }.
    }
office-found-signed-nothing = It has signed nothing yet.
office-found-refuses = It refuses to sign, { $told }. { $signed } If a backup was restored, declare it (farsiding restored). Otherwise someone changed the log: keep the folder as it is.
office-found-does-not-sign = It does not sign, { $told }. { $signed }
office-found-stamped =
    { $count ->
        [one] The log of { $count } entry was stamped { $at } by { $authority }.
       *[other] The log of { $count } entries was stamped { $at } by { $authority }.
    }
office-found-stamped-no-root =
    { $count ->
        [one] The log of { $count } entry was stamped { $at } by { $authority } (not checked who certifies it: no root was given).
       *[other] The log of { $count } entries was stamped { $at } by { $authority } (not checked who certifies it: no root was given).
    }
office-found-stamped-nothing = Nothing was stamped yet.
office-found-no-stamp = { $authority } gives no time stamp, { $told }. { $last }
