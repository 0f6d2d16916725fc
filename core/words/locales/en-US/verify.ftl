### What the check of a packet found. The code of each line stands beside it and is never translated.

## What verify prints around the lines

verify-mark-holds = holds
verify-mark-marked = note
verify-mark-broken = BROKEN
verify-all-holds = All of it holds. { $shows }
verify-holds-with-notes =
    { $count ->
         [one] It holds. Read the note above with it. { $shows }
        *[other] It holds. Read the { $count } notes above with it. { $shows }
    }
verify-does-not-hold = It does NOT hold.
verify-shows = It shows what these devices signed, unchanged, and that the organization's log holds it. It does not show that a scene was as claimed, nor that a car is safe.
verify-first-page-says = The first page in this language:
verify-first-page-undrawn = The pages were not drawn again here, so these words rest on the organization's seal:
verify-parts = { $parts }
verify-and-more = and more of the same kind

## The verdict on third parties

verify-verdict-stamped = { $authority } stamped the log of { $size } entries: they existed not after { $at }
verify-verdict-witnessed = { $name } signed the log of { $size } entries at { $at } as one that only grew
verify-verdict-both = Beyond the organization's own word: { $stamped }; { $witnessed }.
verify-verdict-stamp-alone = Beyond the organization's own word: { $stamped }. That there is one log only rests on its word alone.
verify-verdict-witness-alone = Beyond the organization's own word: { $witnessed }. The times in the log rest on its word alone, except for the witness's clock.
verify-verdict-alone = Times and completeness rest on the organization's word alone.
verify-verdict-devices = Which devices are its own, and what they may do, rests on the organization's word alone.
verify-strict-stamp = no time stamp here holds to a root given with --tsa-root
verify-strict-witness = no witness given with --witness has signed a checkpoint here
verify-stamp-unchecked = the time stamp on the checkpoint of size { $size } was not checked: { $why }
verify-stamp-forged = the time stamp on the checkpoint of size { $size } does not hold: { $why }
verify-stamp-no-root = the checkpoint of size { $size } existed not after { $at }, on the unverified word of { $authority }: no root was given (--tsa-root)
verify-stamp = the checkpoint of size { $size }, and every entry it covers, existed not after { $at }: stamped by { $authority }
verify-clocks-differ = { $what }; the log received an entry it covers { $minutes } min later: one of the two clocks was wrong
verify-witness = { $name } signed the checkpoint of size { $size } at { $at }
verify-witness-older = { $name } signed the checkpoint of size { $size } at { $at }, which does not cover the newest entries here
verify-witness-forged = a line in the name of { $name } does not hold
verify-no-witness = no checkpoint here is signed by { $names }

## The seal and the attachments

