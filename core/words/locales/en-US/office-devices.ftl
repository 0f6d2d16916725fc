### Devices: what they may do, codes for new ones, revoked ones, and their late entries.

office-devices-title = Devices
office-devices-people = People and keys
office-devices-refresh = Refresh
office-devices-enroll = Enroll a device
office-devices-name = Name of the device
office-devices-role = Role
office-devices-role-operator = record, resolve and release at its sites
office-devices-role-office = everything the office may do
office-devices-role-inspector = read the sites given to it, nothing else
office-devices-grant = Sites, rights and last day: all sites, all rights of its role, until revoked
office-devices-make-code = Make a one-time code
office-devices-late-waiting =
    { $count ->
        [one] { $count } late entry of a revoked device to review:
       *[other] { $count } late entries of revoked devices to review:
    }
office-devices-late = Late entries
office-devices-enrolled = Enrolled devices
office-devices-refused = Data that was refused
office-devices-none = No device is enrolled yet.
office-devices-device = Device
office-devices-grants = Sites, rights, validity
office-devices-heard = Last sync
office-devices-clock = Clock
office-devices-unsent = Unsent then
office-devices-chain = Numbering
office-devices-change = Change
office-devices-own-name = calls itself { $name }
office-devices-ended = ended: { $until }
office-devices-never = never
office-devices-clock-right = correct
office-devices-no-gap = no gap
office-devices-revoked = revoked
office-devices-change-of = Change or revoke { $name }
office-devices-say-role = Choose what the device may do.
office-devices-enroll-of = Enroll { $name }
office-devices-how = Scan the picture with the phone, or type the code into the app.
office-devices-good-for = Valid for
office-devices-one-until = one device, until { $time }
office-devices-sites = Sites
office-devices-rights = Rights
office-devices-certificate = Certificate
office-devices-valid = valid { $until }
office-devices-server = Server
office-devices-server-key = Server’s key
office-devices-replaces = The code made before for this name is no longer valid.
office-devices-once = The code is shown only now. Whoever uses it first enrolls with it. If it is lost, make another.
office-devices-back = Go to the devices
office-devices-picture = The code as a picture. The letters are beside it.
office-devices-no-such = There is no such device.
office-devices-revoke-title = Revoke a device
office-devices-revoke-question = Revoke { $name }?
office-devices-revoke-lead = Revoking takes effect now and cannot be undone. What the device sent stays in the record. What it still sends is kept, and counts only if the office admits it. It receives nothing more.
office-devices-revoke-sure = The device is lost, stolen, or no longer used
office-devices-revoke-of = Revoke { $name }
office-devices-leave = Cancel
office-devices-sure = Check the box to confirm. Nothing was revoked.
office-devices-key = Key
office-devices-issued = Issued
office-devices-renewed = { $issued }, renewed { $renewed }
office-devices-over = It has expired.
office-devices-revoked-head = Revoked
office-devices-revoked-after = after its entry number { $number }
office-devices-revoked-before = before any of its entries arrived here
office-devices-stays-revoked = A revoked device stays revoked. What it sent afterwards:
office-devices-renew = Change or renew
office-devices-renew-note = The device gets the new certificate with its next sync. What it recorded before counts as it did.
office-devices-issue = Issue a new certificate
office-devices-lost = Lost, stolen or no longer used
office-devices-all-sites = All, including sites added later
office-devices-these = These:
office-devices-no-site = No site is known here yet.
office-devices-site = site { $site }
office-devices-all-rights = All rights of its role
office-devices-these-rights = These, instead of those of its role:
office-devices-until = Last day (UTC). Empty: until revoked
office-devices-ticked-all = Sites or rights are checked, but “All” is chosen above them. Choose “These”, or check none.
office-devices-tick-sites = Check the sites, or choose all.
office-devices-tick-rights = Check the rights, or choose all rights of its role.
office-devices-say-grant = Choose the sites and the rights.
office-devices-bad-name = A device needs a name of 1 to 64 characters on one line.
office-devices-name-taken = Another device is named “{ $name }” ({ $device }). Choose another name, such as “{ $free }”.
office-devices-desk = Office desk
office-devices-office-name = “{ $name }” is the name of the office’s own device. Choose another name.
office-devices-is-revoked = This device was revoked and stays revoked. Set it up again and make a new code.

## A device's grant

office-grant-all-sites = all sites
office-grant-all-sites-later = all sites, including sites added later
office-grant-no-site = no site
office-grant-list = { $items }
office-grant-all-rights = all rights of its role
office-grant-no-right = no rights
office-grant-revoked = until revoked
office-grant-until = until the end of { $day } UTC
office-grant-no-such-site = No site is named “{ $text }”.
office-grant-two-sites = Several sites are named “{ $text }”.
office-grant-no-such-right = “{ $text }” is not a right.
office-grant-no-date = “{ $text }” is not a date. Write it as 2027-06-30.
office-grant-over = { $text } is in the past.
office-grant-inspector = Choose which sites the inspector’s device may read.
office-grant-role-operator = operator
office-grant-role-office = office
office-grant-role-inspector = inspector
office-grant-right-record = record
office-grant-right-settle = resolve differences, join records
office-grant-right-lift_hold = lift a hold
office-grant-right-override = override open items
office-grant-right-release = release a car
office-grant-right-withdraw_others = void what others recorded
office-grant-right-keep_site = change sites
office-grant-right-issue_seals = issue seals
office-grant-right-keep_people = change the roster
office-grant-right-publish_procedures = publish procedures
office-grant-right-admit = admit late entries
office-grant-right-enrol = enroll and revoke devices
office-grant-right-read = read records

## Late entries of revoked devices

office-late-title = Late entries
office-late-lead = These entries came from a device after it was revoked. They are kept and do not count, because anyone who has the phone could have made them. Admit an entry only if you know that it is true. The record then shows who admitted it, and why.
office-late-none = Nothing came from a revoked device.
office-late-revoked = revoked { $time }
office-late-count =
    { $count ->
        [one] { $count } late entry
       *[other] { $count } late entries
    }
office-late-more = Only the first { $count } are shown. The others are kept.
office-late-last = Last entry before it was revoked: number { $number }
office-late-why = Reason: { $why }
office-late-by = By
office-late-claimed = as the device claims
office-late-came = Received
office-late-unknown = not known
office-late-about = About
office-late-number = Number
office-late-before-last = before the last one the office had. It may have been left on the phone.
office-late-admitted = Admitted by { $by }, { $time }: { $why }
office-late-why-back = Why take this back
office-late-take-back = Take back
office-late-why-admit = Why the entry is true
office-late-admit = Admit
office-late-reason = Enter a reason of up to 1000 characters. The record keeps it.
office-late-already = This entry was admitted already.
office-late-not-now = This entry is not admitted now.
office-late-no-such = There is no such late entry.
office-late-kind = An entry of the kind “{ $kind }”
office-late-record-of = { $car }, record { $record }
office-late-car = data of car { $car }
office-late-site = site { $site }
office-late-people = people of the organization
