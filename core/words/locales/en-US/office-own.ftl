### A person's own account: language, second factor, password.

office-own-title = Your account
office-own-role = Role: { $role }. It may: { $allows }.
office-own-factor-missing = Your organization requires a second factor from everyone who signs in. Set it up below to open the other pages.
office-own-language = Language
office-own-language-label = Language of these pages
office-own-language-organisation = The organization’s: { $language }
office-own-language-keep = Save
office-own-factor = Second factor
office-own-factor-lead = An authenticator app on your phone makes codes. Someone who learns your password still cannot sign in.
office-own-your-password = Your password
office-own-factor-set-up = Set up
office-own-factor-since = Set up { $time }. Signing in asks for a code from your phone.
office-own-codes-left =
    { $count ->
        [one] { $count } recovery code left.
       *[other] { $count } recovery codes left.
    }
office-own-codes-few = Make new ones, or a lost phone locks you out.
office-own-codes-new = New recovery codes
office-own-codes-note = The codes made before are then no longer valid.
office-own-codes-make = Make new codes
office-own-factor-required = Your organization requires a second factor, so it cannot be turned off here. To change the phone, ask an administrator to reset it.
office-own-factor-off-or = Turn it off, or change the phone
office-own-factor-off-code = A code from your phone, or a recovery code
office-own-factor-turn-off = Turn off
office-own-password = Password
office-own-password-old = Current password
office-own-password-new =
    { $count ->
        [one] New password, at least { $count } character
       *[other] New password, at least { $count } characters
    }
office-own-password-again = New password again
office-own-password-change = Change the password
office-own-password-note = A short sentence is easy to remember. A new password ends your sessions in other browsers.
office-own-password-others =
    { $count ->
        [one] { $count } other session is open now.
       *[other] { $count } other sessions are open now.
    }
office-own-password-wrong = That is not your current password.
office-own-password-differ = The two new passwords are not the same.
office-own-password-same = The new password is the current one.
office-own-password-length = A password needs { $shortest } to { $longest } characters. A short sentence is easy to remember.
office-own-password-changed = Your password was changed
office-own-password-signed-out = You were signed out in all other browsers.
office-own-back = Go to your account
office-own-factor-title = Set up the second factor
office-own-factor-how = Scan the picture with the authenticator app on your phone, or type these letters into it.
office-own-factor-code = The six digits it shows now
office-own-factor-works = Confirm
office-own-factor-until = Signing in stays as it is until a code from your phone was confirmed here.
office-own-factor-not-now = That is not the current code. Check the phone’s clock, then enter the next code.
office-own-factor-none-begun = No second factor is being set up. Begin on your own page.
office-own-factor-done = The second factor is set up
office-own-codes-lead = Each recovery code lets you in once if the phone is lost. They are shown only now: write them down and keep them away from the phone.
office-own-codes-have = I wrote them down
office-own-factor-none = There is no second factor yet.
office-own-factor-exists = A second factor is set up already. Turn it off first.
office-own-factor-failed = The second factor cannot be set up: { $why }
office-own-factor-kept = Your organization requires a second factor. An administrator can reset it.
office-own-code-wrong = This code is wrong or was used before.
office-own-factor-is-off = The second factor is off
office-own-factor-password-alone = Your password alone now opens this account.