verify-missing = { $name } is not there
verify-no-text = { $name } is not there, or no text
verify-about-file = { $name }: { $why }
verify-wrong-key = the packet is sealed by the key { $key }, not by the key given
verify-wrong-seal = the packet is sealed by another key, not by the key given
verify-altered-seal = the seal does not hold: { $why }
verify-seal = the whole file is as the organization sealed it
verify-altered-attachment = { $name } is not the file sealed
verify-removed-attachment = { $name } was sealed and is gone
verify-added-attachment = { $name } was not sealed
verify-edited-pages = the attached records are the sealed ones, but the file around them is not: what the pages show was changed, or something was added to the file
verify-seal-visits = the seal's list of visits is not that of the entries it seals
verify-seal-entries = the seal's count or root of entries is not that of the entries it seals
verify-seal-time = the seal's time is not that of the entries it seals
verify-older-rules = the seal asks for the rules of an earlier version than the one that made this packet: what came with later rules was not checked
verify-later-rules = the seal asks for rules of version { $fold }. This program knows those up to { $own } and checked by them
verify-foreign-attachment = { $name } was sealed in. No entry here names it, and it proves nothing about this stay
verify-procedure = procedure.toml is the procedure under which the stay was begun (SHA-256 { $text })
verify-procedure-words = procedure.toml is the procedure under which the stay was begun (SHA-256 { $text }), procedure.ftl its sentences in the language of the pages (SHA-256 { $words })
verify-other-procedure = { $name } is not the procedure under which the stay was begun
verify-other-fold = folded by the rules of another version ({ $fold }, this program's is { $own }). Its view was not compared
verify-view = the record shown is the one the entries fold to
verify-altered-view = view.json is not what the entries fold to with this version of the program

## Entries and devices

verify-entries =
    { $count ->
         [one] { $count } entry has the signature of its device
        *[other] { $count } entries have the signatures of their devices
    }
verify-altered-entry = entry { $number } of the list "{ $list }": { $why }
verify-foreign-entry = entry { $entry } is about { $about }, not { $list }
verify-not-this-stays = entry { $entry } is about { $about }, which is not this stay's
verify-removed-entry =
    { $count ->
         [one] { $count } entry that the log lists is not here, among them { $entries }
        *[other] { $count } entries that the log lists are not here, among them { $entries }
    }
verify-fewer-entries = { $sealed } entries were sealed, { $here } are here
verify-chain-gap = entries { $from } to { $to } of device { $device } are not at the office
verify-chain-removed = entries { $from } to { $to } of the chain of device { $device } are gone
verify-chain-twice = { $count } entries of device { $device } have the number { $number }
verify-chain-other =
    { $count ->
         [one] { $count } entry names another entry before it than the one known
        *[other] { $count } entries name another entry before them than the one known
    }
verify-chains =
    { $count ->
         [one] the chain of { $count } device is accounted for
        *[other] the chains of { $count } devices are accounted for
    }
verify-claimed-after =
    { $count ->
         [one] { $count } entry claims a time after the office received it: the clock of its device was wrong, or the office's
        *[other] { $count } entries claim a time after the office received them: the clock of their device was wrong, or the office's
    }
verify-forged-certificate = a certificate does not hold: { $why }
verify-forged-device =
    { $count ->
         [one] { $count } entry is signed by device { $device }, which the organization did not certify
        *[other] { $count } entries are signed by device { $device }, which the organization did not certify
    }
verify-devices =
    { $count ->
         [one] { $count } device holds the organization's certificate
        *[other] { $count } devices hold the organization's certificate
    }
verify-uncertified-device =
    { $count ->
         [one] { $count } entry is signed by device { $device }, of which there is no certificate here: it is kept and does not count
        *[other] { $count } entries are signed by device { $device }, of which there is no certificate here: they are kept and do not count
    }
verify-revoked-device = { $late } of { $count } entries of "{ $name }" ({ $device }) came in after it was revoked ({ $at }): they are kept, what they say of their time proves nothing
verify-expired-device = { $late } of { $count } entries of "{ $name }" ({ $device }) claim a time after its certificate had run out ({ $until }): they are kept and do not count

## The organization's keys

verify-keys =
    { $count ->
         [one] the organization's root said { $count } thing of its keys. What stands here is signed by { $named } in their time
        *[other] the organization's root said { $count } things of its keys. What stands here is signed by { $named } in their time
    }
verify-keys-twice = what the packet brings of the organization's keys says one thing twice
verify-keys-brought = what the packet brings of the organization's keys: { $why }
verify-keys-beside = beside what was given of the organization's keys: { $why }
verify-expired-key = { $what }: { $why }
verify-thing-seal = the seal
verify-thing-certificate = a certificate
verify-thing-receipt = a receipt
verify-thing-checkpoint = a checkpoint
verify-withdrawn-as-replaced = replaced
verify-withdrawn-as-lost = lost
verify-withdrawn-as-stolen = stolen
verify-withdrawn-name = the key { $key }, withdrawn as { $why } at { $at }
verify-withdrawn-after = { $what } under { $name }: signed after that
verify-withdrawn-before = { $what } under { $name }: signed before that, it holds
verify-stolen-no-checkpoint = { $what } under { $name }, and there is no checkpoint that holds
verify-stolen-no-vouch = { $what } under { $name }; the root vouches for nothing it signed
verify-stolen-within = { $what } under { $name }; its log is within what the root vouches for ({ $count } entries)
verify-stolen-outside = { $what } under { $name }; its log is not the one the root vouches for ({ $count } entries)
verify-stolen-not-shown = { $what } under { $name }. Whoever had the key could make it: nothing here shows that its log of { $size } entries is the beginning of the { $vouched } the root vouches for. The office can print the proof (farsiding checkpoint --from { $size }), to be given with --against

## The log

verify-log =
    { $count ->
         [one] the log of { $count } entry holds it at its place
        *[other] the log of { $count } entries holds each entry at its place
    }
verify-forged-checkpoint = a checkpoint does not hold: { $why }
verify-no-checkpoint = there is no checkpoint
verify-log-fork = the checkpoints of size { $old } and { $new } cannot both be of one log
verify-unlogged-place = the log does not hold entry { $entry } at number { $number }
verify-unlogged-about = the log says that entry { $entry } is about { $told }; it is about { $about }
verify-unlogged-entry = entry { $entry } is in no log
verify-log-order = the log's numbers or times fall at number { $number }
verify-reordered = the list "{ $list }" does not stand in the order in which the office received it
verify-given-forged = the checkpoint given does not hold: { $why }
verify-given-other-log = the checkpoint given is of the log { $theirs }, the packet's of { $own }
verify-given-own = the checkpoint given is the packet's own of size { $size }
verify-given-two-logs = two checkpoints of size { $size } differ: the office has shown two logs
verify-given-no-proof = the checkpoint given has size { $theirs }, the packet's { $own }. To compare them the office must add a consistency proof
verify-given-same-log = the checkpoint given, of size { $size }, is of the same log
verify-older-packet =
    { $count ->
         [one] the log has grown by { $count } entry since this packet's last checkpoint. What came in since is not here
        *[other] the log has grown by { $count } entries since this packet's last checkpoint. What came in since is not here
    }
verify-time-stamp = a third party's time stamp names the checkpoint of size { $size }. Who gave it is for you to judge
verify-time-stamp-other = a time stamp is not of the checkpoint of size { $size }
verify-last-entry = { $name } proves the stay's last entry to whoever knows C2SP tlog-proof
verify-last-entry-not = { $name } does not prove the stay's last entry
verify-last-entry-fork = { $name } leads to a checkpoint of size { $size } that is none of the packet's

## Completeness and times

verify-whole = all { $count } entries that the log of { $size } entries holds of this stay are here
verify-whole-newest = all { $count } entries that the log of { $size } entries holds of this stay are here, the newest of those here received { $at }
verify-no-heads = the log's checkpoint does not say how many entries there are of a stay: that all are here rests on the organization's word
verify-no-head = how many entries the log holds of { $about } is not proven: that all are here rests on the organization's word
verify-other-head = what is said of { $about } as a whole is not what the checkpoint of size { $size } commits to
verify-other-entries = the entries here are not the { $count } that the log holds of { $about }
verify-removed-of-visit = the log holds { $count } entries of { $about }, { $here } are here
verify-absent-visit = an entry says that visit { $visit } is of the same stay. Its entries are not here
verify-unjoined-visit = no entry says that visit { $visit } is of one stay with the others here
verify-photo-elsewhere =
    { $count ->
         [one] { $count } photograph of this stay is named by entries of other stays as well
        *[other] { $count } photographs of this stay are named by entries of other stays as well
    }
verify-times =
    { $count ->
         [one] { $count } entry names a checkpoint of this log that its device had been shown: it was made after it
        *[other] { $count } entries name a checkpoint of this log that their device had been shown: they were made after it
    }
verify-other-log-seen =
    { $count ->
         [one] { $count } entry names a checkpoint that this log does not continue: the log was rewritten or put back from a backup, or its device made it up
        *[other] { $count } entries name a checkpoint that this log does not continue: the log was rewritten or put back from a backup, or their device made it up
    }
verify-claimed-before-seen =
    { $count ->
         [one] { $count } entry claims a time before that of a checkpoint its device had already been shown
        *[other] { $count } entries claim a time before that of a checkpoint their device had already been shown
    }
verify-claimed-before-certificate =
    { $count ->
         [one] { $count } entry claims a time before its device had a certificate of the organization
        *[other] { $count } entries claim a time before their device had a certificate of the organization
    }
verify-received-long-after =
    { $count ->
         [one] { $count } entry came in more than seven days after the time it claims. Before that only its device can tell of it
        *[other] { $count } entries came in more than seven days after the time they claim. Before that only their device can tell of them
    }

## Receipts and photographs

verify-receipts =
    { $count ->
         [one] { $count } receipt holds. It covers { $here } of the stay's { $all } entries
        *[other] { $count } receipts hold. They cover { $here } of the stay's { $all } entries
    }
verify-backdated-receipt = a receipt says { $at }, but the log received an entry it covers at { $received }
verify-names =
    { $count ->
         [one] { $count } name is the one that its entry commits to
        *[other] { $count } names are those that their entries commit to
    }
verify-altered-name = the name for { $named } is not the one that the entry commits to
verify-foreign-name = the name for { $named } belongs to nobody whom the entries name
verify-photos =
    { $count ->
         [one] { $count } photograph is byte for byte the one signed for
        *[other] { $count } photographs are byte for byte those signed for
    }
verify-photo-length = { $name } has another length than signed for
verify-other-length = an entry gives another length than { $name } has. Its digest is right
verify-swapped-photo = under the name { $name } stands photograph { $digest }
verify-altered-photo = the bytes of { $name } are not those signed for
verify-absent-photo =
    { $count ->
         [one] { $count } photograph was not at the office when the packet was made
        *[other] { $count } photographs were not at the office when the packet was made
    }
verify-absent-photo-or =
    { $count ->
         [one] { $count } photograph was not at the office when the packet was made, or only entries that do not count name it
        *[other] { $count } photographs were not at the office when the packet was made, or only entries that do not count name them
    }

## The pages

verify-pages = drawn again from what is attached, the pages are these, byte for byte
verify-pages-no-seal = the pages were not drawn again: no seal that holds says by which layout they were drawn
verify-pages-other = the pages were not drawn again (layout { $layout }, fold { $fold }; this program's are { $own_layout } and { $own_fold }): what they say beyond the attached records rests on the organization's word
verify-pages-language = the pages were not drawn again: this program has no words in the language { $language }
verify-pages-not-drawn = the pages were not drawn again, because what is attached does not hold
verify-pages-cannot = no pages can be drawn from what is attached: { $why }
verify-pages-unreadable = the pages cannot be read
verify-page-differs = page { $page } shows something else than what is attached
verify-pages-added = pages { $from } to { $to } were added
verify-pages-gone = pages { $from } to { $to } are gone
verify-pages-around = the file is not the one drawn from what is attached: something stands around its pages that a reader of PDF may show

## The first page

verify-first-page = page 1: { $what }
verify-front-differs = page 1 says something else than { $name }
verify-strange-notice = page 1 has a notice that is none
verify-strange-language = page 1 is in a language that its layout does not have
verify-fact-key = the organization's key is not the one that sealed it
verify-fact-cites-nothing = “{ $label }” cites No. { $number }, which is not there
verify-fact-cites-other = “{ $label }” cites No. { $number }, which says something else
verify-fact-cites-gone = “{ $label }” cites No. { $number }, which no longer stands
verify-fact-does-not-quote = “{ $label }” does not say “{ $typed }” of No. { $number }
verify-fact-beginning = “{ $label }” does not begin with “{ $beginning }”
verify-fact-left-out = No. { $number } says something that page 1 leaves out: { $kind }
verify-fact-count = there are { $count } facts on one thing, one is needed: { $kind }
verify-kind-release = release
verify-kind-hold = hold
verify-kind-passed_over = passed over
