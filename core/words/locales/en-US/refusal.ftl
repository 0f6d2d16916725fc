### Why an act is refused, and what to do: texts of errors that a person reads.

## Storage

refusal-store-failed = This device could not write the record. Saved entries are kept. Try again.
refusal-store-full = No space left on this device. Saved entries are kept. Free some space, then try again.
refusal-store-busy = Another window or program is using these records. Close it, then try again.
refusal-store-no-place = Records cannot be kept here. Use a normal browser window or another folder.
refusal-store-too-new = A later version of the app wrote these records. Update the app.

## Data from outside that does not verify; nothing is changed by it

refusal-change-unreadable = This data cannot be read as records. Nothing was changed.
refusal-change-not-allowed = This data is no plain addition of entries. It was refused, and nothing was changed.
refusal-device-copied = This device was copied or restored from a backup. Tell the office before you record more.
refusal-entry-unreadable = This is not a signed entry of Farsiding. Nothing was changed.
refusal-signature = The signature does not verify. The data was changed, or another key signed it.
refusal-other-signer = Another key signed this than the one required.
refusal-person-signature = The person’s signature does not verify. Unlock the key, then sign again.
refusal-key-unknown = A key signed this that is not known here as the organization’s.
refusal-key-period = The organization’s key was not in force at that time.
refusal-key-withdrawn = The organization withdrew the key that signed this.
refusal-certificate = This device certificate contradicts itself. Ask the office for a new one.
refusal-no-device-key = This key cannot be the key of a device. Enroll the device again.
refusal-of-later-version = A later version wrote this. Update the app.

## Entries that are not made

refusal-entry-too-large = The entry is too long. Shorten the text.
refusal-no-reason = Give a reason. An entry that replaces another needs one.
refusal-person-code = A person’s code has 1 to { $most } visible characters and no space at either end.
refusal-person-name = A person’s name has at most { $most } bytes. Shorten it.
refusal-skip-without-reason = Give a reason to skip the step.
refusal-done-later = The time it was done is later than now. Correct the time.
refusal-done-before-visit = The time it was done is before this visit began. Correct the time, or record when the car was placed.
refusal-override-without-reason = Give a reason for the override.
refusal-about-nothing = Choose the entries that this decision is about.
refusal-item-without-name = Name the tool or fitting.
refusal-note-empty = Say what the next person should know.
refusal-paper-expected = A paper that is sent to a site needs a car number of the usual form and short texts.
refusal-level = A level lies between 0 and 100 %.
refusal-statement-unknown = This version cannot make this kind of entry. Update the app.
refusal-not-in-disagreement = This entry is in no open disagreement. The record may have changed; look again.
refusal-not-resolved = This entry is in no decision that can be voided. The record may have changed; look again.
refusal-not-in-record = This entry is not in this record.
refusal-no-open-item = This is no open item now. The record may have changed; look again.
refusal-still-open = Not released. Open items: { $items }
refusal-released-otherwise = The record says that the car goes { $load }. Release it so, or correct how it goes.
refusal-not-fit-to-unload = Not signed fit to unload. Open items: { $items }
refusal-no-gate = The procedure of this record has no such gate.
refusal-not-here = This record is not on this device. Sync, then look again.
refusal-no-operator = Say who you are first.

## PIN and key of a person

refusal-pin-not-six-digits = A PIN has six digits.
refusal-pin-too-easy = This PIN is too easy to guess. Choose another one.
refusal-pin-wrong =
    { $left ->
        [one] Wrong PIN. { $left } try left.
       *[other] Wrong PIN. { $left } tries left.
    }
refusal-pin-wait = Too many wrong PINs. Wait, then try again.
refusal-pin-locked = The key was deleted after { $tries } wrong PINs. Tell the office, then make a new key.
refusal-pin-no-key = No key on this device for { $person }.
refusal-pin-has-key = A key is on this device already for { $person }.
refusal-pin-ended = The office ended this key. Make a new one.
refusal-pin-nothing-beside = The device’s secret is missing. Close the app, then open it again.
refusal-pin-damaged = The stored key cannot be read. Tell the office, then make a new key.

## Sync with the office

refusal-not-the-office = The answer did not come from the office. Check the network (a sign-in page?) and the address.
refusal-other-request = The office answered another request. Sync again.
refusal-not-enrolled = This device is not enrolled. Ask the office for a one-time code.
refusal-still-differs = After { $rounds } rounds, the records still differ from the office’s. Sync again later.
refusal-request-unreadable = The office cannot read this device’s request. Update the app.
refusal-unknown-device = This device is not enrolled with this organization. Ask the office.
refusal-revoked = The office revoked this device. Ask the office.
refusal-too-much = The device asked for too much at once. Sync again.

## The office’s log contradicts what was shown before

refusal-log-rewritten = The office’s log was rewritten. It no longer begins with what this device was shown.
refusal-log-two-versions = The office signed two different versions of its log. Both cannot be true.
refusal-log-shorter = The office’s log is shorter than before; entries are gone. The office must declare a restored backup.
refusal-log-another = The office shows another log than before and did not declare why.
refusal-log-entry-missing = The office gave a receipt for an entry that is not in its log.
refusal-log-proof-fails = The office’s proof that entries are in its log does not verify. The device asks again next time.
refusal-log-two-roots = The organization’s root key signed two different statements; somebody else has it. Ask the office.

## The shell

refusal-wrong-call = App error. Your entries are saved. Tell the office.
