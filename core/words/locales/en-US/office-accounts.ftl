### Accounts, open links, roles and rights, and the audit.

office-role-reader = reader
office-role-clerk = clerk
office-role-supervisor = supervisor
office-role-administrator = administrator
office-role-inspector = inspector
office-role-nobody = not signed in
office-role-allows = { $rights }
office-right-read = read records
office-right-record = enter papers, seals and letters
office-right-settle = resolve differences and let inspectors read
office-right-publish = change and publish the organization’s procedures
office-right-administer = manage devices and accounts
office-accounts-title = Accounts
office-accounts-audit = Who looked at what
office-accounts-state = State of the server
office-accounts-lead = Accounts are made, changed and disabled on the server:
office-accounts-name = Name
office-accounts-role = Role
office-accounts-since = Since
office-accounts-standing = State
office-accounts-language = Language
office-accounts-language-organisation = the organization’s
office-accounts-factor = Second factor
office-accounts-you = you
office-accounts-later-role = role of a later version: no rights
office-accounts-disabled = disabled { $time }
office-accounts-may = may sign in
office-accounts-roles = What each role may do
office-accounts-everybody = A second factor for everyone
office-accounts-required = Everyone who signs in needs one. Whoever has none yet must set it up first.
office-accounts-leave = Let each person decide
office-accounts-optional = Each person decides. If you require it, everyone without one must set it up first, including you.
office-accounts-require = Require it from everyone
office-accounts-links = Open links
office-accounts-no-links = None. Nobody outside can read a record.
office-accounts-links-label = Links
office-accounts-for = For whom
office-accounts-opens = Opens
office-accounts-made = Made
office-accounts-until = Valid until
office-accounts-record = record { $record }
office-accounts-photograph = photograph { $photograph } of record { $record }
office-accounts-not-set-up = not set up yet
office-accounts-none = none
office-accounts-factor-since =
    { $count ->
        [one] since { $time }, { $count } recovery code
       *[other] since { $time }, { $count } recovery codes
    }
office-accounts-reset = Reset
office-accounts-reset-note = For a lost phone. { $name } is signed out, and the password alone opens the account until another second factor is set up.
office-accounts-reset-of = Reset for { $name }
office-accounts-say = Choose whether everyone needs a second factor.
office-accounts-no-such = There is no such account.

## The audit

office-audit-head = Each row holds the digest of the row before it. Newest:
office-audit-keep = Write it down elsewhere. This command later shows whether a row up to it was changed or removed:
office-audit-asked = Name, act or record
office-audit-find = Find
office-audit-none = Nothing found.
office-audit-label = Audit
office-audit-order = Newest first. Rows are only added.
office-audit-when = When
office-audit-who = Who
office-audit-as = As
office-audit-did = Act
office-audit-subject = On what
office-audit-older = Older

## Who is named in the audit beside people

office-who-retention = retention
office-who-command_line = command line
office-who-the_server_s_command_line = the server’s command line

## Acts in the audit. The stored words stay as they are; these are their translations

office-did-asked_everybody_for_a_second_factor = required a second factor from everyone
office-did-left_the_second_factor_to_each = let each person decide about the second factor
office-did-changed_the_tariff = changed the tariff
office-did-changed_their_password = changed their password
office-did-chose_a_language = chose a language
office-did-confirmed_a_key = confirmed a key
office-did-decided_about_signatures = changed the rules on signatures
office-did-declared_void = declared void
office-did-ended_a_key = ended a key
office-did-exported = exported
office-did-failed_at_the_code_after_the_right_password = wrong code after the right password
office-did-failed_to_sign_in = failed to sign in
office-did-forgot_what_was_refused = deleted the refused data
office-did-forwarded = reported by e-mail
office-did-gave_a_wrong_code_on_their_own_page = wrong code on their own page
office-did-gave_a_wrong_password_on_their_own_page = wrong password on their own page
office-did-had_go_what_is_kept_no_longer = removed data past its retention time
office-did-issued_seals = issued seals
office-did-printed_the_steps = printed the steps
office-did-started_a_procedure = started a draft of a procedure
office-did-changed_a_procedure = changed a draft of a procedure
office-did-published_a_procedure = published a procedure
office-did-took_back_a_procedure = took back a procedure
office-did-sent_papers_to_a_site = sent papers to a site
office-did-took_a_sent_paper_back = took a sent paper back
office-did-discarded_a_procedure = threw away a draft of a procedure
office-did-kept_out_of_the_lists = hid from the lists
office-did-looked = looked
office-did-looked_at_a_photograph = looked at a photograph
office-did-looked_for = searched
office-did-made_a_code_for = made a one-time code for
office-did-made_a_link = made a link
office-did-made_new_recovery_codes = made new recovery codes
office-did-noted_that_somebody_left = recorded that someone left
office-did-opened_a_link = opened a link
office-did-read = read
office-did-read_the_databases_through = checked the databases
office-did-removed_a_photograph = removed a photograph
office-did-renewed = renewed
office-did-reopened = reopened
office-did-reset_a_second_factor = reset a second factor
office-did-revoked = revoked
office-did-revoked_a_link = revoked a link
office-did-set_up_a_second_factor = set up a second factor
office-did-settled = resolved a difference
office-did-showed_in_the_lists_again = showed in the lists again
office-did-signed_in = signed in
office-did-signed_in_with_a_recovery_code = signed in with a recovery code
office-did-signed_out = signed out
office-did-took_papers_in = imported papers
office-did-took_the_packet = took the packet
office-did-tried_again = tried again
office-did-turned_their_second_factor_off = turned off their second factor
office-did-made_an_account = made an account
office-did-changed_a_role = changed a role
office-did-changed_a_language = changed a language
office-did-gave_a_new_password = set a new password
office-did-disabled_an_account = disabled an account
office-audit-let-in = admitted late entry { $entry }
office-audit-took-back = took back admitting late entry { $entry }

## What an act was on

office-on-accounts = accounts
office-on-audit = audit
office-on-defects = defects
office-on-devices = devices
office-on-instruments = instruments
office-on-late_entries = late entries
office-on-papers = papers
office-on-people = people
office-on-reconcile = reconcile
office-on-refused = refused data
office-on-seals = seals
office-on-state_of_the_server = state of the server
office-on-today = today
office-subject-account = account { $what }
office-subject-defect = defect { $what }
office-subject-device = device { $what }
office-subject-entry = entry { $what }
office-subject-key = key { $what }
office-subject-mail = letter { $what }
office-subject-papers = papers { $what }
office-subject-person = person { $what }
office-subject-photo = photograph { $what }
office-subject-reconcile = reconcile { $what }
office-subject-seal = seal { $what }
office-subject-site = site { $what }
